"""Stock in the window, with real keys and mouse: offcuts, what is left, what to buy."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from tests.app.opened import click, close, press, settle, sheet_of, type_in
from tests.app.stocked import key, opened, room, tick, wait
from tests.cli.calls import SAMPLES
from tests.planning.jobs import job_of
from tests.rooms import HEXAGON, SQUARE, rectangle
from tilelayout.app.stock.buying_sheet import BuyingSheet
from tilelayout.app.stock.left_sheet import LeftSheet
from tilelayout.app.stock.offcuts_sheet import OffcutsSheet
from tilelayout.app.stock.take_sheet import TakeSheet
from tilelayout.app.window import Window
from tilelayout.job.ground import Breakage
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.stock_files import Stock, read_stock, write_stock
from tilelayout.planning.job_plan import job_plan
from tilelayout.planning.open_job import open_job
from tilelayout.planning.plan import plan
from tilelayout.planning.to_buy import to_buy
from tilelayout.planning.what_is_left import what_is_left

LEFT, RIGHT, LOWER, UPPER = TileSide


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window where the tile of the room is the question."""
    made = opened(tmp_path, room(per_box=8))
    yield made
    close(made)


# --- offcuts on hand -----------------------------------------------------------------------------------


def offcuts_sheet(window: Window) -> OffcutsSheet:
    """Open the offcuts by the button on the card."""
    click(window.tile.stock.offcuts)
    sheet = sheet_of(window)
    assert isinstance(sheet, OffcutsSheet)
    return sheet


def test_an_offcut_is_entered_and_laid(window: Window, qtbot: QtBot) -> None:
    sheet = offcuts_sheet(window)
    click(sheet.add)
    type_in(sheet.form.count, "5")
    type_in(sheet.form.width_, "200")
    type_in(sheet.form.lot, "K7")
    type_in(sheet.lot, "K7")
    tile = window.bench.job.tiles[0]
    assert tile.offcuts == (
        OffcutOnHand(length=297, width=200, factory=(LEFT, RIGHT, LOWER), lot="K7", count=5),
    )
    assert "5 of 297 mm × 200 mm, factory edges left, right, lower, lot K7" in sheet.list.item(0).text()
    press(sheet, "Close")
    wait(window, qtbot)
    assert window.tile.stock.offcuts.text().replace("&", "") == "5 offcuts…"
    assert window.bench.plan is not None and window.bench.plan.sharing.offcuts_used > 0


def test_each_entry_is_one_step_of_undo(window: Window) -> None:
    sheet = offcuts_sheet(window)
    click(sheet.add)
    type_in(sheet.form.width_, "200")
    window.bench.session.undo()
    settle()
    assert [each.width for each in window.bench.job.tiles[0].offcuts] == [148.5]
    assert sheet.form.width_.line.text() == "148.5 mm"
    window.bench.session.undo()
    settle()
    assert window.bench.job.tiles[0].offcuts == () and sheet.list.count() == 0
    assert sheet.none.isVisible() and not sheet.form.isVisible()


def factory_of(window: Window) -> tuple[TileSide, ...]:
    """The factory edges of the first offcut."""
    return window.bench.job.tiles[0].offcuts[0].factory


def test_size_and_factory_edges_bring_each_other_along(window: Window) -> None:
    sheet = offcuts_sheet(window)
    click(sheet.add)
    tick(sheet.form.edges[UPPER])
    assert window.bench.job.tiles[0].offcuts[0].width == 297
    type_in(sheet.form.length, "120")
    assert factory_of(window) == (LEFT, LOWER, UPPER)
    type_in(sheet.form.length, "297")
    assert factory_of(window) == (LEFT, RIGHT, LOWER, UPPER)


def test_what_cannot_be_is_said_and_changes_nothing(window: Window) -> None:
    sheet = offcuts_sheet(window)
    click(sheet.add)
    before = window.bench.job
    type_in(sheet.form.length, "400")
    assert window.bench.job is before
    assert "larger than its tile" in sheet.wrong.text() and sheet.wrong.isVisible()
    assert sheet.form.length.line.text() == "297 mm"
    tick(sheet.form.edges[LEFT])
    assert window.bench.job is before and sheet.form.edges[LEFT].isChecked()


