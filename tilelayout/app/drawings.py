"""The small drawings of the path, in our own hand: a rule on a room, two tiles, snapped lines, one room laid
in two ways, a sawn tile.

Each is drawn in a square of 32 units with y down, in one line weight, so that it is sharp at every size.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF

from tilelayout.app.bench import Stage
from tilelayout.app.look import Look

_SIDE = 32.0


def draw_stage(painter: QPainter, stage: Stage, place: QRectF, look: Look) -> None:
    """Draw the picture of a question into the square `place`."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(place.topLeft())
    painter.scale(place.width() / _SIDE, place.height() / _SIDE)
    painter.setPen(_pen(look.colour("panel_ink")))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _DRAWINGS[stage](painter, look)
    painter.restore()


def _pen(colour: QColor, width: float = 1.6, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    pen = QPen(colour, width, style)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    return pen


def _line(painter: QPainter, *ends: float) -> None:
    painter.drawLine(QPointF(ends[0], ends[1]), QPointF(ends[2], ends[3]))


def _measure(painter: QPainter, look: Look) -> None:
    """A room with a notch, and along its foot a rule with ticks."""
    room = ((3, 20), (3, 3), (18, 3), (18, 9), (29, 9), (29, 20))
    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in room]))
    painter.setPen(_pen(look.colour("chalk")))
    _line(painter, 3, 28, 29, 28)
    for at, height in zip(range(3, 30, 4), (5, 2.5, 2.5, 4, 2.5, 2.5, 5), strict=False):
        _line(painter, at, 28, at, 28 - height)
    _line(painter, 29, 28, 29, 23)


def _tile(painter: QPainter, look: Look) -> None:
    """One tile lying on another, both with their thickness."""
    for dx, dy, fill in ((0.0, 6.0, "cut_tint"), (0.0, -2.0, "field")):
        face = [(16, 4), (30, 11), (16, 18), (2, 11)]
        side = [(2, 11), (16, 18), (30, 11), (30, 14.5), (16, 21.5), (2, 14.5)]
        for shape, role in ((side, "tile_joint"), (face, fill)):
            painter.setBrush(look.colour(role))
            painter.drawPolygon(QPolygonF([QPointF(x + dx, y + dy + 2) for x, y in shape]))


def _surface(painter: QPainter, look: Look) -> None:
    """A straightedge on two high points of an uneven floor."""
    floor = QPainterPath(QPointF(2, 22))
    floor.cubicTo(QPointF(8, 10), QPointF(11, 27), QPointF(17, 24))
    floor.cubicTo(QPointF(23, 22), QPointF(25, 11), QPointF(30, 20))
    painter.drawPath(floor)
    for x in (4, 11, 18, 25):
        _line(painter, x, 31, x + 4, 27)
    painter.setPen(_pen(look.colour("chalk"), 3.0))
    _line(painter, 3, 15, 29, 15)


def _set_out(painter: QPainter, look: Look) -> None:
    """Two snapped lines that cross, and the first tile in their corner."""
    painter.setBrush(look.colour("cut_tint"))
    painter.drawRect(QRectF(15, 4, 13, 13))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(_pen(look.colour("chalk"), 2.0, Qt.PenStyle.DashLine))
    _line(painter, 13, 1, 13, 31)
    _line(painter, 1, 19, 31, 19)
    painter.setPen(_pen(look.colour("chalk")))
    painter.drawEllipse(QPointF(13, 19), 4.0, 4.0)


def _compare(painter: QPainter, look: Look) -> None:
    """One room laid in two ways, parted by a wipe with its grip."""
    painter.setPen(_pen(look.colour("panel_ink"), 1.2))
    painter.setBrush(look.colour("cut_tint"))
    painter.drawRect(QRectF(2, 4, 14, 24))
    painter.setBrush(look.colour("field"))
    painter.drawRect(QRectF(16, 4, 14, 24))
    for y in (12, 20):
        _line(painter, 2, y, 16, y)
    _line(painter, 9, 4, 9, 28)
    for y in (8, 16, 24):
        _line(painter, 16, y, 30, y)
    painter.setPen(_pen(look.colour("chalk"), 2.0))
    _line(painter, 16, 1, 16, 31)
    painter.setBrush(look.colour("panel"))
    painter.drawEllipse(QPointF(16, 16), 3.6, 3.6)


def _cut(painter: QPainter, look: Look) -> None:
    """A tile, the blade and the line it follows."""
    painter.setBrush(look.colour("field"))
    painter.drawRect(QRectF(3, 3, 22, 16))
    painter.fillRect(QRectF(17, 3.8, 7.2, 14.4), look.colour("cut_tint"))
    painter.setPen(_pen(look.colour("panel_ink"), 1.4, Qt.PenStyle.DashLine))
    _line(painter, 16.5, 1, 16.5, 19)
    painter.setPen(_pen(look.colour("panel_ink"), 1.4))
    painter.setBrush(look.colour("panel"))
    painter.drawPath(_blade(QPointF(16.5, 23.5), 6.0, 7.8))
    painter.drawEllipse(QPointF(16.5, 23.5), 1.6, 1.6)


def _blade(centre: QPointF, inner: float, outer: float) -> QPainterPath:
    path = QPainterPath()
    teeth = 12
    for tooth in range(teeth):
        turn = 2 * math.pi * tooth / teeth
        for radius, ahead in ((inner, 0.0), (outer, 0.12)):
            angle = turn + ahead
            point = centre + QPointF(math.cos(angle), math.sin(angle)) * radius
            if path.elementCount():
                path.lineTo(point)
            else:
                path.moveTo(point)
    path.closeSubpath()
    return path


_DRAWINGS: dict[Stage, Callable[[QPainter, Look], None]] = {
    Stage.MEASURE: _measure,
    Stage.TILE: _tile,
    Stage.SURFACE: _surface,
    Stage.SET_OUT: _set_out,
    Stage.COMPARE: _compare,
    Stage.CUT: _cut,
}
