"""The plane that rests on a surface from above: no point is over it, and at one place it is as low as can be.

It is what a stiff plate does that lies on high points, and also the flat floor that takes the least filler.
The plane through three points is improved by swaps: the point that stands furthest over it replaces the one
of the three that keeps the place between them (the dual simplex method in three unknowns, a textbook
method). Each swap lifts the plane at the place, so none comes back.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.flatness.mesh import Numbers, Places, Points, SurveyError

_OVER = 1e-9
_MOST_SWAPS = 10_000


@dataclass(frozen=True, eq=False)
class Resting:
    """A plane of `tilt` (a, b) and `height` at the place `at`; `rests_on` are the numbers of 3 points."""

    tilt: Numbers
    at: Numbers
    height: float
    rests_on: Places

    def heights(self, points: Points) -> Numbers:
        """Return the height (p,) of the plane at points (p, 2)."""
        return np.asarray((points - self.at) @ self.tilt + self.height)


def resting_plane(points: Points, heights: Numbers, at: Numbers) -> Resting:
    """Return the plane over points (n, 2) with heights (n,) that is lowest at the place `at` (2,) among them.

    SurveyError if the place does not lie between the points, or they lie in one line.
    """
    on = _around(points, at)
    for _ in range(_MOST_SWAPS):
        plane = _through(points, heights, at, on)
        over = heights - plane.heights(points)
        highest = int(np.argmax(over))
        if over[highest] <= _OVER * max(1.0, float(np.abs(heights).max())):
            break
        swapped = _swapped(points, at, on, highest)
        if swapped is None:
            break
        on = swapped
    return plane


def _around(points: Points, at: Numbers) -> Places:
    """Three points between which the place lies."""
    hull = shapely.convex_hull(shapely.multipoints(points))
    ring = shapely.get_coordinates(hull)[:-1]
    number = {tuple(place): k for k, place in reversed(list(enumerate(points.tolist())))}
    rim = [number[tuple(place)] for place in ring.tolist()]
    fans = [np.array([rim[0], rim[k], rim[k + 1]]) for k in range(1, len(rim) - 1)]
    best = max(fans, key=lambda fan: float(_shares(points[fan], at).min()), default=None)
    if best is None or _shares(points[best], at).min() < -1e-9:
        raise SurveyError("There are too few readings under this place.", "Measure there too.")
    return best


def _shares(corners: Points, at: Numbers) -> Numbers:
    """The shares (3,) of the corners of a triangle in a place; all at least 0 if it lies between them."""
    level = np.vstack([corners.T, np.ones(3)])
    if abs(np.linalg.det(level)) < 1e-9:
        return np.full(3, -np.inf)
    return np.asarray(np.linalg.solve(level, np.append(at, 1.0)))


def _through(points: Points, heights: Numbers, at: Numbers, on: Places) -> Resting:
    level = np.column_stack([points[on] - at, np.ones(3)])
    a, b, c = np.linalg.solve(level, heights[on])
    return Resting(np.array([a, b]), np.asarray(at), float(c), on)


def _swapped(points: Points, at: Numbers, on: Places, new: int) -> Places | None:
    """The three with one of them replaced, so that the place still lies between them."""
    tried = [np.array([new if k == out else on[k] for k in range(3)]) for out in range(3)]
    best = max(tried, key=lambda three: float(_shares(points[three], at).min()))
    return best if _shares(points[best], at).min() >= -1e-9 else None