def test_an_offcut_is_removed_by_its_key(window: Window) -> None:
    sheet = offcuts_sheet(window)
    click(sheet.add)
    click(sheet.add)
    type_in(sheet.form.count, "9")
    sheet.list.setFocus()
    key(sheet.list, Qt.Key.Key_Up)
    key(sheet.list, Qt.Key.Key_Delete)
    assert [each.count for each in window.bench.job.tiles[0].offcuts] == [9]
    key(sheet, Qt.Key.Key_Escape)
    assert not [each for each in window.findChildren(OffcutsSheet) if each.isVisible()]


def test_an_offcut_of_another_shape_has_corners(qtbot: QtBot, tmp_path: Path) -> None:
    window = opened(tmp_path, job_of(rectangle(1500, 1240), HEXAGON, pattern="hexagon"))
    sheet = offcuts_sheet(window)
    click(sheet.add)
    assert sheet.form.corners.isVisible() and not sheet.form.length.isVisible()
    type_in(sheet.form.corners, "0, 60; 228, 60; 228, 150")
    corners = [[0, 60], [228, 60], [228, 150]]
    assert [list(point) for point in window.bench.job.tiles[0].offcuts[0].outline] == corners
    type_in(sheet.form.corners, "0, 60; 228")
    assert "Three corners or more" in sheet.form.corners.wrong.text()
    sheet.reject()
    close(window)


# --- what is left ---------------------------------------------------------------------------------------


def test_what_is_left_is_kept_and_taken_into_the_next_job(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "shelf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_asked: (str(file), ""))
    window.actions_.by_id["keep-what-is-left"].trigger()
    sheet = sheet_of(window)
    assert isinstance(sheet, LeftSheet)
    wait(window, qtbot)
    press(sheet, "Keep in a file…")
    kept = read_stock(tmp_path / "shelf.tilestock")
    assert kept == what_is_left(job_plan(window.bench.job))
    assert sheet.state.text() == "Kept in shelf.tilestock."
    press(sheet, "Close")
    path = tmp_path / "shelf.tilestock"
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_asked: (str(path), ""))
    window.actions_.by_id["take-from-stock"].trigger()
    take = sheet_of(window)
    assert isinstance(take, TakeSheet)
    before = window.bench.job
    key(take.buttons[0], Qt.Key.Key_Space)
    taken = window.bench.job.tiles[0]
    assert (taken.whole_on_hand, taken.offcuts) == (kept.tiles[0].whole_on_hand, kept.tiles[0].offcuts)
    window.bench.session.undo()
    assert window.bench.job == before


def test_only_what_is_ticked_is_taken(window: Window, tmp_path: Path) -> None:
    other = replace(SQUARE, id="o", name="Other", whole_on_hand=2)
    stock = Stock(title="Shed", tiles=(replace(SQUARE, whole_on_hand=4), other))
    write_stock(stock, tmp_path / "s.tilestock")
    window.stock.take_from(tmp_path / "s.tilestock")
    sheet = sheet_of(window)
    assert isinstance(sheet, TakeSheet)
    key(sheet.ticks[0], Qt.Key.Key_Space)
    press(sheet, "Take what is ticked")
    assert [(tile.title, tile.whole_on_hand) for tile in window.bench.job.tiles] == [
        ("square", 0),
        ("Other", 2),
    ]


def test_a_stock_that_is_none_is_said(window: Window, tmp_path: Path) -> None:
    (tmp_path / "s.tilestock").write_text("{}")
    window.stock.take_from(tmp_path / "s.tilestock")
    assert 'Begin it with "format": "tilestock".' in sheet_of(window).words.text()
    sheet_of(window).reject()


