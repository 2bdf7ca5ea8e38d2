"""Drawing a room with the mouse and by typed sizes, through real events."""

from __future__ import annotations

import math

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.app.boards import board_on, click, focused, job_with, move, pixel, press_key, type_keys
from tests.rooms import PLAIN
from tilelayout.app.board.board import Board
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.events import Field
from tilelayout.drawing.preview import SnapKind
from tilelayout.job.session import Session
from tilelayout.job.values import Point, SurfaceKind

ROOM = ((0, 0), (3600, 0), (3600, 2400), (0, 2400))
CONTROL = Qt.KeyboardModifier.ControlModifier


def drawing(qtbot: QtBot, style: LengthStyle = LengthStyle.MM) -> tuple[Board, Session]:
    board, session = board_on(qtbot, job_with(style=style))
    board.use_tool("draw_surface")
    return board, session


def corners(session: Session) -> tuple[Point, ...]:
    return session.job.surfaces[0].outline


def snaps(board: Board) -> bool:
    return board.preview.marker is not None


def lengths(session: Session) -> list[float]:
    outline = corners(session)
    return [math.dist(a, b) for a, b in zip(outline, outline[1:] + outline[:1], strict=True)]


def test_a_room_clicked_at_round_places_has_exactly_those_corners(qtbot: QtBot) -> None:
    board, session = drawing(qtbot)
    for corner in (*ROOM, ROOM[0]):
        click(board, pixel(board, corner))
    assert sorted(corners(session)) == sorted(ROOM)
    assert session.undo_label
    session.undo()
    assert session.job.surfaces == ()


def test_the_point_of_the_marker_is_the_point_that_a_press_uses(qtbot: QtBot) -> None:
    board, session = drawing(qtbot)
    used = []
    for corner in ROOM:
        at = pixel(board, corner) + QPoint(2, -3)
        move(board, at)
        marker = board.preview.marker
        assert marker is not None
        used.append(marker.point)
        click(board, at)
    move(board, pixel(board, ROOM[0]) + QPoint(3, 2))
    assert board.preview.marker is not None
    assert board.preview.marker.kind is SnapKind.FIRST
    click(board, pixel(board, ROOM[0]) + QPoint(3, 2))
    assert all(
        math.dist(drawn, marked) <= 1e-6
        for drawn, marked in zip(sorted(corners(session)), sorted(used), strict=True)
    )


def test_a_held_key_suspends_snapping_and_letting_go_restores_it(qtbot: QtBot) -> None:
    board, _ = drawing(qtbot)
    at = pixel(board, (1000, 1000)) + QPoint(3, 2)
    move(board, at)
    assert snaps(board)
    QTest.keyPress(board, Qt.Key.Key_Control)
    assert not snaps(board)
    QTest.keyRelease(board, Qt.Key.Key_Control)
    assert snaps(board)
    move(board, at, CONTROL)
    assert not snaps(board)


def test_the_hint_names_the_key_that_suspends_snapping(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with())
    with qtbot.waitSignal(board.hint_changed, check_params_cb=lambda words: "Ctrl" in words):
        board.use_tool("draw_surface")
        move(board, QPoint(300, 300))


def test_the_snap_is_told_in_words(qtbot: QtBot) -> None:
    board, _ = drawing(qtbot)
    with qtbot.waitSignal(board.snap_changed, check_params_cb=bool):
        move(board, pixel(board, (1000, 1000)))


def test_a_digit_goes_straight_to_the_length_box(qtbot: QtBot) -> None:
    board, session = drawing(qtbot)
    click(board, pixel(board, (0, 0)))
    move(board, pixel(board, (2000, 0)))
    type_keys(board, "3658")
    assert board.boxes.line(Field.LENGTH).text() == "3658"
    press_key(board, Qt.Key.Key_Return)
    move(board, pixel(board, (3658, 1500)))
    type_keys(board, "2438")
    press_key(board, Qt.Key.Key_Return)
    move(board, pixel(board, (2000, 2438)))
    type_keys(board, "3658")
    press_key(board, Qt.Key.Key_Return)
    press_key(board, Qt.Key.Key_Return)
    assert sorted(lengths(session)) == pytest.approx([2438, 2438, 3658, 3658], abs=1e-6)


def test_feet_and_inches_are_typed_as_a_person_writes_them(qtbot: QtBot) -> None:
    board, session = drawing(qtbot, LengthStyle.FEET)
    click(board, pixel(board, (0, 0)))
    for toward, words in (((2000, 0), "12'"), ((3658, 1500), "8' 3 1/2\""), ((500, 2540), "12'")):
        move(board, pixel(board, toward))
        type_keys(board, words)
        press_key(board, Qt.Key.Key_Return)
    press_key(board, Qt.Key.Key_Return)
    assert max(lengths(session)) == pytest.approx(12 * 304.8)
    assert min(lengths(session)) == pytest.approx(8 * 304.8 + 3.5 * 25.4)


def test_tab_goes_from_box_to_box_and_not_out_of_the_board(qtbot: QtBot) -> None:
    board, _ = drawing(qtbot)
    click(board, pixel(board, (0, 0)))
    move(board, pixel(board, (2000, 0)))
    type_keys(board, "15")
    first = focused(board)
    QTest.keyClick(first, Qt.Key.Key_Tab)
    assert focused(board) is board.boxes.line(Field.ANGLE)
    assert focused(board) is not first


def test_escape_steps_back_and_then_leaves_the_tool(qtbot: QtBot) -> None:
    board, session = drawing(qtbot)
    for corner in ROOM[:3]:
        click(board, pixel(board, corner))
    counts = [len(board.preview.corners)]
    press_key(board, Qt.Key.Key_Escape)
    counts.append(len(board.preview.corners))
    assert counts == [3, 2]
    with qtbot.waitSignal(board.tool_ended):
        for _ in range(4):
            press_key(board, Qt.Key.Key_Escape)
            if board.tool == "select":
                break
    assert board.tool == "select"
    assert session.job.surfaces == ()
    assert not session.can_undo


def test_a_length_that_cannot_be_read_is_named_at_the_box(qtbot: QtBot) -> None:
    board, _ = drawing(qtbot)
    click(board, pixel(board, (0, 0)))
    move(board, pixel(board, (2000, 0)))
    with qtbot.waitSignal(board.edit_refused, check_params_cb=lambda words: "parsnips" in words):
        type_keys(board, "12 parsnips")
    press_key(board, Qt.Key.Key_Return)
    assert len(board.preview.corners) == 1
    assert board.preview.boxes[0].wrong


def test_a_wall_is_drawn_as_a_wall(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with())
    board.use_tool("draw_rectangle", new_kind=SurfaceKind.WALL)
    assert board.new_kind is SurfaceKind.WALL
    click(board, pixel(board, (0, 0)))
    click(board, pixel(board, (2000, 1000)))
    assert session.job.surfaces[0].kind is SurfaceKind.WALL


def test_the_wheel_while_drawing_moves_the_marker_with_the_pointer(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN))
    board.use_tool("add_round_cutout")
    at = QPoint(500, 300)
    move(board, at)
    QTest.keyClicks(board, "+")
    marker = board.preview.marker
    if marker is not None:
        shown = pixel(board, marker.point)
        assert (shown - at).manhattanLength() <= 24


def test_a_digit_is_kept_from_the_shortcuts_of_the_window_only_while_it_would_be_typed(qtbot: QtBot) -> None:
    board, _ = drawing(qtbot)
    assert board.preview.boxes
    click(board, pixel(board, (0, 0)))
    type_keys(board, "2")
    assert board.boxes.has_focus or board.boxes.isVisible()
