"""A surface as lines ready to be painted: its edges as polylines, its cutouts as rings, which side is out.

Made once for each surface value; a surface is immutable, so the value is the key.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from tilelayout.app.board.view import Bounds
from tilelayout.geometry.arcs import arc_through, circle_points
from tilelayout.job.values import Cutout, Edge, Surface

Points = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class EdgeShape:
    """One edge: `line` (n, 2) from its first corner to its second, `outward` (2,) away from the floor."""

    edge: Edge
    line: Points
    outward: Points

    @cached_property
    def length(self) -> float:
        """Length along the edge in mm."""
        return float(np.hypot(*np.diff(self.line, axis=0).T).sum())

    @cached_property
    def middle(self) -> Points:
        """The point half way along the edge."""
        if len(self.line) == 2:
            return np.asarray(self.line.mean(axis=0))
        return np.asarray(self.line[len(self.line) // 2])

    @property
    def is_straight(self) -> bool:
        """Whether the edge is no arc."""
        return self.edge.through is None


@dataclass(frozen=True, eq=False)
class SurfaceShape:
    """Edges in the order of the corners and the rings of the cutouts, all in surface coordinates."""

    edges: tuple[EdgeShape, ...]
    cutouts: tuple[Points, ...]

    @cached_property
    def ring(self) -> Points:
        """The outline as one ring, arcs included."""
        return np.vstack([edge.line[:-1] for edge in self.edges])

    @cached_property
    def bounds(self) -> Bounds:
        """What the surface takes up."""
        return Bounds.of(self.ring)


@lru_cache(maxsize=64)
def shape_of(surface: Surface) -> SurfaceShape:
    """Return the shape of a surface."""
    corners = np.array(surface.outline, dtype=float)
    lines = [_edge_line(surface, at, corners) for at in range(len(corners))]
    ring = np.vstack([line[:-1] for line in lines])
    side = 1.0 if _signed_area(ring) > 0 else -1.0
    edges = (EdgeShape(surface.edge(at), line, _outward(line, side)) for at, line in enumerate(lines))
    return SurfaceShape(tuple(edges), tuple(cutout_ring(cutout) for cutout in surface.cutouts))


def cutout_ring(cutout: Cutout) -> Points:
    """Return a cutout's edge as a ring (n, 2)."""
    if cutout.circle is not None:
        return np.asarray(circle_points(cutout.circle.centre, cutout.circle.diameter / 2))
    return np.array(cutout.polygon or (), dtype=float).reshape(-1, 2)


def centre_of(ring: Points) -> tuple[float, float]:
    """Return the middle of a ring's bounds."""
    low, high = ring.min(axis=0), ring.max(axis=0)
    return float(low[0] + high[0]) / 2, float(low[1] + high[1]) / 2


def _edge_line(surface: Surface, at: int, corners: Points) -> Points:
    first, last = corners[at], corners[(at + 1) % len(corners)]
    through = surface.edge(at).through
    if through is None:
        return np.array([first, last])
    start, end = (float(first[0]), float(first[1])), (float(last[0]), float(last[1]))
    return np.asarray(arc_through(start, through, end).points())


def _outward(line: Points, side: float) -> Points:
    dx, dy = line[-1] - line[0]
    length = math.hypot(dx, dy) or 1.0
    return np.array([dy, -dx]) * (side / length)


def _signed_area(ring: Points) -> float:
    x, y = ring[:, 0], ring[:, 1]
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
