"""Whole tasks as a person does them: by mouse, by keyboard alone, from an empty window to a PDF."""

from __future__ import annotations

from pathlib import Path

import pdfplumber
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from tests.app.opened import click, on_board, press, settle, type_in
from tilelayout.app.bench import Stage
from tilelayout.app.samples import samples
from tilelayout.app.window import Window
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits.jobs import set_show_lengths
from tilelayout.job.values import Cutout, RectangleTile, SurfaceKind
from tilelayout.planning.saw_list import saw_list
from tilelayout.planning.saw_words import setting_words

FOOT = 304.8


def _export(window: Window, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, path: Path) -> list[str]:
    """Save the sheets by the button of the card and return the text of every page."""
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_asked: (str(path), ""))
    click(window.cut.next_button)
    sheet = window.place.printing.sheet
    assert sheet is not None
    press(sheet, "Save as PDF…")
    pull = sheet.pull
    assert pull is not None
    qtbot.waitUntil(lambda: "Saved as" in sheet.said.text(), timeout=60_000)
    press(sheet, "Close")
    with pdfplumber.open(path) as document:
        return [page.extract_text() for page in document.pages]


def _outline(window: Window) -> tuple[tuple[float, float], ...]:
    return window.bench.job.surfaces[0].outline


def _cutouts(window: Window) -> tuple[Cutout, ...]:
    return window.bench.job.surfaces[0].cutouts


def _layouts(window: Window) -> list[str]:
    return [layout.id for layout in window.bench.job.layouts]


