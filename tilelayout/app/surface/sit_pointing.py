"""Pointing at the board while "will it sit?" is in front: a press brings a marked tile to the front, and
resting on one says what is wrong with it. Presses anywhere else are left to the tool in hand.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPointF, Qt
from PySide6.QtGui import QHelpEvent, QMouseEvent
from PySide6.QtWidgets import QToolTip

from tilelayout.app.board.board import Board
from tilelayout.app.surface.sit_desk import SitDesk
from tilelayout.app.surface.sit_sight import Marked


class SitPointing(QObject):
    """Looks at the board's events before the board does."""

    def __init__(self, desk: SitDesk, board: Board) -> None:
        super().__init__(board)
        self._desk, self._board = desk, board
        board.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take a press on a marked tile and the wish to be told about it; let all else through."""
        if self._desk.is_in_front and watched is self._board:
            if isinstance(event, QMouseEvent) and event.type() == QEvent.Type.MouseButtonPress:
                return self._press(event)
            if isinstance(event, QHelpEvent):
                return self._tell(event)
        return super().eventFilter(watched, event)

    def _press(self, event: QMouseEvent) -> bool:
        marked = self._marked_at(event.position()) if event.button() == Qt.MouseButton.LeftButton else None
        if marked is not None:
            self._desk.choose(marked.id)
        return marked is not None

    def _tell(self, event: QHelpEvent) -> bool:
        marked = self._marked_at(QPointF(event.pos()))
        QToolTip.showText(event.globalPos(), marked.sentence if marked else "", self._board)
        return True

    def _marked_at(self, at: QPointF) -> Marked | None:
        sight = self._desk.sight
        return None if sight is None else sight.at(self._board.view.to_surface(at))
