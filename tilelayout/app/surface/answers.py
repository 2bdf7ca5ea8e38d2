"""What every desk does that has its answers worked out off the window's thread."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QObject, Signal

from tilelayout.app.latest_work import LatestWork
from tilelayout.base.errors import TileLayoutError


class AnsweringDesk(QObject):
    """Keeps the latest `answer`, or the `trouble` it met; `changed` tells that what is shown has changed."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.answer: Any = None
        self.trouble = ""
        self._work = LatestWork(self)
        self._work.answered.connect(self._take)
        self._work.failed.connect(self._fail)

    @property
    def is_working(self) -> bool:
        """Whether an answer is still being worked out."""
        return self._work.is_working

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._work.stop()

    def _take(self, _question: object, answer: object, _is_last: bool) -> None:
        self.answer = answer
        self.changed.emit()

    def _fail(self, error: Exception) -> None:
        if not isinstance(error, TileLayoutError):
            raise error
        self.trouble = str(error)
        self.changed.emit()
