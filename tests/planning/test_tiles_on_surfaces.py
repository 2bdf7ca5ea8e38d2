"""Any tile on any surveyed surface: fits, fits after preparation, does not, cannot be judged."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from tests.planning.test_sitting import FLOOR, SLAB, Height, hump, level
from tests.planning.test_sitting import job_of as finely_read
from tests.planning.test_sitting import survey as fine_survey
from tilelayout.job.ground import Adhesive
from tilelayout.job.preparation import Preparation, PreparationWay
from tilelayout.job.values import HexagonTile, Job, MosaicTile, OctagonTile, RectangleTile, Survey
from tilelayout.planning.surface import flatness
from tilelayout.planning.tiles_on_surfaces import Fits, tiles_on_surfaces, tiles_on_surfaces_steps

SMALL = RectangleTile(id="small", length=97.0, width=97.0)


def survey(height: Height) -> Survey:
    return fine_survey(height, 300)


def job_of(height: Height, step: int = 300, **changes: Any) -> Job:
    return finely_read(height, step, **changes)


def wavy(x: float, _y: float) -> float:
    """Troughs of 5 mm every 1.2 m."""
    return -5.0 if x % 1200 == 600 else 0.0


def test_a_level_floor_takes_any_shape_of_tile() -> None:
    tiles = (
        SLAB,
        SMALL,
        HexagonTile(id="hexagon", across_flats=200.0),
        OctagonTile(id="octagon", across_flats=300.0, side=124.0),
        MosaicTile(id="mosaic", chip_length=48, chip_width=48, chips_across=6, chips_up=6, chip_joint=2.0),
    )
    found = tiles_on_surfaces(job_of(level, 150, tiles=tiles))
    assert [each.tile.id for each in found] == [tile.id for tile in tiles]
    assert {each.fits for each in found} == {Fits.FITS}
    assert all(each.grid is not None and each.grid.count > 20 and each.grid.out == 0 for each in found)


def test_troughs_are_filled_and_the_same_as_the_surface_stage_says() -> None:
    job = job_of(wavy)
    (each,) = tiles_on_surfaces(job)
    assert each.fits is Fits.PREPARED and each.made is not None
    least = flatness(job, 0).least_fill
    assert least is not None
    assert each.made.fill.volume == pytest.approx(least.volume)
    assert each.made.fill.deepest == pytest.approx(least.deepest)
    assert each.grid is not None and each.grid.rock < 1.7, "1/16 in in 2 ft is what it was brought to"


def test_a_tile_laid_nowhere_is_tried_too() -> None:
    job = job_of(hump, tiles=(SLAB, SMALL))
    slab, small = tiles_on_surfaces(job)
    assert slab.tile.id == "slab" and small.tile.id == "small"
    assert small.one.tiles == (small.tile,)


def test_a_product_that_cannot_run_out_thin_does_not_do() -> None:
    floor = replace(survey(wavy), preparation=Preparation(thinnest=3.0))
    (each,) = tiles_on_surfaces(job_of(wavy, surveys=(floor,)))
    assert each.fits is Fits.DOES_NOT and "thinner than this product" in each.why
    level_up = Preparation(way=PreparationWay.LEVEL, thinnest=0.0, deepest=2.0)
    (poured,) = tiles_on_surfaces(job_of(wavy, surveys=(replace(floor, preparation=level_up),)))
    assert poured.fits is Fits.PREPARED and poured.made is not None and poured.made.pours == 3


def test_a_bed_too_thin_for_what_lies_hollow_does_not_do() -> None:
    stiff = replace(FLOOR, adhesive=Adhesive(bed=(2.0, 2.5)))
    (each,) = tiles_on_surfaces(job_of(wavy, surfaces=(stiff,)))
    assert each.fits is Fits.DOES_NOT and "hollow" in each.why


def test_a_coarse_survey_and_lines_cannot_be_judged() -> None:
    (coarse,) = tiles_on_surfaces(job_of(level, 600))
    assert coarse.fits is Fits.UNKNOWN and "measure every" in coarse.why
    line = Survey(surface="floor", points=((0.0, 0.0, 0.0), (300.0, 0.0, 0.0), (600.0, 0.0, 0.0)))
    (on_line,) = tiles_on_surfaces(job_of(level, surveys=(line,)))
    assert on_line.fits is Fits.UNKNOWN and "Only lines are known" in on_line.why


def test_the_table_grows_surface_by_surface() -> None:
    job = job_of(level, tiles=(SMALL, SLAB), surveys=(survey(level), survey(wavy)))
    sizes = [len(found) for found in tiles_on_surfaces_steps(job)]
    assert sizes == [1, 2, 3, 4]
    found = tiles_on_surfaces(job)
    assert [(each.at, each.tile.id) for each in found] == [
        (0, "small"),
        (0, "slab"),
        (1, "small"),
        (1, "slab"),
    ]
