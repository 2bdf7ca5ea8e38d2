"""Adhesive class against tile, size and water; notch, coverage and bed: both sides of each limit."""

from __future__ import annotations

from typing import Any

import pytest

from tests.practice.cases import found, inches, job_of, stuck_with, wall
from tilelayout.base.units import POUND_PER_SQUARE_FOOT, LengthStyle
from tilelayout.job.ground import Layer
from tilelayout.job.kinds import Background, Exposure, LayerRole, Practice, Wetness
from tilelayout.practice.finding import Finding, Level
from tilelayout.practice.subjects.bedding import suggested_notch

MM = LengthStyle.MM


def on(side: float, surface: dict[str, Any], **keys: Any) -> dict[str, Finding]:
    return found(job_of(side, side, surface=surface, **keys))


def test_an_adhesive_that_is_not_known_is_asked_for() -> None:
    assert "find out the class of the adhesive" in found(job_of())["adhesive-unknown"].sentence
    assert "adhesive-unknown" not in on(200, stuck_with("C2TE S1"))


@pytest.mark.parametrize(
    # Data sheet of one Type I mastic: walls up to 12 in, floors up to 8 in (prints 300 and 200 mm)
    ("is_wall", "side", "is_over"),
    [(True, 12, False), (True, 12.02, True), (False, 8, False), (False, 8.02, True)],
)
def test_mastic_dries_under_small_tile_only(is_wall: bool, side: float, is_over: bool) -> None:
    surface = stuck_with("A136.1 Type I")
    codes = on(inches(side), wall(**surface) if is_wall else surface)
    assert ("mastic-size" in codes) == is_over


@pytest.mark.parametrize(
    # ANSI A136.1 as Floor Trends describes it: dry walls and ceilings; one maker allows Type I in showers
    ("grade", "wetness", "level"),
    [
        ("D1", Wetness.DRY, None),
        ("D1", Wetness.WET, Level.STOP),
        ("D2", Wetness.WET, Level.WARN),
        ("A136.1 Type II", Wetness.WET, Level.STOP),
        ("D2", Wetness.IMMERSED, Level.STOP),
        ("C1", Wetness.WET, None),
    ],
)
def test_mastic_stays_dry(grade: str, wetness: Wetness, level: Level | None) -> None:
    codes = on(150, wall(wetness=wetness, **stuck_with(grade)))
    assert ("mastic-wet" in codes) == (level is not None)
    assert level is None or codes["mastic-wet"].level is level


def test_whether_mastic_stays_dry_is_asked() -> None:
    assert "wetness-unknown" in on(150, wall(**stuck_with("D1")))


def test_mastic_of_the_lower_class_is_for_walls() -> None:
    assert "mastic-floor" in on(150, stuck_with("A136.1 Type II"))
    assert "mastic-floor" not in on(150, stuck_with("A136.1 Type I"))
    assert "mastic-floor" not in on(150, wall(**stuck_with("A136.1 Type II")))


def test_plain_cement_adhesive_is_for_tile_up_to_300_mm() -> None:
    """Advice of a maker of binders (trade-figures 7): C1 not over 30 x 30 cm."""
    assert "plain-adhesive-size" not in on(300, stuck_with("C1"), style=MM)
    assert "plain-adhesive-size" in on(300.1, stuck_with("C1"), style=MM)
    assert "plain-adhesive-size" not in on(500, stuck_with("C2"), style=MM)
    assert "plain-adhesive-size" in on(500, stuck_with("A118.1"), style=MM)


def test_plain_cement_adhesive_has_no_hold_on_porcelain() -> None:
    """Porcelain is 0.5 % or less (trade-figures 4); that C1 does not hold there is common practice."""
    assert "no-hold" in on(200, stuck_with("C1"), tile={"absorption_percent": 0.5})
    assert "no-hold" not in on(200, stuck_with("C1"), tile={"absorption_percent": 0.6})
    assert "no-hold" not in on(200, stuck_with("C2"), tile={"absorption_percent": 0.1})
    assert "absorption-unknown" in on(200, stuck_with("C1"))


def test_large_tile_asks_for_its_mortar_from_15_inches_on() -> None:
    """TCNA as quoted: a side of 15 in or longer."""
    assert "large-tile" in on(inches(15), stuck_with("A118.4"))
    assert "large-tile" not in on(inches(14, 63, 64), stuck_with("A118.4"))
    assert "large-tile" not in on(inches(15), stuck_with("A118.4H"))
    assert "large-tile" not in on(inches(15), stuck_with("C2"), practice=Practice.UK)


