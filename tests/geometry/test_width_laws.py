"""Laws of the narrowest place on random shapes, and what a general polygon library makes of them."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from shapely import affinity

from tilelayout.geometry.widths import narrowest

Points = NDArray[np.float64]

SIZES = st.sampled_from((200.0, 300.0, 600.0))
PLACES = st.floats(20, 250)
WIDTHS = st.floats(20, 90)


def rings_of(shape: shapely.Polygon) -> tuple[Points, list[Points]]:
    rings = [shapely.get_coordinates(ring)[:-1] for ring in (shape.exterior, *shape.interiors)]
    return rings[0], rings[1:]


def width_of(shape: shapely.Geometry) -> float:
    assert isinstance(shape, shapely.Polygon)
    return narrowest(*rings_of(shape))


def lost(shape: shapely.Polygon, width: float) -> float:
    """The area that opening with mitred corners does not give back, by the library's own offsets."""
    shrunk = shape.buffer(-width / 2, join_style="mitre", mitre_limit=1000)
    opened = shrunk.buffer(width / 2, join_style="mitre", mitre_limit=1000)
    return float(shapely.difference(shape, opened, grid_size=1e-6).area)


@st.composite
def convex_pieces(draw: st.DrawFn) -> shapely.Polygon:
    """Hulls of random points: pieces of a tile that straight walls leave."""
    corner = st.tuples(st.floats(0, 600), st.floats(0, 300))
    hull = shapely.MultiPoint(draw(st.lists(corner, min_size=3, max_size=20))).convex_hull
    return largest(hull)


@st.composite
def square_pieces(draw: st.DrawFn) -> shapely.Polygon:
    """A tile less a few rectangles: L, U, Z, rings and worse; no step smaller than the library overlooks."""
    tens = st.integers(2, 25).map(lambda n: 10.0 * n)
    shape = shapely.box(0, 0, draw(SIZES), draw(SIZES))
    for _ in range(draw(st.integers(1, 3))):
        x, y = draw(tens), draw(tens)
        taken = shapely.box(x, y, x + 2 * draw(tens), y + 2 * draw(tens))
        shape = largest(shapely.difference(shape, taken))
    return shape


@st.composite
def oblique_pieces(draw: st.DrawFn) -> shapely.Polygon:
    """A tile less a turned wall corner, post or fin."""
    x, y, angle = draw(PLACES), draw(PLACES), draw(st.floats(0, 90))
    long, short = draw(st.sampled_from(((900, 900), (900, 60), (70, 60), (40, 40)))), draw(WIDTHS)
    taken = shapely.box(x, y, x + long[0], y + long[1] * short / 60)
    return largest(shapely.box(0, 0, draw(SIZES), draw(SIZES)) - affinity.rotate(taken, angle, origin=(x, y)))


def largest(shape: shapely.Geometry) -> shapely.Polygon:
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, shapely.Polygon)]
    assume(parts)
    part = max(parts, key=lambda p: float(p.area))
    assume(part.area > 500)
    return part


def pieces() -> st.SearchStrategy[shapely.Polygon]:
    return st.one_of(convex_pieces(), square_pieces(), oblique_pieces())


@settings(max_examples=60, deadline=None)
@given(pieces())
def test_it_is_never_more_than_the_smaller_side_of_the_bounding_box(piece: shapely.Polygon) -> None:
    x0, y0, x1, y1 = piece.bounds
    assert width_of(piece) <= min(x1 - x0, y1 - y0) + 1e-6


@settings(max_examples=60, deadline=None)
@given(pieces())
def test_it_is_never_more_than_the_largest_circle_in_the_piece(piece: shapely.Polygon) -> None:
    circle = shapely.maximum_inscribed_circle(piece, tolerance=1e-3)
    assert 0 < width_of(piece) <= 2 * circle.length + 0.01


