"""Laws of the view: what a pan, a zoom and a fit may and may not do."""

from __future__ import annotations

import math

from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF

from tilelayout.app.board.view import (
    FINEST,
    LEAST_ON_SCREEN,
    Bounds,
    View,
    allowed_factor,
    fitted,
    kept_in_sight,
)

BOARD = QRectF(28, 0, 900, 640)

coordinates = st.floats(-50_000, 50_000)
sizes = st.floats(10, 100_000)
scales = st.floats(0.001, 20)
pixels = st.floats(0, 1000)
views = st.builds(View, scales, coordinates, coordinates)


@st.composite
def bounds(draw: st.DrawFn) -> Bounds:
    left, bottom = draw(coordinates), draw(coordinates)
    return Bounds(left, bottom, left + draw(sizes), bottom + draw(sizes))


def distance(a: QPointF, b: QPointF) -> float:
    return math.hypot(a.x() - b.x(), a.y() - b.y())


@given(views, pixels, pixels, st.floats(0.2, 5))
@settings(max_examples=60, deadline=None)
def test_zooming_leaves_the_surface_point_under_the_pointer_where_it_is(
    view: View, x: float, y: float, factor: float
) -> None:
    pointer = QPointF(x, y)
    under = view.to_surface(pointer)
    assert distance(view.zoomed(factor, pointer).to_screen(*under), pointer) < 1e-6 * max(1, abs(view.left))


@given(views, pixels, pixels, pixels, pixels)
@settings(max_examples=40, deadline=None)
def test_panning_moves_every_point_alike_and_keeps_the_scale(
    view: View, x: float, y: float, dx: float, dy: float
) -> None:
    moved = view.panned(dx, dy)
    under = view.to_surface(QPointF(x, y))
    assert distance(moved.to_screen(*under), QPointF(x + dx, y + dy)) < 1e-6
    assert moved.scale == view.scale


def test_up_on_the_surface_is_up_on_the_screen() -> None:
    view = View(0.5, 100, 400)
    assert view.to_screen(0, 1000).y() < view.to_screen(0, 0).y()
    assert view.to_screen(1000, 0).x() > view.to_screen(0, 0).x()


@given(bounds())
@settings(max_examples=60, deadline=None)
def test_fit_brings_everything_on_the_screen_with_a_margin(room: Bounds) -> None:
    view = fitted(room, BOARD, 40)
    corners = [view.to_screen(room.left, room.bottom), view.to_screen(room.right, room.top)]
    inner = BOARD.adjusted(39.9, 39.9, -39.9, -39.9)
    assert all(inner.contains(corner) for corner in corners)


@given(bounds(), st.lists(st.floats(0.3, 3), min_size=1, max_size=40))
@settings(max_examples=40, deadline=None)
def test_no_row_of_zooms_makes_the_room_a_speck_or_a_millimetre_a_wall(
    room: Bounds, factors: list[float]
) -> None:
    view = fitted(room, BOARD, 40)
    for factor in factors:
        view = view.zoomed(allowed_factor(view, room, factor), BOARD.center())
    assert max(room.width, room.height) * view.scale >= LEAST_ON_SCREEN * 0.999
    assert view.scale <= FINEST * 1.001


@given(bounds(), coordinates, coordinates)
@settings(max_examples=60, deadline=None)
def test_a_pushed_room_always_leaves_a_strip_in_sight(room: Bounds, dx: float, dy: float) -> None:
    view = fitted(room, BOARD, 40)
    pushed = kept_in_sight(view.panned(dx, dy), room, BOARD)
    a, b = pushed.to_screen(room.left, room.bottom), pushed.to_screen(room.right, room.top)
    seen = QRectF(a, b).normalized().intersected(BOARD)
    least = min(LEAST_ON_SCREEN, room.width * view.scale, room.height * view.scale)
    assert seen.width() >= least - 1e-3
    assert seen.height() >= least - 1e-3


def test_a_rectangle_of_the_screen_is_a_rectangle_of_the_surface() -> None:
    left, bottom, right, top = View(0.5, 0, 100).surface_rect(QRectF(0, 0, 200, 100))
    assert (left, bottom, right, top) == (0, 0, 400, 200)
