"""Walls out of plumb: the handbook's limit from both sides, the worst upright, what readings cannot tell."""

from __future__ import annotations

import numpy as np
import pytest

from tests.flatness.floors import grid
from tilelayout.flatness.plumb import LIMIT, OVER, lean

WALL = grid(4, 5, 600.0)


def test_an_eighth_in_eight_feet_is_plumb_enough_and_a_hair_more_is_not() -> None:
    """Handbook of renovation, fourth edition (quoted): walls plumb to 1/8 in in 8 ft."""
    assert pytest.approx((2438.4, 3.175)) == (OVER, LIMIT)
    for slope, ok in ((3.17, True), (3.19, False), (-3.19, False)):
        found = lean(WALL, WALL[:, 1] * slope / 2438.4)
        assert found is not None and found.ok is ok
        assert found.out == pytest.approx(slope * 2400 / 2438.4)
        assert found.rate == pytest.approx(abs(slope))


def test_how_the_plumb_plane_was_turned_does_not_count() -> None:
    found = lean(WALL, WALL[:, 0] * 0.05)
    assert found is not None and found.out == pytest.approx(0.0) and found.ok


def test_a_twisted_wall_is_told_where_it_leans_most() -> None:
    found = lean(WALL, WALL[:, 0] / 1800.0 * WALL[:, 1] / 2400.0 * 9.0)
    assert found is not None
    assert (found.out, found.over, found.x) == pytest.approx((9.0, 2400.0, 1800.0))


def test_scattered_readings_give_the_lean_of_their_plane_and_a_low_strip_none() -> None:
    places = np.array([(0.0, 0.0), (400.0, 900.0), (900.0, 100.0), (1300.0, 2000.0), (1700.0, 1200.0)])
    found = lean(places, places[:, 1] * 0.002 + places[:, 0] * 0.01)
    assert found is not None and found.x is None
    assert found.out == pytest.approx(4.0)
    assert lean(WALL[WALL[:, 1] < 500], np.zeros(4)) is None
