"""Choosing and changing what is there, by mouse and by keys alone."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from tests.app.boards import board_on, click, drag, job_with, move, pixel, press_key
from tests.rooms import L_SHAPED, WITH_HOLES
from tilelayout.app.board.board import Board
from tilelayout.app.board.finder import finder_of
from tilelayout.app.board.layers.labels import spot_of
from tilelayout.drawing.picks import GRAB_PX, Pick, PickKind
from tilelayout.job.session import Session


def chosen(board: Board) -> list[tuple[PickKind, int]]:
    return [(pick.kind, pick.index) for pick in board.preview.chosen]


def test_a_click_anywhere_in_the_grab_zone_of_a_corner_chooses_it(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED))
    reach = round(GRAB_PX / 2) - 1
    for dx, dy in ((0, 0), (reach, 0), (0, -reach), (-reach, 0)):
        press_key(board, Qt.Key.Key_Escape)
        with qtbot.waitSignal(board.picked, check_params_cb=lambda pick: pick is not None):
            click(board, pixel(board, (3600, 1500)) + QPoint(dx, dy))
        assert chosen(board) == [(PickKind.CORNER, 2)]


def test_a_dragged_corner_moves_in_one_undo_step(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(L_SHAPED))
    start = pixel(board, (3600, 0))
    drag(board, start, pixel(board, (3200, 0)), steps=10)
    moved = session.job.surfaces[0]
    session.undo()
    assert list(moved.outline[1]) == [3200, 0]
    assert not session.can_undo
    assert session.job.surfaces == (L_SHAPED,)


def test_keys_alone_choose_a_corner_move_it_and_delete_it(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(L_SHAPED))
    board.setFocus()
    for _ in range(30):
        press_key(board, Qt.Key.Key_PageDown)
        if chosen(board) == [(PickKind.CORNER, 3)]:
            break
    index = chosen(board)[0][1]
    press_key(board, Qt.Key.Key_Right)
    assert session.job.surfaces[0].outline[index][0] > L_SHAPED.outline[index][0]
    corners = len(session.job.surfaces[0].outline)
    press_key(board, Qt.Key.Key_Delete)
    assert len(session.job.surfaces[0].outline) == corners - 1


def test_an_arrow_key_with_nothing_chosen_goes_to_the_next_thing(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED))
    board.setFocus()
    press_key(board, Qt.Key.Key_Right)
    assert board.preview.chosen


def test_what_is_chosen_is_read_out(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED))
    board.select(Pick(PickKind.CORNER, "floor", 2))
    assert board.accessibleName()
    assert "Corner 3 of 6" in board.accessibleDescription()
    assert "3600 mm" in board.accessibleDescription()
    board.select(Pick(PickKind.EDGE, "floor", 0))
    assert "Edge 1 of 6" in board.accessibleDescription()
    assert "wall" in board.accessibleDescription()


def test_what_is_chosen_elsewhere_is_chosen_on_the_board_without_an_echo(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED))
    told: list[object] = []
    board.picked.connect(told.append)
    pick = Pick(PickKind.CORNER, "floor", 1)
    board.picked.connect(board.select)
    board.select(pick)
    assert told == [pick]
    board.select(None)
    assert told == [pick, None]


def test_a_click_on_a_piece_chooses_it_by_its_number(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(WITH_HOLES, start=(300, 300)), "cut")
    plan = board.shown.plan
    assert plan is not None
    piece = max(plan.laid.cut, key=lambda each: each.area if not each.holes else 0)
    spot = spot_of(piece)
    click(board, pixel(board, (spot.x, spot.y)))
    assert [pick.id for pick in board.preview.chosen] == [piece.id]
    assert piece.id in board.accessibleDescription()


def test_the_finder_names_the_piece_that_holds_a_point(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED, start=(250, 130)), "cut")
    assert board.shown.plan is not None
    laid = board.shown.plan.laid
    for piece in laid.pieces():
        x, y = (
            piece.face.mean(axis=0)
            if piece.whole
            else piece.outline[0] * 0.999 + piece.outline.mean(0) * 0.001
        )
        assert finder_of(laid).at((float(x), float(y))) == piece.id
    assert finder_of(laid).at((-50.0, -50.0)) is None


def test_tab_leaves_the_board_where_there_is_no_box_to_go_to(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED))
    board.setFocus()
    assert not board.preview.boxes
    assert board.focusPolicy() == Qt.FocusPolicy.StrongFocus
    QTest.keyClick(board, Qt.Key.Key_Tab)
    assert not board.boxes.has_focus


def test_the_board_never_traps_the_focus_while_nothing_is_drawn(qtbot: QtBot) -> None:
    for stage in ("measure", "tile", "set-out", "cut"):
        board, _ = board_on(qtbot, job_with(L_SHAPED), stage)
        frame = QWidget()
        board.setParent(frame)
        after = QLineEdit(frame)
        QWidget.setTabOrder(board, after)
        frame.show()
        board.show()
        board.setFocus()
        QTest.keyClick(board, Qt.Key.Key_Tab)
        assert frame.focusWidget() is after
        board.setParent(None)


def test_an_undo_from_outside_is_followed(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(L_SHAPED))
    drag(board, pixel(board, (3600, 0)), pixel(board, (3000, 0)))
    session.undo()
    assert board.shown.surface == L_SHAPED
    move(board, pixel(board, (3600, 0)))
    assert board.preview.under == Pick(PickKind.CORNER, "floor", 1)


def test_zoom_to_selection_brings_the_chosen_edge_near(qtbot: QtBot) -> None:
    board, session = board_on(qtbot, job_with(L_SHAPED))
    assert isinstance(session, Session)
    before = board.view.scale
    board.select(Pick(PickKind.EDGE, "floor", 2))
    board.zoom_to_selection()
    assert board.view.scale > before
    assert board.rect().contains(pixel(board, (3600, 1500)))
    assert board.rect().contains(pixel(board, (1700, 1500)))
