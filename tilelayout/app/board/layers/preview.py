"""What the tool at work shows: rubber lines, guides, the snap marker with its words, measures, handles.

Every kind of line has its own stroke and every kind of snap its own shape, so none depends on its colour.
"""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from tilelayout.app.board.layers.marks import HANDLES, MARKERS
from tilelayout.app.board.layers.start_lines import paint_start_knob
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.paths import lines_path, rings_path
from tilelayout.app.paint.strokes import line_pen
from tilelayout.app.paint.texts import angle_of, paint_words, readable
from tilelayout.drawing.preview import (
    Handle,
    HandleShape,
    LineRole,
    Measure,
    MeasureKind,
    Preview,
    RubberLine,
    SnapMarker,
)

_STROKES: dict[LineRole, tuple[str, float, tuple[float, ...]]] = {
    LineRole.FIXED: ("ink", 2.4, ()),
    LineRole.RUBBER: ("ink", 1.6, ()),
    LineRole.CLOSING: ("ink", 1.2, (7.0, 5.0)),
    LineRole.GUIDE: ("snap", 1.2, (2.0, 4.0)),
    LineRole.GHOST: ("faint_ink", 1.2, (3.0, 3.0)),
    LineRole.REFUSED: ("stop", 2.4, (10.0, 3.0, 2.0, 3.0)),
}


def paint_preview(painter: QPainter, preview: Preview, rect: QRectF, view: View, colours: Colours) -> None:
    """Paint everything the tool shows but its typed boxes."""
    for line in preview.lines:
        _paint_line(painter, line, view, colours)
    if preview.selection_box is not None:
        _paint_selection_box(painter, preview.selection_box, view, colours)
    for corner in preview.corners:
        _paint_corner(painter, view.to_screen(*corner), colours)
    for handle in preview.handles:
        _paint_handle(painter, handle, view, colours)
    for measure in preview.measures:
        _paint_measure(painter, measure, view, colours)
    if preview.marker is not None:
        _paint_marker(painter, preview.marker, rect, view, colours)


def _paint_line(painter: QPainter, line: RubberLine, view: View, colours: Colours) -> None:
    role, width, dashes = _STROKES[line.role]
    screen = view.all_to_screen(np.array(line.points, dtype=float).reshape(-1, 2))
    path = rings_path([screen]) if line.is_closed else lines_path([screen])
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(line_pen(colours.colour(role), width, dashes))
    painter.drawPath(path)


def _paint_selection_box(
    painter: QPainter, corners: tuple[tuple[float, float], tuple[float, float]], view: View, colours: Colours
) -> None:
    box = QRectF(view.to_screen(*corners[0]), view.to_screen(*corners[1])).normalized()
    colour = colours.colour("selection")
    painter.setBrush(faded(colour, 0.1))
    painter.setPen(line_pen(colour, 1.0, (4.0, 3.0)))
    painter.drawRect(box)


def _paint_corner(painter: QPainter, at: QPointF, colours: Colours) -> None:
    painter.setPen(line_pen(colours.colour("ink"), 1.4))
    painter.setBrush(colours.colour("paper"))
    painter.drawRect(QRectF(at.x() - 3.5, at.y() - 3.5, 7.0, 7.0))


def _paint_handle(painter: QPainter, handle: Handle, view: View, colours: Colours) -> None:
    at = view.to_screen(*handle.point)
    if handle.shape is HandleShape.START:
        paint_start_knob(painter, at, colours, is_chosen=handle.is_chosen)
        return
    colour = colours.colour("selection" if handle.is_chosen else "ink")
    path = HANDLES[handle.shape](at)
    if handle.is_chosen:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(line_pen(colour, 1.4))
        painter.drawRect(QRectF(at.x() - 9.0, at.y() - 9.0, 18.0, 18.0))
    painter.setBrush(colour if handle.is_chosen else colours.colour("paper"))
    painter.setPen(line_pen(colour, 1.6))
    painter.drawPath(path)


def _paint_marker(painter: QPainter, marker: SnapMarker, rect: QRectF, view: View, colours: Colours) -> None:
    snap = colours.colour("snap")
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for a, b in marker.guides:
        painter.setPen(line_pen(snap, 1.2, (2.0, 4.0)))
        painter.drawPath(lines_path([view.all_to_screen(np.array([a, b], dtype=float))]))
    at = view.to_screen(*marker.point)
    shape = MARKERS[marker.kind](at)
    painter.setPen(_rim(colours.colour("paper")))
    painter.drawPath(shape)
    painter.setPen(line_pen(snap, 2.0))
    painter.drawPath(shape)
    if marker.words:
        _paint_marker_words(painter, marker.words, at, rect, colours)


def _rim(paper: QColor) -> QPen:
    return line_pen(faded(paper, 0.85), 5.0, is_round=True)


def _paint_marker_words(painter: QPainter, words: str, at: QPointF, rect: QRectF, colours: Colours) -> None:
    """Write what is snapped to beside the marker, on whichever side has room."""
    width = painter.fontMetrics().horizontalAdvance(words)
    dx = 16.0 + width / 2
    if at.x() + dx + width / 2 > rect.right() - 4.0:
        dx = -dx
    dy = -18.0 if at.y() + 34.0 > rect.bottom() else 18.0
    plate = faded(colours.colour("paper"), 0.9)
    paint_words(painter, QPointF(at.x() + dx, at.y() + dy), words, colours.colour("snap"), plate=plate)


def _paint_measure(painter: QPainter, measure: Measure, view: View, colours: Colours) -> None:
    a, b = view.to_screen(*measure.a), view.to_screen(*measure.b)
    plate = faded(colours.colour("paper"), 0.9)
    if measure.kind is MeasureKind.ANGLE:
        way = _unit(b.x() - a.x(), b.y() - a.y())
        paint_words(
            painter,
            QPointF(a.x() + way[0] * 34, a.y() + way[1] * 34),
            measure.text,
            colours.colour("ink"),
            plate=plate,
        )
        return
    angle = readable(angle_of(b.x() - a.x(), b.y() - a.y()))
    turn = np.radians(angle)
    at = QPointF((a.x() + b.x()) / 2 + np.sin(turn) * 13.0, (a.y() + b.y()) / 2 - np.cos(turn) * 13.0)
    paint_words(painter, at, measure.text, colours.colour("ink"), angle=angle, plate=plate)


def _unit(dx: float, dy: float) -> tuple[float, float]:
    length = float(np.hypot(dx, dy)) or 1.0
    return dx / length, dy / length
