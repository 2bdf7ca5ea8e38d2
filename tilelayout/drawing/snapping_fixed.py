"""Snapping where typed values leave only one freedom: along a line, or round a ring."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.placing import AlongLine, OnRing
from tilelayout.drawing.preview import SnapKind, SnapMarker
from tilelayout.drawing.reach import Reach, Snapped, along, evened, stepped
from tilelayout.drawing.scene import RANK, Array, Scene, SnapLine, crossings
from tilelayout.job.values import Point

_POINTS_THE_WAY = (RANK[SnapKind.SQUARE], RANK[SnapKind.LEVEL], RANK[SnapKind.PARALLEL])
_ROUGHLY = math.sin(math.radians(8.0))
"""A hand that points within eight degrees of a right angle means it; a tool of our own feel, no source."""


def snap_along(point: Point, scene: Scene, reach: Reach, locus: AlongLine) -> Snapped | None:
    """Snap along a line that is fixed: to what crosses it, then to round steps."""
    line = SnapLine(
        SnapKind.TYPED, locus.origin, locus.direction, "as typed", 0.0 if locus.is_ray else -math.inf
    )
    foot = max(along(point, line), line.low)
    crossing = _crossing_along(foot, scene, reach, line) if reach.snaps else None
    if crossing:
        return Snapped(crossing.point, crossing)
    spot = line.at(stepped(foot, (0.0,), reach) if reach.snaps else foot)
    return Snapped(spot, SnapMarker(SnapKind.TYPED, spot, line.words))


def _crossing_along(foot: float, scene: Scene, reach: Reach, line: SnapLine) -> SnapMarker | None:
    arrays = scene.line_arrays
    count = len(scene.lines)
    origin, direction = np.tile(line.origin, (count, 1)), np.tile(line.direction, (count, 1))
    t, u = crossings(origin, direction, arrays.origin, arrays.direction)
    with np.errstate(invalid="ignore"):
        fits = (np.abs(t - foot) <= reach.tolerance) & arrays.holds(u) & (t > line.low)
    fits &= np.abs(t) > SAME_PLACE
    near = np.flatnonzero(fits)
    if not len(near):
        return None
    best = near[np.lexsort((np.abs(u[near]), arrays.rank[near], evened(np.abs(t[near] - foot))))[0]]
    other = scene.lines[best]
    spot = other.pinned(line.at(float(t[best])))
    return SnapMarker(other.kind, spot, other.words, ((other.origin, spot),) if other.is_guide else ())


def snap_on_ring(point: Point, scene: Scene, reach: Reach, locus: OnRing) -> Snapped | None:
    """Snap on a circle: to the lines that cross it, most of all to those that point the way."""
    away = math.dist(point, locus.centre)
    if away <= SAME_PLACE:
        return None
    marker = _crossing_on_ring(point, scene, reach, locus) if reach.snaps and scene.lines else None
    if marker:
        return Snapped(marker.point, marker)
    spot = _towards(locus.centre, point, locus.radius / away)
    return Snapped(spot, SnapMarker(SnapKind.TYPED, spot, "as typed"))


def _towards(a: Point, b: Point, share: float) -> Point:
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


def _crossing_on_ring(point: Point, scene: Scene, reach: Reach, locus: OnRing) -> SnapMarker | None:
    arrays = scene.line_arrays
    foot, off = arrays.measured(locus.centre)
    with np.errstate(invalid="ignore"):
        half = np.sqrt(locus.radius**2 - off**2)
    t = np.concatenate((foot + half, foot - half))
    both = np.tile(np.arange(len(foot)), 2)
    spots = arrays.origin[both] + t[:, None] * arrays.direction[both]
    distance = _ring_distance(point, spots, scene, locus)
    fits = (
        (distance <= _ring_reach(spots, point, scene, reach, locus))
        & (t >= arrays.low[both] - 1e-6)
        & (t <= arrays.high[both] + 1e-6)
    )
    near = np.flatnonzero(fits)
    if not len(near):
        return None
    best = near[np.lexsort((arrays.rank[both[near]], evened(distance[near])))[0]]
    line = scene.lines[both[best]]
    spot = line.at(float(t[best]))
    return SnapMarker(line.kind, spot, line.words, ((line.origin, spot),) if line.is_guide else ())


def _ring_distance(point: Point, spots: Array, scene: Scene, locus: OnRing) -> Array:
    """Return how far the pointer is from each spot, seen along the ring or, if less, from its guide.

    Far inside the ring a small lean of the pointer is a long way on the ring; what counts then is how near
    the pointer is to the line that points the way.
    """
    on_ring = _towards(locus.centre, point, locus.radius / math.dist(point, locus.centre))
    distance = np.hypot(spots[:, 0] - on_ring[0], spots[:, 1] - on_ring[1])
    _, off = scene.line_arrays.measured(point)
    points_the_way = _point_the_way(spots, point, scene, locus)
    return np.where(points_the_way, np.minimum(distance, np.tile(off, 2)), distance)


def _ring_reach(spots: Array, point: Point, scene: Scene, reach: Reach, locus: OnRing) -> Array:
    """Return how far from each spot the pointer may be.

    With the length typed, the hand only shows a direction, and shows it roughly.
    """
    rough = max(reach.tolerance, _ROUGHLY * locus.radius)
    return np.where(_point_the_way(spots, point, scene, locus), rough, reach.tolerance)


def _point_the_way(spots: Array, point: Point, scene: Scene, locus: OnRing) -> NDArray[np.bool_]:
    """Tell which spots lie on a line that gives a direction, on the pointer's side of the centre."""
    same_side = ((spots - np.array(locus.centre)) @ (np.array(point) - np.array(locus.centre))) > 0
    return np.asarray(np.isin(np.tile(scene.line_arrays.rank, 2), _POINTS_THE_WAY) & same_side)
