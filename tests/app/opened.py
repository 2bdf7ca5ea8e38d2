"""Opens windows for tests, and finds and presses things in them as a person would."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEvent, QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QPushButton, QWidget

from tests.job.cast import POTTING_SHED, job_of
from tilelayout.app.look import Look
from tilelayout.app.settings import Settings
from tilelayout.app.sheet import Sheet
from tilelayout.app.window import Window
from tilelayout.job.session import Session
from tilelayout.job.values import Job


def application() -> QApplication:
    """The one application of the test run."""
    made = QApplication.instance()
    assert isinstance(made, QApplication)
    return made


def bare_window(settings: Path, job: Job | None = None) -> Window:
    """A shown window of 1280 by 720 on a job; on an empty one if none is given."""
    application().setStyle("fusion")
    made = Window(Session(job or Job()), Look(), Settings(settings))
    made.resize(1280, 720)
    made.show()
    settle()
    return made


def close(window: Window) -> None:
    """Close a window without being asked."""
    window.bench.session.replace(window.bench.job, window.bench.session.path)
    window.close()
    gone(window)


def gone(window: Window) -> None:
    """Take a window away at once, so that the next test does not carry it along."""
    window.deleteLater()
    QCoreApplication.sendPostedEvents(window, QEvent.Type.DeferredDelete)


def potting_shed() -> Job:
    """A floor with a drain and a post, a tile, a layout."""
    return job_of(POTTING_SHED)


def settle() -> None:
    """Let everything that waits happen."""
    for _ in range(3):
        QApplication.processEvents()


def click(widget: QWidget, at: QPoint | None = None) -> None:
    """Press and let go of the main button."""
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at or widget.rect().center())
    settle()


def type_in(widget: QWidget, text: str) -> None:
    """Replace the text of a field and accept it."""
    field = widget.focusProxy() or widget
    assert isinstance(field, QWidget)
    field.setFocus()
    QTest.keySequence(field, "Ctrl+A")
    QTest.keyClick(field, Qt.Key.Key_Backspace)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    settle()


def sheet_of(window: Window) -> Sheet:
    """The sheet that lies over the window."""
    found = [each for each in window.findChildren(Sheet) if each.isVisible()]
    assert len(found) == 1, [each.windowTitle() for each in found]
    return found[0]


def press(sheet: QDialog, words: str) -> None:
    """Press the button of a sheet that carries these words."""
    named(sheet, QPushButton, lambda button: button.text().replace("&", "") == words).click()
    settle()


def named(parent: QWidget, kind: type[QPushButton], fits: Callable[[QPushButton], bool]) -> QPushButton:
    """The one button that fits."""
    found = [each for each in parent.findChildren(kind) if fits(each)]
    assert len(found) == 1
    return found[0]


def on_board(window: Window, x: float, y: float) -> QPoint:
    """The pixel of the board that shows a point of the surface."""
    return window.board.view.to_screen(x, y).toPoint()
