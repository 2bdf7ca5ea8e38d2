"""Paints a cell that is being drawn: its tiles and those of the cells around, gaps, overlaps, vectors.

A gap is hatched one way and outlined in dashes, an overlap is crossed by lines both ways and outlined
firmly, so that neither rests on its colour.
"""

from __future__ import annotations

import math

import numpy as np
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QTransform

from tilelayout.app.board.view import Bounds, View
from tilelayout.app.paint.palette import Colours, faded, mixed
from tilelayout.app.paint.paths import lines_path, rings_path
from tilelayout.app.paint.strokes import hatch_brush, line_pen
from tilelayout.app.paint.texts import paint_words
from tilelayout.job.values import Point
from tilelayout.layout.drafts import Draft, Fit, copies

TIP = 6.0
"""Radius of the knob at the tip of a vector in px; its grab zone is larger."""

_HEAD = 10.0


def bounds_of(draft: Draft) -> Bounds:
    """Return what three by three cells take up."""
    rings = [ring for _, _, ring in copies(draft)]
    return Bounds.of(np.vstack(rings)) if rings else Bounds(-50.0, -50.0, 350.0, 350.0)


def paint_cells(painter: QPainter, draft: Draft, view: View, colours: Colours, front: int | None) -> None:
    """Paint three by three cells, those around faintly, the tile in front (by its number) most clearly."""
    painter.setPen(line_pen(faded(colours.colour("tile_joint"), 0.8), 1.0))
    paper, face = colours.colour("paper"), colours.colour("tile_face")
    for number, steps, ring in sorted(copies(draft), key=lambda each: each[1] == (0, 0)):
        share = 1.0 if steps == (0, 0) else 0.4
        colour = mixed(paper, colours.colour("cut_tint") if _is_front(number, steps, front) else face, share)
        painter.setBrush(colour)
        painter.drawPath(rings_path([view.all_to_screen(ring)]))


def paint_wrong(painter: QPainter, fit: Fit, view: View, colours: Colours) -> None:
    """Paint what stays empty and what is covered twice, in all the cells shown."""
    stop = colours.colour("stop")
    for ring in fit.gaps:
        path = rings_path([view.all_to_screen(ring)])
        painter.fillPath(path, hatch_brush(stop, 7, 1.2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(line_pen(stop, 1.6, (5.0, 3.0)))
        painter.drawPath(path)
    for ring in fit.overlaps:
        path = rings_path([view.all_to_screen(ring)])
        crossed = hatch_brush(stop, 6, 1.2)
        painter.fillPath(path, crossed)
        crossed.setTransform(QTransform().scale(-1.0, 1.0))
        painter.fillPath(path, crossed)
        painter.setPen(line_pen(stop, 2.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)


def paint_numbers(painter: QPainter, draft: Draft, view: View, colours: Colours) -> None:
    """Write the number of each tile in its middle."""
    for number, ring in enumerate(draft.rings, start=1):
        x, y = (ring.min(axis=0) + ring.max(axis=0)) / 2
        plate = faded(colours.colour("paper"), 0.7)
        paint_words(
            painter, view.to_screen(float(x), float(y)), str(number), colours.colour("ink"), plate=plate
        )


def paint_vectors(painter: QPainter, draft: Draft, view: View, colours: Colours) -> None:
    """Paint the vectors from the middle of the first tile, each with its number and a knob."""
    origin, chalk = origin_of(draft), colours.colour("chalk")
    start = view.to_screen(*origin)
    for number, tip in enumerate(tips_of(draft), start=1):
        end = view.to_screen(*tip)
        along = math.hypot(end.x() - start.x(), end.y() - start.y()) or 1.0
        way = QPointF((end.x() - start.x()) / along, (end.y() - start.y()) / along)
        painter.setPen(line_pen(chalk, 2.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(lines_path([np.array([[start.x(), start.y()], [end.x(), end.y()]])]))
        painter.drawPath(_head(end, way))
        painter.setBrush(colours.colour("paper"))
        painter.drawEllipse(end, TIP, TIP)
        beside = QPointF(end.x() + way.x() * 18 - way.y() * 4, end.y() + way.y() * 18 + way.x() * 4)
        paint_words(painter, beside, str(number), chalk, plate=faded(colours.colour("paper"), 0.9))


def origin_of(draft: Draft) -> Point:
    """Return where the vectors begin: the middle of the first tile's box, away from the handles."""
    xs, ys = zip(*draft.outlines[0], strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def tips_of(draft: Draft) -> tuple[Point, Point]:
    """Return where the two vectors end."""
    x, y = origin_of(draft)
    (a, b), (c, d) = draft.vectors
    return (x + a, y + b), (x + c, y + d)


def _is_front(number: int, steps: tuple[int, int], front: int | None) -> bool:
    return number == front and steps == (0, 0)


def _head(end: QPointF, way: QPointF) -> QPainterPath:
    left, right = (
        (
            end.x() - way.x() * (_HEAD + TIP) + side * way.y() * 5,
            end.y() - way.y() * (_HEAD + TIP) - side * way.x() * 5,
        )
        for side in (-1, 1)
    )
    foot = (end.x() - way.x() * TIP, end.y() - way.y() * TIP)
    return lines_path([np.array([left, foot, right])])
