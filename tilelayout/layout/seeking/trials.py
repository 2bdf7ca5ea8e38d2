"""The figures that a start is judged by, taken from many starts of one layout at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE, SAME_PLACE
from tilelayout.geometry.rings import following
from tilelayout.job.values import Layout, Tile, Visibility
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags, Outlines, Whole
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.measuring import are_convex
from tilelayout.layout.offset_map.many_starts import AT_ONCE, LaidStarts, ManyStarts
from tilelayout.layout.offset_map.sawn_sides import BorderLines
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.roles import NO_MORE, MoreTiles
from tilelayout.layout.seeking.closely import Closely
from tilelayout.layout.slivers import sliver_limit
from tilelayout.layout.values import Points, Region

Start = tuple[float, float]
Merit = tuple[float, ...]
"""How good a start is for some aim: the greater, the better."""


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


@dataclass(frozen=True, eq=False)
class ConvexParts:
    """Parts of some starts that are convex, of a convex face, with few corners: quick to measure.

    `owner` (n,) is each one's start, `widths` (n,) its narrowest place, `outlines` its n rings and `faces`
    (n, m, 2) the whole faces, all of them on the surface.
    """

    owner: Whole
    widths: Points
    outlines: Outlines
    faces: Points


@dataclass(frozen=True, eq=False)
class _Batch:
    """Some starts (n, 2) laid at once, how closely their parts are known, and which parts can be seen."""

    starts: Points
    laid: LaidStarts
    closely: Closely
    are_seen: Flags


class Trials:
    """The starts of one layout. `region` is what of the surface takes tile."""

    def __init__(self, tile: Tile, layout: Layout, region: Region, more: MoreTiles = NO_MORE) -> None:
        self.layout, self.region = layout, region
        self.cell = cell_of(layout, tile, more)
        self.placed = placed(self.cell, layout.angle, (0.0, 0.0))
        self.tile_narrowest = float(max(tile_width(face.tile) for face in self.cell.faces))
        self.sliver_limit = max(sliver_limit(face.tile) for face in self.cell.faces)
        self._sliver_limits = np.array([sliver_limit(face.tile) for face in self.cell.faces])
        self.laid = 0
        borders = [border for ring in region.borders for border in ring]
        self._edge_is_seen = np.array([border.seen is not Visibility.HIDDEN for border in borders])
        self._lines = BorderLines(region, self.placed)
        ends = np.stack([self._lines.starts, np.vstack([following(ring) for ring in region.rings])])
        hidden = ends[:, ~self._edge_is_seen]
        self._hidden_boxes = list(
            zip(hidden.min(axis=0) - ON_EDGE, hidden.max(axis=0) + ON_EDGE, strict=True)
        )
        self._many = ManyStarts(region, self.placed)

    @property
    def are_all_seen(self) -> bool:
        """Whether every edge of the region is looked at."""
        return bool(self._edge_is_seen.all())

    def of(self, starts: Sequence[Start] | Points) -> list[Trial]:
        """Return what each of the starts gives, in their order."""
        return self.hopeful(starts, lambda _: True)

    def hopeful(self, starts: Sequence[Start] | Points, is_hopeful: Callable[[Trial], bool]) -> list[Trial]:
        """Return what those starts give that are hopeful, in their order.

        Parts that are not convex take long to measure. So each start is first told as if it had none, with no
        figure worse than it is; where that is no hope, it is left out.
        """
        chosen = np.asarray(starts, dtype=float).reshape(-1, 2)
        return [
            trial
            for at in range(0, len(chosen), AT_ONCE)
            for trial in self._at_once(chosen[at : at + AT_ONCE], is_hopeful)
        ]

    def best(self, starts: Points, merit: Callable[[Trial], Merit], worth: Merit) -> list[Trial]:
        """Return what some of the starts (n, 2) give, the best among them, if it has more merit than `worth`.

        Always that start is looked at closer which may yet turn out to be the best, and no others.
        """
        told: list[Trial] = []
        for at in range(0, len(starts), AT_ONCE):
            told += self._best_at_once(starts[at : at + AT_ONCE], merit, worth)
            worth = max([worth, *map(merit, told)])
        return told

    def convex_parts(self, starts: Points) -> ConvexParts:
        """Return the parts of starts (n, 2) that are quick to measure."""
        batch = self._laid(starts)
        parts = batch.laid.parts
        is_quick = ~np.isnan(batch.closely.widths) & self.placed.are_convex[parts.face]
        parts, owner = parts.only(is_quick), batch.laid.owner[is_quick]
        back = batch.laid.back[owner]
        points = parts.outlines.points + np.repeat(back, parts.outlines.sizes, axis=0)
        faces = self.placed.outlines(parts.face, parts.column, parts.row) + back[:, None]
        outlines = Outlines(points, parts.outlines.starts)
        return ConvexParts(owner, batch.closely.widths[is_quick], outlines, faces)

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

    def _at_once(self, starts: Points, is_hopeful: Callable[[Trial], bool]) -> list[Trial]:
        batch, are_hopeful = self._laid(starts), np.ones(len(starts), dtype=bool)
        while True:
            told = self._told(batch)
            are_hopeful &= [is_hopeful(trial) for trial in told]
            most = np.array([trial.narrowest for trial in told])
            if not batch.closely.look_closer(most, are_hopeful):
                return [trial for trial, is_it in zip(told, are_hopeful, strict=True) if is_it]

    def _best_at_once(self, starts: Points, merit: Callable[[Trial], Merit], worth: Merit) -> list[Trial]:
        batch = self._laid(starts)
        while True:
            told = self._told(batch)
            most = np.array([trial.narrowest for trial in told])
            merits, are_open = [merit(trial) for trial in told], batch.closely.are_open(most)
            hopeful = [at for at, one in enumerate(merits) if one > worth]
            top = max(hopeful, key=merits.__getitem__, default=None)
            if top is None or not are_open[top]:
                return [told[at] for at in hopeful if not are_open[at]]
            batch.closely.look_closer(most, np.isin(np.arange(len(starts)), hopeful), top)

    def _laid(self, starts: Points) -> _Batch:
        laid = self._many.lay(starts)
        self.laid += len(starts)
        least = self.layout.least_piece
        closely = Closely(laid.parts, laid.owner, max(self.sliver_limit, least), least)
        return _Batch(starts, laid, closely, self._are_seen(laid))

    def _told(self, batch: _Batch) -> list[Trial]:
        """Tell of each start; a part whose width is not known counts for nothing."""
        starts, laid, widths = batch.starts, batch.laid, batch.closely.widths
        owner, count = laid.owner, len(starts)
        is_known = widths >= self.layout.least_piece
        is_piece = is_known | (np.isnan(widths) & batch.closely.are_enough)
        is_seen = is_known & batch.are_seen
        least = np.full(count, self.tile_narrowest)
        np.minimum.at(least, owner[is_seen], widths[is_seen])
        is_sliver = is_seen & (widths < self._sliver_limits[laid.parts.face] - SAME_PLACE)
        chosen = (is_sliver, is_piece, self._are_bare(laid.parts, widths))
        counts = [laid.whole, *(np.bincount(owner[these], minlength=count) for these in chosen)]
        figures = zip(least.tolist(), *(of.tolist() for of in counts), strict=True)
        return [
            Trial((float(x), float(y)), narrowest, slivers, whole, cuts, bare)
            for (x, y), (narrowest, whole, slivers, cuts, bare) in zip(starts, figures, strict=True)
        ]

    def _are_bare(self, parts: Parts, widths: Points) -> Flags:
        """Tell which of the parts left to the joint are no mere strips: some of it is wide enough to lay."""
        are_bare = widths < self.layout.least_piece
        are_bare[are_bare] = ~are_convex(parts.outlines.only(are_bare))
        are_bare[[k for k in parts.holes if widths[k] < self.layout.least_piece]] = True
        left = np.flatnonzero(are_bare)
        shapes = [shapely.Polygon(parts.outlines[k], parts.holes.get(k, ())) for k in left.tolist()]
        shrunk = shapely.buffer(shapes, -self.layout.least_piece / 2.0, join_style="mitre")
        are_bare[left] = ~shapely.is_empty(shrunk)
        return np.asarray(are_bare)

    def _are_seen(self, laid: LaidStarts) -> Flags:
        """Tell which parts are cut at an edge that is not hidden."""
        seen = np.ones(len(laid.parts), dtype=bool)
        if self._edge_is_seen.all():
            return seen
        asked = np.flatnonzero(self._touch_what_is_hidden(laid))
        sides = self._lines.sawn_sides(laid.parts, asked, laid.back[laid.owner])
        seen[asked] = False
        seen[sides.part[self._edge_is_seen[sides.edge]]] = True
        return seen

    def _touch_what_is_hidden(self, laid: LaidStarts) -> Flags:
        """Tell which parts have a corner within the box of a hidden edge; only those may be hidden."""
        outlines = laid.parts.outlines
        part = np.repeat(np.arange(len(outlines)), outlines.sizes)
        points = outlines.points + laid.back[laid.owner][part]
        found = np.zeros(len(outlines), dtype=bool)
        for low, high in self._hidden_boxes:
            found[part[((points >= low) & (points <= high)).all(axis=1)]] = True
        return found
