"""The cut list one can tick off, by mouse and by keys: three views, board and list, undo, file, paper."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, click, close, on_board, potting_shed, settle, type_in
from tests.rooms import SQUARE, layout_of, rectangle
from tilelayout.app.bench import Stage
from tilelayout.app.cards.cut_painter import BOX_ROOM
from tilelayout.app.cards.cut_rows import Check
from tilelayout.app.cards.saw_sheet import SawSheet
from tilelayout.app.look import GRAB
from tilelayout.app.window import Window
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits.cuts import tick_cuts
from tilelayout.job.edits.layouts import move_start
from tilelayout.job.files import read_job, write_job
from tilelayout.job.values import Job
from tilelayout.planning.cut_views import CutView

VIEWS = list(CutView)


@pytest.fixture
def shed(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window with the cut list of the potting shed in front, ready to be ticked."""
    made = bare_window(tmp_path / "settings", potting_shed())
    _to_cuts(made, qtbot)
    yield made
    close(made)


@pytest.fixture
def two(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window with a floor and a wall that share their tiles."""
    made = bare_window(tmp_path / "settings", _floor_and_wall())
    _to_cuts(made, qtbot)
    yield made
    close(made)


def _floor_and_wall() -> Job:
    floor, wall = (
        replace(rectangle(*size), id=id, name=id.title())
        for id, size in (("floor", (1403, 1207)), ("wall", (1121, 903)))
    )
    layouts = tuple(
        replace(layout_of(SQUARE, start=(131.0, 77.0)), id=id, surface=of)
        for id, of in (("A", "floor"), ("W", "wall"))
    )
    return Job(surfaces=(floor, wall), tiles=(SQUARE,), layouts=layouts)


def _to_cuts(window: Window, qtbot: QtBot) -> None:
    window.bench.show(stage=Stage.CUT)
    qtbot.waitUntil(lambda: window.cut.is_ready)
    settle()


def _box_at(window: Window, row: int) -> QPoint:
    shown = window.cut.list.visualRect(window.cut.rows.index(row))
    return QPoint(shown.left() + BOX_ROOM // 2, shown.top() + GRAB)


def _press_box(window: Window, row: int) -> None:
    window.cut.list.scrollTo(window.cut.rows.index(row))
    settle()
    QTest.mouseClick(window.cut.list.viewport(), Qt.MouseButton.LeftButton, pos=_box_at(window, row))
    settle()


def _key(window: Window, key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(window.cut.list, key, held)
    settle()


def _first_line(window: Window) -> int:
    row = window.cut.rows.next_open(-1)
    assert row is not None
    return row


def _state(window: Window, row: int) -> Check:
    line = window.cut.rows.line(row)
    assert line is not None
    return window.cut.rows.state(line)


def _piece(window: Window, at: int = 0) -> str:
    plan = window.bench.plan
    assert plan is not None
    return plan.laid.cut[at].id


@pytest.mark.parametrize("view", VIEWS)
def test_a_press_on_a_box_ticks_in_every_view_and_is_one_step_to_undo(shed: Window, view: CutView) -> None:
    click(shed.cut.views[view])
    row = _first_line(shed)
    _press_box(shed, row)
    assert _state(shed, row) is Check.Checked
    assert shed.bench.job.cuts_made
    assert (shed.bench.session.undo_label or "").startswith("Tick ")
    shed.bench.session.undo()
    settle()
    assert _state(shed, row) is Check.Unchecked and not shed.bench.job.cuts_made
    shed.bench.session.redo()
    settle()
    assert _state(shed, row) is Check.Checked
    _press_box(shed, row)
    assert not shed.bench.job.cuts_made


def test_a_box_is_as_large_as_a_dusty_finger_wants_and_the_words_beside_it_tick_nothing(shed: Window) -> None:
    row = _first_line(shed)
    shown = shed.cut.list.visualRect(shed.cut.rows.index(row))
    assert BOX_ROOM >= 24 and shown.height() >= 24
    beside = QPoint(shown.left() + BOX_ROOM + 20, shown.center().y())
    QTest.mouseClick(shed.cut.list.viewport(), Qt.MouseButton.LeftButton, pos=beside)
    settle()
    assert shed.cut.list.currentIndex().row() == row and not shed.bench.job.cuts_made


def test_space_ticks_arrows_move_past_headings_and_enter_goes_to_the_next_to_make(shed: Window) -> None:
    shed.cut.list.setFocus()
    first = shed.cut.list.currentIndex().row()
    assert first == 1, "the first cut to make, not the heading above it"
    _key(shed, Qt.Key.Key_Space)
    assert _state(shed, first) is Check.Checked
    _key(shed, Qt.Key.Key_Down)
    assert shed.cut.list.currentIndex().row() == first + 1
    _key(shed, Qt.Key.Key_Up)
    _key(shed, Qt.Key.Key_Return)
    assert shed.cut.list.currentIndex().row() == first + 1
    _key(shed, Qt.Key.Key_Up)
    _key(shed, Qt.Key.Key_Space)
    assert _state(shed, first) is Check.Unchecked


def test_several_lines_are_ticked_at_once_as_one_step(shed: Window) -> None:
    shed.cut.list.setFocus()
    _key(shed, Qt.Key.Key_Return)
    _key(shed, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    _key(shed, Qt.Key.Key_Space)
    assert shed.cut.progress.text().startswith("2 of ")
    assert shed.bench.session.undo_label == "Tick 2 cuts"
    shed.bench.session.undo()
    settle()
    assert shed.cut.progress.text().startswith("0 of ")


def test_progress_is_said_in_words_beside_the_bar(shed: Window) -> None:
    assert shed.cut.ticks is not None
    total = len(shed.cut.ticks.says)
    assert shed.cut.progress.text().startswith(f"0 of {total} cuts made")
    _press_box(shed, _first_line(shed))
    assert shed.cut.progress.text().startswith(f"1 of {total} cuts made")
    assert (shed.cut.bar.value(), shed.cut.bar.maximum()) == (1, total)
    assert shed.cut.bar.accessibleName() == shed.cut.progress.text()
    shed.cut.list.setFocus()
    _key(shed, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    _key(shed, Qt.Key.Key_Space)
    assert shed.cut.progress.text() == f"All {total} cuts are made."
    assert not shed.cut.next_cut.isEnabled()


def test_the_next_cut_is_the_first_that_is_not_made(shed: Window) -> None:
    first = _first_line(shed)
    _press_box(shed, first)
    shed.cut.list.go_to(first + 1)
    click(shed.cut.next_cut)
    at = shed.cut.list.currentIndex().row()
    assert at > first and _state(shed, at) is Check.Unchecked
    assert shed.cut.list.hasFocus()


def test_a_tile_with_some_cuts_made_is_half_ticked(shed: Window) -> None:
    rows, ticks = shed.cut.rows, shed.cut.ticks
    assert ticks is not None
    click(shed.cut.views[CutView.TILE])
    row = next(at for at in range(rows.rowCount()) if (line := rows.line(at)) and len(line.cuts) > 1)
    line = rows.line(row)
    assert line is not None
    shed.bench.apply("Tick", lambda job: tick_cuts(job, ticks.says[line.cuts[0]]))
    settle()
    assert _state(shed, row) is Check.PartiallyChecked
    assert "partly made" in str(rows.data(rows.index(row)))
    _press_box(shed, row)
    assert _state(shed, row) is Check.Checked


@pytest.mark.parametrize("view", VIEWS)
def test_going_to_a_row_lights_its_pieces_on_the_board(shed: Window, view: CutView) -> None:
    click(shed.cut.views[view])
    shed.cut.list.setFocus()
    _key(shed, Qt.Key.Key_Return)
    _key(shed, Qt.Key.Key_Down)
    line = shed.cut.list.line
    assert line is not None
    assert shed.board._lit == line.pieces


@pytest.mark.parametrize("view", VIEWS)
def test_a_piece_clicked_on_the_board_brings_its_row_into_sight(shed: Window, view: CutView) -> None:
    click(shed.cut.views[view])
    plan = shed.bench.plan
    assert plan is not None
    piece = plan.laid.cut[-1]
    x, y = piece.outline.mean(axis=0).tolist()
    shed.board.setFocus()
    QTest.mouseClick(shed.board, Qt.MouseButton.LeftButton, pos=on_board(shed, x, y))
    settle()
    line = shed.cut.list.line
    assert line is not None and piece.id in line.pieces
    shown = shed.cut.list.visualRect(shed.cut.list.currentIndex())
    assert shed.cut.list.viewport().rect().intersects(shown)
    assert piece.id in shed.board._lit


def test_by_keys_alone_one_goes_from_cut_to_cut_on_the_board(shed: Window) -> None:
    shed.board.setFocus()
    QTest.keyClick(shed.board, Qt.Key.Key_PageDown)
    settle()
    assert shed.bench.chosen == Pick(PickKind.PIECE, "floor", id=_piece(shed))
    line = shed.cut.list.line
    assert line is not None and _piece(shed) in line.pieces
    QTest.keyClick(shed.board, Qt.Key.Key_Right)
    settle()
    second = shed.bench.chosen
    assert isinstance(second, Pick) and second.id != _piece(shed)
    line = shed.cut.list.line
    assert line is not None and second.id in line.pieces
    assert second.id in shed.board.accessibleDescription()


def test_what_is_sawn_is_marked_on_the_board_only_while_the_cut_list_is_in_front(shed: Window) -> None:
    before = shed.board.grab().toImage()
    shed.cut.list.setFocus()
    _key(shed, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    _key(shed, Qt.Key.Key_Space)
    plan = shed.bench.plan
    assert plan is not None
    assert shed.board.over.sawn == {piece.id for piece in plan.laid.cut}
    assert shed.board.grab().toImage() != before
    shed.board.light_piece(())
    marked = shed.board.grab().toImage()
    shed.bench.session.undo()
    settle()
    shed.board.light_piece(())
    assert shed.board.grab().toImage() != marked
    shed.bench.session.redo()
    shed.bench.show(stage=Stage.TILE)
    settle()
    there = shed.board.grab().toImage()
    shed.bench.session.undo()
    settle()
    assert shed.board.grab().toImage() == there


def test_ticks_are_saved_and_opened(shed: Window, qtbot: QtBot, tmp_path: Path) -> None:
    row = _first_line(shed)
    _press_box(shed, row)
    words = shed.cut.progress.text()
    write_job(shed.bench.job, tmp_path / "shed.tilejob")
    shed.bench.session.replace(read_job(tmp_path / "shed.tilejob"))
    qtbot.waitUntil(lambda: shed.cut.is_ready)
    settle()
    assert shed.cut.progress.text() == words and _state(shed, row) is Check.Checked


def test_another_start_unticks_in_words_and_going_back_ticks_again(shed: Window, qtbot: QtBot) -> None:
    shed.cut.list.setFocus()
    _key(shed, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    _key(shed, Qt.Key.Key_Space)
    shed.bench.apply("Move the start", lambda job: move_start(job, "A", (37.0, 53.0)))
    qtbot.waitUntil(lambda: shed.cut.is_ready)
    settle()
    assert "ticked for an earlier plan" in shed.cut.left_over.text() and shed.cut.left_over.isVisible()
    assert shed.cut.forget.isVisible()
    assert not shed.cut.progress.text().startswith("All")
    shed.bench.session.undo()
    qtbot.waitUntil(lambda: shed.cut.is_ready)
    settle()
    assert shed.cut.progress.text().startswith("All") and not shed.cut.left_over.isVisible()
    shed.bench.session.redo()
    qtbot.waitUntil(lambda: shed.cut.is_ready)
    settle()
    click(shed.cut.forget)
    assert not shed.cut.left_over.isVisible()
    assert shed.bench.session.undo_label == "Forget ticks"


def test_the_saw_and_the_use_of_offcuts_are_set_on_a_sheet(shed: Window, qtbot: QtBot) -> None:
    click(shed.cut.saw)
    (sheet,) = [each for each in shed.findChildren(SawSheet) if each.isVisible()]
    type_in(sheet.kerf, "3.2 mm")
    type_in(sheet.least, "60 mm")
    QTest.mouseClick(sheet.dressed, Qt.MouseButton.LeftButton, pos=QPoint(8, sheet.dressed.height() // 2))
    settle()
    saw = shed.bench.job.saw
    assert (saw.kerf, saw.least_offcut) == pytest.approx((3.2, 60.0)) and saw.dressed
    type_in(sheet.kerf, "80 mm")
    assert sheet.wrong.isVisible() and "kerf" in sheet.wrong.text()
    assert shed.bench.job.saw.kerf == pytest.approx(3.2)
    qtbot.waitUntil(lambda: shed.cut.is_ready)
    for _ in range(3):
        shed.bench.session.undo()
    settle()
    assert shed.bench.job.saw == potting_shed().saw
    assert not sheet.dressed.isChecked()


def test_a_floor_and_a_wall_have_one_list_and_a_row_brings_its_surface_to_the_front(two: Window) -> None:
    click(two.cut.views[CutView.SURFACE])
    headings = [row.group.heading for row in two.cut.rows.rows if hasattr(row, "group")]
    assert headings == ["Floor", "Wall"]
    assert "1 Floor, 2 Wall" in two.cut.about.text()
    on_wall = next(
        at
        for at in range(two.cut.rows.rowCount())
        if (line := two.cut.rows.line(at)) and line.pieces[0].startswith("2-")
    )
    shown = two.cut.ticks
    two.cut.list.go_to(on_wall)
    settle()
    assert two.bench.surface is not None and two.bench.surface.id == "wall"
    assert two.cut.ticks is shown, "it is the same list"
    line = two.cut.rows.line(on_wall)
    assert line is not None and two.cut.list.line is line
    assert two.board._lit == tuple(name.split("-", 1)[1] for name in line.pieces)


def test_a_layout_that_is_not_to_be_laid_says_so(shed: Window, qtbot: QtBot) -> None:
    other = replace(shed.bench.job.layouts[0], id="B", start=(60.0, 80.0))
    shed.bench.apply("Add", lambda job: replace(job, layouts=(*job.layouts, other)))
    shed.bench.show(layout="B")
    qtbot.waitUntil(lambda: shed.cut.is_ready)
    settle()
    assert "not the one to be laid" in shed.cut.about.text()
    shed.bench.show(layout="A")
    qtbot.waitUntil(lambda: shed.cut.is_ready)
    settle()
    assert not shed.cut.about.isVisible()


def test_nothing_can_be_ticked_while_fewer_tiles_are_looked_for(shed: Window) -> None:
    shed.cut.work.is_final = False
    shed.cut.refresh()
    assert "Looking for a plan with fewer tiles" in shed.cut.about.text()
    _press_box(shed, _first_line(shed))
    assert not shed.bench.job.cuts_made


def test_the_window_answers_while_the_list_is_made(qtbot: QtBot, tmp_path: Path) -> None:
    """The list of a large floor is made off the window's thread: events are handled in between."""
    floor = replace(rectangle(14_003, 9_007), id="floor")
    job = Job(surfaces=(floor,), tiles=(SQUARE,), layouts=(layout_of(SQUARE, start=(131.0, 77.0)),))
    window = bare_window(
        tmp_path / "settings", replace(job, layouts=(replace(job.layouts[0], surface="floor"),))
    )
    window.bench.show(stage=Stage.CUT)
    assert window.cut.invite.text() == "The cuts are being put in order."
    turns = 0
    while not window.cut.is_ready:
        QApplication.processEvents()
        turns += 1
        assert turns < 10_000_000
    assert turns > 3
    close(window)


def test_ticking_leaves_the_sheets_as_printed(shed: Window) -> None:
    shed.bench.mark_printed(shed.bench.job)
    _press_box(shed, _first_line(shed))
    assert shed.bench.is_printed
    assert shed.path.stops[Stage.CUT].accessibleName() == "Cut, answered"
    shed.bench.apply("Move the start", lambda job: move_start(job, "A", (37.0, 53.0)))
    assert not shed.bench.is_printed


def test_a_lit_or_chosen_piece_that_is_no_longer_laid_leaves_the_board_whole(shed: Window) -> None:
    shed.board.light_piece(("ZZ99",))
    shed.bench.choose(Pick(PickKind.PIECE, "floor", id="ZZ99"))
    settle()
    assert not shed.board.grab().isNull()
    assert shed.board.accessibleDescription() != ""


def test_the_first_cut_to_make_is_lit_when_the_list_comes(shed: Window) -> None:
    line = shed.cut.list.line
    assert line is not None and shed.board._lit == line.pieces
    assert shed.cut.drawing.isVisible() and line.title in shed.cut.drawing.accessibleName()
