"""Whether an outline being drawn runs into itself, said in words."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.values import Point


def blocked(corners: Sequence[Point], point: Point) -> str:
    """Return why `point` cannot be the next corner after `corners`, or nothing if it can."""
    if not corners:
        return ""
    if math.dist(corners[-1], point) <= SAME_PLACE:
        return "The last corner is already there: point somewhere else, or type a length."
    if len(corners) >= 2 and _turns_back(corners[-2], corners[-1], point):
        return f"This would run back along wall {len(corners) - 1}: turn to one side."
    return _crossed(corners, corners[-1], point, first=0)


def blocked_closing(corners: Sequence[Point]) -> str:
    """Return why the outline cannot be closed from its last corner to its first, or nothing if it can."""
    if len(corners) < 3:
        return "An outline needs at least three corners: draw on."
    if _turns_back(corners[-2], corners[-1], corners[0]) or _turns_back(corners[-1], corners[0], corners[1]):
        return "The closing wall would run back along another wall: move on before you close."
    return _crossed(corners, corners[-1], corners[0], first=1)


def _crossed(corners: Sequence[Point], a: Point, b: Point, *, first: int) -> str:
    """Return which wall, from wall `first` up to the last but one, the line from `a` to `b` meets."""
    ring = np.array(corners, dtype=float)
    starts, ends = ring[first:-2], ring[first + 1 : -1]
    if not len(starts):
        return ""
    walls = shapely.linestrings(np.stack((starts, ends), axis=1))
    met = np.flatnonzero(shapely.distance(walls, shapely.LineString((a, b))) <= SAME_PLACE)
    return f"This would run into wall {first + met[0] + 1}: put the corner elsewhere." if len(met) else ""


def _turns_back(before: Point, corner: Point, after: Point) -> bool:
    """Whether the way from `before` by `corner` to `after` doubles back on itself."""
    a = (corner[0] - before[0], corner[1] - before[1])
    b = (after[0] - corner[0], after[1] - corner[1])
    cross, dot = a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]
    return dot < 0 and abs(cross) <= SAME_PLACE * max(math.hypot(*a), math.hypot(*b))
