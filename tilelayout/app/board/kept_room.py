"""Keeps the painted room as a picture: the pointer moves over it and the paper is pushed at no cost.

A push that follows a push is met by a picture with a margin around what is seen: it is only laid down
elsewhere until the margin is used up. A zoom or a change of the job paints what is seen and no more. While
the start is dragged every picture would be out of date with the next step, so none is kept.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPixmap

from tilelayout.app.board.room import RoomPainter
from tilelayout.app.board.shown import Shown
from tilelayout.app.board.view import View
from tilelayout.app.look import Look

MARGIN = 240.0
"""How many px beyond what is seen are painted for a push."""


@dataclass(frozen=True, eq=False)
class _Kept:
    key: tuple[object, ...]
    view: View
    rect: QRectF
    picture: QPixmap

    def place(self, view: View, rect: QRectF, pixel_ratio: float) -> QPointF | None:
        """Return where to lay the picture down for another view; None if it would not do."""
        dx, dy = view.left - self.view.left, view.top - self.view.top
        steps = (dx * pixel_ratio, dy * pixel_ratio)
        is_sharp = all(abs(step - round(step)) < 1e-6 for step in steps)
        covers = self.rect.translated(dx, dy).contains(rect)
        return self.rect.topLeft() + QPointF(dx, dy) if is_sharp and covers else None


class KeptRoom:
    """Lays the room down on the board, painted anew only if it must be."""

    def __init__(self, look: Look) -> None:
        self._look = look
        self._painter = RoomPainter(look)
        self._kept: _Kept | None = None

    def forget(self) -> None:
        """Paint anew next time: the look has changed."""
        self._kept = None

    def lay_down(self, painter: QPainter, shown: Shown, view: View, rect: QRectF, *, is_quick: bool) -> None:
        """Show the room within `rect`; `is_quick` while it changes with every step of a drag."""
        if is_quick:
            self._kept = None
            painter.save()
            self._painter.paint(painter, shown, view, rect, is_quick=True)
            painter.restore()
            return
        pixel_ratio = painter.device().devicePixelRatio()
        key = (shown, view.scale, pixel_ratio)
        is_push = self._kept is not None and self._kept.key == key and self._kept.view != view
        place = self._kept.place(view, rect, pixel_ratio) if self._kept and self._kept.key == key else None
        if self._kept is None or place is None:
            margin = MARGIN if is_push else 0.0
            around = rect.adjusted(-margin, -margin, margin, margin)
            self._kept = self._painted(key, shown, view, around, pixel_ratio)
            place = around.topLeft()
        painter.drawPixmap(place, self._kept.picture)

    def _painted(
        self, key: tuple[object, ...], shown: Shown, view: View, rect: QRectF, pixel_ratio: float
    ) -> _Kept:
        picture = QPixmap(round(rect.width() * pixel_ratio), round(rect.height() * pixel_ratio))
        picture.setDevicePixelRatio(pixel_ratio)
        with QPainter(picture) as painter:
            painter.translate(-rect.topLeft())
            self._painter.paint(painter, shown, view, rect, is_quick=False)
        return _Kept(key, view, rect, picture)
