"""Which chips belong to which parts of mosaic sheets, and how far those chips reach.

Sheets and chips are two lattices from one start, so the sheet of a chip follows from its numbers. Only where
a sheet falls into several parts, beside a slot say, is it asked where the chip lies.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.job.values import MosaicSheet
from tilelayout.layout.chips import sheets_of_chips
from tilelayout.layout.kernel.arrays import Whole, spread
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.laid import Laid
from tilelayout.layout.values import Points

NONE = -1
"""Stands for the part of a chip that belongs to none, as those of whole sheets."""


class ChipGrid:
    """Which chips belong to which of the `parts` of sheets. Lattice coordinates count chips."""

    def __init__(self, chips: Laid, tile: MosaicSheet, parts: Parts) -> None:
        self._chips, self._tile, self._parts = chips, tile, parts
        self._shapes = polygons_of_parts(parts)
        self._keys = _keys(parts.column, parts.row)
        self._order = np.argsort(self._keys, kind="stable")
        self._column, self._row = _whole_chips(chips)
        self.whole_chips = np.column_stack([self._column, self._row])
        cut = chips.cut_parts
        self.part_of_whole = self._part_of(self._column, self._row, self._whole_points)
        self.part_of_cut = self._part_of(cut.column, cut.row, lambda at: _inner_points(cut, at))

    @cached_property
    def chips_by_part(self) -> tuple[Whole, ...]:
        """Column and row (n, 2) of the chips of each part; one that falls into two pieces may stand twice."""
        cut = self._chips.cut_parts
        chips = np.concatenate([self.whole_chips, np.column_stack([cut.column, cut.row])])
        part = np.concatenate([self.part_of_whole, self.part_of_cut])
        order = np.argsort(part, kind="stable")
        ends = np.searchsorted(part[order], np.arange(len(self._parts) + 1))
        return tuple(np.split(chips[order], ends)[1:-1])

    @property
    def whole_in_part(self) -> Whole:
        """How many whole chips each part has."""
        there = self.part_of_whole[self.part_of_whole != NONE]
        return np.bincount(there, minlength=len(self._parts))

    @property
    def areas(self) -> Points:
        """The area of the chips of each part."""
        there = self.part_of_cut != NONE
        cut = self._chips.cut_parts.areas[there]
        own = np.bincount(self.part_of_cut[there], cut, minlength=len(self._parts))
        return np.asarray(own + self.whole_in_part * self._chips.placed.areas[0])

    def reaches(self) -> tuple[Points, Points]:
        """Return how far the chips of each part reach, low and high (n, 2); none has no end of both."""
        low, high = np.full((len(self._parts), 2), np.inf), np.full((len(self._parts), 2), -np.inf)
        placed, cut = self._chips.placed, self._chips.cut_parts
        whole = self.whole_chips.astype(float)
        ends = ends_of(placed.in_lattice(cut.outlines.points), cut.outlines.starts)
        for part, lows, highs in (
            (self.part_of_whole, whole + placed.low[0], whole + placed.high[0]),
            (self.part_of_cut, *ends),
        ):
            there = part != NONE
            np.minimum.at(low, part[there], lows[there])
            np.maximum.at(high, part[there], highs[there])
        return low, high

    def _part_of(self, column: Whole, row: Whole, points: Callable[[Whole], Points]) -> Whole:
        """Return the part that each chip lies in; none for chips of whole sheets.

        `points` gives a point inside of each of some chips, which tells several parts of one sheet apart.
        """
        wanted = _keys(*sheets_of_chips(self._tile, column, row))
        keys = self._keys[self._order]
        first, beyond = (np.searchsorted(keys, wanted, side=side) for side in ("left", "right"))
        found = np.append(self._order, NONE)[np.where(beyond > first, first, len(keys))]
        several = np.flatnonzero(beyond - first > 1)
        inside = np.asarray(shapely.points(points(several)))
        for at, point in zip(several.tolist(), inside, strict=True):
            ours = self._order[first[at] : beyond[at]]
            found[at] = ours[int(np.argmin(shapely.distance(self._shapes[ours], point)))]
        return found

    def _whole_points(self, chosen: Whole) -> Points:
        placed = self._chips.placed
        shifts = placed.shifts(self._column[chosen], self._row[chosen])
        return np.asarray(placed.corners[0].mean(axis=0) + shifts)


def polygons_of_parts(parts: Parts, chosen: Whole | None = None) -> NDArray[np.object_]:
    """Return the parts, or those that are chosen by their numbers, as polygons."""
    numbers = range(len(parts)) if chosen is None else chosen.tolist()
    found = np.empty(len(numbers), dtype=object)
    for at, k in enumerate(numbers):
        found[at] = shapely.Polygon(parts.outlines[k], parts.holes.get(k, ()))
    return found


def ends_of(points: Points, starts: Whole) -> tuple[Points, Points]:
    """Return the least and greatest coordinates (n, 2) of rings that begin at `starts` (n + 1,)."""
    if len(starts) < 2:
        return np.empty((0, 2)), np.empty((0, 2))
    low, high = (extreme.reduceat(points, starts[:-1], axis=0) for extreme in (np.minimum, np.maximum))
    return np.asarray(low), np.asarray(high)


def _keys(column: Whole, row: Whole) -> Whole:
    """Return one number for each pair, less than 2**31 either way."""
    return np.asarray(column * 2**32 + row)


def _whole_chips(chips: Laid) -> tuple[Whole, Whole]:
    """Return column and row of every whole chip."""
    runs = chips.overlap.whole
    owner, step = spread(runs.lengths)
    return runs.first[owner] + step, runs.row[owner]


def _inner_points(parts: Parts, chosen: Whole) -> Points:
    return np.asarray(shapely.get_coordinates(shapely.point_on_surface(polygons_of_parts(parts, chosen))))
