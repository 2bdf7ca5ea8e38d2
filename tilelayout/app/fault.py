"""A fault of the program's own: the work is kept, the window stays, and there is a short text to pass on."""

from __future__ import annotations

import platform
import sys
import traceback
from importlib import metadata
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from PySide6.QtCore import qVersion
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QPlainTextEdit

from tilelayout.app.look import STEP
from tilelayout.app.sheet import Choice, Sheet

if TYPE_CHECKING:
    from tilelayout.app.window import Window


_TITLE = "The program made a mistake"


def fault_text(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> str:
    """Return what a person who mends the program needs, and nothing about the job itself."""
    versions = f"tilelayout {_version()}, Qt {qVersion()}, Python {platform.python_version()}, {sys.platform}"
    lines = traceback.format_exception(kind, error, trace)
    return f"{versions}\n\n{''.join(lines).strip()}"


def show_fault(window: Window, text: str) -> Sheet:
    """Keep a copy of the job and show the text on a sheet; a fault that repeats itself is shown once."""
    copy = window.place.documents.recovery.keep()
    for shown in window.findChildren(Sheet):
        if shown.windowTitle() == _TITLE and shown.isVisible():
            return shown
    sheet = Sheet(
        window,
        window.place.bench.look,
        _TITLE,
        _words(copy),
        (
            Choice("Copy the text", lambda: QGuiApplication.clipboard().setText(text), keeps_open=True),
            Choice("Carry on", is_next=True),
        ),
    )
    box = QPlainTextEdit(text, sheet)
    box.setReadOnly(True)
    box.setTabChangesFocus(True)
    box.setAccessibleName("What happened")
    box.setMinimumSize(120 * STEP, 40 * STEP)
    sheet.body.addWidget(box)
    sheet.open()
    return sheet


def _words(copy: Path | None) -> str:
    kept = (
        f"A copy of your job is kept in {copy}." if copy is not None else "Everything in your job is saved."
    )
    ask = "If it happens again, pass the text below on to whoever looks after the program."
    return f"{kept} You can carry on. {ask}"


def _version() -> str:
    try:
        return metadata.version("tilelayout")
    except metadata.PackageNotFoundError:
        return "from source"
