"""The largest circle in convex rings of any number of sides, against the geometry library's search for it."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from tilelayout.geometry.arcs import circle_points
from tilelayout.geometry.inscribed import held_radius, inscribed_radii, inward_normals, radii_of_rings
from tilelayout.geometry.rings import counter_clockwise
from tilelayout.geometry.turns import turning

Points = NDArray[np.float64]


def tiles_cut_by_a_curve(seed: int, count: int = 150) -> list[Points]:
    """Rectangles of all sizes, turned, each cut by a large circle of many chords."""
    rng = np.random.default_rng(seed)
    rings = []
    for _ in range(count):
        middle, radius, chords = rng.uniform(-200, 800, 2), rng.uniform(50, 3000), int(rng.integers(30, 500))
        turns = np.arange(chords) * 2.0 * np.pi / chords
        circle = middle + radius * np.column_stack([np.cos(turns), np.sin(turns)])
        cut = shapely.box(0, 0, *rng.uniform(20, 600, 2)).intersection(shapely.Polygon(circle))
        if isinstance(cut, shapely.Polygon) and cut.area > 50.0:
            ring = counter_clockwise(shapely.get_coordinates(shapely.set_precision(cut, 1e-6))[:-1])
            rings.append(ring @ turning(float(rng.uniform(0, 360))) + rng.uniform(-5000, 5000, 2))
    return rings


def circle_of_the_library(ring: Points) -> float:
    return float(shapely.maximum_inscribed_circle(shapely.Polygon(ring), tolerance=1e-4).length)


@pytest.mark.parametrize("seed", range(6))
def test_many_sides_hold_the_circle_that_the_library_finds(seed: int) -> None:
    rings = tiles_cut_by_a_curve(seed)
    radii = radii_of_rings(rings)
    assert max(map(len, rings)) > 60
    assert radii == pytest.approx(np.array([circle_of_the_library(ring) for ring in rings]), abs=2e-3)


def test_a_circle_that_may_slide_between_parallel_sides_stops_at_the_curve() -> None:
    """By hand: a strip 100 wide, its far end a half circle of radius 50 cut off 30 from the near end."""
    turns = np.radians(np.linspace(-90.0, 90.0, 91))
    bow = np.array([30.0, 50.0]) + 50.0 * np.column_stack([np.cos(turns), np.sin(turns)])
    ring = np.vstack([(0.0, 0.0), bow, (0.0, 100.0)])
    assert radii_of_rings([ring])[0] == pytest.approx(40.0, abs=0.02)
    longer = np.vstack([(0.0, 0.0), bow + np.array([200.0, 0.0]), (0.0, 100.0)])
    assert radii_of_rings([longer])[0] == pytest.approx(50.0, abs=0.02)


def test_rings_of_all_sizes_together_are_what_each_is_alone() -> None:
    rings = [np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)]), *tiles_cut_by_a_curve(9, 30)]
    alone = [inscribed_radii(ring[None])[0] for ring in rings]
    assert radii_of_rings(rings) == pytest.approx(alone, rel=1e-9)
    assert radii_of_rings(rings)[0] == pytest.approx(1.0)


def test_many_lines_that_leave_a_way_out_hold_no_circle() -> None:
    turns = np.radians(np.linspace(20.0, 160.0, 20))
    normals = np.column_stack([np.cos(turns), np.sin(turns)])
    assert held_radius(normals, np.full(20, 5.0)) == np.inf


def test_inward_normals_look_to_the_left() -> None:
    normals, lengths = inward_normals(np.array([[0.0, 0.0]]), np.array([[3.0, 0.0]]))
    assert normals.tolist() == [[0.0, 1.0]] and lengths.tolist() == [3.0]


def test_of_a_circle_that_a_wall_cuts_the_radius_is_half_of_what_is_left_across_it() -> None:
    """Most sides of the chords touch the circle all but the same, wherever the wall lies (closed form)."""
    numbers, circle = np.random.default_rng(1), shapely.Polygon(circle_points((0, 0), 9.5))
    rings, wanted = [], []
    for angle, depth in zip(numbers.uniform(0, 7, 300), numbers.uniform(-8, 9.4, 300), strict=True):
        square = np.array([np.cos(angle), np.sin(angle)])
        along = np.array([-square[1], square[0]])
        kept = [square * depth + 30 * along, square * depth - 30 * along]
        half = shapely.Polygon([*kept, *(point - 60 * square for point in reversed(kept))])
        rings.append(shapely.get_coordinates(shapely.orient_polygons(circle & half))[:-1])
        wanted.append((depth + 9.5) / 2)
    np.testing.assert_allclose(radii_of_rings(rings), wanted, atol=0.01)
