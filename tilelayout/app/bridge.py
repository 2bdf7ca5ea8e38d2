"""Turns the session's event into a Qt signal, so that everything in the window hears of a change the same
way.
"""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from tilelayout.job.session import Session
from tilelayout.job.values import Job


class Bridge(QObject):
    """`changed(before, after, label)` follows every edit, undo, redo and opening of another job."""

    changed = Signal(object, object, str)

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.end = session.watch(self._tell)

    def _tell(self, before: Job, after: Job, label: str) -> None:
        self.changed.emit(before, after, label)
