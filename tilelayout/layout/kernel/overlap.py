"""The kernel's one call: a placed pattern and a region in, whole runs and cut parts out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.base.tolerance import NO_AREA
from tilelayout.layout.kernel.arrays import Flags, Outlines, Whole, joined
from tilelayout.layout.kernel.chains import Chains, chains_of, kept_on_the_left
from tilelayout.layout.kernel.crossing import crossings
from tilelayout.layout.kernel.overlay import fragments
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.kernel.runs import Runs, runs_inside, without
from tilelayout.layout.kernel.walk import Edges, Meetings, edges_of, walk
from tilelayout.layout.values import Points, Region


@dataclass(frozen=True, eq=False)
class Parts:
    """The connected parts of cut tiles (`face`, `column`, `row`); arrays of one length.

    Outer rings turn counter-clockwise; `holes` by the part's number.
    """

    face: Whole
    column: Whole
    row: Whole
    areas: Points
    outlines: Outlines
    holes: dict[int, tuple[Points, ...]]

    def __len__(self) -> int:
        return len(self.face)

    def only(self, kept: Flags) -> Parts:
        """Return the chosen parts."""
        number = np.cumsum(kept) - 1
        holes = {int(number[k]): rings for k, rings in self.holes.items() if kept[k]}
        where = self.face[kept], self.column[kept], self.row[kept]
        return Parts(*where, self.areas[kept], self.outlines.only(kept), holes)


@dataclass(frozen=True, eq=False)
class Overlap:
    """A pattern's tiles in a region: the whole ones, and the parts of the others."""

    whole: Runs
    parts: Parts


def overlap(region: Region, placed: Placed) -> Overlap:
    """Return what of every tile lies in the region. Time grows with the region's perimeter and corners."""
    edges = edges_of(region, placed)
    if not len(edges.starts):
        return Overlap(_NO_RUNS, _NO_PARTS)
    found = crossings(walk(edges, placed), edges, placed)
    if not len(found.met.edge):
        return Overlap(runs_inside(edges, placed), _NO_PARTS)
    chains = chains_of(found, edges)
    tiles = chains.tiles
    is_single = chains.is_single & placed.are_convex[tiles.face]
    parts, single_is_cut = _single(chains.only(is_single), edges, placed)
    is_cut = np.zeros(len(is_single), dtype=bool)
    is_cut[is_single] = single_is_cut
    if not is_single.all():
        others, is_cut[~is_single] = _others(tiles.only(~is_single), region, placed)
        parts = both(parts, others)
    cut = tiles.only(is_cut)
    return Overlap(without(runs_inside(edges, placed), cut.face, cut.column, cut.row), parts)


def _single(chains: Chains, edges: Edges, placed: Placed) -> tuple[Parts, Flags]:
    """Return the parts of the tiles that the boundary enters and leaves once, and which are cut at all."""
    tiles = chains.tiles
    outlines = kept_on_the_left(chains, edges, placed)
    areas = outlines.areas()
    is_cut = (areas > NO_AREA) & (areas < placed.areas[tiles.face] - NO_AREA)
    tiles, outlines = tiles.only(is_cut), outlines.only(is_cut).without_repeats()
    return Parts(tiles.face, tiles.column, tiles.row, areas[is_cut], outlines, {}), is_cut


def _others(met: Meetings, region: Region, placed: Placed) -> tuple[Parts, Flags]:
    """Return the parts of the tiles that need a general overlay, and which tiles are cut at all."""
    found = fragments(region, placed.outlines(met.face, met.column, met.row))
    covered = np.bincount(found.owner, found.areas, minlength=len(met.face))
    is_cut = (covered > 0.0) & (covered < placed.areas[met.face] - NO_AREA)
    tiles = met.only(found.owner)
    parts = Parts(tiles.face, tiles.column, tiles.row, found.areas, found.outlines, found.holes)
    return parts.only(is_cut[found.owner]), is_cut


def both(single: Parts, others: Parts) -> Parts:
    """Return the parts of both, those of the first first."""
    return Parts(
        np.concatenate((single.face, others.face)),
        np.concatenate((single.column, others.column)),
        np.concatenate((single.row, others.row)),
        np.concatenate((single.areas, others.areas)),
        joined(single.outlines, others.outlines),
        single.holes | {k + len(single): rings for k, rings in others.holes.items()},
    )


_NONE = np.empty(0, dtype=np.int64)
_NO_RUNS = Runs(_NONE, _NONE, _NONE, _NONE)
_NO_PARTS = Parts(_NONE, _NONE, _NONE, np.empty(0), Outlines(np.empty((0, 2)), np.zeros(1, np.int64)), {})
