"""Where a layout that is only offered would start: two lines and a ring, drawn lightly in dashes.

Nothing is laid for it, so it follows a search from step to step.
"""

from __future__ import annotations

import math

import shapely
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter

from tilelayout.app.board.layers.start_lines import KNOB
from tilelayout.app.board.surface_shape import shape_of
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.strokes import line_pen
from tilelayout.app.paint.texts import paint_words
from tilelayout.job.values import Layout, Point, Surface

WORDS = "best start"
_DASHES = (9.0, 5.0)
_ABOVE = 2.6 * KNOB


def paint_ghost(painter: QPainter, layout: Layout, surface: Surface, view: View, colours: Colours) -> None:
    """Paint the lines through a layout's start, as far as the surface reaches, and the ring at it."""
    chalk, paper = colours.colour("chalk"), colours.colour("paper")
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for line in ghost_lines(layout, surface):
        ends = [view.to_screen(*end) for end in line]
        for colour, width, dashes in ((faded(paper, 0.7), 4.0, ()), (faded(chalk, 0.8), 1.4, _DASHES)):
            painter.setPen(line_pen(colour, width, dashes))
            painter.drawLine(*ends)
    at = view.to_screen(*layout.start)
    painter.setBrush(faded(paper, 0.7))
    painter.setPen(line_pen(chalk, 1.6, (3.0, 3.0)))
    painter.drawEllipse(at, KNOB, KNOB)
    paint_words(painter, at + QPointF(0.0, -_ABOVE), WORDS, chalk, plate=faded(paper, 0.85))


def ghost_lines(layout: Layout, surface: Surface) -> list[tuple[Point, Point]]:
    """Return the stretches of the two start lines of a layout that lie on the surface."""
    ring = shape_of(surface).ring
    outline = shapely.Polygon(ring)
    x, y = layout.start
    reach = 2.0 * float(max(abs(ring - layout.start).max(), 1.0))
    found = []
    for turn in (0.0, 90.0):
        angle = math.radians(layout.angle + turn)
        dx, dy = reach * math.cos(angle), reach * math.sin(angle)
        chord = shapely.LineString([(x - dx, y - dy), (x + dx, y + dy)]).intersection(outline)
        for part in shapely.get_parts(chord):
            if part.length > 0.0:
                (ax, ay), (bx, by) = part.coords[0], part.coords[-1]
                found.append(((ax, ay), (bx, by)))
    return found