def test_keeping_over_what_is_no_stock_is_refused(window: Window, tmp_path: Path) -> None:
    (tmp_path / "s.tilestock").write_text("mine")
    assert not window.stock.keep_in(Stock(), tmp_path / "s.tilestock")
    assert (tmp_path / "s.tilestock").read_text() == "mine"
    sheet_of(window).reject()


# --- what to buy ----------------------------------------------------------------------------------------


def buying_sheet(window: Window, qtbot: QtBot) -> BuyingSheet:
    """Open what to buy by the button on the card, and wait for it."""
    click(window.tile.stock.buying)
    sheet = sheet_of(window)
    assert isinstance(sheet, BuyingSheet)
    wait(window, qtbot)
    return sheet


def said(sheet: BuyingSheet) -> str:
    """Everything that the list says."""
    return "\n".join(label.text() for label in sheet.lines.findChildren(QWidget) if hasattr(label, "text"))


def breakage_of(window: Window) -> Breakage | None:
    """The allowances of the job."""
    return window.bench.job.breakage


def test_what_to_buy_says_each_line_and_what_sharing_saves(window: Window, qtbot: QtBot) -> None:
    sheet = buying_sheet(window, qtbot)
    made = plan(window.bench.job, "A")
    ((_, bought),) = to_buy(window.bench.job, made)
    words = said(sheet)
    assert (
        f"{made.tiles_needed} tiles are opened with offcuts shared, {made.sharing.without_sharing} without"
        in words
    )
    for name, count in (
        ("Laid whole", bought.whole),
        ("Opened to cut", bought.opened),
        ("Boxes", bought.boxes),
    ):
        assert f"{name}\n{count}\n" in words
    sheet.reject()


def test_breakage_and_spare_are_set_there_line_by_line(window: Window, qtbot: QtBot) -> None:
    sheet = buying_sheet(window, qtbot)
    type_in(sheet.allowances.rates["straight"], "4")
    type_in(sheet.allowances.spare, "6")
    wait(window, qtbot)
    assert breakage_of(window) == Breakage(straight=4)
    assert window.bench.job.tiles[0].spare == 6
    assert "1 in 4 of" in said(sheet) and "Spare\n6\n" in said(sheet)
    window.bench.session.undo()
    window.bench.session.undo()
    wait(window, qtbot)
    assert breakage_of(window) is None and "1 in 50 of" in said(sheet)
    sheet.reject()


def test_a_percentage_is_taken_only_if_a_person_sets_one(window: Window, qtbot: QtBot) -> None:
    """Ten per cent of the tiles laid whole and opened, rounded up: a sum."""
    sheet = buying_sheet(window, qtbot)
    needed = plan(window.bench.job, "A").tiles_needed
    type_in(sheet.allowances.outright["percent"], "10")
    wait(window, qtbot)
    assert f"Breakage\n{-(-needed // 10)}\n10 % of {needed} tiles, as set" in said(sheet)
    assert not sheet.allowances.rates["straight"].isEnabled()
    type_in(sheet.allowances.outright["tiles"], "2")
    wait(window, qtbot)
    assert breakage_of(window) == Breakage(tiles=2)
    assert "Breakage\n2\nas set" in said(sheet)
    type_in(sheet.allowances.outright["tiles"], "")
    assert breakage_of(window) is None
    sheet.reject()


def test_card_and_list_say_the_same_numbers(qtbot: QtBot, tmp_path: Path) -> None:
    """Counts on the card come of the shared tiles, also those of each of several tiles."""
    job = open_job(SAMPLES / "garden_room.tilejob")
    window = opened(tmp_path, job)
    wait(window, qtbot)
    made = plan(window.bench.job, "A")
    boxes = sum(bought.boxes or 0 for _, bought in to_buy(window.bench.job, made))
    assert [figure.numeral.text() for figure in window.tile.figures[:2]] == [
        str(made.tiles_needed),
        str(boxes),
    ]
    for count in made.by_tile:
        assert f"{count.tile.title}: {count.needed} " in window.tile.roles.counts.text()
    close(window)
