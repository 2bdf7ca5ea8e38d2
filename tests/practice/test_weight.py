"""Weight of tile and adhesive on walls: both sides of each limit."""

from __future__ import annotations

import pytest

from tests.practice.cases import found, job_of, wall
from tilelayout.base.units import POUND_PER_SQUARE_FOOT
from tilelayout.job.ground import Adhesive
from tilelayout.job.kinds import Background, Practice
from tilelayout.practice.finding import Finding, Level

UK = Practice.UK

CARRIES = {
    # An adhesive maker's article on wall tiling, grade A: total of tile, adhesive and grout
    Background.GYPSUM_PLASTER: 20.0,
    Background.PLASTERBOARD: 32.0,
    Background.PLYWOOD: 30.0,
    Background.GYPSUM_FIBRE_BOARD: 40.0,
    Background.CEMENT_BOARD: 50.0,
    # Guide figure of a merchant, grade B
    Background.FOAM_BOARD: 60.0,
}
ADHESIVE = 5.0
"""kg/m2 of a solid bed of 3 mm (a merchant's article)."""


def on(
    background: Background | None, kg_per_m2: float | None, practice: Practice = UK, **keys: object
) -> dict[str, Finding]:
    job = job_of(
        practice=practice,
        tile={"weight_kg_per_m2": kg_per_m2},
        surface=wall(background=background, **keys),
    )
    return found(job)


@pytest.mark.parametrize("background", CARRIES)
def test_a_background_carries_its_limit_and_no_more(background: Background) -> None:
    limit = CARRIES[background]
    assert "wall-weight" not in on(background, limit - ADHESIVE)
    over = on(background, limit - ADHESIVE + 0.1)["wall-weight"]
    assert (over.level, over.limit, over.unit) == (Level.STOP, limit, "kg/m2")
    assert over.measured == pytest.approx(limit + 0.1)


def test_porcelain_of_10_mm_is_well_on_plasterboard_and_too_heavy_for_plaster() -> None:
    """Worked example 41: porcelain 23 and adhesive 5 are 28 kg/m2 (figures of a merchant and a maker)."""
    assert "wall-weight" not in on(Background.PLASTERBOARD, 23.0)
    assert on(Background.GYPSUM_PLASTER, 23.0)["wall-weight"].measured == pytest.approx(28.0)


def test_a_small_tile_over_seven_tenths_of_the_limit_wants_a_solid_bed() -> None:
    """Worked example 40: 18 kg/m2 on plaster, 70 % of 20 is 14 (BS 5385 as updated, quoted by a maker)."""
    assert "solid-bed" in found(
        job_of(200, 200, practice=UK, tile={"weight_kg_per_m2": 14.1}, surface=_plaster())
    )
    assert "solid-bed" not in found(
        job_of(200, 200, practice=UK, tile={"weight_kg_per_m2": 14.0}, surface=_plaster())
    )
    assert "solid-bed" not in found(
        job_of(400, 300, practice=UK, tile={"weight_kg_per_m2": 14.9}, surface=_plaster())
    )


def _plaster() -> dict[str, object]:
    return wall(background=Background.GYPSUM_PLASTER, adhesive=Adhesive(bed=(2.0, 3.0)))


def test_a_thicker_bed_weighs_more() -> None:
    thick = Adhesive(bed=(3.0, 6.0))
    assert on(Background.PLASTERBOARD, 23.0, adhesive=thick)["wall-weight"].measured == pytest.approx(33.0)


def test_the_weight_of_one_tile_does_as_well() -> None:
    heavy = job_of(500, 500, tile={"weight_kg": 6.9}, surface=wall(background=Background.GYPSUM_PLASTER))
    assert found(heavy)["wall-weight"].measured == pytest.approx(6.9 / 0.25 + ADHESIVE)


def test_in_the_us_the_british_limit_warns_and_both_figures_are_shown() -> None:
    warned = on(Background.GYPSUM_PLASTER, 23.0, practice=Practice.US)["wall-weight"]
    assert warned.level is Level.WARN
    assert "a UK figure" in warned.sentence
    assert "20 lb/sq ft" in warned.sentence


@pytest.mark.parametrize(("pounds", "code"), [(15.0, None), (15.1, "heavy-wall"), (20.0, "heavy-wall")])
def test_the_us_suggests_15_pounds_to_the_square_foot(pounds: float, code: str | None) -> None:
    """A mortar maker's answer on interior porcelain (no code limit)."""
    kg_per_m2 = pounds * POUND_PER_SQUARE_FOOT - ADHESIVE
    codes = on(Background.MASONRY, kg_per_m2, practice=Practice.US)
    assert ("heavy-wall" in codes) == (code == "heavy-wall")
    assert "veneer" not in codes


def test_the_us_code_stops_at_20_pounds_to_the_square_foot() -> None:
    """IBC 2021, 1404.10.3, interior adhered masonry veneer, as a mortar maker quotes it."""
    kg_per_m2 = 20.1 * POUND_PER_SQUARE_FOOT - ADHESIVE
    assert on(Background.MASONRY, kg_per_m2, practice=Practice.US)["veneer"].level is Level.STOP


def test_what_is_not_known_is_asked_for_and_not_taken_to_be_well() -> None:
    asked = on(None, None)["wall-weight-unknown"]
    assert "the background of the wall and the weight of the tile" in asked.sentence
    assert "the background" not in on(Background.PLASTERBOARD, None)["wall-weight-unknown"].sentence
    assert "wall-weight-unknown" not in on(Background.PLASTERBOARD, 10.0)


def test_a_floor_is_not_judged_by_weight() -> None:
    assert not any(code.startswith("wall-weight") for code in found(job_of(tile={"weight_kg_per_m2": 90.0})))


def test_over_old_tile_the_weakest_layer_decides() -> None:
    assert "weakest" in on(Background.OLD_TILE, 12.0)["tile-on-tile"].sentence
