"""What to do about a surface: volumes, bags, pours, dams, against figures worked out by hand."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace

from tilelayout.base.units import LengthStyle
from tilelayout.job.edits.readings import enter_table
from tilelayout.job.files import read_job
from tilelayout.job.preparation import GivenHeight, Preparation, PreparationWay
from tilelayout.job.values import Circle, Cutout, Edge, EdgeRole, Job, Layout, RectangleTile, Surface
from tilelayout.planning.preparing import USUAL_BAG_LITRES, Prepared, prepared, product_words
from tilelayout.planning.surface import flatness

TILE = RectangleTile(id="slab", length=597.0, width=297.0)
FT, INCH = 304.8, 25.4
SAMPLE_ROOMS = Path(__file__).parents[2] / "sample_rooms"


def floor(slope: float = 0.0, bump: float = 0.0, *, drain: bool = False) -> Job:
    """A floor of 2 m x 1 m read every 250 mm: level but for a slope along x and a bump in the middle."""
    surface = Surface(
        id="floor",
        outline=((0, 0), (2000, 0), (2000, 1000), (0, 1000)),
        edges=(Edge(at=1, role=EdgeRole.DOORWAY, name="hall door"), Edge(at=3, role=EdgeRole.OPEN)),
        cutouts=(Cutout(name="drain", circle=Circle(centre=(500, 500), diameter=100)),) if drain else (),
    )
    job = Job(surfaces=(surface,), tiles=(TILE,), layouts=(Layout(id="A", surface="floor", tile="slab"),))
    spots = [(250.0 * i, 250.0 * j) for j in range(5) for i in range(9)]
    return enter_table(
        job, "floor", [(x, y, slope * x + (bump if (x, y) == (1000, 500) else 0.0)) for x, y in spots]
    )


def made(job: Job, way: PreparationWay, meets: tuple[GivenHeight, ...] = (), **figures: float) -> Prepared:
    found = prepared(flatness(job, 0), replace(Preparation(way=way, meets=meets), **figures))
    assert found is not None
    return found


def test_a_sloping_floor_levelled_takes_the_wedge_above_it() -> None:
    level = made(floor(slope=0.005), PreparationWay.LEVEL)
    assert level.litres == pytest.approx(2000 * 1000 * 10 / 2 / 1e6)
    assert level.fill.deepest == pytest.approx(10.0)


def test_a_sloping_plane_needs_nothing_to_be_one_plane_or_within_the_limits() -> None:
    for way in (PreparationWay.PLANE, PreparationWay.LEAST_FILL):
        assert not made(floor(slope=0.005), way).is_needed


def test_the_plane_that_takes_the_least_tilts_over_a_bump_no_higher_than_it_must() -> None:
    """Over a bump in the middle every plane through its top takes as much: the height of it all round."""
    plane = made(floor(bump=6.0), PreparationWay.PLANE)
    peak = np.array([(1000.0, 500.0)])
    assert plane.fill.depths_at(peak) == pytest.approx([0.0], abs=1e-6)
    level = made(floor(bump=6.0), PreparationWay.LEVEL)
    assert plane.litres == pytest.approx(level.litres)


@pytest.mark.parametrize("way", PreparationWay)
def test_no_way_takes_less_fill_than_the_least_but_grinding(way: PreparationWay) -> None:
    job = floor(slope=0.002, bump=4.0)
    least = made(job, PreparationWay.LEAST_FILL).litres
    assert made(job, way).litres >= least - 1e-9 or way is PreparationWay.GRIND_AND_FILL


def test_bags_are_counted_by_the_yield_a_maker_prints() -> None:
    """A 50 lb bag covers 25 sq ft at 1/4 in and 3.125 sq ft at 2 in: both 0.5208 cu ft (a maker's sheet)."""
    cubic_foot = FT**3 / 1e6
    assert pytest.approx(0.5208 * cubic_foot, rel=1e-3) == USUAL_BAG_LITRES
    assert pytest.approx(3.125 * 2 / 12 * cubic_foot, rel=1e-9) == USUAL_BAG_LITRES


def test_bags_are_whole_and_a_tenth_more_than_the_volume() -> None:
    """Worked: 120 sq ft at a mean of 3/16 in is 1.875 cu ft; with a tenth 3.96 bags of 0.5208, so 4."""
    assert np.ceil(120 * (3 / 16) / 12 * 1.1 / 0.5208) == 4
    ten = made(floor(slope=0.005), PreparationWay.LEVEL, bag_litres=2.2)
    assert ten.litres == pytest.approx(10.0)
    assert ten.bags == 5
    assert made(floor(slope=0.005), PreparationWay.LEVEL, bag_litres=2.15).bags == 6


def test_a_pour_too_deep_or_too_thin_for_the_product_is_said() -> None:
    deep = made(floor(slope=0.005), PreparationWay.LEVEL, deepest=4.0, thinnest=3.0)
    words = " ".join(product_words(deep, LengthStyle.MM))
    assert deep.pours == 3 and "needs 3 pours" in words
    assert "runs out to less than 3 mm" in words


def test_every_opening_and_hole_gets_a_dam() -> None:
    assert made(floor(slope=0.005, drain=True), PreparationWay.LEVEL).dams == (
        "hall door",
        "open edge",
        "drain",
    )


def test_only_a_line_of_readings_and_no_tile_give_no_answer() -> None:
    job = floor()
    line = enter_table(job, "floor", [(0.0, 0.0, 0.0), (500.0, 0.0, 1.0)])
    assert prepared(flatness(line, 0), Preparation(way=PreparationWay.LEVEL)) is None
    bare = Job(surfaces=job.surfaces, surveys=job.surveys)
    assert prepared(flatness(bare, 0), Preparation()) is None


def test_the_sample_shower_falls_by_its_share_along_every_line_to_the_drain() -> None:
    """2 % from the rim of the drain, which is 6 mm down and 49 mm from its middle."""
    job = read_job(SAMPLE_ROOMS / "walk_in_shower.tilejob")
    one = flatness(job, 0)
    filled = prepared(one, job.surveys[0].preparation or Preparation())
    assert filled is not None and filled.fill.most_removed == 0.0
    x, y, heights = np.array(job.surveys[0].points).T
    away = np.hypot(x - 600.0, y - 600.0) - 49.0
    assert filled.fill.change[: len(x)] == pytest.approx(-6.0 + 0.02 * away - heights, abs=0.05)
