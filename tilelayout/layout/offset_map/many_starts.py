"""Lays several starts of one layout in a single pass of the kernel.

A start moved by the pattern is the room moved back under a pattern that stays. So the region is copied once
for each start, each copy set down where it shares no tile with another, and all copies are laid as one region
of many parts. The column of a part's tile tells whose it is. The fixed price of an array expression is then
paid once for all of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from tilelayout.layout.kernel.arrays import Whole
from tilelayout.layout.kernel.overlap import Parts, overlap
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.values import Points, Region

AT_ONCE = 16
"""Starts in one pass: with many more of them the arrays no longer fit the processor's cache."""


@dataclass(frozen=True, eq=False)
class LaidStarts:
    """What was laid: `whole` (n,) tiles of each start, and the parts of all of them.

    `owner` tells which start each part belongs to; `back` (n, 2) leads from each copy to the region.
    """

    whole: Whole
    parts: Parts
    owner: Whole
    back: Points


@dataclass(frozen=True, eq=False)
class ManyStarts:
    """A region and a pattern placed with its start at (0, 0)."""

    region: Region
    placed: Placed

    def lay(self, starts: Points) -> LaidStarts:
        """Lay starts (n, 2) in surface coordinates."""
        first, columns = self._columns
        cells = np.floor(self.placed.in_lattice(starts))
        cells[:, 0] += columns * np.arange(len(starts))
        moves = cells @ self.placed.vectors - starts
        laid = overlap(self._copies(moves), self.placed)
        of_run = (laid.whole.first - first) // columns
        whole = np.bincount(of_run, laid.whole.lengths, len(starts)).astype(np.int64)
        return LaidStarts(whole, laid.parts, (laid.parts.column - first) // columns, -moves)

    @cached_property
    def _columns(self) -> tuple[int, int]:
        """The first column of tiles that a copy may touch, and how many columns it may need."""
        across = self.placed.in_lattice(np.vstack(self.region.rings))[:, 0]
        first = int(np.floor(across.min() - self.placed.high[:, 0].max())) - 2
        return first, int(np.ceil(across.max() - self.placed.low[:, 0].min())) + 2 - first

    def _copies(self, moves: Points) -> Region:
        parts = np.tile(shapely.get_parts(self.region.shape), len(moves))
        points = shapely.get_coordinates(parts)
        points = points + np.repeat(moves, len(points) // len(moves), axis=0)
        shape = shapely.MultiPolygon(list(shapely.set_coordinates(parts, points)))
        rings = tuple(ring + move for move in moves for ring in self.region.rings)
        return Region(shape, rings, self.region.borders * len(moves))
