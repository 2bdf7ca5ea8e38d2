"""Dragging the start of a layout: the tiles follow, and one undo takes it back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.app.boards import board_on, drag, job_with, pixel, press_key
from tests.rooms import L_SHAPED, PLAIN
from tilelayout.job.files import job_to_bytes


def test_dragging_the_start_moves_it_as_far_as_the_pointer_went(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(PLAIN, start=(600, 600)), "set-out")
    board.use_tool("drag_start")
    start = pixel(board, (600, 600))
    moves: list[float] = []
    session.watch(lambda _before, after, _label: moves.append(after.layouts[0].start[0]))
    drag(board, start, start + QPoint(60, -30), steps=8)
    x, y = session.job.layouts[0].start
    reach = 14 / board.view.scale
    assert x - 600 == pytest.approx(60 / board.view.scale, abs=reach)
    assert y - 600 == pytest.approx(30 / board.view.scale, abs=reach)
    assert len(moves) > 2
    assert board.shown.plan is not None
    assert board.shown.plan.layout.start == (x, y)


def test_a_drag_is_one_undo_and_gives_back_the_same_bytes(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(L_SHAPED, start=(600, 600)), "set-out")
    before = job_to_bytes(session.job)
    start = pixel(board, (600, 600))
    drag(board, start, start + QPoint(37, 21), steps=12)
    dragged = job_to_bytes(session.job)
    session.undo()
    assert job_to_bytes(session.job) == before != dragged
    assert not session.can_undo


def test_escape_in_the_middle_of_a_drag_puts_the_start_back(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(PLAIN, start=(600, 600)), "set-out")
    start = pixel(board, (600, 600))
    QTest.mousePress(board, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    drag_to = start + QPoint(80, 0)
    QTest.mouseMove(board, start + QPoint(40, 0))
    QTest.mouseMove(board, drag_to)
    press_key(board, Qt.Key.Key_Escape)
    QTest.mouseRelease(board, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, drag_to)
    assert not session.can_undo
    assert session.job.layouts[0].start == (600, 600)


def test_arrow_keys_move_the_start_without_the_mouse(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(PLAIN, start=(600, 600)), "set-out")
    board.setFocus()
    press_key(board, Qt.Key.Key_Right)
    press_key(board, Qt.Key.Key_Up)
    x, y = session.job.layouts[0].start
    assert x > 600
    assert y > 600


def test_the_tile_under_the_pointer_stays_under_it_while_the_pattern_is_dragged(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(PLAIN, start=(600, 600), gap=0), "set-out")
    at, end = QPoint(500, 320), QPoint(537, 301)
    seized = board.view.to_surface(QPointF(at))
    offset = [here - start for here, start in zip(seized, session.job.layouts[0].start, strict=True)]
    drag(board, at, end)
    start = session.job.layouts[0].start
    carried = board.view.to_screen(start[0] + offset[0], start[1] + offset[1])
    assert abs(carried.x() - end.x()) <= 14
    assert abs(carried.y() - end.y()) <= 14
