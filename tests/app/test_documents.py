"""Opening, saving, recent files, leaving and recovering, through the window."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QMenu, QPlainTextEdit
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, click, close, gone, potting_shed, press, settle, sheet_of, type_in
from tilelayout.app.action_set import fill_recent
from tilelayout.app.settings import MOST_RECENT, Settings
from tilelayout.app.start import catch_faults
from tilelayout.app.window import Window
from tilelayout.job.files import job_to_bytes, write_job
from tilelayout.job.values import Job


@pytest.fixture
def shed_file(tmp_path: Path) -> Path:
    """The potting shed in a file."""
    path = tmp_path / "shed.tilejob"
    write_job(potting_shed(), path)
    return path


def _answer(monkeypatch: pytest.MonkeyPatch, path: Path) -> None:
    """Answer the next question for a file name."""
    for question in ("getSaveFileName", "getOpenFileName"):
        monkeypatch.setattr(QFileDialog, question, lambda *_asked: (str(path), ""))


def test_save_and_open_again(window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    click(window.invitation.add)
    assert window.isWindowModified()
    _answer(monkeypatch, tmp_path / "room")
    QTest.keyClick(window, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    saved = tmp_path / "room.tilejob"
    assert not window.isWindowModified()
    assert "room.tilejob" in window.windowTitle()
    job = window.bench.job
    window.documents.new()
    assert window.bench.job.surfaces == ()
    _answer(monkeypatch, saved)
    QTest.keyClick(window, Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    assert window.bench.job == job


def test_undo_to_the_start_gives_the_saved_bytes(window: Window, shed_file: Path) -> None:
    window.documents.open_path(shed_file)
    before = shed_file.read_bytes()
    type_in(window.measure.name, "Summer house")
    window.measure.add_round.click()
    window.measure.units.choose(window.measure.units._values[0])
    assert window.isWindowModified()
    steps = 0
    while window.bench.session.can_undo:
        QTest.keyClick(window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
        steps += 1
    assert steps == 3
    assert not window.isWindowModified()
    assert job_to_bytes(window.bench.job) == before
    window.documents.save()
    assert shed_file.read_bytes() == before


def test_a_file_that_is_no_job_is_said_and_changes_nothing(window: Window, tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.tilejob"
    wrong.write_text('{"format": "tilejob", "version": 1, "surfaces": [{"id": 3}]}')
    before = window.bench.job
    window.documents.open_path(wrong)
    sheet = sheet_of(window)
    assert "wrong.tilejob" in sheet.words.text() and "surfaces[0]" in sheet.words.text()
    press(sheet, "Close")
    assert window.bench.job is before


def test_leaving_unsaved_work_is_asked_once(window: Window, shed_file: Path) -> None:
    click(window.invitation.add)
    window.documents.open_path(shed_file)
    press(sheet_of(window), "Stay")
    assert window.bench.session.is_modified
    window.documents.open_path(shed_file)
    press(sheet_of(window), "Leave without saving")
    assert window.bench.job.title == "Potting shed"


def test_closing_asks_and_saving_closes(qtbot: QtBot, tmp_path: Path, shed_file: Path) -> None:
    window = bare_window(tmp_path / "settings")
    window.documents.open_path(shed_file)
    type_in(window.measure.name, "Summer house")
    window.close()
    assert window.isVisible()
    press(sheet_of(window), "Save")
    assert not window.isVisible()
    assert b"Summer house" in shed_file.read_bytes()
    gone(window)


def test_recent_files_show_what_is_missing_and_can_be_cleared(
    window: Window, tmp_path: Path, shed_file: Path
) -> None:
    gone = tmp_path / "gone.tilejob"
    window.settings.remember(gone)
    window.documents.open_path(shed_file)
    menu = QMenu()
    fill_recent(menu, window.place, window.settings)
    entries = {each.text().replace("&", ""): each for each in menu.actions() if each.text()}
    missing = next(text for text in entries if text.startswith("gone"))
    assert missing.endswith("(missing)") and not entries[missing].isEnabled()
    assert next(iter(entries)).startswith("shed.tilejob")
    entries["Clear the list"].trigger()
    assert Settings(window.settings.folder).recent == ()


def test_the_list_of_recent_files_stays_short(tmp_path: Path) -> None:
    settings = Settings(tmp_path)
    for number in range(MOST_RECENT + 5):
        settings.remember(tmp_path / f"{number}.tilejob")
    settings.remember(tmp_path / "12.tilejob")
    names = [path.stem for path in Settings(tmp_path).recent]
    assert names[:3] == ["12", "14", "13"] and len(names) == len(set(names)) == MOST_RECENT


def _drop(window: Window, path: Path) -> None:
    files = QMimeData()
    files.setUrls([QUrl.fromLocalFile(str(path))])
    what = (Qt.DropAction.CopyAction, files, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)
    window.dragEnterEvent(QDragEnterEvent(QPoint(5, 5), *what))
    window.dropEvent(QDropEvent(QPointF(5, 5), *what))
    settle()


def test_a_dropped_job_opens_and_another_file_is_named(
    window: Window, tmp_path: Path, shed_file: Path
) -> None:
    other = tmp_path / "notes.txt"
    other.write_text("buy mortar")
    _drop(window, other)
    assert ".tilejob" in window.foot.words.accessibleName()
    _drop(window, shed_file)
    assert window.bench.job.title == "Potting shed"
    type_in(window.measure.name, "Mine")
    _drop(window, shed_file)
    press(sheet_of(window), "Stay")
    assert window.bench.job.surfaces[0].name == "Mine"


def test_work_left_by_a_crash_is_offered_with_name_and_time(
    qtbot: QtBot, tmp_path: Path, shed_file: Path
) -> None:
    crashed = bare_window(tmp_path / "settings")
    crashed.documents.open_path(shed_file)
    type_in(crashed.measure.name, "Summer house")
    copy = crashed.documents.recovery.keep()
    assert copy is not None and copy.exists()

    second = bare_window(tmp_path / "settings")
    assert second.documents.recovery.leftovers() == [], "a live window's copy is none left by a crash"

    crashed.documents.recovery._lock.unlock()
    second.documents.offer_leftovers()
    words = sheet_of(second).words.text()
    assert "shed.tilejob" in words and ":" in words
    press(sheet_of(second), "Decide later")
    assert copy.exists()
    second.documents.offer_leftovers()
    press(sheet_of(second), "Open the copy")
    assert second.bench.job.surfaces[0].name == "Summer house"
    assert second.isWindowModified()
    assert not copy.exists()
    for window in (crashed, second):
        close(window)


def test_a_change_is_kept_within_seconds(window: Window, qtbot: QtBot) -> None:
    click(window.invitation.add)
    qtbot.waitUntil(window.documents.recovery.copy.exists, timeout=5000)
    window.bench.session.undo()
    qtbot.waitUntil(lambda: not window.documents.recovery.copy.exists(), timeout=5000)


def test_the_program_opens_where_it_was(qtbot: QtBot, tmp_path: Path, shed_file: Path) -> None:
    from tests.app.opened import application
    from tilelayout.app.bench import Stage
    from tilelayout.app.start import open_window

    first = bare_window(tmp_path / "settings")
    first.documents.open_path(shed_file)
    first.bench.show(stage=Stage.SET_OUT)
    close(first)
    second = open_window(application(), Settings(tmp_path / "settings"), None)
    second.show()
    assert second.bench.job.title == "Potting shed"
    assert second.bench.stage is Stage.SET_OUT
    close(second)


def test_saving_where_nothing_can_be_written_is_said(window: Window, tmp_path: Path) -> None:
    click(window.invitation.add)
    assert not window.documents._write(tmp_path / "no such folder" / "room.tilejob")
    press(sheet_of(window), "Close")
    assert window.bench.session.is_modified


def test_a_fault_keeps_the_work_and_the_window(window: Window, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(sys, "__excepthook__", lambda *_fault: None)
    catch_faults(window)
    click(window.invitation.add)
    for _ in range(2):
        try:
            raise ValueError("a tile fell")
        except ValueError as error:
            sys.excepthook(ValueError, error, error.__traceback__)
    sheet = sheet_of(window)
    copy = window.documents.recovery.copy
    assert copy.exists() and str(copy) in sheet.words.text()
    (text,) = sheet.findChildren(QPlainTextEdit)
    assert "a tile fell" in text.toPlainText() and "test_documents" in text.toPlainText()
    press(sheet, "Carry on")
    assert window.isVisible()


def test_printing_can_be_stopped_and_leaves_no_file(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def slowly(*_asked: object) -> Iterator[str]:
        while True:
            time.sleep(0.01)
            yield "Page 1"

    monkeypatch.setattr("tilelayout.reports.to_pdf.print_job", slowly)
    window.bench.session.replace(potting_shed())
    window.place.printing.ask()
    sheet = window.place.printing.sheet
    assert sheet is not None
    sheet.write(tmp_path / "never.pdf")
    qtbot.waitUntil(lambda: sheet.said.text() == "Page 1")
    assert sheet.progress.isVisible()
    press(sheet, "Stop")
    qtbot.waitUntil(lambda: sheet.said.text().startswith("Stopped"))
    assert not (tmp_path / "never.pdf").exists()
    press(sheet, "Close")
    assert window.place.printing.sheet is None


def test_an_empty_job_has_nothing_to_lose(window: Window) -> None:
    assert window.bench.session.job == Job()
    window.close()
    assert not window.isVisible()
