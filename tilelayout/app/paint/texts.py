"""Short texts on a drawing: centred on a place, turned to be readable, on a plate if need be."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from tilelayout.app.paint.strokes import stand_straight

_PAD = 3.0


def text_size(painter: QPainter, words: str) -> tuple[float, float]:
    """Return the width and height of one line of text in px."""
    metrics = QFontMetricsF(painter.font())
    return metrics.horizontalAdvance(words), metrics.capHeight() + 2.0


def readable(angle: float) -> float:
    """Return a screen angle (degrees clockwise), turned about if text along it would stand on its head.

    Upright text reads from the right, as on a builder's drawing.

    >>> readable(90.0), readable(-90.0), readable(170.0), readable(30.0)
    (-90.0, -90.0, -10.0, 30.0)
    """
    angle = (angle + 180.0) % 360.0 - 180.0
    if angle >= 90.0 - 1e-6:
        return angle - 180.0
    return angle + 180.0 if angle < -90.0 - 1e-6 else angle


def angle_of(dx: float, dy: float) -> float:
    """Return the screen angle (degrees clockwise) of a direction on the screen (y down)."""
    return math.degrees(math.atan2(dy, dx))


def paint_words(
    painter: QPainter,
    at: QPointF,
    words: str,
    colour: QColor,
    *,
    angle: float = 0.0,
    plate: QColor | None = None,
) -> QRectF:
    """Write `words` centred on `at` and return what they cover, before turning, about (0, 0)."""
    width, height = text_size(painter, words)
    box = QRectF(-width / 2 - _PAD, -height / 2 - _PAD / 2, width + 2 * _PAD, height + _PAD)
    painter.save()
    painter.translate(at)
    painter.rotate(angle)
    if plate is not None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(plate)
        painter.save()
        painter.drawRoundedRect(stand_straight(painter, box), 2.0, 2.0)
        painter.restore()
    painter.setPen(colour)
    painter.drawText(QPointF(-width / 2, (height - 2.0) / 2), words)
    painter.restore()
    return box
