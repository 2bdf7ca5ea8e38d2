"""Painter paths made from arrays, and faces drawn back so that joints stay visible."""

from __future__ import annotations

import sys

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from PySide6.QtGui import QPainterPath
from pytestqt.qtbot import QtBot

from tilelayout.app.board.layers.shrinking import lack_of_joint, shrunk
from tilelayout.app.board.layers.texture import period_of
from tilelayout.app.paint.paths import lines_path, polygons_path, rings_path
from tilelayout.app.paint.texts import readable

SQUARE = np.array([[0, 0], [300, 0], [300, 300], [0, 300]], dtype=float)
HEXAGON = np.array([[np.cos(a), np.sin(a)] for a in np.radians(np.arange(30, 390, 60))]) * 100.0


def by_hand(rings: list[NDArray[np.float64]]) -> QPainterPath:
    path = QPainterPath()
    for ring in rings:
        path.moveTo(*map(float, ring[0]))
        for point in ring[1:]:
            path.lineTo(*map(float, point))
        path.lineTo(*map(float, ring[0]))
    return path


def test_a_path_from_an_array_is_the_path_drawn_point_by_point() -> None:
    faces = np.stack([SQUARE + np.array([x, y]) for x in (0.0, 303.0) for y in (0.0, 303.0)])
    assert polygons_path(faces) == by_hand(list(faces))
    assert rings_path([SQUARE, HEXAGON]) == by_hand([SQUARE, HEXAGON])


def test_an_open_line_is_not_closed() -> None:
    path = lines_path([SQUARE])
    assert path.elementCount() == 4
    assert path.currentPosition().x() == 0.0


def test_nothing_makes_an_empty_path() -> None:
    assert polygons_path(np.empty((0, 4, 2))).isEmpty()
    assert rings_path([]).isEmpty()
    assert lines_path([]).isEmpty()


def test_a_hole_shows_through() -> None:
    path = rings_path([SQUARE, SQUARE / 3 + 100])
    inside, in_hole = path.contains, path.boundingRect().center()
    assert not inside(in_hole)


@given(st.sampled_from([SQUARE, HEXAGON, SQUARE[::-1], SQUARE * (2, 0.5)]), st.floats(0.01, 40))
@settings(max_examples=40, deadline=None)
def test_drawing_back_is_the_mitred_inner_offset(outline: NDArray[np.float64], by: float) -> None:
    expected = shapely.Polygon(outline).buffer(-by, join_style="mitre", mitre_limit=10)
    assert shapely.Polygon(shrunk(outline, by)).area == pytest.approx(expected.area, rel=1e-9)


def test_a_face_drawn_back_by_more_than_it_has_becomes_a_point() -> None:
    assert np.ptp(shrunk(SQUARE, 151.0), axis=0).max() == 0.0


@given(st.floats(0, 10), st.floats(0.005, 5))
@settings(max_examples=40, deadline=None)
def test_joints_are_never_thinner_than_a_pixel(joint: float, px_per_mm: float) -> None:
    shown = (joint + 2 * lack_of_joint(joint, px_per_mm)) * px_per_mm
    assert shown >= 1.0 - 1e-9
    assert shown == pytest.approx(max(joint * px_per_mm, 1.0))


@pytest.mark.parametrize(
    ("vectors", "area"),
    [
        ([(303.0, 0.0), (0.0, 303.0)], 303.0**2),
        ([(600.0, 0.0), (200.0, 300.0)], 600.0 * 900.0),
        ([(150.0, 150.0), (300.0, -300.0)], 600.0 * 600.0),
        ([(103.0, 0.0), (51.5, 103.0 * 3**0.5 / 2)], 103.0 * 103.0 * 3**0.5),
    ],
    ids=["grid", "stepped third", "herringbone", "hexagon"],
)
def test_the_period_is_square_to_itself_and_made_of_whole_repeats(
    vectors: list[tuple[float, float]], area: float
) -> None:
    lattice = np.array(vectors)
    period = period_of(lattice)
    assert period is not None
    assert abs(period.along @ period.across) < 1e-6 * area
    assert np.prod(period.lengths) == pytest.approx(area)
    for side in (period.along, period.across):
        counts = np.linalg.solve(lattice.T, side)
        assert np.allclose(counts, np.round(counts))


def test_a_lattice_that_never_comes_square_has_no_period() -> None:
    assert period_of(np.array([(300.0, 0.0), (300.0 / np.pi, 211.0)])) is None


def test_text_never_stands_on_its_head() -> None:
    for angle in range(-720, 721, 15):
        assert -90.0 <= readable(float(angle)) < 90.0
        assert (readable(float(angle)) - angle) % 180.0 == pytest.approx(0.0)


def test_void_calls_of_the_binding_keep_their_references_to_none(qtbot: QtBot) -> None:
    path = QPainterPath()
    path.moveTo(1.0, 2.0)
    before = sys.getrefcount(None)
    for _ in range(1000):
        path.moveTo(1.0, 2.0)
    assert sys.getrefcount(None) >= before - 20
