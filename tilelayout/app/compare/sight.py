"""What every linked view does: it shows its part of the place, and moves the view that all share.

The paper is pushed with the main button or by the arrow keys, the wheel zooms about the pointer. A click
without a push, or Enter, takes the layout. Where the pointer is in one sight, a cross stands in the others.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QWheelEvent,
)
from PySide6.QtWidgets import QApplication, QWidget

from tilelayout.app.board.navigator import STEP as ZOOM_STEP
from tilelayout.app.compare.linked import LinkedView
from tilelayout.app.look import GRAB, STEP, Look, TextSize

HEAD = GRAB + 2 * STEP
"""Height in px of the line with the layout's name above its view."""

_PUSH = 48.0
_PUSHES = {
    Qt.Key.Key_Left: (_PUSH, 0.0),
    Qt.Key.Key_Right: (-_PUSH, 0.0),
    Qt.Key.Key_Up: (0.0, _PUSH),
    Qt.Key.Key_Down: (0.0, -_PUSH),
}
_CROSS = 9.0
_TAKING = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class Sight(QWidget):
    """One of the linked views. A subclass paints the room and the head, and says what is taken."""

    pointed = Signal(object)
    taken = Signal(str)

    def __init__(self, look: Look, linked: LinkedView, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look, self.linked = look, linked
        self._pressed_at: QPointF | None = None
        self._last = QPointF()
        self._is_pushing = False
        self._cross: tuple[float, float] | None = None
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setCursor(Qt.CursorShape.OpenHandCursor)

    @property
    def room(self) -> QRectF:
        """The part of the sight below its head."""
        return QRectF(0.0, HEAD, self.width(), self.height() - HEAD)

    def show_cross(self, point: tuple[float, float] | None) -> None:
        """Show where the pointer is in another sight, in mm of the surface; None shows nothing."""
        if point != self._cross:
            self._cross = point
            self.update()

    def forget(self) -> None:
        """Paint anew: the look has changed."""

    def paint_room(self, painter: QPainter) -> None:
        """Paint what is seen in `room`."""

    def paint_head(self, painter: QPainter, rect: QRectF) -> None:
        """Paint the head."""

    def id_at(self, point: QPointF) -> str:
        """Return the id of the layout that a click there takes."""
        raise KeyError(point)

    # --- Qt's events -----------------------------------------------------------------------------------

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint room, cross, head and focus."""
        with QPainter(self) as painter:
            painter.setClipRect(self.room)
            self.paint_room(painter)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._paint_cross(painter)
            painter.setClipping(False)
            head = QRectF(0.0, 0.0, self.width(), HEAD)
            painter.fillRect(head, self.look.colour("paper"))
            painter.setFont(self.look.font(TextSize.TEXT))
            self.paint_head(painter, head)
            if self.hasFocus():
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(self.look.colour("accent"), 2.0))
                painter.drawRect(QRectF(self.rect()).adjusted(4.0, 4.0, -4.0, -4.0))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the paper."""
        if event.button() in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            self._pressed_at, self._last, self._is_pushing = event.position(), event.position(), False

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Push the paper, or show the others where the pointer is."""
        at = event.position()
        if self._pressed_at is not None:
            is_far = (at - self._pressed_at).manhattanLength() >= QApplication.startDragDistance()
            if is_far and not self._is_pushing:
                self._is_pushing = True
                self.setCursor(Qt.CursorShape.ClosedHandCursor)
            if self._is_pushing:
                moved, self._last = at - self._last, at
                self.linked.pan(moved.x(), moved.y())
        is_in = self.room.contains(at)
        self.pointed.emit(self.linked.view.to_surface(at) if is_in else None)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go; a press without a push takes the layout."""
        if self._pressed_at is None:
            return
        was_pushing, self._pressed_at, self._is_pushing = self._is_pushing, None, False
        self.setCursor(Qt.CursorShape.OpenHandCursor)
        if not was_pushing and event.button() == Qt.MouseButton.LeftButton:
            self.taken.emit(self.id_at(event.position()))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom or pan."""
        self.linked.wheel(event)
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Push the paper, zoom, or take the layout."""
        if event.key() in _PUSHES:
            self.linked.pan(*_PUSHES[Qt.Key(event.key())])
        elif event.text() in ("+", "="):
            self.linked.zoom(ZOOM_STEP)
        elif event.text() == "-":
            self.linked.zoom(1.0 / ZOOM_STEP)
        elif event.key() in _TAKING:
            self.taken.emit(self.id_at(self.room.topLeft()))
        else:
            event.ignore()

    def leaveEvent(self, _event: QEvent) -> None:
        """The pointer is elsewhere."""
        self.pointed.emit(None)

    def event(self, event: QEvent) -> bool:
        """Take pinches."""
        if isinstance(event, QNativeGestureEvent) and self.linked.pinch(event):
            return True
        return super().event(event)

    def focusInEvent(self, _event: QFocusEvent) -> None:
        """Show the focus."""
        self.update()

    def focusOutEvent(self, _event: QFocusEvent) -> None:
        """Take its frame away."""
        self.update()

    def _paint_cross(self, painter: QPainter) -> None:
        if self._cross is None:
            return
        at = self.linked.view.to_screen(*self._cross)
        for width, role in ((4.0, "paper"), (1.6, "snap")):
            painter.setPen(QPen(self.look.colour(role), width))
            painter.drawLine(at - QPointF(_CROSS, 0.0), at + QPointF(_CROSS, 0.0))
            painter.drawLine(at - QPointF(0.0, _CROSS), at + QPointF(0.0, _CROSS))
