"""The room: its floor, its thick walls, doorways as openings, every other edge in a line of its own.

Walls stand outside the outline, since the outline is the face of the finished wall. They are stroked twice
as thick as they show and the floor is laid over their inner half, so corners of any angle join of
themselves.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath

from tilelayout.app.board.surface_shape import EdgeShape, SurfaceShape, centre_of
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded, mixed
from tilelayout.app.paint.paths import lines_path, rings_path
from tilelayout.app.paint.strokes import hatch_brush, line_pen
from tilelayout.job.values import EdgeRole, Visibility

Points = NDArray[np.float64]

WALL = 7.0
"""Thickness of a wall in px: the same at every zoom, as a wall's real thickness is not known."""

_HIDDEN_WALL = 4.0
"""An edge that nobody looks at is a thinner, dashed wall."""

_MARK = 5.0


def floor_colour(colours: Colours) -> QColor:
    """Return the tone of the bare surface: a little lighter than the paper around it."""
    paper = colours.colour("paper")
    return mixed(paper, QColor("white"), 0.55 if paper.lightnessF() > 0.5 else 0.045)


def paint_surface(painter: QPainter, shape: SurfaceShape, view: View, colours: Colours) -> None:
    """Paint the walls and the bare floor between them."""
    for run in _runs(shape, {EdgeRole.WALL}):
        _paint_walls(painter, run, view, colours)
    painter.fillPath(rings_path([view.all_to_screen(shape.ring)]), floor_colour(colours))


