"""The surface sheet, read back from the PDF by another library."""

from __future__ import annotations

import re

import numpy as np
import pytest
import shapely

from tests.reports.conftest import Printer
from tests.reports.reading import pages_headed, shapes, texts
from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle
from tilelayout.flatness.contours import ground_over
from tilelayout.job.edits.jobs import set_show_lengths
from tilelayout.job.edits.readings import enter_table, set_preparation
from tilelayout.job.preparation import Preparation, PreparationWay
from tilelayout.job.values import Job, Layout, RectangleTile, Surface, SurfaceKind
from tilelayout.planning.preparing import prepared
from tilelayout.planning.surface import flatness

TILE = RectangleTile(id="slab", name="Slab", length=597.0, width=297.0)


def dished(depth: float = 8.0, *, wall: bool = False) -> Job:
    """A floor of 2 m x 1.5 m read every 250 mm, with a dish in the middle and a knob in one corner."""
    kind = SurfaceKind.WALL if wall else SurfaceKind.FLOOR
    surface = Surface(id="s", kind=kind, name="Store", outline=((0, 0), (2000, 0), (2000, 1500), (0, 1500)))
    job = Job(surfaces=(surface,), tiles=(TILE,), layouts=(Layout(id="A", surface="s", tile="slab"),))
    spots = [(250.0 * i, 250.0 * j) for j in range(7) for i in range(9)]
    return enter_table(job, "s", [(x, y, _height(x, y, depth)) for x, y in spots])


def _height(x: float, y: float, depth: float) -> float:
    dish = -depth * np.exp(-((x - 1000) ** 2 + (y - 750) ** 2) / 250_000)
    return float(round(dish + (2.0 if (x, y) == (250.0, 250.0) else 0.0), 1))


def test_heights_contours_and_verdict_with_source_are_printed(printed: Printer) -> None:
    job = dished()
    (page,) = pages_headed(printed(job), "Surface")
    one = flatness(job, 0)
    found = re.findall(r"-?\d+(?:\.\d+)?", page)
    for _, _, height in job.surveys[0].points:
        assert f"{height + 0.0:g}" in found
    assert "Not flat enough" in page and "A108.02" in page
    assert f"gap {format_height(one.variations[0].worst, LengthStyle.MM)}" in page
    assert {f"{level} mm" for level in (-3, -4)} & set(re.findall(r"-\d mm", page))


def test_the_second_page_says_litres_bags_depths_and_cautions(printed: Printer) -> None:
    job = set_preparation(dished(), "s", Preparation(way=PreparationWay.LEVEL, bag_litres=4.0, deepest=5.0))
    (page,) = pages_headed(printed(job), "Surface: what to do")
    made = prepared(flatness(job, 0), job.surveys[0].preparation or Preparation())
    assert made is not None
    assert f"{made.litres:.1f} litres of filler, {made.bags} bags with a tenth more." in page
    assert f"The deepest place needs {made.pours} pours" in page
    deepest = max(height for _, _, height in job.surveys[0].points) - min(
        height for _, _, height in job.surveys[0].points
    )
    assert f"Deepest {deepest:g} mm at (1000 mm, 750 mm)" in page
    for words in ("Prime 3.00 m", "asbestos", "Local codes"):
        assert words in page


def test_what_is_to_be_ground_off_is_hatched_where_it_stands(printed: Printer) -> None:
    job = set_preparation(dished(3.0), "s", Preparation(way=PreparationWay.GRIND_AND_FILL, most_ground=3.0))
    made = prepared(flatness(job, 0), job.surveys[0].preparation or Preparation())
    assert made is not None
    ground = ground_over(made.fill.ground.mesh, made.fill.removed, 0.05)
    assert shapely.area(ground) > 0
    path = printed(job)
    number = next(n for n, text in enumerate(texts(path)) if "what to do" in text.splitlines()[0])
    areas = [_area(points) for points, _ in shapes(path, number) if len(points) > 3]
    (scale,) = map(int, re.findall(r"Scale 1:(\d+)", texts(path)[number]))
    largest = float(shapely.area(shapely.get_parts(ground)).max())
    assert any(area * scale**2 == pytest.approx(largest, rel=0.01) for area in areas)


def test_inches_are_printed_where_the_job_has_them(printed: Printer) -> None:
    job = set_show_lengths(dished(), LengthStyle.FEET)
    (page,) = pages_headed(printed(job), "Surface")
    assert "heights in inches" in page and f"{-8 / 25.4:.3f}" in page


def test_a_flat_wall_needs_one_page_and_speaks_of_plumb(printed: Printer) -> None:
    level = [(x, y, 0.0) for x in (0.0, 500.0, 1000.0) for y in (0.0, 500.0, 1000.0)]
    path = printed(enter_table(dished(wall=True), "s", level))
    (page,) = pages_headed(path, "Surface")
    assert pages_headed(path, "Surface: what to do") == []
    assert "out from any plumb plane" in page


def test_a_job_without_readings_has_no_surface_page(printed: Printer) -> None:
    job = Job(surfaces=dished().surfaces, tiles=(TILE,), layouts=dished().layouts)
    assert pages_headed(printed(job), "Surface") == []


def _area(points: np.ndarray) -> float:
    x, y = points[:, 0], points[:, 1]
    return abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1))) / 2
