"""Moving about on the board by wheel, button, keys and touch; none of it may reach the job."""

from __future__ import annotations

import math

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QPointingDevice
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.app.boards import board_on, drag, job_with, pixel, turn_wheel
from tests.rooms import L_SHAPED, PLAIN
from tilelayout.app.board.board import Board

TOOLS = ("select", "draw_surface", "draw_rectangle", "drag_start", "insert_corner", "add_round_cutout")


def distance(a: QPointF, b: QPointF) -> float:
    return math.hypot(a.x() - b.x(), a.y() - b.y())


def test_each_notch_of_the_wheel_keeps_the_point_under_the_pointer(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED))
    at = QPoint(333, 222)
    for notch in (1, 1, 2, -1, 0.5, -3, -1):
        under, before = board.view.to_surface(QPointF(at)), board.view.scale
        turn_wheel(board, at, notch)
        assert (board.view.scale > before) == (notch > 0)
        assert distance(board.view.to_screen(*under), QPointF(at)) < 1.0


@pytest.mark.parametrize("tool", TOOLS)
def test_the_middle_button_pushes_the_paper_in_every_tool(qtbot: QtBot, tool: str) -> None:
    board, session = board_on(qtbot, job_with(PLAIN), "set-out")
    board.use_tool(tool)
    under = board.view.to_surface(QPointF(400, 300))
    drag(board, QPoint(400, 300), QPoint(460, 330), Qt.MouseButton.MiddleButton)
    assert distance(board.view.to_screen(*under), QPointF(460, 330)) < 1e-6
    assert board.tool == tool
    assert not session.can_undo


@pytest.mark.parametrize("tool", TOOLS)
def test_space_and_drag_push_the_paper_in_every_tool(qtbot: QtBot, tool: str) -> None:
    board, session = board_on(qtbot, job_with(PLAIN), "set-out")
    board.use_tool(tool)
    under = board.view.to_surface(QPointF(400, 300))
    QTest.keyPress(board, Qt.Key.Key_Space)
    drag(board, QPoint(400, 300), QPoint(350, 360))
    QTest.keyRelease(board, Qt.Key.Key_Space)
    assert distance(board.view.to_screen(*under), QPointF(350, 360)) < 1e-6
    assert not session.can_undo
    assert session.job.surfaces == (PLAIN,)


def test_a_pinch_zooms_about_the_fingers(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN))
    at = QPointF(500, 200)
    under, before = board.view.to_surface(at), board.view.scale
    pinch = QNativeGestureEvent(
        Qt.NativeGestureType.ZoomNativeGesture,
        QPointingDevice.primaryPointingDevice(),
        2,
        at,
        at,
        QPointF(board.mapToGlobal(at.toPoint())),
        0.25,
        QPointF(),
    )
    QApplication.sendEvent(board, pinch)
    assert board.view.scale == pytest.approx(before * 1.25)
    assert distance(board.view.to_screen(*under), at) < 1.0


def test_keys_zoom_in_and_out_by_the_same_step(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN))
    before = board.view.scale
    QTest.keyClicks(board, "+")
    larger = board.view.scale
    QTest.keyClicks(board, "-")
    assert larger > before
    assert board.view.scale == pytest.approx(before)


def test_the_room_is_never_lost_by_turning_the_wheel(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN))
    for _ in range(120):
        turn_wheel(board, QPoint(300, 300), -2)
    assert 3000 * board.view.scale > 40
    for _ in range(200):
        turn_wheel(board, QPoint(300, 300), 2)
    assert board.view.scale < 30
    board.fit()
    assert_all_in_sight(board)


def assert_all_in_sight(board: Board) -> None:
    for corner in board.shown.job.surfaces[0].outline:
        assert board.rect().adjusted(40, 10, -10, -40).contains(pixel(board, corner))


def test_a_resized_board_keeps_a_fitted_room_fitted(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED))
    board.resize(600, 420)
    QApplication.processEvents()
    assert_all_in_sight(board)


def test_moving_about_never_touches_the_job_or_its_modified_mark(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(L_SHAPED), "set-out")
    before = session.job
    turn_wheel(board, QPoint(200, 200), 3)
    drag(board, QPoint(400, 300), QPoint(460, 330), Qt.MouseButton.MiddleButton)
    board.zoom_in()
    board.actual_size()
    board.fit()
    assert session.job is before
    assert not session.is_modified


def test_the_zoom_is_told_in_pixels_for_each_millimetre(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN))
    with qtbot.waitSignal(board.zoom_changed) as told:
        board.zoom_in()
    assert told.args == [board.view.scale]


def test_actual_size_shows_a_millimetre_as_a_millimetre(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN))
    board.actual_size()
    dots = board.screen().physicalDotsPerInch()
    assert board.view.scale == pytest.approx((dots if 50 < dots < 500 else board.logicalDpiX()) / 25.4)