def test_a_new_user_draws_a_room_picks_a_tile_and_prints_a_cut_list(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.measure.units.choose(LengthStyle.FEET)
    click(window.invitation.by_mouse)
    board = window.board
    assert window.middle.currentWidget() is board
    QTest.mouseClick(board, Qt.MouseButton.LeftButton, pos=on_board(window, 0, 0))
    QTest.mouseMove(board, on_board(window, 2000, 1500))
    settle()
    typing = QTest.keyClicks
    typing(board, "12")
    field = board.focusWidget() or board
    typing(field, "'")
    QTest.keyClick(field, Qt.Key.Key_Tab)
    field = window.focusWidget() or board
    typing(field, "8'")
    QTest.keyClick(window.focusWidget() or board, Qt.Key.Key_Return)
    settle()
    (room,) = window.bench.job.surfaces
    across, up = zip(*room.outline, strict=True)
    assert max(across) - min(across) == pytest.approx(12 * FOOT)
    assert max(up) - min(up) == pytest.approx(8 * FOOT)

    click(window.measure.next_button)
    click(window.tile.adds[0])
    plan = window.bench.plan
    assert plan is not None
    assert isinstance(plan.tile, RectangleTile)
    assert plan.tile.length == pytest.approx(FOOT)

    click(window.tile.next_button)
    click(window.set_out.centres[1])
    click(window.set_out.next_button)
    assert window.bench.stage is Stage.CUT
    laid = window.bench.plan
    assert laid is not None
    qtbot.waitUntil(lambda: window.cut.is_ready)
    assert window.cut.rows.rowCount() > 0

    pages = _export(window, qtbot, monkeypatch, tmp_path / "room.pdf")
    assert f"Page 1 of {len(pages)}" in pages[0]
    text = "\n".join(pages)
    assert "12'" in text and "8'" in text
    for setting in saw_list(laid).settings:
        assert setting_words(setting, laid.style) in text
    assert all(piece.id in text for row in laid.cut_rows for piece in row.pieces)
    assert window.path.stops[Stage.CUT].accessibleName() == "Cut, answered"


def test_a_job_begins_with_a_wall(window: Window) -> None:
    click(window.invitation.kinds[SurfaceKind.WALL])
    assert window.invitation.add.accessibleName() == "Make a wall of this size"
    window.invitation.room.deep.enter("2500")
    click(window.invitation.add)
    (wall,) = window.bench.job.surfaces
    assert wall.kind is SurfaceKind.WALL
    assert max(y for _, y in wall.outline) == 2500


def test_the_job_is_named_in_the_window(window: Window) -> None:
    click(window.invitation.add)
    type_in(window.measure.job_name, "Bathroom upstairs")
    assert window.bench.job.title == "Bathroom upstairs"
    window.bench.session.undo()
    settle()
    assert window.measure.job_name.line.text() == ""


def test_a_wall_is_drawn_from_an_empty_window(window: Window) -> None:
    click(window.invitation.kinds[SurfaceKind.WALL])
    click(window.invitation.by_mouse)
    QTest.keyClicks(window.board, "3000")
    QTest.keyClick(window.focusWidget() or window.board, Qt.Key.Key_Tab)
    QTest.keyClicks(window.focusWidget() or window.board, "2400")
    QTest.keyClick(window.focusWidget() or window.board, Qt.Key.Key_Return)
    settle()
    assert [surface.kind for surface in window.bench.job.surfaces] == [SurfaceKind.WALL]


def test_a_room_is_drawn_corner_by_corner(window: Window) -> None:
    click(window.invitation.by_corners)
    corners = [(0, 0), (3000, 0), (3000, 2000), (0, 2000)]
    for x, y in [*corners, corners[0]]:
        QTest.mouseMove(window.board, on_board(window, x, y))
        QTest.mouseClick(window.board, Qt.MouseButton.LeftButton, pos=on_board(window, x, y))
        settle()
    (room,) = window.bench.job.surfaces
    assert [(round(x), round(y)) for x, y in room.outline] == corners
    assert window.board.tool == "select"
    assert window.bench.surface is room


def test_by_keyboard_alone_from_an_empty_window_to_the_cut_list(window: Window, qtbot: QtBot) -> None:
    window.activateWindow()
    qtbot.waitActive(window)

    def key(code: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        QTest.keyClick(window.focusWidget() or window, code, held)
        settle()

    alt, ctrl = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
    assert window.invitation.by_mouse.hasFocus()
    key(Qt.Key.Key_Space)
    assert window.board.hasFocus()
    QTest.keyClicks(window.board, "3")
    QTest.keyClicks(window.focusWidget() or window.board, "600")
    key(Qt.Key.Key_Tab)
    QTest.keyClicks(window.focusWidget() or window.board, "2400")
    key(Qt.Key.Key_Return)
    (room,) = window.bench.job.surfaces
    assert sorted(room.outline) == [(0, 0), (0, 2400), (3600, 0), (3600, 2400)]

    key(Qt.Key.Key_2, ctrl)
    assert window.bench.stage is Stage.TILE
    _press_access_key(window, window.tile.adds[1].text(), alt)
    qtbot.waitUntil(lambda: window.bench.layout is not None)
    key(Qt.Key.Key_4, ctrl)
    _press_access_key(window, window.set_out.centres[1].text(), alt)
    qtbot.waitUntil(lambda: window.bench.session.undo_label == "Centre the layout")
    key(Qt.Key.Key_F7)
    assert window.set_out.seek.find.hasFocus()
    type_in(window.set_out.from_left, "250")
    layout = window.bench.layout
    assert layout is not None and layout.start[0] == 250
    key(Qt.Key.Key_5, ctrl)
    assert window.compare.isVisible()
    key(Qt.Key.Key_6, ctrl)
    qtbot.waitUntil(lambda: window.cut.is_ready)
    window.cut.list.setFocus()
    key(Qt.Key.Key_Down)
    assert window.cut.list.currentIndex().isValid()
    key(Qt.Key.Key_F6)
    assert window.board.hasFocus()


def _press_access_key(window: Window, text: str, held: Qt.KeyboardModifier) -> None:
    letter = text[text.index("&") + 1].upper()
    QTest.keyClick(window, Qt.Key[f"Key_{letter}"], held)
    settle()


def test_tab_leads_through_the_whole_window_and_is_never_caught(window: Window) -> None:
    click(window.invitation.add)
    window.bench.show(stage=Stage.SET_OUT)
    settle()
    window.board.setFocus()
    seen = []
    for _ in range(80):
        QTest.keyClick(window.focusWidget() or window, Qt.Key.Key_Tab)
        seen.append(window.focusWidget())
        if seen[-1] is window.board:
            break
    assert seen[-1] is window.board
    names = {widget.accessibleName() for widget in seen if widget is not None}
    assert any(name.startswith("Measure") for name in names)
    assert window.foot.zoom.accessibleName() in names


@pytest.mark.parametrize("number", range(6))
def test_a_sample_room_opens_and_shows_every_question(window: Window, qtbot: QtBot, number: int) -> None:
    path, job = samples()[number]
    window.documents.open_sample(job)
    settle()
    assert window.bench.job is job
    assert not window.bench.session.is_modified
    assert window.bench.session.path is None, f"{path.name} is not overwritten by saving"
    for stage in Stage:
        window.bench.show(stage=stage)
        settle()
        shown = window.compare if stage is Stage.COMPARE else window.board
        assert shown.isVisible()
    assert window.bench.plan is not None, window.bench.trouble
    qtbot.waitUntil(lambda: window.cut.rows.rowCount() > 0)


def test_a_wall_is_made_longer_by_typing(window: Window) -> None:
    click(window.invitation.add)
    window.bench.choose(Pick(PickKind.EDGE, "floor", 0))
    type_in(window.measure.edge.length, "4 m")
    assert _outline(window) == ((0, 0), (4000, 0), (4000, 2400), (0, 2400))
    assert window.measure.edge.length.line.text() == "4000 mm"
    type_in(window.measure.edge.length, "four")
    assert "four" in window.measure.edge.length.wrong.text()
    assert _outline(window)[1] == (4000, 0)
    QTest.keyClick(window.measure.edge.length.line, Qt.Key.Key_Escape)
    assert window.measure.edge.length.line.text() == "4000 mm"


def test_a_wall_bows_and_is_named_and_hidden_by_typing(window: Window) -> None:
    click(window.invitation.add)
    window.bench.choose(Pick(PickKind.EDGE, "floor", 1))
    edge = window.measure.edge
    type_in(edge.bow, "200")
    type_in(edge.name, "Bay")
    edge.seen.choose(edge.seen._values[2])
    edge.role.choose(edge.role._values[1])
    made = window.bench.job.surfaces[0].edge(1)
    assert made.through == pytest.approx((3800, 1200))
    assert (made.name, made.seen, made.role) == ("Bay", "hidden", "doorway")
    type_in(edge.bow, "0")
    assert window.bench.job.surfaces[0].edge(1).through is None


def test_a_cutout_is_placed_and_sized_by_typing(window: Window) -> None:
    click(window.invitation.add)
    window.measure.add_box.click()
    cutout = window.measure.cutout
    for box, text in ((cutout.x, "300"), (cutout.y, "400"), (cutout.width, "120"), (cutout.clearance, "3")):
        type_in(box, text)
    type_in(cutout.name, "post")
    (made,) = _cutouts(window)
    assert made.polygon is not None
    assert made.polygon[:2] == ((300, 400), (420, 400))
    assert (made.name, made.clearance) == ("post", 3)
    cutout.remove.click()
    assert _cutouts(window) == ()


def test_a_corner_is_moved_added_and_removed_by_keys(window: Window) -> None:
    click(window.invitation.add)
    window.measure.places.choose(Pick(PickKind.EDGE, "floor", 2))
    window.measure.edge.insert.click()
    assert window.bench.chosen == Pick(PickKind.CORNER, "floor", 3)
    type_in(window.measure.corner.y, "3000")
    assert _outline(window)[3] == (1800, 3000)
    window.measure.corner.remove.click()
    assert len(_outline(window)) == 4


def test_dragging_the_start_shows_its_place_as_it_goes(window: Window) -> None:
    click(window.invitation.add)
    window.bench.show(stage=Stage.TILE)
    window.tile.adds[1].click()
    window.bench.show(stage=Stage.SET_OUT)
    settle()
    window.board.use_tool("drag_start")
    layout = window.bench.layout
    assert layout is not None
    start = on_board(window, *layout.start)
    past = len(window.bench.session._history.past)
    QTest.mousePress(window.board, Qt.MouseButton.LeftButton, pos=start)
    shown = []
    for step in range(1, 6):
        QTest.mouseMove(window.board, start + QPoint(9 * step, -6 * step))
        settle()
        shown.append(window.set_out.from_left.line.text())
    QTest.mouseRelease(window.board, Qt.MouseButton.LeftButton, pos=start + QPoint(45, -30))
    settle()
    moved = window.bench.layout
    assert moved is not None and moved.start[0] > layout.start[0]
    assert len(set(shown)) > 1
    assert len(window.bench.session._history.past) == past + 1, "a drag is one step"


def test_units_change_nothing_but_how_lengths_are_written(window: Window) -> None:
    click(window.invitation.add)
    before = window.bench.job.surfaces[0]
    for style in LengthStyle:
        window.measure.units.choose(style)
        assert window.bench.job.surfaces[0] is before
    assert set_show_lengths(window.bench.job, LengthStyle.MM).surfaces[0] is before


def test_what_else_is_known_of_a_tile_is_folded_away_and_typed(window: Window) -> None:
    click(window.invitation.add)
    window.bench.show(stage=Stage.TILE)
    window.tile.adds[0].click()
    settle()
    more = window.tile.more
    assert not more.thickness.isVisible()
    more.unfold.click()
    assert more.thickness.isVisible()
    type_in(more.thickness, "8.5")
    type_in(more.per_box, "6")
    type_in(more.price, "21,90")
    more.directional.click()
    (tile,) = window.bench.job.tiles
    assert (tile.thickness, tile.per_box, tile.price_per_box) == (8.5, 6, 21.9)
    assert tile.directional
    type_in(more.per_box, "half a dozen")
    assert "8" in more.per_box.wrong.text()
    type_in(more.per_box, "")
    assert window.bench.job.tiles[0].per_box is None


def test_rows_are_shifted_by_typing_and_by_picture(window: Window) -> None:
    click(window.invitation.add)
    window.bench.show(stage=Stage.TILE)
    window.tile.adds[1].click()
    settle()
    pictures = {button.text(): button for button in window.tile.ways.buttons}
    pictures["Half bond"].click()
    settle()
    assert window.tile.offsets.line.text() == "0, 1/2"
    assert pictures["Half bond"].isChecked()
    type_in(window.tile.offsets, "0, 1/5")
    layout = window.bench.layout
    assert layout is not None and layout.settings == {"row_offsets": (0.0, 0.2)}
    assert not any(button.isChecked() for button in window.tile.ways.buttons)
    pictures["Herringbone"].click()
    settle()
    assert window.bench.plan is not None and window.bench.plan.layout.pattern == "herringbone"
    assert not window.tile.offsets.isVisible()


def test_layouts_are_added_named_and_removed(window: Window) -> None:
    click(window.invitation.add)
    window.bench.show(stage=Stage.TILE)
    window.tile.adds[0].click()
    window.bench.show(stage=Stage.SET_OUT)
    settle()
    window.set_out.another.click()
    assert _layouts(window) == ["A", "B"]
    assert window.bench.layout is window.bench.job.layouts[1]
    type_in(window.set_out.angle, "45")
    assert [layout.angle for layout in window.bench.job.layouts] == [0, 45]
    window.set_out.layouts.choose("A")
    assert window.bench.layout is window.bench.job.layouts[0]
    window.set_out.remove.click()
    assert _layouts(window) == ["B"]
