"""Windows with layouts side by side, and the moves of a hand on linked views."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QImage, QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, potting_shed, settle
from tilelayout.app.bench import Stage
from tilelayout.app.compare.sight import Sight
from tilelayout.app.window import Window
from tilelayout.job.edits.layouts import add_layout
from tilelayout.job.values import Job

LEFT = Qt.MouseButton.LeftButton


def job_with(count: int) -> Job:
    """The potting shed with so many layouts, each from another start."""
    job = potting_shed()
    for at, id in enumerate("BCDEF"[: count - 1], start=1):
        job = add_layout(job, replace(job.layouts[0], id=id, start=(60.0 * at, 35.0 * at)))
    return job


def opened(settings: Path, qtbot: QtBot, count: int) -> Window:
    """A window with the layouts of a job side by side, the table worked out."""
    window = bare_window(settings, job_with(count))
    window.bench.show(stage=Stage.COMPARE)
    wait(window, qtbot)
    return window


def wait(window: Window, qtbot: QtBot) -> None:
    """Wait until the table shows what is shown."""
    settle()
    qtbot.waitUntil(lambda: not window.choice.is_working, timeout=10_000)
    settle()


def drag(widget: QWidget, start: QPoint, end: QPoint) -> None:
    """Press, move in steps over the screen, let go; the widget may follow the hand."""
    first, last = widget.mapToGlobal(start), widget.mapToGlobal(end)
    QTest.mousePress(widget, LEFT, pos=start)
    for step in range(1, 9):
        at = first + (last - first) * step / 8
        event = QMouseEvent(
            QEvent.Type.MouseMove,
            QPointF(widget.mapFromGlobal(at)),
            QPointF(at),
            Qt.MouseButton.NoButton,
            LEFT,
            Qt.KeyboardModifier.NoModifier,
        )
        QApplication.sendEvent(widget, event)
    QTest.mouseRelease(widget, LEFT, pos=widget.mapFromGlobal(last))
    settle()


def turn_wheel(widget: QWidget, at: QPoint, notches: int) -> None:
    """Turn the wheel away from the person."""
    event = QWheelEvent(
        QPointF(at),
        QPointF(widget.mapToGlobal(at)),
        QPoint(),
        QPoint(0, 120 * notches),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(widget, event)


def picture(widget: QWidget) -> QImage:
    """What is seen of a widget."""
    return widget.grab().toImage()


def room_of(sight: Sight) -> QImage:
    """What is seen of a view below its head, without its outline."""
    inner = sight.room.toRect().adjusted(6, 6, -6, -6)
    return sight.grab(inner).toImage()


def front(window: Window) -> str:
    """The id of the layout in front."""
    layout = window.bench.layout
    assert layout is not None
    return layout.id


def ids(window: Window) -> list[str]:
    """The layouts side by side."""
    return [layout.id for layout in window.beside.shown]
