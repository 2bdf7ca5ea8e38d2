"""The length of every edge, written along it outside the wall, while the room is being measured."""

from __future__ import annotations

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainter

from tilelayout.app.board.layers.surface import WALL
from tilelayout.app.board.surface_shape import EdgeShape, SurfaceShape
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.texts import angle_of, paint_words, readable, text_size
from tilelayout.base.units import LengthStyle, format_length

_OFF = WALL + 11.0
_LEAST = 24.0


def paint_lengths(
    painter: QPainter, shape: SurfaceShape, view: View, style: LengthStyle, colours: Colours
) -> None:
    """Write the lengths of all edges that are long enough on the screen to carry them."""
    for edge in shape.edges:
        words = format_length(edge.length, style)
        if edge.length * view.scale >= max(text_size(painter, words)[0] * 0.8, _LEAST):
            _paint_length(painter, edge, words, view, colours)


def _paint_length(painter: QPainter, edge: EdgeShape, words: str, view: View, colours: Colours) -> None:
    middle = view.to_screen(*map(float, edge.middle))
    out_x, out_y = edge.outward[0], -edge.outward[1]
    along = edge.line[-1] - edge.line[0]
    angle = readable(angle_of(float(along[0]), -float(along[1])))
    at = QPointF(middle.x() + out_x * _OFF, middle.y() + out_y * _OFF)
    paint_words(
        painter, at, words, colours.colour("ink"), angle=angle, plate=faded(colours.colour("paper"), 0.85)
    )
