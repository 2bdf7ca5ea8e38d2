"""The paper under everything, with a dot at every round measure while a room is being measured."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from tilelayout.app.board.steps import whole_times
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.grid import grid_step

DOT_SPACING = 22.0
"""Dots never stand closer than this many px."""


def paint_ground(painter: QPainter, rect: QRectF, colours: Colours) -> None:
    """Cover the board with paper."""
    painter.fillRect(rect, colours.colour("paper"))


def paint_dots(painter: QPainter, rect: QRectF, view: View, style: LengthStyle, colours: Colours) -> None:
    """Paint a fine dot at every whole step of the job's lengths."""
    step = whole_times(grid_step(style, view.scale), DOT_SPACING / view.scale, style)
    left, bottom, right, top = view.surface_rect(rect)
    across = np.arange(np.ceil(left / step), right / step) * step
    up = np.arange(np.ceil(bottom / step), top / step) * step
    dots = [view.to_screen(x, y) for x in across for y in up]
    painter.setPen(_dot(colours.colour("faint_ink")))
    painter.drawPoints(dots)


def _dot(colour: QColor) -> QPen:
    pen = QPen(faded(colour, 0.45), 1.6)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    return pen