@settings(max_examples=40, deadline=None)
@given(pieces(), st.floats(0, 360), st.floats(0.2, 5), st.booleans())
def test_turning_moving_mirroring_and_scaling_keep_it(
    piece: shapely.Polygon, angle: float, scale: float, is_mirrored: bool
) -> None:
    c, s, flip = cos(radians(angle)), sin(radians(angle)), -1.0 if is_mirrored else 1.0
    matrix = [scale * c, -scale * s * flip, scale * s, scale * c * flip, 1234.5, -678.9]
    width = width_of(piece)
    assume(shortest_side(piece) > 8)  # a tooth of less than 1 mm2 is none at any other size either
    assume(lost(piece, width * 1.02) * min(scale, 1.0) ** 2 > 2.0)  # what is lost is one at both sizes
    moved = width_of(affinity.affine_transform(piece, matrix))
    assert moved == pytest.approx(scale * width, rel=1e-6)


def shortest_side(piece: shapely.Polygon) -> float:
    rings = [shapely.get_coordinates(ring) for ring in (piece.exterior, *piece.interiors)]
    return min(float(np.hypot(*np.diff(ring, axis=0).T).min()) for ring in rings)


@settings(max_examples=60, deadline=None)
@given(convex_pieces())
def test_for_a_convex_piece_it_is_the_diameter_of_the_librarys_largest_circle(piece: shapely.Polygon) -> None:
    circle = shapely.maximum_inscribed_circle(piece, tolerance=1e-5)
    assert width_of(piece) == pytest.approx(2 * circle.length, rel=2e-3)


@settings(max_examples=80, deadline=None)
@given(st.one_of(square_pieces(), oblique_pieces()))
def test_opening_by_a_hair_less_gives_the_piece_back_and_by_a_hair_more_does_not(
    piece: shapely.Polygon,
) -> None:
    # The library simplifies what it offsets by up to a hundredth of the distance; hence two hundredths, and
    # more where a short side is about to shrink to nothing, which it leaves out before.
    width = width_of(piece)
    hair = max(0.02, width / shortest_side(piece) / 100)
    assume(hair < 0.3)
    within = lost(piece, width * (1.0 - hair))
    assert within <= 1.0
    if not shapely.equals_exact(piece, piece.convex_hull, normalize=True):
        assert lost(piece, width * 1.02) > within + 1e-6 or grows_over(piece, width)


def grows_over(piece: shapely.Polygon, width: float) -> bool:
    """Whether the piece shrinks to nothing at this width, past which there is no telling what is lost."""
    return bool(piece.buffer(-width / 2 - 0.01, join_style="mitre", mitre_limit=1000).is_empty)


@settings(max_examples=40, deadline=None)
@given(st.floats(20, 130), st.floats(20, 130), st.floats(0, 90))
def test_an_l_of_any_arms_and_turn_is_as_narrow_as_the_thinner(a: float, b: float, angle: float) -> None:
    shape = shapely.box(0, 0, 300, a).union(shapely.box(0, 0, b, 300))
    assert width_of(affinity.rotate(shape, angle)) == pytest.approx(min(a, b), abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.floats(10, 60), st.floats(80, 220), st.floats(80, 220))
def test_round_a_drain_it_is_the_least_distance_to_an_edge(radius: float, x: float, y: float) -> None:
    tile = shapely.box(0, 0, 300, 300) - shapely.Point(x, y).buffer(radius, quad_segs=64)
    assert width_of(tile) == pytest.approx(min(x, 300 - x, y, 300 - y) - radius, abs=0.15)


@settings(max_examples=40, deadline=None)
@given(st.floats(400, 1500), st.floats(60, 240), st.floats(15, 120))
def test_before_a_round_tub_it_is_the_least_distance_to_the_edge_opposite(
    radius: float, x: float, y: float
) -> None:
    tub = shapely.Point(x, y + radius).buffer(radius, quad_segs=200)
    piece = largest(shapely.box(0, 0, 300, 300) - tub)
    assert width_of(piece) == pytest.approx(y, abs=0.25)
