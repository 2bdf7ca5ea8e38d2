"""A tile that a person draws: with the mouse, with typed sizes, by keys alone; checked, used, undone."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, close, potting_shed, press, settle, sheet_of, type_in
from tilelayout.app.bench import Stage
from tilelayout.app.draw_tile.scratch import draft_in
from tilelayout.app.draw_tile.sheet import DrawTileSheet
from tilelayout.app.window import Window
from tilelayout.job.files import job_to_bytes
from tilelayout.job.values import PolygonTile
from tilelayout.layout.drafts import Draft


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window on a floor with an oblong tile that is laid."""
    made = bare_window(tmp_path / "settings", potting_shed())
    made.bench.show(stage=Stage.TILE)
    settle()
    yield made
    close(made)


def opened(window: Window, qtbot: QtBot) -> DrawTileSheet:
    """Choose the drawn shape and wait until the draft is looked at."""
    window.tile.sizes.shape.choose("polygon")
    settle()
    sheet = sheet_of(window)
    assert isinstance(sheet, DrawTileSheet)
    looked_at(sheet, qtbot)
    return sheet


def shown_shape(window: Window) -> object:
    return window.tile.sizes.shape.value


def looked_at(sheet: DrawTileSheet, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: sheet.fit is not None, timeout=10_000)
    settle()


def draft(sheet: DrawTileSheet) -> Draft:
    return draft_in(sheet.session.job)


def at(sheet: DrawTileSheet, x: float, y: float) -> QPoint:
    return sheet.board.view.to_screen(x, y).toPoint()


def drag(sheet: DrawTileSheet, start: tuple[float, float], end: tuple[float, float]) -> None:
    board, left = sheet.board, Qt.MouseButton.LeftButton
    QTest.mouseMove(board, at(sheet, *start))
    QTest.mousePress(board, left, pos=at(sheet, *start))
    for share in (0.3, 0.7, 1.0):
        x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
        QTest.mouseMove(board, at(sheet, x, y))
        settle()
    QTest.mouseRelease(board, left, pos=at(sheet, *end))
    settle()


def type_keys(sheet: DrawTileSheet, text: str, last: Qt.Key) -> None:
    """Type letter by letter into whatever has the focus, which the first letter may move to a box."""

    def focus() -> QWidget:
        found = sheet.focusWidget()
        assert found is not None
        return found

    for letter in text:
        QTest.keyClicks(focus(), letter)
        settle()
    QTest.keyClick(focus(), last)
    settle()


def draw_rectangle(sheet: DrawTileSheet, width: float, height: float) -> None:
    sheet.questions.buttons["Draw a rectangle"].click()
    type_keys(sheet, f"{width:g} mm", Qt.Key.Key_Tab)
    type_keys(sheet, f"{height:g} mm", Qt.Key.Key_Return)


def test_it_begins_with_the_tile_there_is_and_closes_without_a_trace(window: Window, qtbot: QtBot) -> None:
    before = window.bench.job
    sheet = opened(window, qtbot)
    assert sheet.fit is not None and sheet.fit.fills
    assert "fill the plane" in sheet.said.text() and sheet.use_button.isEnabled()
    press(sheet, "Cancel")
    assert window.bench.job is before
    assert window.tile.sizes.shape.value == "rectangle"


def test_a_side_is_dragged_and_the_vector_that_would_do_is_said_and_taken(
    window: Window, qtbot: QtBot
) -> None:
    sheet = opened(window, qtbot)
    width, depth = (max(values) for values in zip(*draft(sheet).outlines[0], strict=True))
    drag(sheet, (width / 2, depth), (width / 2, depth + 50.0))
    looked_at(sheet, qtbot)
    grown = max(y for _, y in draft(sheet).outlines[0])
    assert grown > depth + 30.0
    assert "overlap by" in sheet.said.text() and "Vector 2 would have to be" in sheet.said.text()
    assert not sheet.use_button.isEnabled()
    sheet.take_button.click()
    looked_at(sheet, qtbot)
    assert sheet.use_button.isEnabled()
    assert draft(sheet).vectors[1] == pytest.approx((0.0, grown + draft(sheet).joint))


def test_the_tip_of_a_vector_is_dragged_to_where_tiles_touch(window: Window, qtbot: QtBot) -> None:
    sheet = opened(window, qtbot)
    width, depth = (max(values) for values in zip(*draft(sheet).outlines[0], strict=True))
    right = draft(sheet).vectors[1]
    tip = (width / 2, depth / 2 + right[1])
    drag(sheet, tip, (tip[0] + 40.0, tip[1] + 60.0))
    looked_at(sheet, qtbot)
    assert draft(sheet).vectors[1] != right and "apart" in sheet.said.text()
    there = draft(sheet).vectors[1]
    tip = (width / 2 + there[0], depth / 2 + there[1])
    drag(sheet, tip, (width / 2 + 2.0, depth / 2 + right[1] + 2.0))
    looked_at(sheet, qtbot)
    assert draft(sheet).vectors[1] == pytest.approx(right)
    QTest.keySequence(sheet.board, "Ctrl+Z")
    settle()
    assert draft(sheet).vectors[1] == pytest.approx(there)