def paint_edges(painter: QPainter, shape: SurfaceShape, view: View, colours: Colours) -> None:
    """Paint the line of every edge: what stands there, and whether it is seen."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for edge in shape.edges:
        line = view.all_to_screen(edge.line)
        _EDGE_PAINTERS[edge.edge.role](painter, line, edge.outward * (1, -1), colours)


def paint_cutouts(painter: QPainter, shape: SurfaceShape, view: View, colours: Colours) -> None:
    """Paint each cutout as an outlined, hatched hole with its centre mark."""
    ink = colours.colour("cutout")
    for ring in shape.cutouts:
        path = rings_path([view.all_to_screen(ring)])
        painter.fillPath(path, floor_colour(colours))
        painter.fillPath(path, hatch_brush(faded(ink, 0.42), 8, 1.0))
        painter.setPen(line_pen(ink, 1.6))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)
        _paint_centre_mark(painter, view.to_screen(*centre_of(ring)), path.boundingRect(), ink)


def _runs(shape: SurfaceShape, roles: set[EdgeRole]) -> list[list[EdgeShape]]:
    """Return the edges with these roles, joined where they follow one another (also over the last corner)."""
    runs: list[list[EdgeShape]] = []
    is_open = False
    for edge in shape.edges:
        if edge.edge.role not in roles:
            is_open = False
            continue
        if is_open and runs[-1][-1].edge.seen == edge.edge.seen:
            runs[-1].append(edge)
        else:
            runs.append([edge])
        is_open = True
    if len(runs) > 1 and runs[0][0] is shape.edges[0] and runs[-1][-1] is shape.edges[-1] and _alike(runs):
        runs[0] = runs.pop() + runs[0]
    return runs


def _alike(runs: list[list[EdgeShape]]) -> bool:
    return runs[0][0].edge.seen == runs[-1][-1].edge.seen


def _paint_walls(painter: QPainter, run: list[EdgeShape], view: View, colours: Colours) -> None:
    points = np.vstack([run[0].line[:1], *(edge.line[1:] for edge in run)])
    is_ring = bool(np.array_equal(points[0], points[-1]))
    screen = view.all_to_screen(points)
    path = rings_path([screen[:-1]]) if is_ring else lines_path([screen])
    if is_ring:
        path.closeSubpath()
    if run[0].edge.seen is Visibility.HIDDEN:
        pen = line_pen(colours.colour("wall"), 2 * _HIDDEN_WALL, (16.0, 7.0))
    else:
        pen = line_pen(colours.colour("wall"), 2 * WALL)
    pen.setMiterLimit(6.0)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(path)


def _paint_wall_face(painter: QPainter, line: Points, outward: Points, colours: Colours) -> None:
    painter.setPen(line_pen(colours.colour("wall"), 1.2))
    painter.drawPath(lines_path([line]))


def _paint_doorway(painter: QPainter, line: Points, outward: Points, colours: Colours) -> None:
    """An opening: two jambs, and the sill between them as a fine double line."""
    ink = colours.colour("doorway")
    along = _unit(line[-1] - line[0])
    for end, way in ((line[0], -1.0), (line[-1], 1.0)):
        jamb = np.array([end, end + outward * WALL])
        painter.setPen(line_pen(colours.colour("wall"), 3.0))
        painter.drawPath(lines_path([jamb + along * way * 1.0]))
    painter.setPen(line_pen(ink, 1.0))
    painter.drawPath(lines_path([line, line + outward * WALL]))


def _paint_open(painter: QPainter, line: Points, outward: Points, colours: Colours) -> None:
    painter.setPen(line_pen(colours.colour("faint_ink"), 1.0))
    painter.drawPath(lines_path([line]))


def _paint_outside_corner(painter: QPainter, line: Points, outward: Points, colours: Colours) -> None:
    """The tile ends in the open here: a fine line with short strokes, as a finished edge."""
    ink = colours.colour("wall")
    painter.setPen(line_pen(ink, 1.4))
    painter.drawPath(lines_path([line]))
    painter.setPen(line_pen(ink, 1.0))
    painter.drawPath(lines_path(_strokes(line, outward * _MARK, 8.0)))


def _paint_tub(painter: QPainter, line: Points, outward: Points, colours: Colours) -> None:
    """The rim of a tub: a firm line and a rounded one a little further out."""
    ink = colours.colour("wall")
    painter.setPen(line_pen(ink, 1.4))
    painter.drawPath(lines_path([line]))
    painter.setPen(line_pen(ink, 3.0, is_round=True))
    along = _unit(line[-1] - line[0])
    rim = line + outward * WALL
    rim[0] += along * 3.0
    rim[-1] -= along * 3.0
    painter.drawPath(lines_path([rim]))


_EDGE_PAINTERS = {
    EdgeRole.WALL: _paint_wall_face,
    EdgeRole.DOORWAY: _paint_doorway,
    EdgeRole.OPEN: _paint_open,
    EdgeRole.OUTSIDE_CORNER: _paint_outside_corner,
    EdgeRole.TUB: _paint_tub,
}


def _strokes(line: Points, stroke: Points, spacing: float) -> list[Points]:
    """Return short strokes standing on a polyline every `spacing` px."""
    steps = np.diff(line, axis=0)
    lengths = np.hypot(*steps.T)
    strokes: list[Points] = []
    for start, step, length in zip(line, steps, lengths, strict=False):
        for part in np.arange(spacing / 2, length, spacing):
            foot = start + step * (part / length)
            strokes.append(np.array([foot, foot + stroke]))
    return strokes


def _unit(way: Points) -> Points:
    return np.asarray(way / max(float(np.hypot(*way)), 1e-9))


def _paint_centre_mark(painter: QPainter, centre: QPointF, bounds: QRectF, ink: QColor) -> None:
    reach = min(max(min(bounds.width(), bounds.height()) / 2 + 4.0, 6.0), 40.0)
    cross = QPainterPath()
    for dx, dy in ((reach, 0.0), (0.0, reach)):
        cross.moveTo(centre.x() - dx, centre.y() - dy)
        cross.lineTo(centre.x() + dx, centre.y() + dy)
    painter.setPen(line_pen(ink, 1.0, (8.0, 2.0, 2.0, 2.0)))
    painter.drawPath(cross)
