"""What on a surface lies under the pointer.

A corner is small and an edge is long, so corners come first, then edges and cutouts, then pieces; among
equals the nearest wins. The grab zone is as wide on screen at every zoom.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.drawing.picks import GRAB_PX, Pick, PickKind
from tilelayout.geometry.arcs import arc_through, circle_points
from tilelayout.job.values import Cutout, Point, Surface


def pick_at(
    surface: Surface, point: Point, px_per_mm: float, piece_at: Callable[[Point], str | None]
) -> Pick | None:
    """Return what a press at `point` picks, or None on empty ground."""
    reach = GRAB_PX / 2 / px_per_mm
    corner = corner_at(surface, point, reach)
    if corner is not None:
        return Pick(PickKind.CORNER, surface.id, corner)
    line = _edge_or_cutout(surface, point, reach)
    if line is not None:
        return line
    piece = piece_at(point)
    return Pick(PickKind.PIECE, surface.id, id=piece) if piece is not None else None


def corner_at(surface: Surface, point: Point, reach: float) -> int | None:
    """Return the nearest corner within reach (mm)."""
    distances = [math.dist(corner, point) for corner in surface.outline]
    nearest = min(range(len(distances)), key=distances.__getitem__)
    return nearest if distances[nearest] <= reach else None


def edge_at(surface: Surface, point: Point, reach: float) -> int | None:
    """Return the nearest edge within reach (mm)."""
    distances = _distances(edge_lines(surface), point)
    nearest = int(np.argmin(distances))
    return nearest if distances[nearest] <= reach else None


def _edge_or_cutout(surface: Surface, point: Point, reach: float) -> Pick | None:
    """Return the nearer of edge and cutout; the edge where both are touched alike."""
    found = []
    edges = _distances(edge_lines(surface), point)
    found.append((float(edges.min()), PickKind.EDGE, int(edges.argmin())))
    cutouts = _distances(_cutout_shapes(surface), point)
    if len(cutouts):
        found.append((float(cutouts.min()), PickKind.CUTOUT, int(cutouts.argmin())))
    distance, kind, index = min(found, key=lambda each: each[0])
    return Pick(kind, surface.id, index) if distance <= reach else None


def _distances(shapes: NDArray[np.object_], point: Point) -> NDArray[np.float64]:
    return np.asarray(shapely.distance(shapes, shapely.Point(point)), dtype=float)


@lru_cache(maxsize=8)
def edge_lines(surface: Surface) -> NDArray[np.object_]:
    """Return the edges of a surface as shapely lines, arcs as chords."""
    count = len(surface.outline)
    return np.array([shapely.LineString(edge_points(surface, at)) for at in range(count)], dtype=object)


def edge_points(surface: Surface, at: int) -> list[Point]:
    """Return the points of edge `at`: its two corners, or an arc's chords."""
    a, b = surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]
    through = surface.edge(at).through
    if through is None:
        return [a, b]
    return [(float(x), float(y)) for x, y in arc_through(a, through, b).points()]


def foot_on(path: list[Point], point: Point) -> Point:
    """Return the point of a polyline that is nearest to a point."""
    line = shapely.LineString(path)
    foot = line.interpolate(line.project(shapely.Point(point)))
    return (foot.x, foot.y)


@lru_cache(maxsize=8)
def _cutout_shapes(surface: Surface) -> NDArray[np.object_]:
    return np.array([shapely.Polygon(cutout_points(cutout)) for cutout in surface.cutouts], dtype=object)


def cutout_points(cutout: Cutout) -> list[Point]:
    """Return the corners of a cutout, or the ring that stands for a circle."""
    if cutout.circle is None:
        return list(cutout.polygon or ())
    ring = circle_points(cutout.circle.centre, cutout.circle.diameter / 2)
    return [(float(x), float(y)) for x, y in ring]
