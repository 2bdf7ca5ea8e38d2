"""Rates many starts: the narrowest cut that can be seen and where it is, how many slivers, how many cuts.

A quick rating takes the least depth at a sawn side for the narrowest place of a notched or holed part, which
is right unless the part is squeezed between two cuts. The exact rating measures such parts, but only those
that shrinking and growing shows to be narrower than everything else at their start.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.values import Layout, Tile, Visibility
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.measuring import are_convex
from tilelayout.layout.offset_map.convex import convex_widths
from tilelayout.layout.offset_map.many_starts import AT_ONCE, LaidStarts, ManyStarts
from tilelayout.layout.offset_map.notched import Limits, Notched, notched_widths
from tilelayout.layout.offset_map.sawn_sides import BorderLines
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.roles import NO_MORE, MoreTiles
from tilelayout.layout.slivers import sliver_limit
from tilelayout.layout.values import Points, Region

Start = tuple[float, float]


@dataclass(frozen=True)
class Rating:
    """What one start gives. Lengths in mm.

    `narrowest` is the narrowest place of all cut pieces but those cut only where nobody looks; of a whole
    tile if there is none. `worst` numbers the region's edge at which that piece is cut; -1 if there is none.
    `is_exact` is false where a narrowest place was estimated by a depth.
    """

    start: Start
    narrowest: float
    slivers: int
    cuts: int
    whole: int
    worst: int
    is_exact: bool


class Rater:
    """Rates the starts of one layout. `region` is what of the surface takes tile."""

    def __init__(self, tile: Tile, layout: Layout, region: Region, more: MoreTiles = NO_MORE) -> None:
        self.cell = cell_of(layout, tile, more)
        self.placed = placed(self.cell, layout.angle, (0.0, 0.0))
        self.tile_narrowest = float(max(tile_width(face.tile) for face in self.cell.faces))
        self._sliver_limits = np.array([sliver_limit(face.tile) for face in self.cell.faces])
        self._limits = Limits(float(layout.least_piece), float(self._sliver_limits.max()))
        self._many, self._lines = ManyStarts(region, self.placed), BorderLines(region, self.placed)
        borders = [border for ring in region.borders for border in ring]
        self.sources = tuple(border.source for border in borders)
        self._edge_is_curved = np.array([border.radius is not None for border in borders])
        self._edge_is_seen = np.array([border.seen is not Visibility.HIDDEN for border in borders])

    def rate(self, starts: Sequence[Start] | Points, *, is_quick: bool = False) -> list[Rating]:
        """Return the rating of each of the starts, in their order."""
        chosen = np.asarray(starts, dtype=float).reshape(-1, 2)
        return [
            rating
            for at in range(0, len(chosen), AT_ONCE)
            for rating in self._at_once(chosen[at : at + AT_ONCE], is_quick)
        ]

    def _at_once(self, starts: Points, is_quick: bool) -> list[Rating]:
        laid, count = self._many.lay(starts), len(starts)
        parts, owner, back = laid.parts, laid.owner, laid.back[laid.owner]
        seen = self._seen(parts, back)
        plain, others = _convex_or_not(parts)
        widths, exact = np.full(len(parts), np.inf), np.full(count, True)
        widths[plain] = convex_widths(parts.outlines, plain)
        sides = self._lines.sawn_sides(parts, others, back)
        if is_quick:
            widths[others] = np.minimum(sides.least(len(parts))[0][others], self.tile_narrowest)
            exact[owner[others]] = False
        elif len(others):
            curved = np.isin(others, sides.part[self._edge_is_curved[sides.edge]])
            asked = self._least(widths[plain], seen[plain], owner[plain], count)[owner[others]]
            widths[others] = notched_widths(parts, Notched(others, seen[others], curved), asked, self._limits)
        is_piece = widths >= self._limits.piece
        counted = np.where(is_piece & seen, widths, np.inf)
        least, worst = self._least(counted, seen, owner, count), self._worst(parts, counted, laid)
        are_slivers = counted < self._sliver_limits[parts.face] - SAME_PLACE
        slivers = np.bincount(owner[are_slivers], minlength=count)
        cuts = np.bincount(owner[is_piece], minlength=count)
        columns = (least, slivers, cuts, laid.whole, worst, exact)
        rows = zip(starts.tolist(), *(column.tolist() for column in columns), strict=True)
        return [Rating((x, y), *figures) for (x, y), *figures in rows]

    def _seen(self, parts: Parts, back: Points) -> Flags:
        """Tell which parts are cut at an edge that is not hidden."""
        if self._edge_is_seen.all():
            return np.ones(len(parts), dtype=bool)
        sides = self._lines.sawn_sides(parts, np.arange(len(parts)), back)
        seen = np.zeros(len(parts), dtype=bool)
        seen[sides.part[self._edge_is_seen[sides.edge]]] = True
        return seen

    def _least(self, widths: Points, seen: Flags, owner: Whole, count: int) -> Points:
        """Return the narrowest piece that can be seen of each start; the whole tile's if there is none."""
        least = np.full(count, self.tile_narrowest)
        counted = seen & (widths >= self._limits.piece)
        np.minimum.at(least, owner[counted], widths[counted])
        return least

    def _worst(self, parts: Parts, counted: Points, laid: LaidStarts) -> Whole:
        """Return the edge at which each start's narrowest cut is, of equal ones the first."""
        order = np.lexsort((np.arange(len(parts)), np.round(counted, 5), laid.owner))
        first = order[np.flatnonzero(np.diff(laid.owner[order], prepend=-1))]
        first = first[np.isfinite(counted[first])]
        _, edges = self._lines.sawn_sides(parts, first, laid.back[laid.owner]).least(len(parts))
        worst = np.full(len(laid.whole), -1, dtype=np.int64)
        worst[laid.owner[first]] = edges[first]
        return worst


def _convex_or_not(parts: Parts) -> tuple[Whole, Whole]:
    convex = are_convex(parts.outlines)
    convex[list(parts.holes)] = False
    return np.flatnonzero(convex), np.flatnonzero(~convex)
