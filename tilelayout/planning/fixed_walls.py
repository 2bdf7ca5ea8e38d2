"""The walls that lines are measured from: one at the left and one at the bottom of the surface.

A person who snaps a line hooks the tape on a wall, so every distance on the sheets starts from one of two
straight edges that stay the same for the whole surface.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from tilelayout.job.values import EdgeRole, Surface
from tilelayout.planning.wall_names import edge_name, side_of

Axis = Literal["x", "y"]


@dataclass(frozen=True)
class FixedWall:
    """A straight edge to measure from: edge `at` of the surface, from `start` to `end`."""

    name: str
    at: int
    start: tuple[float, float]
    end: tuple[float, float]

    def distance(self, point: tuple[float, float]) -> float:
        """Return how far a point lies from the wall's line, measured square to it."""
        along = np.subtract(self.end, self.start)
        away = np.subtract(point, self.start)
        return float(abs(along[0] * away[1] - along[1] * away[0]) / np.hypot(*along))

    def crossing(self, point: tuple[float, float], axis: Axis) -> float:
        """Return the x (or y) at which the line through `point` along `axis` meets the wall's line."""
        of, other = (0, 1) if axis == "x" else (1, 0)
        along = np.subtract(self.end, self.start)
        share = (point[other] - self.start[other]) / along[other]
        return float(self.start[of] + share * along[of])

    def foot(self, point: tuple[float, float]) -> tuple[float, float]:
        """Return the place on the wall's line that is nearest to the point."""
        along = np.subtract(self.end, self.start)
        share = np.dot(np.subtract(point, self.start), along) / np.dot(along, along)
        foot = np.add(self.start, share * along)
        return float(foot[0]), float(foot[1])


@lru_cache(maxsize=64)
def fixed_wall(surface: Surface, axis: Axis) -> FixedWall | None:
    """Return the wall from which to measure along x (one at the left) or y (one at the bottom), if any.

    A plain wall comes before an edge of another kind, then the one furthest out, then the longest.
    """
    side = "left" if axis == "x" else "bottom"
    edges = [at for at in range(len(surface.outline)) if side_of(surface, at) == side]
    if not edges:
        return None
    return _wall(surface, min(edges, key=lambda at: _standing(surface, at, axis)))


def _standing(surface: Surface, at: int, axis: Axis) -> tuple[bool, float, float]:
    wall = _wall(surface, at)
    of = 0 if axis == "x" else 1
    is_other = surface.edge(at).role is not EdgeRole.WALL
    return (
        is_other,
        round(min(wall.start[of], wall.end[of]), 3),
        -float(np.hypot(*np.subtract(wall.end, wall.start))),
    )


def _wall(surface: Surface, at: int) -> FixedWall:
    start, end = surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]
    return FixedWall(
        edge_name(surface, at), at, (float(start[0]), float(start[1])), (float(end[0]), float(end[1]))
    )
