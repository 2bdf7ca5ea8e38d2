"""The bed that plates need when their undersides are all set to one plane.

The plane is the one that makes the thickest bed as thin as can be while the bed is nowhere thinner than it
may be: of all pairs of parallel planes that hold the surface between them, the pair that is least apart (the
minimum zone of form measurement). A least-squares plane would be simpler, but no one could say how thick
its bed gets. A linear program in four unknowns, to which the points it breaks are added as they are found.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.flatness.mesh import Numbers, Points
from tilelayout.flatness.plates import Bearings
from tilelayout.flatness.programs import silent_solver

_AT_ONCE = 6
"""How many points are added on either side in a round."""

_SAME = 1e-7
_MOST_ROUNDS = 500


@dataclass(frozen=True, eq=False)
class Plane:
    """The lowest plane a x + b y + c over a surface; `zone` is how far the surface drops below it at most."""

    a: float
    b: float
    c: float
    zone: float

    def heights(self, points: Points) -> Numbers:
        """Return the height (p,) of the plane at points (p, 2)."""
        return np.asarray(points @ np.array([self.a, self.b]) + self.c)


@dataclass(frozen=True, eq=False)
class Beds:
    """The bed under each plate laid (i,), mm, where it is thinnest and where thickest, and there (i, 2)."""

    thinnest: Numbers
    thickest: Numbers
    thickest_at: Points


def common_plane(points: Points, heights: Numbers) -> Plane:
    """Return the plane over points (p, 2) with heights (p,) that leaves the least between it and the deepest.

    >>> places = np.array([[0.0, 0.0], [2.0, 0.0], [0.0, 2.0], [1.0, 0.0]])
    >>> common_plane(places, np.array([0.0, 0.0, 0.0, 3.0])).zone
    3.0
    """
    middle, size = points.mean(axis=0), max(float(np.ptp(points, axis=0).max()), 1.0)
    level = np.column_stack([(points - middle) / size, np.ones(len(points))])
    program = _Zone()
    asked = _first(level, heights)
    for _ in range(_MOST_ROUNDS):
        program.add(level[asked], heights[asked])
        a, b, c, zone = program.solved()
        under = level @ np.array([a, b, c]) - heights
        order = np.argsort(under, kind="stable")
        asked = np.unique(np.concatenate([order[:_AT_ONCE], order[-_AT_ONCE:]]))
        asked = asked[(under[asked] < -_SAME) | (under[asked] > zone + _SAME)]
        if not len(asked):
            break
    a, b = a / size, b / size
    c += float(-under.min()) - a * middle[0] - b * middle[1]
    return Plane(a, b, c, float(np.ptp(under)))


def beds_under(on: Bearings, plane: Plane, least: float) -> Beds:
    """Return the bed under plates set to a plane over the surface, `least` mm where that touches it."""
    bed = plane.heights(on.points) - on.heights + least
    if not len(on.kept):
        return Beds(np.empty(0), np.empty(0), np.empty((0, 2)))
    order = np.lexsort((-bed, on.owner))[on.starts[:-1]]
    return Beds(np.minimum.reduceat(bed, on.starts[:-1]), bed[order], on.points[order])


def _first(level: Points, heights: Numbers) -> Numbers:
    """The points that stand out most around the rim, and the highest and deepest."""
    turn = np.linspace(0.0, 2.0 * np.pi, 8, endpoint=False)
    rim = np.argmax(level[:, :2] @ np.array([np.cos(turn), np.sin(turn)]), axis=0)
    return np.unique(np.concatenate([rim, [np.argmax(heights), np.argmin(heights)]]))


class _Zone:
    """The program: a, b, c and the zone, each point between the plane and the zone below it."""

    def __init__(self) -> None:
        self._solver = silent_solver()
        free = np.full(4, np.inf)
        self._solver.addCols(
            4, np.array([0.0, 0.0, 0.0, 1.0]), np.append(-free[:3], 0.0), free, 0,
            np.zeros(4, dtype=np.int32), np.empty(0, dtype=np.int32), np.empty(0),
        )  # fmt: skip

    def add(self, level: Points, heights: Numbers) -> None:
        """Hold points (p, 3) of heights (p,) between the two planes."""
        count = len(level)
        over = np.column_stack([level, np.zeros(count)])
        within = np.column_stack([level, -np.ones(count)])
        nothing, any_height = np.full(count, -np.inf), np.full(count, np.inf)
        self._solver.addRows(
            2 * count, np.concatenate([heights, nothing]), np.concatenate([any_height, heights]), 8 * count,
            np.arange(2 * count, dtype=np.int32) * 4, np.tile(np.arange(4, dtype=np.int32), 2 * count),
            np.concatenate([over, within]).ravel(),
        )  # fmt: skip

    def solved(self) -> tuple[float, float, float, float]:
        """Return a, b, c and the zone."""
        self._solver.run()
        a, b, c, zone = (float(value) for value in self._solver.getSolution().col_value)
        return a, b, c, zone
