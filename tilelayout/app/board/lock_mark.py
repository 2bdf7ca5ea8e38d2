"""A small padlock beside a typed box: shut while the value is kept from corner to corner."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QWidget

from tilelayout.app.look import GRAB
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.strokes import line_pen


class LockMark(QAbstractButton):
    """Checked is locked. It never takes the focus away from the box it belongs to."""

    def __init__(self, colours: Colours, parent: QWidget) -> None:
        super().__init__(parent)
        self._colours = colours
        self.setCheckable(True)
        self.setFixedSize(self.sizeHint())
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def sizeHint(self) -> QSize:
        """As large as a fingertip needs."""
        return QSize(GRAB, GRAB)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the body and the shackle, lifted and faint while it is open."""
        is_shut = self.isChecked()
        ink = self._colours.colour("ink")
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = QRectF(self.rect()).center()
        painter.translate(middle.x(), middle.y() + 2.0)
        painter.setPen(line_pen(ink if is_shut else faded(ink, 0.55), 1.6))
        lift = 0.0 if is_shut else 2.5
        painter.drawArc(QRectF(-3.5, -8.0 - lift, 7.0, 9.0), 0, 180 * 16)
        if is_shut:
            painter.drawLine(-3, -4, -3, -1)
            painter.drawLine(3, -4, 3, -1)
            painter.setBrush(ink)
        painter.drawRect(QRectF(-5.5, -1.5, 11.0, 8.0))
        painter.end()
