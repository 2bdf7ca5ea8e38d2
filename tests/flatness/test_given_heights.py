"""Planes through given heights and falls to drains: closed forms, and the plane that rests on the surface."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from tests.flatness.floors import grid, rough
from tilelayout.flatness.falls import Drain, fallen_heights, falling_to
from tilelayout.flatness.fill import Fill, fill_to
from tilelayout.flatness.given_plane import GivenPlane, plane_meeting
from tilelayout.flatness.mesh import Mesh, mesh_of
from tilelayout.flatness.refined import refined
from tilelayout.flatness.volumes import Ground, ground_of

ROOM = shapely.box(0, 0, 3000, 4000)
PLACES = grid(7, 9, 500.0)
TILTED = PLACES[:, 0] * 12.0 / 3000.0
"""12 mm over 3 m x 4 m."""
MIDDLE = np.array([1500.0, 2000.0])


def on() -> Ground:
    return ground_of(mesh_of(PLACES), ROOM)


def met(given: list[tuple[float, float, float]], readings: np.ndarray = TILTED) -> tuple[GivenPlane, Fill]:
    ground = on()
    heights = ground.mesh.heights(readings)
    plane = plane_meeting(given, ground.mesh.places, heights, ground.weights)
    return plane, fill_to(ground, heights, plane.heights(ground.mesh.places))


def test_heights_on_the_tilted_floor_itself_take_nothing() -> None:
    for given in ([], [(0.0, 0.0, 0.0)], [(0.0, 0.0, 0.0), (3000.0, 0.0, 12.0)]):
        plane, fill = met(given)
        assert fill.volume == pytest.approx(0.0, abs=10.0)
        assert plane.tilt == pytest.approx([12 / 3000, 0.0], abs=1e-9)


def test_a_doorway_12_mm_over_the_low_side_takes_the_prism_up_to_level() -> None:
    """Derived: level with the high edge, half of 12 mm x 12 m2 = 0.072 m3."""
    plane, fill = met([(0.0, 500.0, 12.0), (0.0, 1400.0, 12.0)])
    assert fill.volume / 1e9 == pytest.approx(0.072)
    assert plane.tilt == pytest.approx([0.0, 0.0], abs=1e-9)
    assert fill.most_removed == pytest.approx(0.0, abs=1e-6)


def test_one_height_leaves_the_plane_its_tilt_and_the_least_is_taken() -> None:
    """At the low edge 6 mm up: the plane turns about the high edge, half of 6 mm x 12 m2 = 0.036 m3."""
    plane, fill = met([(0.0, 2000.0, 6.0)])
    assert fill.volume / 1e9 == pytest.approx(0.036)
    assert fill.thinnest == pytest.approx(0.0, abs=1e-6)
    assert plane.missed == pytest.approx([0.0], abs=1e-9)


def test_a_height_below_the_floor_is_met_by_grinding_as_little_as_can_be() -> None:
    """5 mm below the low corner: with the high side kept up, only the corner is off by those 5 mm."""
    plane, fill = met([(0.0, 0.0, -5.0)])
    assert fill.most_removed == pytest.approx(5.0, abs=1e-5)
    assert fill.most_removed_at == (0.0, 0.0)
    assert plane.missed == pytest.approx([0.0], abs=1e-6)
    level, ground_down = met([(0.0, 0.0, 2.0), (3000.0, 0.0, 2.0), (0.0, 4000.0, 2.0)])
    assert level.tilt == pytest.approx([0.0, 0.0], abs=1e-12)
    assert ground_down.volume == pytest.approx(2 * 500 * 4000 / 2)
    assert ground_down.volume_removed == pytest.approx(10 * 2500 * 4000 / 2)


def test_the_plane_given_nothing_is_the_one_that_rests_on_the_surface() -> None:
    """It is over all points and touches some between which the middle lies: so none is lower there."""
    ground = on()
    heights = ground.mesh.heights(rough(len(PLACES), 5, 3.0))
    ours = plane_meeting([], ground.mesh.places, heights, ground.weights)
    over = ours.heights(ground.mesh.places) - heights
    assert over.min() == pytest.approx(0.0, abs=1e-6)
    touched = shapely.MultiPoint(ground.mesh.places[over < 1e-6])
    assert touched.convex_hull.covers(shapely.Point(MIDDLE))


def test_no_plane_of_many_that_meets_the_height_and_clears_the_floor_takes_less() -> None:
    ground = on()
    heights = ground.mesh.heights(rough(len(PLACES), 6, 3.0))
    given = (100.0, 300.0, 9.0)
    ours = plane_meeting([given], ground.mesh.places, heights, ground.weights)
    tilts = np.random.default_rng(2).normal(size=(20_000, 2)) * 0.003 + ours.tilt
    planes = given[2] + (ground.mesh.places - given[:2]) @ tilts.T
    clear = np.all(planes >= heights[:, None] - 1e-9, axis=0)
    assert clear.any()
    assert ours.height <= (given[2] + (MIDDLE - given[:2]) @ tilts.T)[clear].min() + 1e-6


def test_heights_in_no_one_plane_are_missed_and_it_is_told_by_how_much() -> None:
    corners = [(0.0, 0.0, 0.0), (3000.0, 0.0, 0.0), (3000.0, 4000.0, 8.0), (0.0, 4000.0, 0.0)]
    plane, _ = met(corners)
    assert plane.missed == pytest.approx([-2.0, 2.0, -2.0, 2.0])
    plane, _ = met([(0.0, 0.0, 0.0), (1000.0, 0.0, 3.0), (2000.0, 0.0, 0.0)])
    assert plane.missed == pytest.approx([1.0, -2.0, 1.0])


def falling(drain: Drain, longest: float = 50.0) -> Fill:
    mesh = refined(mesh_of(PLACES), longest)
    heights = mesh.heights(np.zeros(len(PLACES)))
    (known,) = falling_to([drain], mesh.places, heights)
    return fill_to(ground_of(mesh, ROOM), heights, fallen_heights([known], mesh.places))


def test_a_channel_along_a_wall_makes_one_plane() -> None:
    """A channel of 3 m at the lower wall, 2 % over 4 m: 80 mm at the far wall, half of it on the mean."""
    fill = falling(Drain((0.0, 0.0), (3000.0, 0.0), 0.0, 0.02, None))
    assert fill.volume == pytest.approx(80.0 / 2 * 3000 * 4000)
    assert (fill.deepest, fill.thinnest) == pytest.approx((80.0, 0.0))


def test_the_volume_over_a_point_drain_is_that_of_a_cone() -> None:
    """Mean distance from a corner of a rectangle, in closed form (integral of r over two triangles)."""
    a, b = 3000.0, 4000.0
    d = np.hypot(a, b)
    mean = (2 * a * b * d + a**3 * np.arcsinh(b / a) + b**3 * np.arcsinh(a / b)) / (6 * a * b)
    fill = falling(Drain((0.0, 0.0), (0.0, 0.0), 0.0, 0.02, 0.0))
    assert fill.volume == pytest.approx(0.02 * mean * a * b, rel=1e-4)
    assert fill.deepest == pytest.approx(0.02 * d)


def test_every_straight_line_to_the_rim_falls_as_given() -> None:
    drain = Drain((1000.0, 900.0), (1000.0, 900.0), 110.0, 0.0125, -4.0)
    angle = np.linspace(0, 2 * np.pi, 40)
    for far in (55.0, 300.0, 800.0):
        around = np.column_stack([1000 + far * np.cos(angle), 900 + far * np.sin(angle)])
        assert fallen_heights([drain], around) == pytest.approx(np.full(40, -4.0 + 0.0125 * (far - 55.0)))


def test_of_two_drains_the_lower_fall_decides_and_an_open_height_is_as_low_as_it_can_be() -> None:
    two = [Drain((x, 0.0), (x, 4000.0), 0.0, 0.02, None) for x in (0.0, 3000.0)]
    found = falling_to(two, PLACES, TILTED)
    # The floor rises by 4 in 1000, the fall is 20: the drain at the high side lies bare and decides.
    assert [each.height for each in found] == pytest.approx([12.0, 12.0])
    assert fallen_heights(found, np.array([(1500.0, 100.0), (2900.0, 0.0)])) == pytest.approx([42.0, 14.0])


def test_a_refined_mesh_is_the_same_surface() -> None:
    mesh, readings = mesh_of(PLACES), rough(len(PLACES), 9, 4.0)
    fine: Mesh = refined(mesh, 100.0)
    assert fine.longest <= 100.0 + 1e-9
    assert np.array_equal(fine.places[: len(mesh.places)], mesh.places)
    assert fine.heights(readings) == pytest.approx(mesh.heights_at(fine.places, mesh.heights(readings)))
    assert len(fine.triangles) % len(mesh.triangles) == 0
    assert ground_of(fine, ROOM).area == pytest.approx(3000 * 4000)
