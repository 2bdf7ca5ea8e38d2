"""The sawn sides of many parts in one array: which border each follows, and how deep the part is there.

The depth at a sawn side is how far the part reaches from it, measured square to it: the width of a strip, the
leg of an L beside each of its two cuts, what is left beside a slot. The least depth of a part is its
narrowest place wherever it is not squeezed between two cuts, and takes a fiftieth of the time.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.rings import following
from tilelayout.layout.kernel.arrays import Flags, Whole, spread
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.values import Points, Region

_MOST_SIDES = 24


@dataclass(frozen=True, eq=False)
class SawnSides:
    """Sides (k,) of parts along the region's edges: the part, the edge's number, the depth there in mm."""

    part: Whole
    edge: Whole
    depth: Points

    def least(self, count: int) -> tuple[Points, Whole]:
        """Return the least depth of `count` parts and the edge it is at; infinite and -1 if not sawn."""
        depths, edges = np.full(count, np.inf), np.full(count, -1, dtype=np.int64)
        order = np.lexsort((self.edge, np.round(self.depth, 6), self.part))
        part = self.part[order]
        first = order[np.flatnonzero(np.diff(part, prepend=-1))]
        depths[self.part[first]], edges[self.part[first]] = self.depth[first], self.edge[first]
        return depths, edges


class BorderLines:
    """The straight edges of a region, numbered through its rings, as lines to lay sides on."""

    def __init__(self, region: Region, placed: Placed) -> None:
        self._placed = placed
        self.starts = np.concatenate(region.rings)
        ends = np.concatenate([following(ring) for ring in region.rings])
        along = ends - self.starts
        self.lengths = np.hypot(along[:, 0], along[:, 1])
        self.ways = along / self.lengths[:, None]

    def sawn_sides(self, parts: Parts, chosen: Whole, moves: Points) -> SawnSides:
        """Return the sawn sides of the chosen parts; `moves` (n, 2) lead each part back onto the region."""
        rings = [(k, ring) for k in chosen.tolist() for ring in (parts.outlines[k], *parts.holes.get(k, ()))]
        if not rings:
            return SawnSides(_NONE, _NONE, np.empty(0))
        sides = [_telling_sides(ring) for _, ring in rings]
        part = np.repeat([k for k, _ in rings], [len(starts) for starts, _ in sides])
        starts = np.concatenate([starts for starts, _ in sides])
        ends = np.concatenate([ends for _, ends in sides])
        edge = self._edges(starts + moves[part], ends + moves[part])
        sawn = np.flatnonzero(edge >= 0)
        sawn = sawn[~self._are_factory(parts, part[sawn], starts[sawn], ends[sawn])]
        part, edge = part[sawn], edge[sawn]
        return SawnSides(part, edge, self._depths(parts, part, starts[sawn], edge))

    def _edges(self, starts: Points, ends: Points) -> Whole:
        """Return the edge that each side lies on the same way round; -1 if there is none."""
        normals = np.column_stack((-self.ways[:, 1], self.ways[:, 0]))
        level = (normals * self.starts).sum(axis=1)
        on_line = np.abs(starts @ normals.T - level) < ON_EDGE
        on_line &= np.abs(ends @ normals.T - level) < ON_EDGE
        side, edge = np.nonzero(on_line)
        way, origin = self.ways[edge], self.starts[edge]
        first = ((starts[side] - origin) * way).sum(axis=1)
        last = ((ends[side] - origin) * way).sum(axis=1)
        fits = (last > first) & (first > -ON_EDGE) & (last < self.lengths[edge] + ON_EDGE)
        found = np.full(len(starts), -1, dtype=np.int64)
        found[side[fits]] = edge[fits]
        return found

    def _are_factory(self, parts: Parts, part: Whole, starts: Points, ends: Points) -> Flags:
        """Tell which sides lie on a side of their own tile, flush with the border by chance."""
        face = parts.face[part]
        shifts = self._placed.shifts(parts.column[part], parts.row[part])
        normals, reach = self._placed.normals[face], self._placed.reach[face]
        is_on = np.ones(reach.shape, dtype=bool)
        for points in (starts - shifts, ends - shifts):
            is_on &= np.abs((normals * points[:, None]).sum(axis=2) - reach) < ON_EDGE
        return np.asarray(is_on.any(axis=1))

    def _depths(self, parts: Parts, part: Whole, starts: Points, edge: Whole) -> Points:
        if not len(part):
            return np.empty(0)
        sizes = parts.outlines.sizes[part]
        side, corner = spread(sizes)
        points = parts.outlines.points[parts.outlines.starts[part][side] + corner]
        x, y = (points - starts[side]).T
        way_x, way_y = self.ways[edge[side]].T
        reach = way_x * y - way_y * x
        return np.asarray(np.maximum.reduceat(reach, np.cumsum(sizes) - sizes))


def _telling_sides(ring: Points) -> tuple[Points, Points]:
    """Return the starts and ends of a ring's sides, of the many chords of a curve only some."""
    ends = following(ring)
    if len(ring) <= _MOST_SIDES:
        return ring, ends
    lengths = np.abs(ends - ring).max(axis=1)
    told = lengths > 4.0 * np.median(lengths)
    told[:: -(-len(ring) // _MOST_SIDES)] = True
    return ring[told], ends[told]


_NONE = np.empty(0, dtype=np.int64)
