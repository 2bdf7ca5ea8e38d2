"""The picture of all starts: hover or arrow keys point at a start, a click or Enter takes it."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from tilelayout.app.look import STEP, Look
from tilelayout.app.offset_map.frame import Frame
from tilelayout.app.offset_map.marks import best_mark, cursor_mark, paint_mark, start_mark
from tilelayout.app.offset_map.picture import image_of, lines_of
from tilelayout.job.values import Point
from tilelayout.layout.offset_map.map_of_starts import Measure, OffsetMap
from tilelayout.layout.values import Points

_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}
_MARK = 10.0
"""How far a mark reaches, in device-independent px: so near to an edge it shows at the opposite one too."""

_COARSE_STEPS = 40
"""An arrow key crosses the picture in so many steps; with Shift it goes 1 mm."""


class MapView(QWidget):
    """Shows a map. `pointed(start)` when the cursor moves, `left()` when it is gone, `taken(start)`."""

    pointed = Signal(object)
    left = Signal()
    taken = Signal(object)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._map: OffsetMap | None = None
        self._frame: Frame | None = None
        self._measure = Measure.NARROWEST
        self._start: Point = (0.0, 0.0)
        self.best: Point | None = None
        self._image, self._lines = QImage(), QPainterPath()
        self.cursor_at: Point | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAccessibleName("Map of starts")
        self.setCursor(Qt.CursorShape.CrossCursor)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_map(
        self,
        made: OffsetMap | None,
        frame: Frame | None,
        measure: Measure,
        start: Point,
        best: Point | None = None,
    ) -> None:
        """Show a map, or another measure or start of the same; `best` is the best start, if it is known."""
        is_new = made is not self._map or measure is not self._measure or frame is not self._frame
        if frame is not self._frame:
            self.cursor_at = None
        if frame is None or self._frame is None or frame.shape != self._frame.shape:
            self.updateGeometry()
        self._map, self._frame, self._measure, self._start, self.best = made, frame, measure, start, best
        if is_new:
            self._draw()
        self.update()

    @property
    def frame(self) -> Frame | None:
        """Which starts are shown; None if there is no map."""
        return self._frame

    def place_of(self, start: Point) -> QPointF:
        """Return the place of a start on the widget."""
        if self._frame is None:
            return QPointF()
        x, y = self._frame.share_of(start)
        return QPointF(x * self.width(), (1.0 - y) * self.height())

    def start_at(self, place: QPointF) -> Point | None:
        """Return the start shown at a place of the widget; None if there is no map."""
        if self._frame is None:
            return None
        x, y = place.x() / max(self.width(), 1), 1.0 - place.y() / max(self.height(), 1)
        return self._frame.start_at((min(max(x, 0.0), 1.0), min(max(y, 0.0), 1.0)))

    # --- size ------------------------------------------------------------------------------------------

    def heightForWidth(self, width: int) -> int:
        """As high as what it shows."""
        return max(round(width * (self._frame.shape if self._frame is not None else 1.0)), 1)

    def sizeHint(self) -> QSize:
        """As wide as there is room."""
        return QSize(60 * STEP, self.heightForWidth(60 * STEP))

    def minimumSizeHint(self) -> QSize:
        """Large enough to hit, and never flatter than what it shows: words below it push it nowhere."""
        return QSize(30 * STEP, max(12 * STEP, self.heightForWidth(self.width())))

    # --- Qt's events -----------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw it for the new size."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()
        self._draw()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint picture, lines and marks."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._map is None or self._frame is None:
            painter.fillRect(self.rect(), self._look.colour("hairline"))
            return
        painter.drawImage(QRectF(self.rect()), self._image)
        painter.setPen(QPen(QColor(255, 255, 255, 120), 1.0))
        painter.drawPath(self._lines)
        for start, mark in ((self.best, best_mark), (self._start, start_mark)):
            for x, y in self._places_of(start):
                paint_mark(painter, mark(QPointF(x * self.width(), (1.0 - y) * self.height())))
        if self.cursor_at is not None:
            paint_mark(painter, cursor_mark(self._cursor_place()))
        if self.hasFocus():
            painter.setPen(QPen(self._look.colour("accent"), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Point at a start."""
        self._point_at(self.start_at(event.position()))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the start under the pointer."""
        start = self.start_at(event.position())
        if event.button() is Qt.MouseButton.LeftButton and start is not None:
            self._point_at(start)
            self.taken.emit(start)

    def leaveEvent(self, _event: QEvent) -> None:
        """The pointer is gone; a cursor moved by keys would stay."""
        if not self.hasFocus():
            self._point_at(None)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The cursor goes with the focus."""
        super().focusOutEvent(event)
        if not self.underMouse():
            self._point_at(None)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move the cursor by the arrow keys, take its start by Enter, put it back by Esc."""
        key = Qt.Key(event.key())
        if self._frame is not None and key in _ARROWS:
            self._step(_ARROWS[key], is_fine=bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier))
        elif self.cursor_at is not None and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.taken.emit(self.cursor_at)
        elif self.cursor_at is not None and key == Qt.Key.Key_Escape:
            self._point_at(None)
        else:
            super().keyPressEvent(event)

    # --- parts -----------------------------------------------------------------------------------------

    def _step(self, direction: tuple[int, int], *, is_fine: bool) -> None:
        frame = self._frame
        if frame is None:
            return
        at = self.cursor_at if self.cursor_at is not None else frame.inside(self._start)
        by = 1.0 if is_fine else float(frame.size.max()) / _COARSE_STEPS
        x, y = (frame.low + (at + by * _as_array(direction) - frame.low) % frame.size).tolist()
        self._point_at((x, y))

    def _point_at(self, start: Point | None) -> None:
        if start == self.cursor_at:
            return
        self.cursor_at = start
        self.update()
        if start is None:
            self.left.emit()
        else:
            self.pointed.emit(start)

    def _cursor_place(self) -> QPointF:
        if self.cursor_at is None or self._frame is None:
            return QPointF()
        x, y = ((_as_array(self.cursor_at) - self._frame.low) / self._frame.size).tolist()
        return QPointF(x * self.width(), (1.0 - y) * self.height())

    def _places_of(self, start: Point | None) -> list[Point]:
        """Where a start stands, as shares; near an edge at the opposite one too."""
        if self._frame is None or start is None:
            return []
        return self._frame.shares_near(start, _MARK / max(min(self.width(), self.height()), 1))

    def _draw(self) -> None:
        if self._map is None or self._frame is None or not self.width() or not self.height():
            return
        ratio = self.devicePixelRatioF()
        width, height = round(self.width() * ratio), round(self.height() * ratio)
        self._image = image_of(self._map, self._measure, self._frame, width, height)
        is_shown = self._measure is Measure.NARROWEST
        self._lines = lines_of(self._map, self._frame, QSizeF(self.size())) if is_shown else QPainterPath()


def _as_array(point: tuple[float, float]) -> Points:
    return np.array(point, dtype=float)
