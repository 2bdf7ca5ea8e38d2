"""Lines and hatches that tell states apart without colour."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPainterPath, QPen

_QUARTER = 1e-9


def line_pen(colour: QColor, width: float, dashes: Sequence[float] = (), *, is_round: bool = False) -> QPen:
    """Return a pen whose `width` and `dashes` are device-independent px.

    It is as thick on a screen of finer pixels. Where the painter's own measure is mm, give mm.
    """
    pen = QPen(colour, width)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin if is_round else Qt.PenJoinStyle.MiterJoin)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap if is_round else Qt.PenCapStyle.FlatCap)
    if dashes:
        pen.setDashPattern([length / width for length in dashes])
    return pen


def stand_straight(painter: QPainter, box: QRectF) -> QRectF:
    """Undo a quarter turn of the painter and return where the box then lies; any other turn stays.

    A turned box is filled some twenty-five times slower than the same box drawn straight. To be called
    between save and restore.
    """
    turn = painter.transform()
    if not turn.isRotating() or abs(turn.m11()) > _QUARTER or abs(turn.m22()) > _QUARTER:
        return box
    painter.resetTransform()
    return turn.mapRect(box)


def fill_box(painter: QPainter, box: QRectF, brush: QBrush | QColor) -> None:
    """Fill a box; one turned by a quarter as quickly as one that is not."""
    painter.save()
    painter.fillRect(stand_straight(painter, box), brush)
    painter.restore()


def stroke_double(painter: QPainter, path: QPainterPath, colour: QColor, between: QColor) -> None:
    """Stroke a chosen thing: two lines with a light gap between them."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(line_pen(colour, 6.0, is_round=True))
    painter.drawPath(path)
    painter.setPen(line_pen(between, 3.0, is_round=True))
    painter.drawPath(path)
    painter.setPen(line_pen(colour, 1.0, is_round=True))
    painter.drawPath(path)


def hatch_brush(colour: QColor, spacing: int, weight: float) -> QBrush:
    """Return a brush of slanting lines `spacing` px apart; its pattern stands still on the screen."""
    return QBrush(_hatching(colour.rgba(), spacing, weight))


@lru_cache(maxsize=32)
def _hatching(rgba: int, spacing: int, weight: float) -> QImage:
    scale = 4
    size = spacing * scale
    image = QImage(size, size, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor.fromRgba(rgba), weight * scale))
    for shift in (-size, 0, size):
        painter.drawLine(QPointF(shift - scale, size + scale), QPointF(shift + size + scale, -scale))
    painter.end()
    small = image.scaled(
        spacing * 2,
        spacing * 2,
        Qt.AspectRatioMode.IgnoreAspectRatio,
        Qt.TransformationMode.SmoothTransformation,
    )
    small.setDevicePixelRatio(2.0)
    return small


def drawn_square(painter: QPainter, centre: QPointF, half: float) -> None:
    """Draw a square handle, sharp at any position."""
    painter.drawRect(QRectF(centre.x() - half, centre.y() - half, 2 * half, 2 * half))
