"""Opens the window. Nothing of Qt is loaded before it is certain that a window can be opened here."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from tilelayout.app.libraries import what_hinders

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication

    from tilelayout.app.settings import Settings
    from tilelayout.app.window import Window
    from tilelayout.base.units import LengthStyle


def run(arguments: Sequence[str] = ()) -> int:
    """Open the window on the job file that is named, or where it was left; return the exit status.

    Status 2, with one line on standard error, if there is no display or a system library is missing.
    """
    hindrance = what_hinders()
    if hindrance:
        print(f"tilelayout: {hindrance}", file=sys.stderr)
        return 2
    from PySide6.QtWidgets import QApplication

    from tilelayout.app.settings import Settings

    application = QApplication.instance() or QApplication(["tilelayout"])
    assert isinstance(application, QApplication)
    window = open_window(application, Settings(), Path(arguments[0]) if arguments else None)
    window.show()
    return application.exec()


def open_window(application: QApplication, settings: Settings, job: Path | None) -> Window:
    """Return the window, not yet shown, on a job file or where it was left last."""
    from PySide6.QtCore import QSize

    from tilelayout.app.look import Look
    from tilelayout.app.window import Window
    from tilelayout.job.session import Session
    from tilelayout.job.values import Job

    application.setApplicationName("Tile layout")
    application.setStyle("fusion")
    look = Look()
    look.choose(settings.scheme)
    window = Window(Session(Job(show_lengths=usual_lengths())), look, settings)
    if not window.restoreGeometry(settings.geometry):
        screen = window.screen().availableGeometry()
        window.resize(screen.size().boundedTo(QSize(1440, 900)))
        window.move(screen.center() - window.rect().center())
    catch_faults(window)
    _open_first(window, job, settings)
    return window


def _open_first(window: Window, job: Path | None, settings: Settings) -> None:
    from PySide6.QtCore import QTimer

    last, stage = settings.last, settings.stage
    if job is not None:
        window.documents.open_path(job)
    elif last is not None and last.exists():
        window.documents.open_path(last)
        window.bench.show(stage=stage)
    QTimer.singleShot(0, window.documents.offer_leftovers)


def catch_faults(window: Window) -> None:
    """What is no error of the job is a fault of the program: it is shown, and the window stays."""

    def show(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        sys.__excepthook__(kind, error, trace)
        if issubclass(kind, Exception):
            from tilelayout.app.fault import fault_text, show_fault

            show_fault(window, fault_text(kind, error, trace))

    sys.excepthook = show


def usual_lengths() -> LengthStyle:
    """Return how lengths are written where the system says it is."""
    from PySide6.QtCore import QLocale

    from tilelayout.base.units import LengthStyle

    is_metric = QLocale.system().measurementSystem() is QLocale.MeasurementSystem.MetricSystem
    return LengthStyle.MM if is_metric else LengthStyle.FEET
