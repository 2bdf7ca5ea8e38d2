"""The figures that a start is judged by, taken from many starts of one layout at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.widths import least_widths, narrowest_of_many
from tilelayout.job.values import Layout, Tile, Visibility
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.measuring import are_convex
from tilelayout.layout.offset_map.many_starts import AT_ONCE, LaidStarts, ManyStarts
from tilelayout.layout.offset_map.sawn_sides import BorderLines
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.slivers import sliver_limit
from tilelayout.layout.values import Points, Region

Start = tuple[float, float]


@dataclass(frozen=True)
class Trial:
    """What one start gives. Lengths in mm.

    `narrowest` is the narrowest place of all cut pieces that are not cut only where nobody looks; of a whole
    tile if there is none. `bare` counts the parts left to the joint that are no mere strips: they leave a
    bare place in the floor.
    """

    start: Start
    narrowest: float
    slivers: int
    whole: int
    cuts: int
    bare: int

    @property
    def tiles(self) -> int:
        """How many tiles it takes if every cut piece is sawn from a tile of its own."""
        return self.whole + self.cuts


class Trials:
    """The starts of one layout. `region` is what of the surface takes tile."""

    def __init__(self, tile: Tile, layout: Layout, region: Region) -> None:
        self.layout, self.region = layout, region
        self.cell = cell_of(layout, tile)
        self.placed = placed(self.cell, layout.angle, (0.0, 0.0))
        self.tile_narrowest = float(tile_width(tile))
        self.sliver_limit = sliver_limit(tile)
        self.laid = 0
        borders = [border for ring in region.borders for border in ring]
        self._edge_is_seen = np.array([border.seen is not Visibility.HIDDEN for border in borders])
        self._lines = BorderLines(region, self.placed)
        self._many = ManyStarts(region, self.placed)

    def of(self, starts: Sequence[Start] | Points, worth: float = 0.0) -> list[Trial]:
        """Return what each of the starts gives, in their order.

        A narrowest place that is not over `worth` may be given as less than it is, which is quicker.
        """
        chosen = np.asarray(starts, dtype=float).reshape(-1, 2)
        return [
            trial
            for at in range(0, len(chosen), AT_ONCE)
            for trial in self._at_once(chosen[at : at + AT_ONCE], worth)
        ]

    def near(self, start: Start, place: Start) -> Start:
        """Return the start of the same laying that is nearest to a place, to a millionth of a millimetre."""
        cells = self.placed.in_lattice(np.subtract(place, start))
        corners = np.floor(cells) + np.array([(0, 0), (1, 0), (0, 1), (1, 1)])
        starts = np.array(start) + corners @ self.placed.vectors
        nearest = starts[int(np.argmin(np.round(np.hypot(*(starts - place).T), 6)))]
        return round(float(nearest[0]), 6) + 0.0, round(float(nearest[1]), 6) + 0.0

    def apart(self, start: Start, others: Points) -> Points:
        """Return how far a start must be moved to give the laying of each of the others (n, 2)."""
        cells = (others - np.array(start)) @ self.placed.to_lattice
        shares = (cells - np.floor(cells))[:, None] - np.array([(0, 0), (1, 0), (0, 1), (1, 1)])
        ways = shares @ self.placed.vectors
        return np.asarray(np.hypot(ways[..., 0], ways[..., 1]).min(axis=1))

    def _at_once(self, starts: Points, worth: float) -> list[Trial]:
        laid = self._many.lay(starts)
        self.laid += len(starts)
        parts, owner, count = laid.parts, laid.owner, len(starts)
        widths = self._widths(parts, owner, count, worth)
        is_piece = widths >= self.layout.least_piece
        is_seen = is_piece & self._are_seen(laid, widths)
        least = np.full(count, self.tile_narrowest)
        np.minimum.at(least, owner[is_seen], widths[is_seen])
        chosen = (
            is_seen & (widths < self.sliver_limit - SAME_PLACE),
            is_piece,
            self._are_bare(parts, ~is_piece),
        )
        counts = [laid.whole, *(np.bincount(owner[these], minlength=count) for these in chosen)]
        figures = zip(least.tolist(), *(of.tolist() for of in counts), strict=True)
        return [
            Trial((float(x), float(y)), narrowest, slivers, whole, cuts, bare)
            for (x, y), (narrowest, whole, slivers, cuts, bare) in zip(starts, figures, strict=True)
        ]

    def _widths(self, parts: Parts, owner: Whole, count: int, worth: float) -> Points:
        """Return the narrowest place of each part, or something less that is enough to judge its start.

        Exact is what makes a sliver or no piece, and the narrowest of a start that may exceed `worth`.
        """
        limit = max(self.sliver_limit, self.layout.least_piece)
        widths, is_exact = least_widths(parts.outlines.points, parts.outlines.sizes, parts.holes, limit)
        most = np.full(count, self.tile_narrowest)
        if self._edge_is_seen.all():
            counted = np.flatnonzero(is_exact & (widths >= self.layout.least_piece))
            np.minimum.at(most, owner[counted], widths[counted])
        asked = np.flatnonzero(~is_exact & (widths < most[owner]) & (most[owner] > worth))
        outlines = [parts.outlines[int(k)] for k in asked]
        widths[asked] = narrowest_of_many(outlines, [parts.holes.get(int(k), ()) for k in asked])
        return np.asarray(widths)

    def _are_bare(self, parts: Parts, are_left: Flags) -> Flags:
        """Tell which of the parts left to the joint are no mere strips: some of it is wide enough to lay."""
        left = np.flatnonzero(are_left & ~_are_convex(parts))
        shapes = [shapely.Polygon(parts.outlines[k], parts.holes.get(k, ())) for k in left.tolist()]
        shrunk = shapely.buffer(shapes, -self.layout.least_piece / 2.0, join_style="mitre")
        are_bare = np.zeros(len(parts), dtype=bool)
        are_bare[left] = ~shapely.is_empty(shrunk)
        return are_bare

    def _are_seen(self, laid: LaidStarts, widths: Points) -> Flags:
        """Tell which parts are cut at an edge that is not hidden; wide ones need no look."""
        parts, seen = laid.parts, np.ones(len(laid.parts), dtype=bool)
        if self._edge_is_seen.all():
            return seen
        asked = np.flatnonzero(widths < self.tile_narrowest)
        sides = self._lines.sawn_sides(parts, asked, laid.back[laid.owner])
        seen[asked] = False
        seen[sides.part[self._edge_is_seen[sides.edge]]] = True
        return seen


def _are_convex(parts: Parts) -> Flags:
    convex = are_convex(parts.outlines)
    convex[list(parts.holes)] = False
    return convex
