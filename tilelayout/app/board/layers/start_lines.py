"""The two start lines as if snapped with chalk, and the knob at the start by which the pattern is dragged.

A snapped line is a soft band with a firmer, broken core: the string leaves chalk where it touched. The
grain comes from a fixed pattern of dashes, so that it stands still while the board moves.
"""

from __future__ import annotations

import math
from functools import lru_cache

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.strokes import line_pen
from tilelayout.app.paint.texts import angle_of, paint_words, readable, text_size
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.planning.joints import StartLine

_GRAIN = tuple(map(float, (3, 15, 15, 16, 4, 10, 8, 6, 14, 11, 16, 3, 8, 6, 11, 14, 13, 5, 10, 15, 11, 16)))
_DUST = tuple(map(float, (2, 5, 9, 5, 5, 5, 3, 9, 1, 1, 3, 5, 3, 2, 9, 3, 9, 1, 9, 5, 2, 1, 2, 3, 1, 3)))
"""Drawn by lot once: lengths in px of chalk and of bare floor, in turns."""

_PIECES = (8.0, 0.0)
"""The softest chalk is laid in pieces of so many px without gaps: a slanting stroke to be seen through takes
up to ten times as long once it is longer than some twenty px, as measured."""

_BAND = 8.0
"""Breadth of the picture of a snapped line in px, a little more than the softest chalk."""

_LONGEST = 4000.0
"""Lines longer than this many px are stroked: a picture of one would be large, and little of it in sight."""

_STRAIGHT = 0.5
"""A line that strays by fewer px than this over its whole length is level or upright."""

_BESIDE = 11.0
_INSIDE = 14.0
"""How far from a line's end its distance is written, in px."""

KNOB = 9.0
"""Radius in px of the ring drawn at the start; its grab zone is larger."""


def paint_start_lines(
    painter: QPainter,
    lines: tuple[StartLine, ...],
    middle: QPointF,
    view: View,
    style: LengthStyle,
    colours: Colours,
) -> None:
    """Paint the snapped lines, at their ends the distances from the fixed walls that find them.

    The words stand on the side of the line where `middle`, the middle of the room on the screen, lies.
    """
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for line in lines:
        _paint_chalk(painter, QLineF(view.to_screen(*line.start), view.to_screen(*line.end)), colours)
    knot = _crossing(lines, view)
    for line in lines:
        for end, other, marks in ((line.start, line.end, line.at_start), (line.end, line.start, line.at_end)):
            words = "  ".join(f"{format_length(m.distance, style)} from the {m.wall.name}" for m in marks)
            way = QLineF(view.to_screen(*end), view.to_screen(*other))
            _paint_distance(painter, words, way, middle, knot, colours)


def _paint_chalk(painter: QPainter, line: QLineF, colours: Colours) -> None:
    """Lay a snapped line down; level and upright ones, the usual, as pictures on whole pixels."""
    chalk, ratio = colours.colour("chalk"), painter.device().devicePixelRatio()
    is_level, is_upright = abs(line.dy()) < _STRAIGHT, abs(line.dx()) < _STRAIGHT
    if line.length() > _LONGEST or not (is_level or is_upright):
        _lay_chalk(painter, line, chalk)
        return
    picture = _snapped(math.ceil(line.length()), chalk.rgba(), ratio, is_upright=is_upright)
    middle = (line.center() - QRectF(QPointF(), picture.deviceIndependentSize()).center()) * ratio
    painter.drawImage(QPointF(round(middle.x()), round(middle.y())) / ratio, picture)


@lru_cache(maxsize=32)
def _snapped(length: int, rgba: int, ratio: float, *, is_upright: bool) -> QImage:
    """Return a snapped line as a picture: the same chalk is laid down again wherever the line moves."""
    along, across = round(length * ratio), round(_BAND * ratio)
    size = QSize(across, along) if is_upright else QSize(along, across)
    picture = QImage(size, QImage.Format.Format_ARGB32_Premultiplied)
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    half = _BAND / 2
    line = QLineF(half, length, half, 0.0) if is_upright else QLineF(0.0, half, length, half)
    with QPainter(picture) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        _lay_chalk(painter, line, QColor.fromRgba(rgba))
    return picture


def _lay_chalk(painter: QPainter, line: QLineF, chalk: QColor) -> None:
    for colour, width, dashes in (
        (faded(chalk, 0.16), 6.0, _PIECES),
        (faded(chalk, 0.5), 3.0, _DUST),
        (faded(chalk, 0.95), 1.6, _GRAIN),
    ):
        painter.setPen(line_pen(colour, width, dashes))
        painter.drawLine(line)


def _crossing(lines: tuple[StartLine, ...], view: View) -> QPointF | None:
    """Return where the lines cross on the screen."""
    if len(lines) != 2:
        return None
    first, second = (QLineF(view.to_screen(*line.start), view.to_screen(*line.end)) for line in lines)
    kind, at = first.intersects(second)
    return at if kind is not QLineF.IntersectionType.NoIntersection else None


def _paint_distance(
    painter: QPainter, words: str, line: QLineF, middle: QPointF, knot: QPointF | None, colours: Colours
) -> None:
    """Write a line's distances beside it, a little inside its first end; not where the lines cross."""
    width = text_size(painter, words)[0]
    is_crossed = knot is not None and QLineF(line.p1(), knot).length() < width + 3 * _INSIDE
    if not words or is_crossed or line.length() < 2.4 * width:
        return
    angle = readable(angle_of(line.dx(), line.dy()))
    beside = QPointF(math.sin(math.radians(angle)), -math.cos(math.radians(angle))) * _BESIDE
    if QPointF.dotProduct(middle - line.p1(), beside) < 0.0:
        beside = -beside
    at = line.pointAt((width / 2 + _INSIDE) / line.length()) + beside
    plate = faded(colours.colour("paper"), 0.85)
    paint_words(painter, at, words, colours.colour("chalk"), angle=angle, plate=plate)


def paint_start_knob(painter: QPainter, at: QPointF, colours: Colours, *, is_chosen: bool) -> None:
    """Paint the start: a ring of chalk with a dot in it; doubled when chosen."""
    chalk, paper = colours.colour("chalk"), colours.colour("paper")
    painter.setBrush(faded(paper, 0.85))
    painter.setPen(line_pen(chalk, 2.2))
    painter.drawEllipse(at, KNOB, KNOB)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(chalk)
    painter.drawEllipse(at, 3.0, 3.0)
    if is_chosen:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(line_pen(chalk, 1.4))
        painter.drawEllipse(at, KNOB + 4.0, KNOB + 4.0)
