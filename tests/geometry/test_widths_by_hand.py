"""The narrowest place of shapes worked out by hand: hairlines, slots, and curved bites of drains."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
import shapely

from tilelayout.geometry.arcs import circle_points
from tilelayout.geometry.overlays import beyond, polygons_of
from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import least_widths, narrowest

TURNS = [0.0, 32.875, 70.3]


def ring(*corners: tuple[float, float]) -> np.ndarray:
    return np.array(corners, dtype=float)


def u_shape(left: float, right: float, below: float) -> np.ndarray:
    """A tile of 597 x 297 with a slot from above that leaves two arms and what joins them below."""
    inner = 597.0 - right
    return ring(
        (0, 0), (597, 0), (597, 297), (inner, 297), (inner, below), (left, below), (left, 297), (0, 297)
    )


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize("below", [3e-7, 2e-6, 1e-5, 1e-4, 1e-3, 5e-3, 9e-3])
def test_two_arms_that_a_hairline_joins_are_two_parts(below: float, turn: float) -> None:
    assert narrowest(u_shape(134.7, 59.0, below) @ turning(turn)) == pytest.approx(59.0, abs=0.02)
    assert narrowest(u_shape(59.0, 134.7, below) @ turning(turn)) == pytest.approx(59.0, abs=0.02)


@pytest.mark.parametrize("limit", [5.0, 50.0])
def test_a_hairline_is_none_of_the_widths_asked_for(limit: float) -> None:
    outline = u_shape(134.7, 59.0, 0.004)
    widths, are_exact = least_widths(outline, np.array([len(outline)]), {}, limit)
    assert widths[0] >= limit
    assert widths[0] <= 59.02
    assert widths[0] == pytest.approx(59.0, abs=0.02) or not are_exact[0]


@pytest.mark.parametrize("below", [0.02, 0.5, 2.0, 30.0])
def test_what_joins_two_arms_is_measured_from_two_hundredths_up(below: float) -> None:
    assert narrowest(u_shape(134.7, 59.0, below)) == pytest.approx(below, abs=1e-6)


@pytest.mark.parametrize("turn", TURNS)
def test_a_hairline_along_a_tile_does_not_narrow_it(turn: float) -> None:
    rabbeted = ring((0, 0), (597, 0), (597, 0.006), (240, 0.006), (240, 297), (0, 297))
    assert narrowest(rabbeted @ turning(turn)) == pytest.approx(240.0, abs=0.02)


@pytest.mark.parametrize("turn", TURNS)
def test_a_t_is_as_narrow_as_the_thinner_of_bar_and_stem(turn: float) -> None:
    def t_shape(bar: float, stem: float) -> np.ndarray:
        left, right, foot = 150.0 - stem / 2, 150.0 + stem / 2, 300.0 - bar
        return ring(
            (left, 0), (right, 0), (right, foot), (300, foot), (300, 300), (0, 300), (0, foot), (left, foot)
        )

    assert narrowest(t_shape(120, 70) @ turning(turn)) == pytest.approx(70.0)
    assert narrowest(t_shape(55, 70) @ turning(turn)) == pytest.approx(55.0)


@pytest.mark.parametrize("turn", TURNS)
def test_beside_a_slot_across_the_corner_of_a_tile_the_least_land_counts(turn: float) -> None:
    # A slot 40 wide and 200 deep, 25 from the edge on its right and 97 from the end before it.
    outline = ring((0, 0), (597, 0), (597, 297), (572, 297), (572, 97), (532, 97), (532, 297), (0, 297))
    assert narrowest(outline @ turning(turn)) == pytest.approx(25.0)


def bitten(depth: float, height: float, turn: float) -> np.ndarray:
    """A tile of 597 x 297 less a drain of 90 that reaches so far into its short side at that height."""
    turned = turning(turn)
    drain = circle_points((ring((depth - 45.0, height)) @ turned)[0], 45.0)
    tile = ring((0, 0), (597, 0), (597, 297), (0, 297)) @ turned
    (piece,) = polygons_of(beyond(shapely.Polygon(tile), shapely.Polygon(drain)))
    return shapely.get_coordinates(piece.exterior)[:-1]


def width_beside_a_bite(depth: float, height: float) -> float:
    """Twice the radius at which the side beside the bite has shrunk to nothing.

    Shrunk by r the bite is a circle of 45 + r, the short side lies at r, and both meet at sqrt((45 + r)^2 -
    (r - depth + 45)^2) from the bite's middle; the side is gone once that is the way to the long side at r.
    """
    least = min(height, 297.0 - height)
    low, high = 0.0, least
    for _ in range(60):
        r = (low + high) / 2
        is_left = sqrt((45.0 + r) ** 2 - (r - depth + 45.0) ** 2) < least - r
        low, high = (r, high) if is_left else (low, r)
    return 2.0 * low


def test_the_sum_for_a_bite_of_ten_millimetres_amid_the_short_side() -> None:
    # By hand: (148.5 - r)^2 = 800 + 20 r gives r = (317 - sqrt(317^2 - 4 x 21252.25)) / 2 = 96.3.
    assert width_beside_a_bite(10.0, 148.5) == pytest.approx(317.0 - sqrt(317.0**2 - 4 * 21252.25), abs=1e-6)
    assert width_beside_a_bite(10.0, 148.5) == pytest.approx(192.6, abs=0.05)


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize("height", [60.0, 100.0, 148.5])
@pytest.mark.parametrize("depth", [1.2, 3.0, 10.0, 20.0, 40.0])
def test_beside_a_bite_of_a_drain_the_width_is_that_of_the_curve(
    depth: float, height: float, turn: float
) -> None:
    # Chords stand for the curve; where its last one was cut short the width comes out a little larger.
    width = width_beside_a_bite(depth, height)
    assert 0.998 * width <= narrowest(bitten(depth, height, turn)) <= 1.1 * width