def test_a_tile_is_drawn_by_keys_alone_and_used(window: Window, qtbot: QtBot) -> None:
    """An L of 300 and 150 mm, corner by corner by length and angle; the first outline is taken away."""
    sheet = opened(window, qtbot)
    sheet.questions.buttons["Draw corner by corner"].click()
    board = sheet.board
    QTest.keyClick(board, Qt.Key.Key_Return)
    for length, angle in ((297, 0), (147, 90), (150, 180), (150, 90), (147, 180)):
        type_keys(sheet, f"{length} mm", Qt.Key.Key_Tab)
        type_keys(sheet, str(angle), Qt.Key.Key_Return)
    QTest.keyClick(board, Qt.Key.Key_Return)
    settle()
    assert len(draft(sheet).outlines) == 2
    sheet.questions.tiles.choose(sheet.session.job.surfaces[0].id)
    settle()
    sheet.questions.buttons["Remove"].click()
    type_in(sheet.questions.joint, "3 mm")
    looked_at(sheet, qtbot)
    (outline,) = draft(sheet).outlines
    assert set(outline) == {(0, 0), (297, 0), (297, 147), (147, 147), (147, 297), (0, 297)}
    sheet.find_button.click()
    qtbot.waitUntil(lambda: sheet.fit is not None and sheet.fit.fills, timeout=10_000)
    press(sheet, "Use this tile")
    tile, layout = window.bench.tile, window.bench.layout
    assert isinstance(tile, PolygonTile) and layout is not None
    assert (layout.pattern, layout.joint) == ("drawn", 3.0)
    assert set(layout.settings) == {"vectors"}
    assert window.bench.plan is not None and window.bench.plan.whole > 0
    assert shown_shape(window) == "polygon"
    assert b'"shape": "polygon"' in job_to_bytes(window.bench.job)
    window.bench.session.undo()
    assert shown_shape(window) == "rectangle"


def test_two_tiles_of_a_cell_become_two_tiles_of_the_job(window: Window, qtbot: QtBot) -> None:
    sheet = opened(window, qtbot)
    length, width = draft(sheet).outlines[0][2]
    draw_rectangle(sheet, width, width)
    assert len(draft(sheet).outlines) == 2
    joint = draft(sheet).joint
    type_in(sheet.questions.across, f"{length + joint} mm")
    looked_at(sheet, qtbot)
    assert sheet.take_button.isVisible()
    sheet.take_button.click()
    looked_at(sheet, qtbot)
    assert sheet.fit is not None and sheet.fit.fills
    press(sheet, "Use this tile")
    layout = window.bench.layout
    assert layout is not None and list(layout.more_tiles) == ["tile-2"]
    assert [face.get("tile", "") for face in layout.settings["faces"]] == ["", "tile-2"]
    assert window.bench.plan is not None and len(window.bench.plan.by_tile) == 2
    again = opened(window, qtbot)
    assert len(draft(again).outlines) == 2 and again.fit is not None and again.fit.fills
    press(again, "Cancel")


def test_what_the_job_refuses_stays_on_the_sheet(window: Window, qtbot: QtBot) -> None:
    sheet = opened(window, qtbot)
    before = window.bench.job
    draw_rectangle(sheet, 5200.0, 300.0)
    sheet.questions.tiles.choose(sheet.session.job.surfaces[0].id)
    settle()
    sheet.questions.buttons["Remove"].click()
    sheet.find_button.click()
    qtbot.waitUntil(lambda: sheet.fit is not None and sheet.fit.fills, timeout=10_000)
    press(sheet, "Use this tile")
    assert sheet.isVisible() and sheet.refused.text().startswith("The size of the tile is")
    assert window.bench.job is before
    press(sheet, "Cancel")


def test_a_half_turned_copy_of_a_wedge_is_the_same_tile_again(window: Window, qtbot: QtBot) -> None:
    """A rectangle whose upper right corner is pulled in, and its copy, fill the plane by two (Conway)."""
    sheet = opened(window, qtbot)
    length, width = draft(sheet).outlines[0][2]
    drag(sheet, (length, width), (length - 100.0, width))
    (outline,) = draft(sheet).outlines
    assert outline[2][0] < length - 50.0
    looked_at(sheet, qtbot)
    assert "No vectors are found" in sheet.said.text()
    sheet.find_button.click()
    qtbot.waitUntil(lambda: len(draft(sheet).outlines) == 2, timeout=10_000)
    looked_at(sheet, qtbot)
    assert sheet.fit is not None and sheet.fit.fills
    press(sheet, "Use this tile")
    layout = window.bench.layout
    assert layout is not None and not layout.more_tiles
    assert [face["turn"] for face in layout.settings["faces"]] == [0.0, 180.0]
    assert window.bench.plan is not None and not window.bench.trouble


def test_the_last_tile_of_a_cell_cannot_be_removed(window: Window, qtbot: QtBot) -> None:
    sheet = opened(window, qtbot)
    assert not sheet.questions.buttons["Remove"].isEnabled()
    sheet.questions.buttons["Copy"].click()
    settle()
    assert sheet.questions.buttons["Remove"].isEnabled()
    sheet.undo.click()
    settle()
    assert len(draft(sheet).outlines) == 1 and sheet.redo.isEnabled()
    press(sheet, "Cancel")


def test_everything_on_the_sheet_has_a_name_and_none_speaks_of_walls(window: Window, qtbot: QtBot) -> None:
    sheet = opened(window, qtbot)
    for button in sheet.findChildren(QPushButton):
        assert button.text() and not button.isDefault()
    for line in sheet.questions.findChildren(QLineEdit):
        assert line.accessibleName()
    for tool in ("draw_surface", "draw_rectangle", "select"):
        sheet.board.use_tool(tool)
        assert "wall" not in sheet.hint.text() and sheet.hint.text()
    press(sheet, "Cancel")


def test_enter_in_a_box_of_the_sheet_does_not_use_the_tile(window: Window, qtbot: QtBot) -> None:
    sheet = opened(window, qtbot)
    box = sheet.questions.vectors[0][0].line
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Return)
    settle()
    assert sheet.isVisible()
    QTest.keyClick(sheet.board, Qt.Key.Key_Return)
    settle()
    assert sheet.isVisible()
    press(sheet, "Cancel")
