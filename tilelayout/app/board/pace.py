"""Keeps a drag in step with the screen: at most one move of the hand is worked on for each painted frame.

A mouse may report a thousand places a second, and laying a floor anew for places that nobody will ever see
would let the board fall behind the hand. While a move waits to be painted, only the latest place is kept.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QMouseEvent

_LONGEST_WAIT_MS = 40
"""A frame may never come: the board may be covered."""


class Pace(QObject):
    """Hands moves on: at once if the last one has been painted, else the latest as soon as it has."""

    def __init__(self, hand_on: Callable[[QMouseEvent], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._hand_on = hand_on
        self._waiting: QMouseEvent | None = None
        self._is_painted = True
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self.catch_up)

    def move(self, event: QMouseEvent) -> None:
        """Take a move of the hand."""
        if self._is_painted:
            self._is_painted = False
            self._hand_on(event)
            return
        self._waiting = _copied(event)
        if not self._timer.isActive():
            self._timer.start(_LONGEST_WAIT_MS)

    def painted(self) -> None:
        """Hear that a frame is painted; what waits is worked on once other events had their turn."""
        self._is_painted = True
        if self._waiting is not None:
            self._timer.start(0)

    def catch_up(self) -> None:
        """Hand on now what waits, so that what comes next finds the hand where it is."""
        self._timer.stop()
        event, self._waiting = self._waiting, None
        if event is not None:
            self._is_painted = False
            self._hand_on(event)


def _copied(event: QMouseEvent) -> QMouseEvent:
    """Return an event that outlives its delivery."""
    return QMouseEvent(
        event.type(),
        event.position(),
        event.globalPosition(),
        event.button(),
        event.buttons(),
        event.modifiers(),
    )
