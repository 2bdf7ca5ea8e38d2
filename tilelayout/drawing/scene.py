"""What there is to snap to: points and lines with their kinds and words, also as arrays.

A scene is made once for a drawing or a drag and asked at every move of the pointer, so its arrays are made
once as well. A guide (the square to the last wall, the line through another corner) is a line without ends.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from tilelayout.drawing.placing import Direction
from tilelayout.drawing.preview import SnapKind
from tilelayout.job.values import Point

Array = NDArray[np.float64]

RANK = {kind: rank for rank, kind in enumerate(SnapKind)}


@dataclass(frozen=True)
class SnapPoint:
    """A point to snap to, with what the person is told."""

    kind: SnapKind
    point: Point
    words: str


@dataclass(frozen=True)
class SnapLine:
    """A line to snap to: `origin` + t `direction` for t from `low` to `high`.

    Round steps along it count from each t in `zeros`. Lines of one `source` never make an intersection.
    """

    kind: SnapKind
    origin: Point
    direction: Direction
    words: str
    low: float = -math.inf
    high: float = math.inf
    zeros: tuple[float, ...] = (0.0,)
    source: str = ""

    @property
    def is_guide(self) -> bool:
        """It has no ends, so it has to be shown for the snap to be understood."""
        return math.isinf(self.low)

    def at(self, t: float) -> Point:
        """Return the point at `t`, exactly on the line where that runs along an axis."""
        return self.pinned((self.origin[0] + t * self.direction[0], self.origin[1] + t * self.direction[1]))

    def pinned(self, point: Point) -> Point:
        """Return a point of this line with the coordinate that the line fixes exact."""
        x = self.origin[0] if self.direction[0] == 0.0 else point[0]
        y = self.origin[1] if self.direction[1] == 0.0 else point[1]
        return (x, y)


@dataclass(frozen=True, eq=False)
class LineArrays:
    """The lines of a scene as arrays over the m lines."""

    origin: Array
    direction: Array
    low: Array
    high: Array
    rank: Array

    def measured(self, point: Point) -> tuple[Array, Array]:
        """Return t of the foot of `point` on each line, and its distance from the line as if endless."""
        away = np.array(point) - self.origin
        t = np.einsum("ij,ij->i", away, self.direction)
        return t, np.abs(away[:, 0] * self.direction[:, 1] - away[:, 1] * self.direction[:, 0])

    def holds(self, t: Array) -> NDArray[np.bool_]:
        """Return for each line whether its own `t` lies between its ends."""
        return (t >= self.low - 1e-6) & (t <= self.high + 1e-6)


@dataclass(frozen=True, eq=False)
class Scene:
    """The points and lines to snap to. Two scenes are the same only if they are one object."""

    points: tuple[SnapPoint, ...] = ()
    lines: tuple[SnapLine, ...] = ()

    @cached_property
    def spots(self) -> Array:
        """The points as (n, 2)."""
        return np.array([each.point for each in self.points], dtype=float).reshape(-1, 2)

    @cached_property
    def spot_ranks(self) -> Array:
        """The rank of each point's kind."""
        return np.array([RANK[each.kind] for each in self.points], dtype=float)

    @cached_property
    def line_arrays(self) -> LineArrays:
        """The lines as arrays."""
        return LineArrays(
            np.array([each.origin for each in self.lines], dtype=float).reshape(-1, 2),
            np.array([each.direction for each in self.lines], dtype=float).reshape(-1, 2),
            np.array([each.low for each in self.lines], dtype=float),
            np.array([each.high for each in self.lines], dtype=float),
            np.array([RANK[each.kind] for each in self.lines], dtype=float),
        )

    def plus(self, other: Scene) -> Scene:
        """Return a scene with what is in either."""
        return Scene(self.points + other.points, self.lines + other.lines)

    def only(self, kinds: frozenset[SnapKind]) -> Scene:
        """Return a scene with the kinds that are switched on."""
        return Scene(
            tuple(each for each in self.points if each.kind in kinds),
            tuple(each for each in self.lines if each.kind in kinds),
        )


def crossings(o1: Array, d1: Array, o2: Array, d2: Array) -> tuple[Array, Array]:
    """Return t and u where o1 + t d1 = o2 + u d2 for pairs of lines (n, 2), NaN for parallel ones."""
    cross = d1[:, 0] * d2[:, 1] - d1[:, 1] * d2[:, 0]
    cross = np.where(np.abs(cross) < 1e-9, np.nan, cross)
    away = o2 - o1
    t = (away[:, 0] * d2[:, 1] - away[:, 1] * d2[:, 0]) / cross
    u = (away[:, 0] * d1[:, 1] - away[:, 1] * d1[:, 0]) / cross
    return t, u
