"""The narrowest place of a polygon with one inward corner, told without looking at what is lost.

Where the corner meets the side of an arm, all of the arm is lost that lies past the line of the corner's
other side. Where it meets a side between two arms the shrinking polygon comes apart into two convex parts.
Each vanishes to the largest circle that its sides hold. The first is lost as far as it lies past the
line of the other's side at the corner, if that side is still there to end what the other part grows back to.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.inscribed import held_radius
from tilelayout.geometry.rings import signed_area
from tilelayout.geometry.sides import Sides

Points = NDArray[np.float64]
Places = NDArray[np.intp]

_PARALLEL = 1e-7
_SURELY_LEFT = 1e-6


def radius_once_parted(sides: Sides, corner: int, met: int, radius: float, least_arm: float) -> float | None:
    """Return half the narrowest place of the polygon of which `corner` is the one inward corner.

    Shrunk by `radius` its corner meets the side `met`. None if what is lost then may be under `least_arm`
    mm2, which has to be looked at.
    """
    polygon = int(np.searchsorted(sides.first, corner, side="right")) - 1
    first, count = int(sides.first[polygon]), int(np.diff(sides.first)[polygon])
    before = first + np.arange(met - first, met - first + (corner - met) % count + 1) % count
    after = first + np.arange(corner + 1 - first, corner + 1 - first + (met - corner - 1) % count + 1) % count
    place = sides.ends[corner]
    held = [
        held_radius(sides.normals[part], _depths(sides, part, place[None])[0]) for part in (before, after)
    ]
    foot = _foot(sides, corner, met, radius)
    if held[0] <= held[1]:
        lost, ring, other, end = held[0], [place, foot, *sides.ends[before[:-1]]], after, int(after[0])
    else:
        lost, ring, other, end = held[1], [foot, place, *sides.ends[after[:-1]]], before, corner
    if not np.isfinite(lost) or not _is_left(sides, end, other, lost):
        return None
    points = np.array(ring)
    return lost if _area_outside(points, _depths(sides, np.array([end]), points)[:, 0]) > least_arm else None


def lost_arm(sides: Sides, corner: int, met: int) -> float:
    """Return the area in mm2 that is lost when `corner`, the one inward corner of a polygon, meets `met`."""
    after = int(sides.next[corner])
    polygon = int(np.searchsorted(sides.first, corner, side="right")) - 1
    ring = sides.starts[sides.first[polygon] : sides.first[polygon + 1]]
    lost = 0.0
    for side, other, way in ((corner, after, -1.0), (after, corner, 1.0)):
        if way * float(sides.along[side] @ sides.normals[met]) <= _PARALLEL:
            lost += _area_outside(ring, _depths(sides, np.array([other]), ring)[:, 0])
    return lost


def _depths(sides: Sides, chosen: Places, points: Points) -> Points:
    """How far points (m, 2) lie inside the lines of some sides (s,): (m, s)."""
    away = points[:, None] - sides.starts[chosen]
    return np.asarray(np.sum(away * sides.normals[chosen], axis=-1))


def _foot(sides: Sides, corner: int, met: int, radius: float) -> Points:
    """Where on the side that it meets the inward corner arrives, square to that side."""
    normals = sides.normals[[corner, sides.next[corner]]]
    path = normals.sum(axis=0) / (1.0 + normals[0] @ normals[1])
    return np.asarray(sides.ends[corner] + radius * (path - sides.normals[met]))


def _is_left(sides: Sides, side: int, part: Places, radius: float) -> bool:
    """Tell whether one side of a convex part is still there after it was shrunk by `radius`."""
    others = part[part != side]
    start = sides.starts[side] + radius * sides.normals[side]
    room = _depths(sides, others, start[None])[0] - radius
    gain = sides.normals[others] @ sides.along[side]
    with np.errstate(divide="ignore", invalid="ignore"):
        at = -room / gain
    last, first = at[gain < 0.0].min(initial=np.inf), at[gain > 0.0].max(initial=-np.inf)
    return bool(last - first > _SURELY_LEFT) and bool(np.all(room[gain == 0.0] >= 0.0))


def _area_outside(ring: Points, depths: Points) -> float:
    """Area of a ring where it lies outside a line, from the depths of its corners inside of it."""
    kept: list[Points] = []
    for at in range(len(ring)):
        here, there = float(depths[at - 1]), float(depths[at])
        if (here < 0.0) != (there < 0.0):
            kept.append(ring[at - 1] + (ring[at] - ring[at - 1]) * (here / (here - there)))
        if there < 0.0:
            kept.append(ring[at])
    return abs(signed_area(np.array(kept))) if len(kept) > 2 else 0.0
