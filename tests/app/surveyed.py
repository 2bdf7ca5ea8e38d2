"""Windows at the question of the surface, and what a person does there."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.app.opened import settle
from tilelayout.app.bench import Stage
from tilelayout.app.samples import samples
from tilelayout.app.surface.desk import Face
from tilelayout.app.surface.meets_rows import MeetsRows
from tilelayout.app.window import Window
from tilelayout.job.values import Job, Layout, RectangleTile, Surface

ROOM = Surface(id="floor", name="Store", outline=((0, 0), (1300, 0), (1300, 900), (0, 900)))
TILE = RectangleTile(id="slab", name="Slab", length=597.0, width=297.0)


def room_job() -> Job:
    return Job(surfaces=(ROOM,), tiles=(TILE,), layouts=(Layout(id="A", surface="floor", tile="slab"),))


def at_surface(window: Window, job: Job) -> Window:
    window.bench.session.replace(job)
    window.bench.show(stage=Stage.SURFACE)
    settle()
    window.board.fit()
    return window


def heights(window: Window) -> tuple[tuple[float, float, float], ...]:
    return window.bench.job.surveys[0].points if window.bench.job.surveys else ()


def type_heights(window: Window, *texts: str) -> None:
    for text in texts:
        QTest.keyClicks(window.board, text[0])
        QTest.keyClicks(window.focusWidget() or window.board, text[1:])
        QTest.keyClick(window.focusWidget() or window.board, Qt.Key.Key_Return)
        settle()


def worked_out(window: Window, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not window.desk.is_working, timeout=60_000)
    settle()


def measured_pantry() -> Job:
    """The sample room that was measured."""
    return next(job for path, job in samples() if path.stem == "uneven_pantry")


def type_meeting_height(meets: MeetsRows, text: str) -> None:
    """Type the height of the place that was chosen last: the box for it has the keys."""
    assert meets.height.line.hasFocus()
    QTest.keyClicks(meets.height.line, text)
    QTest.keyClick(meets.height.line, Qt.Key.Key_Return)


def face_of(window: Window) -> Face:
    return window.desk.face
