"""Arcs through three points, and the chords that stand for arcs and circles."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tilelayout.base.errors import TileLayoutError
from tilelayout.geometry.arcs import arc_through, circle_points, lies_straight
from tilelayout.geometry.rings import signed_area

Point = tuple[float, float]

coordinates = st.floats(-3000, 3000)
points = st.tuples(coordinates, coordinates)
chords = st.sampled_from((0.02, 0.5, 5.0))


def test_an_arc_runs_through_its_three_points() -> None:
    arc = arc_through((0, 0), (500, 200), (1000, 0))
    along = shapely.LineString(arc.points())
    assert arc.radius == pytest.approx((500**2 + 200**2) / (2 * 200))
    for point in ((0, 0), (500, 200), (1000, 0)):
        assert along.distance(shapely.Point(point)) < 0.02


def test_an_arc_turns_the_way_its_middle_point_says() -> None:
    assert arc_through((1, 0), (0, 1), (-1, 0)).sweep == pytest.approx(180)
    assert arc_through((1, 0), (0, -1), (-1, 0)).sweep == pytest.approx(-180)
    assert arc_through((1, 0), (-1, 0), (0, 1)).sweep == pytest.approx(-270)


def test_a_quarter_circle_is_a_quarter_of_the_circumference_long() -> None:
    root = np.sqrt(0.5)
    assert arc_through((100, 0), (100 * root, 100 * root), (0, 100)).length == pytest.approx(50 * np.pi)


def test_three_points_on_a_line_make_no_arc() -> None:
    assert lies_straight((0, 0), (400, 400), (1000, 1000))
    with pytest.raises(TileLayoutError, match="on one line"):
        arc_through((0, 0), (400, 400), (1000, 1000))


def test_an_arc_that_ends_where_it_begins_is_refused() -> None:
    with pytest.raises(TileLayoutError):
        arc_through((0, 0), (400, 400), (0, 0))


@settings(max_examples=60, deadline=None)
@given(points, points, points, chords)
def test_chords_stay_as_near_to_the_arc_as_asked(a: Point, m: Point, b: Point, chord: float) -> None:
    assume(shapely.Polygon((a, m, b)).area > 1000)
    arc = arc_through(a, m, b)
    assume(arc.radius < 1e5)
    along = arc.points(chord)
    middles = (along[1:] + along[:-1]) / 2
    away = arc.radius - np.hypot(*(middles - arc.centre).T)
    assert np.hypot(*(along[0] - a)) < 1e-6
    assert np.hypot(*(along[-1] - b)) < 1e-6
    assert away.max() <= chord + 1e-7


@given(st.floats(0.5, 5000), chords)
def test_the_ring_of_a_circle_has_the_circles_area_and_stays_near_it(radius: float, chord: float) -> None:
    ring = circle_points((40.0, -70.0), radius, chord)
    middles = (ring + np.roll(ring, -1, axis=0)) / 2
    reach = np.hypot(*(np.concatenate([ring, middles]) - (40.0, -70.0)).T)
    assert signed_area(ring) == pytest.approx(np.pi * radius**2)
    assert np.abs(reach - radius).max() <= chord + 1e-9


def test_the_ring_of_a_circle_reaches_as_far_in_all_four_directions() -> None:
    ring = circle_points((0.0, 0.0), 55.0)
    assert len(ring) % 4 == 0
    assert ring[0, 1] == 0.0
    assert np.allclose([*ring.max(axis=0), *-ring.min(axis=0)], ring[0, 0])