def test_heavy_tile_asks_for_its_mortar_above_5_pounds_to_the_square_foot() -> None:
    """TCNA as quoted: more than 5 lb/sq ft."""
    for pounds, is_heavy in ((5.0, False), (5.01, True)):
        tile = {"weight_kg_per_m2": pounds * POUND_PER_SQUARE_FOOT}
        assert ("heavy-tile" in on(inches(12), stuck_with("A118.4"), tile=tile)) == is_heavy


@pytest.mark.parametrize(
    # A108.5, 2.2.3: 80 % inside and dry, 95 % outside or wet
    ("surface", "percent"),
    [
        ({"wetness": Wetness.DRY}, 80.0),
        ({"wetness": Wetness.WET}, 95.0),
        ({"wetness": Wetness.IMMERSED}, 95.0),
        ({"wetness": Wetness.DRY, "exposure": Exposure.OUTSIDE}, 95.0),
    ],
)
def test_coverage_goes_by_wetness(surface: dict[str, Any], percent: float) -> None:
    codes = on(300, surface)
    assert codes["coverage"].limit == percent
    assert "wetness-unknown" not in codes


def test_coverage_is_not_guessed() -> None:
    codes = on(300, {})
    assert "coverage" not in codes
    assert "wetness-unknown" in codes


def test_the_notch_grows_with_the_tile() -> None:
    """Guides, no standard (trade-figures 7b): 1/4 to 8 in, 1/4 x 3/8 to 16 in, 1/2 from 15 in."""
    depths = [suggested_notch(inches(side), False) for side in (8, 8.1, 14.9, 15)]
    assert depths == pytest.approx([inches(0, 1, 4), inches(0, 3, 8), inches(0, 3, 8), inches(0, 1, 2)])


def test_a_smaller_notch_is_advised_against_and_the_named_one_is_not() -> None:
    small = on(inches(12), stuck_with("C2", notch=inches(0, 1, 4)))
    assert small["notch"].level is Level.ADVISE
    assert small["notch"].limit == pytest.approx(inches(0, 3, 8))
    assert "notch" not in on(inches(12), stuck_with("C2", notch=inches(0, 3, 8)))


def test_a_quarter_inch_notch_leaves_too_thin_a_bed_under_large_tile() -> None:
    """Theory of trade-figures 7a: 1/4 in at 45 degrees leaves 0.088 in (2.2 mm), just under 3/32 in."""
    quarter = stuck_with("C2", notch=inches(0, 1, 4))
    warned = on(inches(12), quarter)["combed-bed"]
    assert warned.measured == pytest.approx(0.088 * 25.4, abs=0.02)
    assert "combed-bed" not in on(inches(8), quarter)
    assert "combed-bed" not in on(inches(12), stuck_with("C2", notch=inches(0, 3, 8)))


@pytest.mark.parametrize(
    ("grade", "bed", "code"),
    [
        # A108.5, 2.2.2: 3/32 in after embedding
        ("C2", (inches(0, 3, 32), inches(0, 1, 4)), None),
        ("C2", (inches(0, 5, 64), inches(0, 1, 4)), "thin-bed"),
        # Trade press: thin bed up to 1/4 in
        ("C2", (inches(0, 3, 32), inches(0, 17, 64)), "thick-bed"),
        # TCNA as quoted: large-and-heavy mortar 3/32 to 1/2 in
        ("A118.4H", (inches(0, 3, 32), inches(0, 1, 2)), None),
        ("A118.4H", (inches(0, 3, 32), inches(0, 33, 64)), "thick-bed"),
    ],
)
def test_the_bed_is_neither_too_thin_nor_too_thick(
    grade: str, bed: tuple[float, float], code: str | None
) -> None:
    codes = on(inches(12), stuck_with(grade, bed=bed))
    assert [name for name in codes if name in ("thin-bed", "thick-bed")] == ([code] if code else [])


def test_a_wet_surface_wants_a_membrane_and_gypsum_must_have_one() -> None:
    """Common practice; local codes decide."""
    wet = {"wetness": Wetness.WET}
    sealed = wet | {"layers": (Layer(name="sheet", thickness=1.0, role=LayerRole.MEMBRANE),)}
    assert on(200, wet)["membrane"].level is Level.WARN
    assert on(200, wet | {"background": Background.CEMENT_BOARD})["membrane"].level is Level.WARN
    assert on(200, wet | {"background": Background.PLASTERBOARD})["membrane"].level is Level.STOP
    assert "membrane" not in on(200, sealed)
    assert "membrane" not in on(200, {"wetness": Wetness.DRY})
    assert "licensed" in on(200, sealed | {"wetness": Wetness.IMMERSED})["immersed"].sentence
