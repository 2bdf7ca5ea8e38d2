"""The plain geometry of a surface: its outline as a ring of points, with arcs as chords."""

from __future__ import annotations

from math import dist

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tilelayout.geometry.arcs import arc_through
from tilelayout.job.values import Point, Surface


def outline_ring(surface: Surface) -> NDArray[np.float64]:
    """Return the outline as a ring (n, 2), either way round, each arc as chords."""
    bends = {edge.at: edge.through for edge in surface.edges if edge.through is not None}
    parts: list[ArrayLike] = []
    for index, corner in enumerate(surface.outline):
        parts.append([corner])
        if index in bends:
            end = surface.outline[(index + 1) % len(surface.outline)]
            parts.append(arc_through(corner, bends[index], end).points()[1:-1])
    return np.vstack(parts)


def height_over_chord(start: Point, through: Point, end: Point) -> float:
    """Return how far a point stands off the straight line from start to end, in mm."""
    along = (end[0] - start[0], end[1] - start[1])
    to = (through[0] - start[0], through[1] - start[1])
    return abs(along[0] * to[1] - along[1] * to[0]) / dist(start, end)
