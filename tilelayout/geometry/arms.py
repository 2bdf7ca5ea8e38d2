"""How far a polygon with inward corners can shrink before it can no longer be grown back.

While a polygon shrinks with mitred corners, each corner travels along the bisector of its two sides. Growing
what is left moves every side back to its old line, so something is lost only when
- a side next to an inward corner has shrunk to nothing: the stretch in front of it, an arm, has closed; or
- a whole part, cut off earlier by an inward corner that met a side opposite, has shrunk to nothing.
The first happens where the path of an inward corner is first met by another side, the second in `parts`.
A side between outward corners may vanish: growing its neighbours back covers more than it bounded. So may a
chord of a curve, as long as the curve itself would run on to the side that closes in on it. Once the polygon
has come apart, what one part loses another may still cover, so there the loss is looked at.

The events are those of the straight skeleton: Aichholzer, Aurenhammer, Alberts, Gaertner, "A novel type of
skeleton for polygons", Journal of Universal Computer Science 1 (1995); the reading of what is lost is ours.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.base.tolerance import NO_AREA
from tilelayout.geometry.curves import Curves, curves_of
from tilelayout.geometry.parts import part_radii
from tilelayout.geometry.regrown import lost_area
from tilelayout.geometry.sides import Sides, sides_of

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]

_PARALLEL = 1e-7
_SLACK = 1e-7
_SAME_TIME = 1e-9
_MOMENT = 1e-3
"""How much more or less a polygon is shrunk to look at it just before and after something happens, in mm."""

_HAIR = 0.5
_TOOTH = 1.0
"""What closes within _HAIR mm is a roughness of the outline, no arm, unless more mm2 than this are lost."""


def thinnest_radius(rings: Sequence[Points]) -> float:
    """Return half the narrowest place of a polygon: outer ring counter-clockwise, holes clockwise.

    The rings have no repeated or straight corners.
    """
    sides = sides_of(rings)
    curves = curves_of(sides)
    meeting, met_at = _first_meetings(sides)
    closes, parts = _what_happens(sides, curves, meeting)
    closing = met_at[closes]
    parting = float(met_at[parts].min(initial=np.inf))
    first = float(closing.min(initial=np.inf))
    if _HAIR < first <= parting and np.isfinite(first):
        return first
    return _first_loss(rings, sides, np.concatenate([closing, part_radii(sides, curves, np.inf)]), parting)


def _first_loss(rings: Sequence[Points], sides: Sides, radii: Numbers, parting: float) -> float:
    """Return the least of the radii at which something is lost; before `parting`, something surely is."""
    shape = shapely.Polygon(rings[0], rings[1:])
    for radius in np.unique(radii).tolist():
        if _HAIR < radius <= parting or _is_lost(shape, sides, radius):
            return float(radius)
    return float(shapely.maximum_inscribed_circle(shape).length)


def _is_lost(shape: shapely.Polygon, sides: Sides, radius: float) -> bool:
    before, after = (lost_area(shape, sides, max(radius + step, 0.0)) for step in (-_MOMENT, _MOMENT))
    return after - before > (NO_AREA if radius > _HAIR else _TOOTH)


def _first_meetings(sides: Sides) -> tuple[Flags, Numbers]:
    """Which sides the path of each inward corner first meets, (k, n), and after how much shrinking, (k,)."""
    corners = np.flatnonzero(sides.bends_in)
    normal, next_normal = sides.normals[corners], sides.normals[sides.next[corners]]
    paths = (normal + next_normal) / (1.0 + np.sum(normal * next_normal, axis=1))[:, None]
    starts = sides.ends[corners]
    speed = 1.0 - paths @ sides.normals.T
    depths = sides.depths(starts)
    own = np.zeros(speed.shape, dtype=bool)
    rows = np.arange(len(corners))
    own[rows, corners] = own[rows, sides.next[corners]] = True
    met = ~own & (speed > _PARALLEL) & (depths > _SLACK)
    times = np.divide(depths, speed, out=np.full(speed.shape, np.inf), where=met)
    times[met & ~_beside(sides, starts, paths, np.where(met, times, 0.0))] = np.inf
    first = times.min(axis=1, initial=np.inf)
    meeting = np.isfinite(times) & (times <= (first * (1.0 + _SAME_TIME) + _SAME_TIME)[:, None])
    return meeting, first


def _beside(sides: Sides, starts: Points, paths: Points, times: Numbers) -> Flags:
    """Tell whether corner i, at times[i, j], stands between the ends of the strip of side j."""
    places = starts @ sides.along.T - np.sum(sides.starts * sides.along, axis=1)
    places = places + times * (paths @ sides.along.T)
    before_end = places <= sides.lengths + sides.mitres[:, 1] * times + _SLACK
    return np.asarray(before_end & (places >= -sides.mitres[:, 0] * times - _SLACK))


def _what_happens(sides: Sides, curves: Curves, meeting: Flags) -> tuple[Flags, Flags]:
    """Tell of each inward corner whether its meeting closes an arm, and whether it parts the polygon.

    It closes an arm if a side next to the corner, seen from there, does not lead away from a side it meets,
    and is no chord of a curve that runs on to that side; it parts the polygon if both sides lead away. A
    curve that bulges towards a side parts the polygon only a moment before its first chord closes the arm.
    """
    corners = np.flatnonzero(sides.bends_in)
    vanishing = np.zeros(meeting.shape, dtype=bool)
    for away in (-sides.along[corners], sides.along[sides.next[corners]]):
        vanishing |= meeting & (away @ sides.normals.T <= _PARALLEL)
    runs_on = np.zeros(meeting.shape, dtype=bool)
    if len(curves.radii):
        joins = curves.joins[corners]
        runs_on[joins] = curves.run_on_to(sides)[curves.owner[corners[joins]]]
    closes = np.any(vanishing & ~runs_on, axis=1)
    bulges = curves.joins[corners] & np.any(meeting & ~runs_on, axis=1)
    return closes, meeting.any(axis=1) & ~vanishing.any(axis=1) & ~bulges
