"""The narrowest place of shapes whose thinnest arm can be seen at a glance."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
import shapely

from tilelayout.geometry.arcs import arc_through, circle_points
from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import narrowest, narrowest_of_many


def ring(*corners: tuple[float, float]) -> np.ndarray:
    return np.array(corners, dtype=float)


def box(x0: float, y0: float, x1: float, y1: float) -> np.ndarray:
    return ring((x0, y0), (x1, y0), (x1, y1), (x0, y1))


TILE = box(0, 0, 300, 300)


def test_a_strip_is_as_narrow_as_it_is_wide() -> None:
    assert narrowest(box(0, 0, 300, 61.5)) == pytest.approx(61.5)


def test_a_triangle_of_sides_3_4_5_has_an_inscribed_circle_of_radius_1() -> None:
    # A classical figure: r = (a + b - c) / 2 for legs a, b and hypotenuse c.
    assert narrowest(ring((0, 0), (4, 0), (4, 3))) == pytest.approx(2)


def test_an_equilateral_triangle_and_a_hexagon_have_their_inscribed_circles() -> None:
    height = 300 * sqrt(3) / 2
    angles = np.radians(np.arange(0, 360, 60))
    hexagon = 100 * np.column_stack([np.cos(angles), np.sin(angles)])
    assert narrowest(ring((0, 0), (300, 0), (150, height))) == pytest.approx(2 * height / 3)
    assert narrowest(hexagon) == pytest.approx(100 * sqrt(3))


def test_a_corner_taken_off_a_tile_leaves_it_as_wide_as_before() -> None:
    assert narrowest(ring((40, 0), (300, 0), (300, 300), (0, 300), (0, 40))) == pytest.approx(300)


def test_an_l_is_as_narrow_as_its_thinner_arm() -> None:
    assert narrowest(ring((0, 0), (300, 0), (300, 100), (120, 100), (120, 300), (0, 300))) == pytest.approx(
        100
    )
    assert narrowest(ring((0, 0), (300, 0), (300, 100), (45, 100), (45, 300), (0, 300))) == pytest.approx(45)


def test_a_step_of_two_millimetres_makes_no_thin_arm() -> None:
    assert narrowest(ring((0, 0), (300, 0), (300, 98), (150, 98), (150, 100), (0, 100))) == pytest.approx(98)


def test_a_u_is_as_narrow_as_the_thinnest_of_its_three_arms() -> None:
    def u(left: float, right: float, below: float) -> np.ndarray:
        return ring(
            (0, 0), (300, 0), (300, 300), (right, 300), (right, below), (left, below), (left, 300), (0, 300)
        )  # fmt: skip

    assert narrowest(u(80, 200, 100)) == pytest.approx(80)
    assert narrowest(u(80, 230, 100)) == pytest.approx(70)
    assert narrowest(u(80, 200, 30)) == pytest.approx(30)


def test_a_tile_round_a_square_hole_is_as_narrow_as_the_side_nearest_the_hole() -> None:
    assert narrowest(TILE, [box(70, 100, 200, 220)]) == pytest.approx(70)
    assert narrowest(TILE, [box(70, 100, 270, 220)]) == pytest.approx(30)


def test_a_tile_round_a_drain_is_as_narrow_as_the_side_nearest_the_drain() -> None:
    assert narrowest(TILE, [circle_points((130, 140), 55)]) == pytest.approx(75, abs=0.15)


def test_between_two_drains_the_tile_is_as_narrow_as_the_bridge() -> None:
    holes = [circle_points((100, 150), 40), circle_points((200, 150), 40)]
    assert narrowest(TILE, holes) == pytest.approx(20, abs=0.15)


def quarter_notch(radius: float) -> np.ndarray:
    """A tile of 300 without the part of it that lies within a circle round its upper right corner."""
    root = sqrt(0.5) * radius
    arc = arc_through((300, 300 - radius), (300 - root, 300 - root), (300 - radius, 300)).points()
    return np.concatenate([ring((0, 0), (300, 0)), arc, ring((0, 300))])


def test_a_quarter_round_notch_counts_as_one_curve() -> None:
    # The arms widen away from the tile's edges, so each is as narrow as the circle that touches both edges at
    # its corner and the curve: (t - r)^2 + r^2 = (R + r)^2 for a tile of t and a notch of radius R.
    t, radius = 300.0, 100.0
    fits = t + radius - sqrt((t + radius) ** 2 - t**2 + radius**2)
    assert narrowest(quarter_notch(radius)) == pytest.approx(2 * fits, rel=0.02)


def test_a_large_quarter_round_notch_leaves_thin_arms() -> None:
    assert 40 <= narrowest(quarter_notch(260)) <= 2 * 40


def test_a_piece_along_a_round_tub_is_no_sliver_for_the_points_of_its_curve() -> None:
    arc = arc_through((300, 120), (150, 60), (0, 120)).points()
    piece = np.concatenate([ring((0, 300)), ring((300, 300)), arc])[::-1]
    assert narrowest(piece) > 180


def test_a_bay_in_the_piece_is_no_arm() -> None:
    arc = arc_through((300, 120), (150, 160), (0, 120)).points()
    piece = np.concatenate([ring((0, 0), (300, 0)), arc])
    assert 120 < narrowest(piece) <= 160.1


def test_a_sharp_corner_pointing_at_a_wall_narrows_less_than_a_square_one() -> None:
    # Past the tip of a wedge both parts grow back to where its sides, run on, meet the wall opposite.
    wedge = ring((0, 0), (300, 0), (300, 300), (160, 300), (150, 50), (140, 300), (0, 300))
    square = ring((0, 0), (300, 0), (300, 300), (160, 300), (160, 50), (140, 50), (140, 300), (0, 300))
    assert narrowest(square) == pytest.approx(50)
    assert 140 < narrowest(wedge) < 150


def test_corners_that_are_none_do_not_matter() -> None:
    divided = ring((0, 0), (150, 0), (300, 0), (300, 30), (300, 61.5), (20, 61.5), (20, 61.5), (0, 61.5))
    assert narrowest(divided) == pytest.approx(61.5)


def test_a_tooth_too_small_to_see_is_no_arm() -> None:
    assert (
        narrowest(ring((0, 0), (300, 0), (300, 100), (150.2, 100), (150, 100.2), (150, 100), (0, 100))) > 99
    )


def test_many_pieces_at_once_are_each_as_narrow_as_alone() -> None:
    rings = [box(0, 0, 300, 61.5), ring((0, 0), (4, 0), (4, 3)), TILE, quarter_notch(80), TILE[::-1], TILE]
    holes: list[list[np.ndarray]] = [[], [], [], [], [], [box(70, 100, 200, 220)]]
    together = narrowest_of_many(rings, holes)
    alone = [narrowest(outline, inner) for outline, inner in zip(rings, holes, strict=True)]
    assert together.tolist() == alone


def test_no_pieces_have_no_narrowest_place() -> None:
    assert narrowest_of_many([]).shape == (0,)


def test_a_round_plate_is_as_narrow_as_its_diameter() -> None:
    assert narrowest(circle_points((0, 0), 150)) == pytest.approx(300, abs=0.1)


def test_the_width_of_a_convex_polygon_of_many_sides_agrees_with_a_general_library() -> None:
    plate = circle_points((0, 0), 150)[:40] * (1.0, 0.7)
    reference = shapely.maximum_inscribed_circle(shapely.Polygon(plate), tolerance=1e-6)
    assert narrowest(plate) == pytest.approx(2 * reference.length, abs=1e-4)


def test_a_tile_with_one_finely_rounded_corner_is_as_wide_as_the_tile() -> None:
    # Most of its sides look the same way, so a few of them need not hold a circle between them.
    angles = np.linspace(0, np.pi / 2, 60)
    rounded = np.array([280.0, 280.0]) + 20 * np.column_stack([np.cos(angles), np.sin(angles)])
    piece = np.concatenate([rounded, ring((0, 300), (0, 0), (300, 0))])
    assert narrowest(piece) == pytest.approx(300, abs=1e-6)


@pytest.mark.parametrize("turn", [0.0, 10.0, 32.875, 45.0, 70.3])
@pytest.mark.parametrize(("centre", "width"), [((300.0, -35.0), 287.25), ((300.0, -44.5), 296.75)])
def test_a_shallow_bite_of_a_drain_leaves_the_tile_as_wide_as_across_the_bite(
    centre: tuple[float, float], width: float, turn: float
) -> None:
    # Turned, the edge of the tile cuts the circle's first and last chords short, to a tenth of a mm.
    corners = box(0, 0, 597, 297) @ turning(turn)
    drain = circle_points((np.array([centre]) @ turning(turn))[0], 45)
    piece = shapely.difference(shapely.Polygon(corners), shapely.Polygon(drain))
    assert narrowest(shapely.get_coordinates(piece)[:-1]) == pytest.approx(width, abs=0.5)


@pytest.mark.parametrize("turn", [0.0, 30.0, 45.0])
def test_a_tooth_of_a_millimetre_at_the_end_of_a_bay_is_no_arm(turn: float) -> None:
    bay = arc_through((242.171, 347.177), (88.904, 182.182), (1.325, 5.388)).points()
    piece = np.concatenate([bay, ring((0, 5.278), (5.278, 0), (297.313, 292.035))])
    assert narrowest(piece @ turning(turn)) == pytest.approx(83, abs=1)


def test_a_tooth_is_an_arm_once_more_than_a_square_millimetre_of_it_would_be_lost() -> None:
    def with_tooth(side: float) -> np.ndarray:
        x, y = 150 + side, 100 + side
        return ring((0, 0), (300, 0), (300, 100), (x, 100), (x, y), (150, y), (150, 100), (0, 100))

    assert narrowest(with_tooth(0.9)) == pytest.approx(100)
    assert narrowest(with_tooth(1.1)) == pytest.approx(1.1)


def test_a_speck_smaller_than_a_tooth_has_its_own_narrowest_place() -> None:
    speck = ring((0, 0), (0.9, 0), (0.9, 0.5), (0.5, 0.5), (0.5, 0.9), (0, 0.9))
    assert 0.3 < narrowest(speck) < 0.9


def test_an_arc_and_the_straight_line_it_runs_into_are_told_apart() -> None:
    # Where an arc runs into a straight side without a corner, the side is no chord of the arc.
    arc = arc_through((200, 40), (228.284, 51.716), (240, 80)).points()
    piece = np.concatenate([ring((0, 0), (0, 40)), arc, ring((240, 300), (300, 300), (300, 0))])[::-1]
    assert narrowest(piece) == pytest.approx(40, abs=0.5)
