"""Edge gauges: how wide the border cut is along each wall, at a glance and in words.

A gauge is a bar beside the wall, as long as the cut's share of a tile: a full bar is a whole tile. Where
cuts of two sizes take turns, or the wall is askew, the bar is solid up to the least and pale up to the
greatest. A cut that is a sliver gets a hatched bar, so that it can be told without colour.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter

from tilelayout.app.board.layers.poles import stick_number
from tilelayout.app.board.layers.surface import WALL
from tilelayout.app.board.surface_shape import EdgeShape
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, mixed
from tilelayout.app.paint.strokes import fill_box, hatch_brush, line_pen
from tilelayout.app.paint.texts import angle_of, readable, text_size
from tilelayout.base.units import LengthStyle, cut_size, format_length
from tilelayout.layout.borders import BorderCut
from tilelayout.planning.saw_sizes import saw_style

FULL = 64.0
"""Length of the bar of a whole tile in px."""

_BAR = 7.0
_OFF = WALL + 12.0
_GAP = 6.0

_DIFFERS = 2.0
"""Border cuts that differ by more mm than this along one wall are said with both their extremes."""


def paint_gauge(
    painter: QPainter,
    border: BorderCut,
    edge: EdgeShape,
    view: View,
    style: LengthStyle,
    colours: Colours,
    *,
    is_sliver: bool,
) -> None:
    """Paint the gauge of one edge outside its wall, its words behind the bar; nothing on a short edge."""
    words = _fitting_words(painter, border, style, edge.length * view.scale - FULL - _GAP - 8.0)
    if not words:
        return
    width = FULL + _GAP + text_size(painter, words)[0]
    middle = view.to_screen(*map(float, edge.middle))
    along = edge.line[-1] - edge.line[0]
    painter.save()
    painter.translate(middle + QPointF(float(edge.outward[0]), -float(edge.outward[1])) * _OFF)
    painter.rotate(readable(angle_of(float(along[0]), -float(along[1]))))
    plate = QRectF(-width / 2 - 4.0, -9.0, width + 8.0, 18.0)
    fill_box(painter, plate, colours.colour("paper"))
    _paint_bar(painter, -width / 2, border, colours, is_sliver=is_sliver)
    painter.setPen(colours.colour("ink"))
    cap = text_size(painter, words)[1] - 2.0
    painter.drawText(QPointF(-width / 2 + FULL + _GAP, cap / 2), words)
    painter.restore()


def _fitting_words(painter: QPainter, border: BorderCut, style: LengthStyle, room: float) -> str:
    """Return size and share of the cut, the size alone where there is little room (px), "" for too little."""
    size, share = border_words(border, style), share_words(border)
    for words in (f"{size}, {share}" if share else size, size):
        if text_size(painter, words)[0] <= room:
            return words
    return ""


def border_words(border: BorderCut, style: LengthStyle) -> str:
    """Return the border cut in words, as for the saw: "243 mm", "191 to 591 mm" or "whole tile"."""
    style = saw_style(style)
    if border.greatest - border.least > _DIFFERS:
        least = stick_number(cut_size(border.least, style), style)
        return f"{least} to {format_length(cut_size(border.greatest, style), style)}"
    return "whole tile" if border.is_whole else format_length(cut_size(border.usual, style), style)


def share_words(border: BorderCut) -> str:
    """Return which part of a tile the border cut is: "41 %", "32 to 99 %"; "" for whole tiles."""
    least, greatest = (round(100.0 * _part(border, depth)) for depth in (border.least, border.greatest))
    if border.greatest - border.least > _DIFFERS:
        return f"{least} to {greatest} %"
    return "" if border.is_whole else f"{round(100.0 * _part(border, border.usual))} %"


def _paint_bar(
    painter: QPainter, left: float, border: BorderCut, colours: Colours, *, is_sliver: bool
) -> None:
    least, greatest = (_part(border, depth) * FULL for depth in (border.least, border.greatest))
    ink, gauge = colours.colour("sliver" if is_sliver else "gauge"), colours.colour("gauge")
    bar = QRectF(left, -_BAR / 2, max(least, 2.0), _BAR)
    painter.setPen(Qt.PenStyle.NoPen)
    paper = colours.colour("paper")
    fill_box(painter, QRectF(left, -_BAR / 2, greatest, _BAR), mixed(paper, gauge, 0.35))
    fill_box(painter, bar, paper)
    fill_box(painter, bar, hatch_brush(ink, 5, 1.4) if is_sliver else ink)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(line_pen(mixed(paper, gauge, 0.7), 1.0))
    painter.drawRect(QRectF(left, -_BAR / 2, FULL, _BAR))
    painter.setPen(line_pen(ink, 2.0 if is_sliver else 1.2))
    painter.drawRect(bar)


def _part(border: BorderCut, depth: float) -> float:
    """Return which part of a tile a depth is, from 0 to 1."""
    return min(max(border.share * depth / border.usual, 0.0), 1.0) if border.usual else 0.0
