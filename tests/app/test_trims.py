"""Trims in the window: their sheet by mouse and keyboard, the band on the board."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.app.opened import click, on_board, settle, sheet_of, type_in
from tests.app.test_rule_findings import show_shed
from tilelayout.app.bench import Stage
from tilelayout.app.progress import Level
from tilelayout.app.stock.working_sheet import WorkingSheet
from tilelayout.app.trims.sheet import TrimsSheet
from tilelayout.app.window import Window
from tilelayout.job.ground import Trim
from tilelayout.job.kinds import TrimCorners, TrimKind
from tilelayout.job.values import EdgeRole

IN = 25.4


def opened(window: Window) -> TrimsSheet:
    show_shed(window, Stage.MEASURE)
    click(window.measure.trims)
    sheet = sheet_of(window)
    assert isinstance(sheet, TrimsSheet)
    return sheet


def trims(window: Window) -> tuple[Trim, ...]:
    surface = window.bench.surface
    assert surface is not None
    return surface.trims


def test_a_trim_is_added_and_says_how_many_strips_a_tile_gives_and_why(window: Window) -> None:
    sheet = opened(window)
    assert not sheet.one.isVisible()
    click(sheet.add)
    (made,) = trims(window)
    assert (made.kind, made.height, made.edges) == (TrimKind.BASE, 76.2, ())
    assert sheet.height_box.line.hasFocus()
    assert (
        "2 to a tile, for each shows one of its 2 factory edges; 3 if sawn edges may show" in sheet.why.text()
    )
    click(sheet.factory)
    assert "3 to a tile" in sheet.why.text()
    assert "for each shows" not in sheet.why.text()
    assert sheet.drawing.isVisible()
    sheet.reject()


def test_a_tile_that_grew_too_small_for_its_trim_is_said_wherever_tiles_are_counted(
    window: Window, qtbot: QtBot
) -> None:
    sheet = opened(window)
    click(sheet.add)
    sheet.reject()
    window.bench.show(stage=Stage.TILE)
    window.tile.sizes.lengths["width"].enter("2")
    settle()
    assert "No strip of 3" in window.foot.words.accessibleName()
    assert window.foot.mark.level is Level.STOP
    qtbot.waitUntil(lambda: "Whole job: No strip" in window.tile.stock.said, timeout=20_000)
    click(window.tile.stock.buying)
    buying = sheet_of(window)
    assert isinstance(buying, WorkingSheet)
    qtbot.waitUntil(lambda: "No strip of 3" in buying.state.text(), timeout=20_000)
    buying.reject()
    window.bench.show(stage=Stage.CUT)
    qtbot.waitUntil(lambda: window.cut.is_ready, timeout=20_000)
    assert window.cut.ticks is not None and "No strip of 3" in window.cut.ticks.found.of.trouble


def test_the_doorway_is_left_out_and_each_wall_says_its_length(window: Window) -> None:
    sheet = opened(window)
    click(sheet.add)
    names = [tick.text() for tick in sheet.edges if tick.isChecked()]
    assert "Garden door" not in names
    assert "Bench wall" in names
    assert any(line.startswith('Bench wall: 99"') for line in sheet.runs.text().split("\n"))
    assert "Garden door:" not in sheet.runs.text()
    sheet.reject()


def test_a_wall_is_left_out_and_taken_in_again(window: Window) -> None:
    sheet = opened(window)
    click(sheet.add)
    last = len(sheet.edges) - 1
    sheet.edges[last].setFocus()
    QTest.keyClick(sheet.edges[last], Qt.Key.Key_Space)
    settle()
    assert last not in trims(window)[0].edges
    assert "Bench wall" not in sheet.runs.text()
    QTest.keyClick(sheet.edges[last], Qt.Key.Key_Space)
    settle()
    assert trims(window)[0].edges == ()
    sheet.reject()


def test_the_last_edge_stays(window: Window) -> None:
    sheet = opened(window)
    click(sheet.add)
    surface = window.bench.surface
    assert surface is not None
    walls = [at for at in range(len(surface.outline)) if surface.edge(at).role is EdgeRole.WALL]
    for at in walls:
        click(sheet.edges[at])
    assert len(trims(window)[0].edges) == 1
    assert "one edge at the least" in sheet.wrong.text()
    assert sheet.edges[walls[-1]].isChecked()
    sheet.reject()


def test_a_strip_higher_than_the_tile_is_wide_is_refused_with_the_reason(window: Window) -> None:
    sheet = opened(window)
    click(sheet.add)
    type_in(sheet.height_box, '20"')
    assert trims(window)[0].height == 76.2
    assert sheet.wrong.isVisible()
    assert 'No strip of 20" can be sawn' in sheet.wrong.text()
    sheet.reject()


def test_a_threshold_runs_along_the_doorway(window: Window) -> None:
    sheet = opened(window)
    click(sheet.add)
    sheet.kind.choose(TrimKind.THRESHOLD)
    sheet.corners.choose(TrimCorners.MITRE)
    settle()
    assert (trims(window)[0].edges, trims(window)[0].corners) == ((2,), TrimCorners.MITRE)
    assert sheet.runs.text().startswith("Garden door: 34")
    sheet.reject()


def test_several_trims_are_chosen_between_removed_and_undone(window: Window) -> None:
    sheet = opened(window)
    assert not sheet.trims.isVisible()
    click(sheet.add)
    click(sheet.add)
    type_in(sheet.height_box, '4"')
    assert [each.height for each in trims(window)] == [76.2, 101.6]
    sheet.trims.choose(0)
    settle()
    assert sheet.height_box.line.text() == '3"'
    click(sheet.remove)
    assert [each.height for each in trims(window)] == [101.6]
    QTest.keySequence(sheet, "Ctrl+Z")
    settle()
    assert len(trims(window)) == 2
    sheet.reject()


def test_without_a_rectangle_the_sheet_says_what_to_do(window: Window) -> None:
    window.measure.room.wide.enter("3 m")
    window.measure.room.deep.enter("2 m")
    window.measure.add_floor.click()
    settle()
    click(window.measure.trims)
    sheet = sheet_of(window)
    assert isinstance(sheet, TrimsSheet)
    assert not sheet.add.isEnabled()
    assert "Enter one first" in sheet.wrong.text()
    sheet.reject()


def test_the_band_is_drawn_along_the_walls_and_not_in_the_doorway(window: Window) -> None:
    show_shed(window, Stage.MEASURE)
    window.board.fit()
    settle()
    at_wall, at_door = on_board(window, 2.0, 1500.0), on_board(window, 40 * IN + 300, -60.0)
    before = window.board.grab().toImage()
    click(window.measure.trims)
    sheet = sheet_of(window)
    assert isinstance(sheet, TrimsSheet)
    click(sheet.add)
    sheet.reject()
    settle()
    after = window.board.grab().toImage()
    changed = [
        any(
            before.pixel(place.x() + dx, place.y() + dy) != after.pixel(place.x() + dx, place.y() + dy)
            for dx in range(5)
            for dy in range(5)
        )
        for place in (at_wall, at_door)
    ]
    assert changed == [True, False]
