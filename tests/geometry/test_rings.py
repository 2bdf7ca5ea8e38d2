"""Rings: area, which way round, and corners that are none."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tilelayout.geometry.arcs import circle_points
from tilelayout.geometry.rings import (
    area,
    clockwise,
    corner_heights,
    counter_clockwise,
    is_convex,
    signed_area,
    sum_of_convex,
    without_straight_corners,
)

SQUARE = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
BOOT = np.array([[0.0, 0.0], [20.0, 0.0], [20.0, 10.0], [10.0, 10.0], [10.0, 30.0], [0.0, 30.0]])


def test_area_counts_holes_off_whichever_way_they_run() -> None:
    hole = SQUARE * 0.2 + 3
    assert area(SQUARE, (hole,)) == area(SQUARE[::-1], (hole[::-1],)) == 96.0


def test_a_ring_far_from_the_origin_has_its_area_to_the_last_digit() -> None:
    assert signed_area(SQUARE + 1e6) == 100.0


def test_rings_can_be_had_either_way_round() -> None:
    assert signed_area(counter_clockwise(SQUARE[::-1])) == 100.0
    assert signed_area(clockwise(SQUARE)) == -100.0


def test_a_ring_is_convex_unless_a_corner_bends_inwards() -> None:
    assert is_convex(SQUARE)
    assert not is_convex(BOOT)
    assert list(corner_heights(BOOT) < 0) == [False, False, False, True, False, False]


def test_corners_on_a_straight_side_are_none() -> None:
    ring = np.array(
        [[0, 0], [4, 0], [4, 0], [6, 0], [10, 0], [10, 10], [5, 10], [0, 10], [0, 5]], dtype=float
    )
    assert without_straight_corners(ring).tolist() == SQUARE.tolist()


@settings(max_examples=40)
@given(st.floats(20, 2000))
def test_a_curve_does_not_lose_its_chords(radius: float) -> None:
    ring = circle_points((0, 0), radius)
    assert len(without_straight_corners(ring)) == len(ring)


def test_a_finely_divided_curve_is_thinned_but_not_straightened() -> None:
    angles = np.linspace(0, np.pi / 2, 4000)
    ring = np.concatenate([[[0.0, 0.0]], 50 * np.column_stack([np.cos(angles), np.sin(angles)])])
    thinned = without_straight_corners(ring)
    assert len(thinned) < 1000
    assert signed_area(thinned) == pytest.approx(signed_area(ring), abs=0.1)


@pytest.mark.parametrize("seed", range(6))
def test_the_sum_of_two_convex_rings_is_the_hull_of_all_sums_of_their_corners(seed: int) -> None:
    numbers = np.random.default_rng(seed)
    one, other = (
        shapely.get_coordinates(
            shapely.orient_polygons(shapely.MultiPoint(numbers.uniform(-9, 9, (count, 2))).convex_hull)
        )[:-1]
        for count in (5 + 8 * seed, 12)
    )
    box = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)])
    for a, b in ((one, other), (one, -other), (box, one), (box, -box)):
        sums = shapely.MultiPoint((a[:, None] + b).reshape(-1, 2)).convex_hull
        found = shapely.Polygon(sum_of_convex(a, b))
        assert found.exterior.is_ccw
        assert found.symmetric_difference(sums).area < 1e-9 * sums.area
