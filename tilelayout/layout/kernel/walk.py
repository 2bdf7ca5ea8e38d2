"""Finds the tiles that may be crossed by the region's edges, by walking each edge through the lattice.

A tile reaches from `low` to `high` in lattice coordinates. Row j of a face is therefore met only by that
part of an edge whose v lies between j + low and j + high, and in this row only the tiles whose u-reach
meets the part's u-range. The work is one step per tile met, so it grows with the length of the edges.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.layout.kernel.arrays import Flags, Whole, ceiling, floor, spread
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.values import Points, Region

NEARLY_NONE = 1e-200
"""Stands for any smaller slope, so that dividing by it gives a far-off crossing instead of a fault."""


@dataclass(frozen=True, eq=False)
class Edges:
    """The region's edges, (n, 2) each: ends on the surface and in lattice coordinates, region on the left.

    Edges of a ring follow one another; `ring` (n,) says which it is, `ring_sizes` how many edges each has.
    """

    starts: Points
    stops: Points
    uv_starts: Points
    uv_stops: Points
    ring: Whole
    ring_sizes: Whole


@dataclass(frozen=True, eq=False)
class Meetings:
    """Edge `edge` may cross (or crosses) tile (`face`, `column`, `row`); arrays of one length."""

    edge: Whole
    face: Whole
    column: Whole
    row: Whole

    def only(self, kept: Flags | Whole) -> Meetings:
        """Return the chosen meetings."""
        return Meetings(self.edge[kept], self.face[kept], self.column[kept], self.row[kept])


def edges_of(region: Region, placed: Placed) -> Edges:
    """Return all edges of the region's rings."""
    starts = np.concatenate((np.empty((0, 2)), *region.rings))
    sizes = np.array([len(ring) for ring in region.rings], dtype=np.int64)
    beyond = np.cumsum(sizes)
    following = np.arange(1, len(starts) + 1)
    following[beyond - 1] = beyond - sizes  # a ring's last edge leads to its first corner
    uv_starts = placed.in_lattice(starts)
    ring = np.repeat(np.arange(len(sizes)), sizes)
    return Edges(starts, starts[following], uv_starts, uv_starts[following], ring, sizes)


def walk(edges: Edges, placed: Placed) -> Meetings:
    """Return every pair of an edge and a tile it may cross: all that are crossed and some beside them."""
    u, v = edges.uv_starts.T
    du, dv = (edges.uv_stops - edges.uv_starts).T
    low, high = placed.low[:, :, None], placed.high[:, :, None]
    first_row = ceiling(np.minimum(v, v + dv) - high[:, 1])
    last_row = floor(np.maximum(v, v + dv) - low[:, 1])
    owner, step = spread(np.maximum(last_row - first_row + 1, 0).ravel())
    face, edge = np.divmod(owner, len(u))
    row = first_row.ravel()[owner] + step
    u, v, du, dv = u[edge], v[edge], du[edge], dv[edge]
    enters, leaves = _within(row + placed.low[face, 1], row + placed.high[face, 1], v, dv)
    one, other = u + du * enters, u + du * leaves
    first = ceiling(np.minimum(one, other) - placed.high[face, 0])
    last = floor(np.maximum(one, other) - placed.low[face, 0])
    owner, step = spread(np.maximum(last - first + 1, 0))
    return Meetings(edge[owner], face[owner], first[owner] + step, row[owner])


def _within(low: Points, high: Points, at: Points, by: Points) -> tuple[Points, Points]:
    """Return the two shares (0..1) of the way from `at` to `at + by` where it is at `low` and at `high`."""
    by = np.where(np.abs(by) < NEARLY_NONE, NEARLY_NONE, by)
    return np.clip((low - at) / by, 0.0, 1.0), np.clip((high - at) / by, 0.0, 1.0)
