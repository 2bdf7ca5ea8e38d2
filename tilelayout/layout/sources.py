"""What the boundary of a region can come from: straight stretches that each know their edge or cutout.

The region itself is made by polygon operations, which forget where an edge came from. Keeping every stretch
that may become one makes it possible to look it up again by where it lies.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.layout.values import BorderEdge, Points

Numbers = NDArray[np.float64]
Places = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Stretches:
    """Straight stretches from `starts` to `ends` (k, 2) and the border that each belongs to."""

    starts: Points
    ends: Points
    borders: tuple[BorderEdge, ...]

    def nearest(self, starts: Points, ends: Points) -> tuple[BorderEdge, ...]:
        """Return the border of the stretch that each edge from `starts` to `ends` (m, 2) lies on."""
        middles = shapely.points((starts + ends) / 2.0)
        edges, stretches = self._tree.query(middles, predicate="dwithin", distance=ON_EDGE)
        lonely = np.flatnonzero(np.bincount(edges, minlength=len(starts)) == 0)
        if len(lonely):
            edges = np.concatenate([edges, np.repeat(lonely, len(self.borders))])
            stretches = np.concatenate([stretches, np.tile(np.arange(len(self.borders)), len(lonely))])
        strays = self._strays(starts[edges], ends[edges], stretches)
        order = np.lexsort((stretches, strays, edges))
        first = np.flatnonzero(np.diff(edges[order], prepend=-1))
        return tuple(self.borders[at] for at in stretches[order][first])

    @cached_property
    def _tree(self) -> shapely.STRtree:
        return shapely.STRtree(np.asarray(shapely.linestrings(np.stack([self.starts, self.ends], axis=1))))

    def _strays(self, starts: Points, ends: Points, stretches: Places) -> Numbers:
        """How far edge i strays from stretch i: its middle from the stretch, its ends from the line."""
        first = self.starts[stretches]
        along = self.ends[stretches] - first
        lengths = np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-12)
        along = along / lengths[:, None]
        square = np.column_stack([-along[:, 1], along[:, 0]])
        middle = (starts + ends) / 2.0
        place = np.clip(np.sum((middle - first) * along, axis=1), 0.0, lengths)
        away = np.hypot(*(middle - first - place[:, None] * along).T)
        off = np.abs(np.sum((starts - first) * square, axis=1)) + np.abs(
            np.sum((ends - first) * square, axis=1)
        )
        return np.asarray(away + off)


def stretches_of_ring(ring: Points, border: BorderEdge) -> Stretches:
    """Return the sides of a ring, all of one border."""
    return Stretches(ring, np.roll(ring, -1, axis=0), (border,) * len(ring))


def together(parts: list[Stretches]) -> Stretches:
    """Return all stretches in one."""
    starts = np.concatenate([part.starts for part in parts])
    ends = np.concatenate([part.ends for part in parts])
    return Stretches(starts, ends, tuple(border for part in parts for border in part.borders))
