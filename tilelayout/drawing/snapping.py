"""Finds where the pointer snaps to.

Points come before lines and lines before the grid, since the foot on a line is always nearer than the end of
the line; within each the nearest wins, and of equally near ones the kind that stands first in `SnapKind`. On
a line the distance along it goes to the nearest round step. The point returned is the one to use: what is
marked is what is drawn.
"""

from __future__ import annotations

import math

import numpy as np

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.base.units import format_length
from tilelayout.drawing.grid import grid_point
from tilelayout.drawing.placing import AlongLine, Anywhere, AtSpots, Locus, Nowhere, OnRing
from tilelayout.drawing.preview import SnapKind, SnapMarker
from tilelayout.drawing.reach import Reach, Snapped, along, evened, stepped
from tilelayout.drawing.scene import RANK, Array, Scene, SnapLine, crossings
from tilelayout.drawing.snapping_fixed import snap_along, snap_on_ring
from tilelayout.job.values import Point

_MOST_CROSSED = 24
"""So many of the nearest lines are tried for intersections with each other."""


def snap(point: Point, scene: Scene, reach: Reach, locus: Locus | None = None) -> Snapped | None:
    """Return where `point` snaps to within `locus`; None if nothing there suits."""
    match locus:
        case None | Anywhere():
            return _anywhere(point, scene, reach)
        case AlongLine():
            return snap_along(point, scene, reach, locus)
        case OnRing():
            return snap_on_ring(point, scene, reach, locus)
        case AtSpots(points):
            nearest = min(points, key=lambda spot: math.dist(spot, point))
            return Snapped(nearest, SnapMarker(SnapKind.TYPED, nearest, "as typed"))
        case Nowhere():
            return None


def _anywhere(point: Point, scene: Scene, reach: Reach) -> Snapped:
    if not reach.snaps:
        return Snapped(point)
    near = _near_lines(point, scene, reach)
    marker = _nearest_spot(point, scene, near, reach) or _nearest_line(point, scene, near, reach)
    marker = marker or _grid(point, reach)
    return Snapped(marker.point, marker) if marker else Snapped(point)


def _near_lines(point: Point, scene: Scene, reach: Reach) -> list[int]:
    """Return the lines within reach, nearest first; of equally near ones by kind, then by their start."""
    arrays = scene.line_arrays
    t, distance = arrays.measured(point)
    near = np.flatnonzero((distance <= reach.tolerance) & arrays.holds(t))
    order = np.lexsort((np.abs(t[near]), arrays.rank[near], evened(distance[near])))
    return [int(at) for at in near[order][:_MOST_CROSSED]]


def _nearest_spot(point: Point, scene: Scene, near: list[int], reach: Reach) -> SnapMarker | None:
    found = [_marker_of_spot(scene, at) for at in _nearest(point, scene.spots, scene.spot_ranks, reach)]
    crossing = _nearest_crossing(point, scene, near, reach)
    if crossing is not None:
        found.append(crossing)
    return min(found, key=lambda marker: _order(point, marker), default=None)


def _nearest(point: Point, spots: Array, ranks: Array, reach: Reach) -> list[int]:
    """Return the number of the nearest spot within reach in a list, or an empty one."""
    distance = np.hypot(spots[:, 0] - point[0], spots[:, 1] - point[1])
    near = np.flatnonzero(distance <= reach.tolerance)
    order = np.lexsort((ranks[near], evened(distance[near])))
    return [int(near[order[0]])] if len(near) else []


def _order(point: Point, marker: SnapMarker) -> tuple[int, int]:
    return (round(math.dist(point, marker.point) / SAME_PLACE), RANK[marker.kind])


def _marker_of_spot(scene: Scene, at: int) -> SnapMarker:
    spot = scene.points[at]
    return SnapMarker(spot.kind, spot.point, spot.words)


def _nearest_crossing(point: Point, scene: Scene, near: list[int], reach: Reach) -> SnapMarker | None:
    """Return the nearest place where two lines cross, unless both come from one thing."""
    arrays = scene.line_arrays
    first, second = np.triu_indices(len(near), 1)
    a, b = np.array(near, dtype=int)[first], np.array(near, dtype=int)[second]
    t, u = crossings(arrays.origin[a], arrays.direction[a], arrays.origin[b], arrays.direction[b])
    spots = arrays.origin[a] + t[:, None] * arrays.direction[a]
    distance = np.hypot(spots[:, 0] - point[0], spots[:, 1] - point[1])
    fits = (distance <= reach.tolerance) & (t >= arrays.low[a] - 1e-6) & (t <= arrays.high[a] + 1e-6)
    fits &= (u >= arrays.low[b] - 1e-6) & (u <= arrays.high[b] + 1e-6)
    for at in np.flatnonzero(fits)[np.argsort(evened(distance[fits]), kind="stable")]:
        one, other = scene.lines[a[at]], scene.lines[b[at]]
        if not one.source or one.source != other.source:
            return _marker_of_crossing(one, other, (float(spots[at, 0]), float(spots[at, 1])))
    return None


def _marker_of_crossing(one: SnapLine, other: SnapLine, spot: Point) -> SnapMarker:
    exact = other.pinned(one.pinned(spot))
    words = one.words if one.words == other.words else f"{one.words} and {other.words}"
    guides = tuple((line.origin, exact) for line in (one, other) if line.is_guide)
    return SnapMarker(SnapKind.INTERSECTION, exact, words, guides)


def _nearest_line(point: Point, scene: Scene, near: list[int], reach: Reach) -> SnapMarker | None:
    if not near:
        return None
    line = scene.lines[near[0]]
    foot = along(point, line)
    t = stepped(foot, line.zeros, reach)
    is_usable = line.low <= t <= line.high and math.dist(line.at(t), point) <= reach.tolerance
    spot = line.at(t if is_usable else foot)
    return SnapMarker(line.kind, spot, line.words, ((line.origin, spot),) if line.is_guide else ())


def _grid(point: Point, reach: Reach) -> SnapMarker | None:
    if not reach.has_grid:
        return None
    spot = grid_point(point, reach.step)
    if math.dist(spot, point) > reach.tolerance:
        return None
    return SnapMarker(SnapKind.GRID, spot, f"on grid {format_length(reach.step, reach.style)}")
