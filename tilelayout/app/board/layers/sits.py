"""Whether tiles sit, on the board: those to worry about hatched and outlined, with what is wrong and where.

A bold hatch and outline mark what needs filler first, a fine one what the bed evens out; a triangle is the
high spot that a tile rocks on. Tiles partly beyond the readings are dotted and carry no verdict.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPolygonF

from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.paths import rings_path
from tilelayout.app.paint.strokes import hatch_brush, line_pen, stroke_double
from tilelayout.app.paint.texts import paint_words, text_size
from tilelayout.app.surface.sit_sight import Marked, Rings, SitSight

_PEAK = 7.0
"""Half the width of the triangle of a high spot, px."""

_PAD = 4.0
_ASIDE = ((0, 0), (-1, 0), (1, 0), (0, -1), (0, 1), (-1, -1), (1, -1), (-1, 1), (1, 1))
"""Where words may stand in a tile: in the middle, else at its sides and corners."""

_LEAST_JOINT = 0.03
"""At a smaller scale (px per mm) joints would fill the picture and are left out."""


def paint_sits(painter: QPainter, sight: SitSight, view: View, colours: Colours) -> None:
    """Paint it over the map of the survey."""
    painter.save()
    if view.scale >= _LEAST_JOINT:
        _stroke(painter, sight.rings, view, colours, "faint_ink", 0.8)
    _stroke(painter, sight.unread, view, colours, "ink", 1.2, (1.5, 3.0))
    for each in sight.marked:
        _paint_marked(painter, each, view, colours)
    for each in sight.marked:
        if each.id == sight.chosen:
            path = _path(each.rings, view)
            stroke_double(painter, path, colours.colour("selection"), colours.colour("paper"))
    for each in sight.marked:
        _paint_said(painter, each, view, colours)
    for each in sight.marked:
        if each.high_spot is not None:
            _paint_peak(painter, view.to_screen(*each.high_spot), colours)
    painter.restore()


def _stroke(
    painter: QPainter,
    rings: Rings,
    view: View,
    colours: Colours,
    role: str,
    width: float,
    dashes: tuple[float, ...] = (),
) -> None:
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(line_pen(faded(colours.colour(role), 0.8), width, dashes))
    for first in range(0, len(rings), 10):
        painter.drawPath(_path(rings[first : first + 10], view))


def _path(rings: Rings, view: View) -> QPainterPath:
    return rings_path([view.all_to_screen(ring) for ring in rings])


def _paint_marked(painter: QPainter, each: Marked, view: View, colours: Colours) -> None:
    colour = colours.colour("stop" if each.needs_filler else "sliver")
    path = _path(each.rings, view)
    painter.fillPath(path, faded(colours.colour("paper"), 0.55))
    painter.fillPath(
        path, hatch_brush(colour, 6 if each.needs_filler else 12, 2.0 if each.needs_filler else 1.2)
    )
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for ink, width in ((colours.colour("paper"), 5.0), (colour, 3.0 if each.needs_filler else 2.0)):
        painter.setPen(line_pen(ink, width))
        painter.drawPath(path)


def _paint_said(painter: QPainter, each: Marked, view: View, colours: Colours) -> None:
    """Number and words of a tile, where they fit and the triangle of its high spot does not stand on them."""
    box = _path(each.rings, view).boundingRect()
    ink, plate = colours.colour("ink"), faded(colours.colour("paper"), 0.92)
    high = text_size(painter, each.id)[1] + 5.0
    peak = None if each.high_spot is None else view.to_screen(*each.high_spot)
    for lines in ([each.id, each.words], [each.id]):
        sizes = [(text_size(painter, line)[0] + 2 * _PAD, high) for line in lines]
        wide, whole = max(width for width, _ in sizes), high * len(lines)
        middle = _free_place(box.adjusted(_PAD, _PAD, -_PAD, -_PAD), wide, whole, peak)
        if middle is not None:
            for at, line in enumerate(lines):
                off = QPointF(0.0, (at - (len(lines) - 1) / 2) * high)
                paint_words(painter, middle + off, line, ink, plate=plate)
            return


def _free_place(room: QRectF, wide: float, high: float, peak: QPointF | None) -> QPointF | None:
    """The middle of a label within the room, clear of the triangle; None if there is no such place."""
    if wide > room.width() or high > room.height():
        return None
    right, down = (room.width() - wide) / 2.0, (room.height() - high) / 2.0
    taken = QRectF() if peak is None else _around(peak)
    for x, y in _ASIDE:
        middle = room.center() + QPointF(x * right, y * down)
        label = QRectF(middle.x() - wide / 2.0, middle.y() - high / 2.0, wide, high)
        if not label.intersects(taken):
            return middle
    return None


def _around(peak: QPointF) -> QRectF:
    return QRectF(peak.x() - _PEAK, peak.y() - _PEAK, 2.0 * _PEAK, 2.0 * _PEAK)


def _paint_peak(painter: QPainter, at: QPointF, colours: Colours) -> None:
    corners = (QPointF(-_PEAK, _PEAK * 0.8), QPointF(_PEAK, _PEAK * 0.8), QPointF(0.0, -_PEAK))
    painter.setPen(line_pen(colours.colour("paper"), 2.0))
    painter.setBrush(colours.colour("ink"))
    painter.drawPolygon(QPolygonF([at + corner for corner in corners]))
