"""Windows at the question of the tile, for tests of stock, and what a person does there."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, settle
from tests.planning.jobs import job_of
from tests.rooms import SQUARE, rectangle
from tilelayout.app.bench import Stage
from tilelayout.app.cards.fields import Tick
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.window import Window
from tilelayout.job.values import Job

PATIENCE_MS = 60_000


def room(**tile: object) -> Job:
    """A small room, its start off every joint."""
    return job_of(rectangle(1500, 1240), replace(SQUARE, **tile), start=(131.0, 77.0))


def opened(folder: Path, job: Job) -> Window:
    """A window on a job at the tile."""
    made = bare_window(folder / "settings", job)
    made.bench.show(stage=Stage.TILE)
    settle()
    return made


def wait(window: Window, qtbot: QtBot) -> None:
    """Wait until nothing is being worked out."""

    def is_done() -> bool:
        return not any(work.is_working for work in window.findChildren(LatestWork))

    qtbot.waitUntil(is_done, timeout=PATIENCE_MS)
    settle()


def tick(box: Tick) -> None:
    """Press a tick where its box is."""
    QTest.mouseClick(box, Qt.MouseButton.LeftButton, pos=QPoint(8, box.height() // 2))
    settle()


def key(widget: QWidget, which: Qt.Key) -> None:
    """Press a key in a widget."""
    QTest.keyClick(widget, which)
    settle()
