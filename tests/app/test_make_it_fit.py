"""Making a layout fit what is on hand, in the window, with real keys and mouse."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from tests.app.opened import click, close, press, settle, sheet_of
from tests.app.stocked import PATIENCE_MS, key, opened, room, wait
from tests.planning.jobs import job_of
from tests.rooms import SQUARE, rectangle
from tilelayout.app.stock import fit_sheet
from tilelayout.app.stock.fit_sheet import FitSheet
from tilelayout.app.window import Window
from tilelayout.job.values import Job
from tilelayout.planning.make_it_fit import FitStep
from tilelayout.planning.plan import plan


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window where the tile of the room is the question."""
    made = opened(tmp_path, room(per_box=8))
    yield made
    close(made)


def fit_window(folder: Path) -> Window:
    """A window on a room for which one tile is missing."""
    job = job_of(rectangle(1820, 1840), SQUARE, start=(161.0, 150.0))
    needed = plan(job, "A").tiles_needed
    return opened(folder, replace(job, tiles=(replace(SQUARE, whole_on_hand=needed - 1),)))


def test_a_change_that_fits_is_put_beside(qtbot: QtBot, tmp_path: Path) -> None:
    window = fit_window(tmp_path)
    wait(window, qtbot)
    click(window.tile.stock.fit)
    sheet = sheet_of(window)
    assert isinstance(sheet, FitSheet)
    wait(window, qtbot)
    assert "1 tile of square short" in sheet.words.text()
    assert sheet.list.currentRow() == 0
    assert sheet.list.item(0).text().startswith("Fits with ")
    short = [each.text().split(" ")[0] for each in map(sheet.list.item, range(sheet.list.count()))]
    assert short == sorted(short, key=lambda word: 0 if word == "Fits" else int(word))
    before = window.bench.job
    key(sheet.list, Qt.Key.Key_Return)
    assert [layout.id for layout in window.bench.job.layouts] == ["A", "B"]
    assert window.bench.layout is window.bench.job.layouts[1]
    assert window.bench.layout.name.startswith("with ")
    wait(window, qtbot)
    assert window.tile.stock.fit.isHidden()
    window.bench.session.undo()
    assert window.bench.job == before
    close(window)


def test_esc_gives_up_at_once_and_changes_nothing(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sheet goes while the work still stands in the middle of a step."""
    is_let_go, has_begun = threading.Event(), threading.Event()

    def slow(_job: Job, _id: str, **_how: bool) -> Iterator[FitStep]:
        yield FitStep(0.1, "another start")
        has_begun.set()
        is_let_go.wait(20)
        yield FitStep(0.2, "another start")

    monkeypatch.setattr(fit_sheet, "make_it_fit", slow)
    window = fit_window(tmp_path)
    wait(window, qtbot)
    window.stock.make_it_fit()
    sheet = sheet_of(window)
    assert isinstance(sheet, FitSheet)
    qtbot.waitUntil(has_begun.is_set, timeout=PATIENCE_MS)
    settle()
    assert sheet.is_working
    key(sheet, Qt.Key.Key_Escape)
    assert not [each for each in window.findChildren(FitSheet) if each.isVisible()]
    assert len(window.bench.job.layouts) == 1
    is_let_go.set()
    wait(window, qtbot)
    close(window)


def test_what_is_stopped_keeps_what_was_tried(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = fit_window(tmp_path)
    wait(window, qtbot)
    window.stock.make_it_fit()
    sheet = sheet_of(window)
    assert isinstance(sheet, FitSheet)
    qtbot.waitUntil(lambda: sheet.list.count() > 0, timeout=PATIENCE_MS)
    press(sheet, "Stop")
    count = sheet.list.count()
    wait(window, qtbot)
    assert sheet.list.count() == count and not sheet.is_working
    assert sheet.buttons[0].isEnabled() and not sheet.buttons[1].isEnabled()
    sheet.reject()
    close(window)


def test_where_nothing_is_missing_that_is_said(window: Window, qtbot: QtBot) -> None:
    window.bench.apply("x", lambda job: replace(job, tiles=(replace(job.tiles[0], whole_on_hand=400),)))
    window.stock.make_it_fit()
    sheet = sheet_of(window)
    assert isinstance(sheet, FitSheet)
    wait(window, qtbot)
    assert sheet.state.text() == "What is on hand is enough."
    sheet.reject()
