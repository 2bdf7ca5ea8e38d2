"""Boards to test on, and the moves of a hand on them: real events at points of the surface."""

from __future__ import annotations

from collections.abc import Generator
from typing import Any

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from tilelayout.app.board.board import Board
from tilelayout.app.look import Look
from tilelayout.base.units import LengthStyle
from tilelayout.job.session import Session
from tilelayout.job.values import Job, Layout, Point, RectangleTile, Surface, Tile

SLATE = RectangleTile(id="slate", name="Slate look", length=597, width=297)

_LEFT = Qt.MouseButton.LeftButton


def job_with(
    surface: Surface | None = None,
    tile: Tile = SLATE,
    style: LengthStyle = LengthStyle.MM,
    **layout: Any,
) -> Job:
    """Return a job of one surface with one layout on it, or an empty one."""
    if surface is None:
        return Job(show_lengths=style)
    laid = Layout(id="A", surface=surface.id, tile=tile.id, **layout)
    return Job(show_lengths=style, surfaces=(surface,), tiles=(tile,), layouts=(laid,))


def board_on(
    qtbot: QtBot, job: Job, stage: str = "measure", *, dark: bool = False, size: tuple[int, int] = (900, 700)
) -> tuple[Board, Session]:
    """Return a shown board on a job, and the session behind it."""
    session, look = Session(job), Look(dark)
    board = Board(session, look)
    look.setParent(board)
    qtbot.addWidget(board)
    board.resize(*size)
    board.show()
    surface = job.surfaces[0].id if job.surfaces else None
    layout = job.layouts[0].id if job.layouts else None
    board.show_view(surface, layout, stage)
    QApplication.processEvents()
    return board, session


def pixel(board: Board, point: Point) -> QPoint:
    """Return the screen point of a surface point."""
    return board.view.to_screen(*point).toPoint()


def move(board: Board, to: QPoint, modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Move the pointer with no button down."""
    _mouse(board, QEvent.Type.MouseMove, to, Qt.MouseButton.NoButton, Qt.MouseButton.NoButton, modifiers)


def click(board: Board, at: QPoint, modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Move there and press the main button."""
    move(board, at, modifiers)
    QTest.mouseClick(board, _LEFT, modifiers, at)


def drag(board: Board, start: QPoint, end: QPoint, button: Qt.MouseButton = _LEFT, *, steps: int = 6) -> None:
    """Press, move in steps that are painted one by one, let go."""
    move(board, start)
    QTest.mousePress(board, button, Qt.KeyboardModifier.NoModifier, start)
    for step in range(1, steps + 1):
        drag_on(board, start + (end - start) * step / steps, button)
        board.repaint()
    QTest.mouseRelease(board, button, Qt.KeyboardModifier.NoModifier, end)


def drag_on(board: Board, to: QPoint, button: Qt.MouseButton = _LEFT) -> None:
    """Move the pointer with a button held."""
    _mouse(board, QEvent.Type.MouseMove, to, Qt.MouseButton.NoButton, button)


def drag_steps(board: Board, start: QPoint) -> Generator[None, None, None]:
    """Press at `start`, then move a little and paint at each step; closing lets go."""
    QTest.mousePress(board, _LEFT, Qt.KeyboardModifier.NoModifier, start)
    at = start
    try:
        while True:
            yield
            at = at + QPoint(3, 2)
            drag_on(board, at)
            board.repaint()
    finally:
        QTest.mouseRelease(board, _LEFT, Qt.KeyboardModifier.NoModifier, at)


def turn_wheel(board: Board, at: QPoint, notches: float) -> None:
    """Turn the wheel by so many notches away from the person."""
    event = QWheelEvent(
        QPointF(at),
        QPointF(board.mapToGlobal(at)),
        QPoint(),
        QPoint(0, round(120 * notches)),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(board, event)


def type_keys(board: Board, keys: str) -> None:
    """Type into whatever has the focus: the board, or the box it has opened."""
    for key in keys:
        QTest.keyClicks(focused(board), key)


def press_key(board: Board, key: Qt.Key) -> None:
    """Press a key in whatever has the focus."""
    QTest.keyClick(focused(board), key)


def focused(board: Board) -> QWidget:
    """Return the typed box that has the focus, else the board."""
    return (board.focusWidget() if board.boxes.has_focus else board) or board


def _mouse(
    board: Board,
    kind: QEvent.Type,
    at: QPoint,
    button: Qt.MouseButton,
    held: Qt.MouseButton,
    modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier,
) -> None:
    event = QMouseEvent(kind, QPointF(at), QPointF(board.mapToGlobal(at)), button, held, modifiers)
    QApplication.sendEvent(board, event)
