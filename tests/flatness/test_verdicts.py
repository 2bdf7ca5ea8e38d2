"""Verdicts and what they rest on: coarse surveys, coarse tools, bare corners, readings that look mistyped."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from tests.flatness.floors import grid, rough
from tilelayout.base.units import LengthStyle
from tilelayout.flatness.coverage import lacks
from tilelayout.flatness.mistyped import mistyped
from tilelayout.flatness.standards import FlatnessLimit, Grade, Source
from tilelayout.flatness.surveyed import Surveyed
from tilelayout.flatness.verdicts import Verdict, verdict
from tilelayout.job.values import Circle, Cutout, StraightedgeReading, Surface, Survey

SOURCE = Source("a clause", "a paper", Grade.QUOTED)
TWO_METRES = FlatnessLimit(2000.0, 3.0, SOURCE)
ROOM = ((0.0, 0.0), (2400.0, 0.0), (2400.0, 1800.0), (0.0, 1800.0))


def surveyed(places: np.ndarray, readings: np.ndarray, **keys: object) -> Surveyed:
    points = tuple(zip(*places.T.tolist(), readings.tolist(), strict=True))
    surface = Surface(
        id="floor", outline=ROOM, cutouts=(Cutout(circle=Circle(centre=(600.0, 600.0), diameter=100.0)),)
    )
    return Surveyed(surface, replace(Survey(surface="floor", points=points), **keys))


def judged(found: Surveyed, limit: FlatnessLimit = TWO_METRES) -> Verdict:
    slips = () if found.mesh is None else mistyped(found.mesh, found.readings)
    return verdict(found, "tile", limit, found.variations((limit.over,))[0], slips)


EVEN = grid(9, 7)


def test_a_well_surveyed_flat_floor_is_flat_enough() -> None:
    found = judged(surveyed(EVEN, EVEN @ [0.01, 0.0], resolution=0.5))
    assert (found.ok, found.why) == (True, "")


def test_a_failure_found_is_a_failure_however_thin_the_survey() -> None:
    places = grid(3, 2, 800.0)
    found = judged(surveyed(places, np.array([0.0, 5.0, 0.0, 0.0, 5.0, 0.0])))
    assert found.ok is False
    assert found.variation.by == "rise"


COARSE = {
    "the step": (grid(3, 2, 1200.0), {}, "measure every 1000 mm"),
    "the tool": (EVEN, {"resolution": 2.0}, "measure with one that shows 1.5 mm or less"),
    "half the room": (grid(4, 7), {}, "lies beyond the readings"),
    "one line": (grid(9, 1), {}, "measure the whole surface in a grid"),
}


@pytest.mark.parametrize(("places", "keys", "words"), COARSE.values(), ids=COARSE)
def test_a_survey_that_cannot_tell_says_so_and_what_to_do(
    places: np.ndarray, keys: dict[str, object], words: str
) -> None:
    found = judged(surveyed(places, np.zeros(len(places)), **keys))
    assert found.ok is None
    assert words in found.why


def test_a_tool_too_coarse_proves_no_failure_either() -> None:
    readings = np.zeros(63)
    readings[31] = 4.0
    assert judged(surveyed(EVEN, readings, resolution=2.0)).ok is None


def test_twelve_inches_paced_off_still_count_as_half_of_24() -> None:
    limit = FlatnessLimit(609.6, 1.5, SOURCE)
    assert not lacks(surveyed(grid(8, 6, 305.0), np.zeros(48)), limit)
    assert lacks(surveyed(grid(7, 5, 360.0), np.zeros(35)), limit)


SLIPS = {
    "the point left out": (12.0, 1.2),
    "the point one place on": (130.0, 1.3),
    "two digits swapped": (31.0, None),
    "a sign": (-14.0, None),
}


@pytest.mark.parametrize(("typed", "fits"), SLIPS.values(), ids=SLIPS)
def test_a_mistyped_reading_is_named_with_its_place_and_what_its_neighbours_say(
    typed: float, fits: float | None
) -> None:
    readings = 1.25 + rough(63, 3, 0.08)
    readings[40] = typed
    found = surveyed(EVEN, readings)
    assert found.mesh is not None
    (slip,) = mistyped(found.mesh, readings)
    assert (slip.index, slip.x, slip.y, slip.height) == (40, 1200.0, 1200.0, typed)
    assert 1.0 < slip.low <= slip.high < 1.6
    if fits is not None:
        assert slip.fits == pytest.approx(fits)


def test_a_mistyped_reading_is_left_in_and_the_verdict_says_so() -> None:
    readings = 1.25 + rough(63, 3, 0.08)
    readings[40] = 14.0
    found = judged(surveyed(EVEN, readings))
    assert found.variation.rise > 12
    assert found.ok is False
    assert "Reading 14 mm at (1200 mm, 1200 mm) looks mistyped among" in found.why
    assert 'looks mistyped among 0.043" to' in found.why_in(LengthStyle.FEET)
    assert found.why.endswith("1.4 mm would fit.")


@pytest.mark.parametrize("seed", range(6))
def test_a_rough_or_sloping_or_wavy_floor_has_no_mistyped_reading(seed: int) -> None:
    wavy = 8.0 * np.sin(EVEN[:, 0] / 500.0) + EVEN @ [0.02, 0.01]
    for readings in (rough(63, seed, 1.5), wavy + rough(63, seed, 0.3)):
        found = surveyed(EVEN, readings)
        assert found.mesh is not None
        assert not mistyped(found.mesh, readings)


def test_gaps_under_a_straightedge_are_a_survey_too() -> None:
    laid = [
        StraightedgeReading(start=(0.0, 500.0), end=(2000.0, 500.0), along=along, gap=gap)
        for along, gap in ((1000.0, 4.0), (500.0, 1.0))
    ]
    found = Surveyed(Surface(id="floor", outline=ROOM), Survey(surface="floor", straightedge=tuple(laid)))
    assert found.mesh is None
    worst = found.variations((2000.0,))[0]
    assert worst.gap == pytest.approx(4.0)
    assert worst.gap_chord is not None
    assert worst.gap_chord.at == pytest.approx((1000.0, 500.0))
    assert judged(found).ok is False


def test_one_reading_shows_nothing_and_fails_nothing() -> None:
    found = surveyed(np.array([[100.0, 100.0]]), np.array([3.0]))
    assert found.variations((2000.0,))[0].worst == 0.0
    assert judged(found).ok is None
