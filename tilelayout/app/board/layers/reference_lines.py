"""The reference lines of the layout: each with its number, and by how much it is missed.

A line that is kept has a filled ring, one that is missed an open ring and the miss in words.
"""

from __future__ import annotations

from collections import Counter

import numpy as np
import shapely
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter

from tilelayout.app.board.kept_lines import place_of
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.paths import lines_path, rings_path
from tilelayout.app.paint.strokes import line_pen
from tilelayout.app.paint.texts import paint_words, text_size
from tilelayout.base.units import format_length
from tilelayout.drawing.hitting import cutout_points
from tilelayout.job.values import Cutout, Point, ReferenceLine
from tilelayout.planning.plan import Plan
from tilelayout.planning.reference_lines import LineMiss, line_misses

RING = 9.0
_LONG_AND_SHORT = (14.0, 4.0, 3.0, 4.0)
"""Dashes of a centre line, as on any drawing."""

_CROSS = 22.0
_BELOW = 2.0 * RING + 5.0
"""Numbers at one place stand below each other."""


def paint_reference_lines(painter: QPainter, plan: Plan, view: View, colours: Colours) -> None:
    """Paint every reference line of the plan's layout."""
    misses = line_misses(plan)
    for miss in misses:
        _paint_place(painter, miss.line, plan, view, colours)
    numbered: Counter[Point] = Counter()
    for number, miss in enumerate(misses, start=1):
        at = place_of(miss.line, plan.surface).at
        below = QPointF(0.0, _BELOW * numbered[at])
        numbered[at] += 1
        _paint_number(painter, view.to_screen(*at) + below, number, miss, plan, colours)


def _paint_place(painter: QPainter, line: ReferenceLine, plan: Plan, view: View, colours: Colours) -> None:
    place = place_of(line, plan.surface)
    if place.cutout is not None:
        _paint_kept_away(painter, place.cutout, line.within, view, colours)
    elif place.path:
        _stroke(painter, np.array(place.path, dtype=float), view, colours)
    else:
        _paint_cross(painter, view.to_screen(*place.at), colours)


def _stroke(painter: QPainter, path: np.ndarray, view: View, colours: Colours) -> None:
    painter.setBrush(Qt.BrushStyle.NoBrush)
    on_screen = lines_path([view.all_to_screen(path)])
    painter.setPen(line_pen(faded(colours.colour("paper"), 0.8), 4.5))
    painter.drawPath(on_screen)
    painter.setPen(line_pen(colours.colour("snap"), 2.0, _LONG_AND_SHORT))
    painter.drawPath(on_screen)


def _paint_cross(painter: QPainter, at: QPointF, colours: Colours) -> None:
    painter.setPen(line_pen(colours.colour("snap"), 2.0, _LONG_AND_SHORT))
    for way in (QPointF(_CROSS, 0.0), QPointF(0.0, _CROSS)):
        painter.drawLine(at - way, at + way)


def _paint_kept_away(painter: QPainter, cutout: Cutout, within: float, view: View, colours: Colours) -> None:
    """Paint how far joints are to stay away from a cutout."""
    around = shapely.Polygon(cutout_points(cutout)).buffer(max(within, 1.0), quad_segs=12)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(line_pen(colours.colour("snap"), 2.0, _LONG_AND_SHORT))
    painter.drawPath(rings_path([view.all_to_screen(np.array(around.exterior.coords)[:-1])]))


def _paint_number(
    painter: QPainter, at: QPointF, number: int, miss: LineMiss, plan: Plan, colours: Colours
) -> None:
    snap, paper = colours.colour("snap"), colours.colour("paper")
    painter.setBrush(snap if miss.is_kept else paper)
    painter.setPen(line_pen(snap, 2.0))
    painter.drawEllipse(at, RING, RING)
    painter.setPen(paper if miss.is_kept else colours.colour("ink"))
    ring = QRectF(at.x() - RING, at.y() - RING, 2 * RING, 2 * RING)
    painter.drawText(ring, Qt.AlignmentFlag.AlignCenter, str(number))
    if not miss.is_kept:
        words = "cannot be kept" if miss.miss is None else f"{format_length(miss.miss, plan.style)} off"
        beside = at + QPointF(RING + 8.0 + text_size(painter, words)[0] / 2, 0.0)
        paint_words(painter, beside, words, colours.colour("ink"), plate=faded(paper, 0.85))
