"""A drag in step with the screen: one move for each frame, and never an old place at the end."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.app.boards import board_on, drag_on, job_with, pixel, press_key
from tests.rooms import PLAIN
from tilelayout.app.board.board import Board
from tilelayout.job.session import Session

LEFT, NO_KEY = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
START = (600.0, 600.0)


def held(qtbot: QtBot) -> tuple[Board, Session, QPoint, list[float]]:
    """A board with the start in the hand, and the list to which every place it is moved to is added."""
    board, session = board_on(qtbot, job_with(PLAIN, start=START), "set-out")
    grip = pixel(board, START)
    QTest.mousePress(board, LEFT, NO_KEY, grip)
    board.repaint()
    places: list[float] = []
    session.watch(lambda _before, after, _label: places.append(after.layouts[0].start[0]))
    return board, session, grip, places


def test_of_the_moves_between_two_frames_only_the_first_and_the_latest_are_worked_on(qtbot: QtBot) -> None:
    board, _, grip, places = held(qtbot)
    for step in range(1, 9):
        drag_on(board, grip + QPoint(23 * step, 0))
    assert len(places) == 1
    board.repaint()
    qtbot.waitUntil(lambda: len(places) == 2)
    assert places[-1] - START[0] == pytest.approx(184 / board.view.scale, abs=14 / board.view.scale)
    QTest.mouseRelease(board, LEFT, NO_KEY, grip + QPoint(184, 0))


def test_moves_that_are_painted_one_by_one_are_all_worked_on(qtbot: QtBot) -> None:
    board, _, grip, places = held(qtbot)
    for step in range(1, 9):
        drag_on(board, grip + QPoint(23 * step, 0))
        board.repaint()
    assert len(places) == 8
    QTest.mouseRelease(board, LEFT, NO_KEY, grip + QPoint(184, 0))


def test_letting_go_before_the_next_frame_leaves_the_start_where_the_hand_was(qtbot: QtBot) -> None:
    board, session, grip, _ = held(qtbot)
    for step in range(1, 9):
        drag_on(board, grip + QPoint(23 * step, 0))
    QTest.mouseRelease(board, LEFT, NO_KEY, grip + QPoint(184, 0))
    x, _ = session.job.layouts[0].start
    assert x - START[0] == pytest.approx(184 / board.view.scale, abs=14 / board.view.scale)
    QApplication.processEvents()
    assert session.job.layouts[0].start[0] == x


def test_escape_before_the_next_frame_puts_the_start_back_for_good(qtbot: QtBot) -> None:
    board, session, grip, _ = held(qtbot)
    for step in range(1, 9):
        drag_on(board, grip + QPoint(23 * step, 0))
    press_key(board, Qt.Key.Key_Escape)
    qtbot.wait(80)
    assert session.job.layouts[0].start == START
    QTest.mouseRelease(board, LEFT, NO_KEY, grip + QPoint(184, 0))
    assert not session.can_undo


def test_a_board_that_is_never_painted_still_follows_the_hand(qtbot: QtBot) -> None:
    board, _, grip, places = held(qtbot)
    board.setUpdatesEnabled(False)
    for step in range(1, 9):
        drag_on(board, grip + QPoint(23 * step, 0))
    qtbot.waitUntil(lambda: len(places) == 2)
    board.setUpdatesEnabled(True)
    QTest.mouseRelease(board, LEFT, NO_KEY, grip + QPoint(184, 0))
