"""Trims along the walls: a thin band with the joints between its strips, so that it is seen where they run.

A strip that stands up against the wall is as deep as its tile is thick, too little to see from afar; the band
is then drawn a few px wide. One that lies flat on the surface is as wide as it is.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QPainter

from tilelayout.app.board.shown import Shown
from tilelayout.app.board.surface_shape import SurfaceShape
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours
from tilelayout.app.paint.paths import lines_path, rings_path
from tilelayout.app.paint.strokes import hatch_brush, line_pen
from tilelayout.layout.trim import stands
from tilelayout.planning.trims import USUAL_JOINT, TrimRun, possible_trims

Points = NDArray[np.float64]

_THINNEST = 5.0
"""The band is at least so many px wide."""


def paint_trims(painter: QPainter, shown: Shown, shape: SurfaceShape, view: View, colours: Colours) -> None:
    """Paint the band of every trim of the surface that its tile can give, with a stroke at each joint."""
    surface = shown.surface
    if surface is None or not surface.trims:
        return
    joint = USUAL_JOINT if shown.layout is None else shown.layout.joint
    for trim in possible_trims(shown.job, surface, joint):
        deep = trim.tile.thickness if stands(surface, trim.trim) else trim.trim.height
        across = max(deep, _THINNEST / view.scale)
        for run in trim.runs:
            _paint_run(painter, run, across, shape, view, colours)


def _paint_run(
    painter: QPainter, run: TrimRun, across: float, shape: SurfaceShape, view: View, colours: Colours
) -> None:
    joints: list[Points] = []
    passed = 0.0
    for line, inward in _sides(run, shape):
        band = np.vstack([line, (line + inward * across)[::-1]])
        path = rings_path([view.all_to_screen(band)])
        painter.fillPath(path, colours.colour("cut_tint"))
        painter.fillPath(path, hatch_brush(colours.colour("tile_joint"), 4, 0.8))
        painter.setPen(line_pen(colours.colour("wall"), 1.0))
        painter.drawPath(path)
        length = float(np.hypot(*np.diff(line, axis=0).T).sum())
        here = [at - passed for at in run.joints if passed <= at < passed + length]
        joints += [view.all_to_screen(np.array([at, at + inward * across])) for at in _along(line, here)]
        passed += length
    painter.setPen(line_pen(colours.colour("ink"), 1.6))
    painter.drawPath(lines_path(joints))


def _sides(run: TrimRun, shape: SurfaceShape) -> Iterator[tuple[Points, Points]]:
    """Yield the edges of a run in its direction (n, 2), each with the way into the surface (2,)."""
    for at in run.run.edges:
        edge = shape.edges[at]
        way = edge.line[-1] - edge.line[0]
        turns_left = way[0] * -edge.outward[1] - way[1] * -edge.outward[0] > 0.0
        yield (edge.line if turns_left else edge.line[::-1]), -edge.outward


def _along(line: Points, places: list[float]) -> Iterator[Points]:
    """Yield the points of a line so many mm from its start."""
    steps = np.hypot(*np.diff(line, axis=0).T)
    passed = np.concatenate([[0.0], np.cumsum(steps)])
    for place in places:
        yield np.array([np.interp(place, passed, line[:, 0]), np.interp(place, passed, line[:, 1])])
