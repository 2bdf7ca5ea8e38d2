"""Paints a device-free figure on the screen, with the same marks that the paper gets.

A figure is in millimetres of paper with y up. It is scaled as a whole, lines and type included, so that the
drawing in a card looks like the drawing on the sheet.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPainterPath, QPen, QTransform

from tilelayout.app.paint.palette import Colours
from tilelayout.app.paint.paths import lines_path, rings_path
from tilelayout.reports.figure import Align, Figure, Path, Pen, Text

_TYPE = 100
"""Type is laid out at this many px and scaled down, so that its spacing is that of the paper."""


def paint_figure(
    painter: QPainter, figure: Figure, into: QRectF, colours: Colours, *, largest: float = 12.0
) -> None:
    """Paint `figure` as large as fits in the middle of `into`, at most `largest` px for each mm of paper."""
    scale = min(into.width() / figure.width, into.height() / figure.height, largest)
    middle = into.center()
    left, bottom = middle.x() - figure.width * scale / 2, middle.y() + figure.height * scale / 2
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setWorldTransform(QTransform(scale, 0, 0, -scale, left, bottom) * painter.worldTransform())
    for mark in figure.marks:
        if isinstance(mark, Path):
            _paint_path(painter, mark, colours, scale)
        else:
            _paint_text(painter, mark, colours)
    painter.restore()


def _paint_path(painter: QPainter, mark: Path, colours: Colours, scale: float) -> None:
    path = rings_path(mark.lines) if mark.is_closed else lines_path(mark.lines)
    painter.setPen(_pen(mark.pen, mark.is_round, colours, scale) if mark.pen else Qt.PenStyle.NoPen)
    painter.setBrush(QBrush(colours.colour(mark.fill)) if mark.fill else Qt.BrushStyle.NoBrush)
    painter.drawPath(path)


def _pen(pen: Pen, is_round: bool, colours: Colours, scale: float) -> QPen:
    weight = max(pen.weight, 1.0 / scale)
    line = QPen(colours.colour(pen.role), weight)
    line.setCapStyle(Qt.PenCapStyle.RoundCap if is_round else Qt.PenCapStyle.FlatCap)
    line.setJoinStyle(Qt.PenJoinStyle.RoundJoin if is_round else Qt.PenJoinStyle.MiterJoin)
    if pen.dashes:
        line.setDashPattern([length / weight for length in pen.dashes])
    return line


def _paint_text(painter: QPainter, mark: Text, colours: Colours) -> None:
    font = QFont(painter.font())
    font.setPixelSize(_TYPE)
    font.setBold(mark.is_bold)
    letters = QPainterPath()
    letters.addText(QPointF(), font, mark.words)
    share = {Align.LEFT: 0.0, Align.CENTRE: 0.5, Align.RIGHT: 1.0}[mark.align]
    width = letters.boundingRect().right()
    to_paper = mark.height / _TYPE
    painter.save()
    painter.translate(*mark.at)
    painter.rotate(mark.angle)
    painter.scale(to_paper, -to_paper)
    painter.translate(-width * share, 0.0)
    if mark.has_halo:
        painter.strokePath(letters, _halo(colours.colour("paper")))
    painter.fillPath(letters, colours.colour(mark.role))
    painter.restore()


def _halo(paper: QColor) -> QPen:
    return QPen(
        paper, _TYPE * 0.35, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin
    )
