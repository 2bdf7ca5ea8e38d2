"""Mosaic sheets laid as tiles, and their chips laid as a second grid from the same start.

A sheet is the piece that is numbered and bought; what is narrow is judged by its chips. A sheet is parted
between chips with a knife, and only chips that the border of the region crosses are cut. So a chip that
would be under `least_piece` is left to the joint, a part of a sheet reaches no further than the chips it
keeps, and it is no piece if it keeps none.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from functools import cached_property

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.overlays import FINEST, stretches_in
from tilelayout.geometry.widths import narrowest_of_many
from tilelayout.job.values import MosaicTile
from tilelayout.layout.chip_grid import NONE, ChipGrid, ends_of, polygons_of_parts
from tilelayout.layout.chips import face_area, laid_in_chips
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.kernel.overlap import Overlap, Parts, both, overlap
from tilelayout.layout.kernel.overlay import fragments_of
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.laid import Laid
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.values import Piece, Points


@dataclass(frozen=True, eq=False)
class MosaicPiece(Piece):
    """A part of a mosaic sheet: how many of its chips are whole, and the outlines (n, 2) of the cut ones."""

    chips_whole: int = 0
    cut_chips: tuple[Points, ...] = ()


@dataclass(frozen=True, eq=False, kw_only=True)
class LaidMosaic(Laid):
    """Laid mosaic sheets. `chips` are their chips, laid by themselves.

    `part_of_chip` (k,) is the number of the part that each cut chip belongs to; `chips_whole` (n,) is how
    many whole chips each part has.
    """

    mosaic: MosaicTile
    chips: Laid
    part_of_chip: Whole
    chips_whole: Whole

    @property
    def left_to_joint(self) -> int:
        """How many chips, or parts of chips, are too narrow to be pieces."""
        return self.chips.left_to_joint

    @property
    def left_to_joint_area(self) -> float:
        """The area of the chips that are too narrow to be pieces."""
        return self.chips.left_to_joint_area

    @cached_property
    def bare_patches(self) -> tuple[Points, ...]:
        """The outlines of chips that are too narrow at one place only, and leave their whole place bare."""
        return self.chips.bare_patches

    def with_any(self, chosen: Flags) -> Flags:
        """Tell which of `cut_parts` have any of the cut chips (k,) that are chosen."""
        found = np.zeros(len(self.cut_parts), dtype=bool)
        found[self.part_of_chip[chosen & (self.part_of_chip != NONE)]] = True
        return found

    @cached_property
    def joint_lines(self) -> tuple[Points, ...]:
        """The joints between chips of one sheet, as middle lines (2, 2) that lie within the region."""
        lines = np.asarray(shapely.linestrings(_lines_over(self)))
        return tuple(shapely.get_coordinates(line) for line in stretches_in(lines, self.region.shape))

    @cached_property
    def _widths(self) -> tuple[Points, Flags]:
        """The narrowest place of each part: that of its narrowest chip. All are known."""
        count = len(self.overlap.parts)
        widths = np.full(count, float(tile_width(self.mosaic)))
        there = self.part_of_chip != NONE
        np.minimum.at(widths, self.part_of_chip[there], _widths_of(self.chips)[there])
        return widths, np.ones(count, dtype=bool)

    def _made_cut_piece(self, part: int) -> Piece:
        plain, chips = super()._made_cut_piece(part), self.chips.cut_parts.outlines
        return MosaicPiece(
            **{each.name: getattr(plain, each.name) for each in fields(plain)},
            chips_whole=int(self.chips_whole[part]),
            cut_chips=tuple(chips[chip] for chip in np.flatnonzero(self.part_of_chip == part).tolist()),
        )

    def _whole_piece(self, id: str, face: int, outline: Points) -> Piece:
        return replace(super()._whole_piece(id, face, outline), area=face_area(self.mosaic))


def with_chips(laid: Laid, tile: MosaicTile) -> LaidMosaic:
    """Return laid mosaic sheets as what their chips make of them."""
    chips = _chips_of(laid, tile)
    parts = _no_further_than_chips(laid.overlap.parts, chips, tile)
    grid = ChipGrid(chips, tile, parts)
    kept = np.isin(np.arange(len(parts)), grid.part_of_cut) | (grid.whole_in_part > 0)
    parts = replace(parts, areas=grid.areas).only(kept)
    number = np.append(np.where(kept, np.cumsum(kept) - 1, NONE), NONE)
    return LaidMosaic(
        **{each.name: getattr(laid, each.name) for each in fields(laid)}
        | {"overlap": Overlap(laid.overlap.whole, parts)},
        mosaic=tile,
        chips=chips,
        part_of_chip=number[grid.part_of_cut],
        chips_whole=grid.whole_in_part[kept],
    )


def _chips_of(laid: Laid, tile: MosaicTile) -> Laid:
    chip, layout = laid_in_chips(tile, laid.layout)
    cell = cell_of(layout, chip)
    set_down = placed(cell, layout.angle, layout.start)
    return Laid(laid.surface, chip, layout, cell, laid.region, set_down, overlap(laid.region, set_down))


def _no_further_than_chips(parts: Parts, chips: Laid, tile: MosaicTile) -> Parts:
    """Return the parts without what reaches beyond the chips they keep: a strip of joint or of lost chips."""
    low, high = ChipGrid(chips, tile, parts).reaches()
    placed, has_any = chips.placed, np.asarray(np.isfinite(low).all(axis=1))
    parts, low, high = parts.only(has_any), low[has_any], high[has_any]
    own_low, own_high = ends_of(placed.in_lattice(parts.outlines.points), parts.outlines.starts)
    slack = ON_EDGE / np.hypot(*placed.vectors.T)
    over_low, over_high = low - own_low > slack, own_high - high > slack
    low, high = np.where(over_low, low, own_low - 1.0), np.where(over_high, high, own_high + 1.0)
    is_over = np.asarray((over_low | over_high).any(axis=1))
    boxes = placed.start + _boxes(low[is_over], high[is_over]) @ placed.vectors
    return both(parts.only(~is_over), _clipped(parts.only(is_over), boxes))


def _boxes(low: Points, high: Points) -> Points:
    """Return the corners (n, 4, 2) of boxes, counter-clockwise."""
    (left, lower), (right, upper) = low.T, high.T
    sides = ((left, lower), (right, lower), (right, upper), (left, upper))
    return np.stack([np.column_stack(corner) for corner in sides], axis=1)


def _clipped(parts: Parts, corners: Points) -> Parts:
    """Return what of each part lies within its outline of `corners` (n, m, 2)."""
    within = shapely.polygons(corners)
    overlaid = shapely.intersection(polygons_of_parts(parts), within, grid_size=FINEST)
    found = fragments_of(np.asarray(overlaid))
    face, column, row = (numbers[found.owner] for numbers in (parts.face, parts.column, parts.row))
    return Parts(face, column, row, found.areas, found.outlines, found.holes)


def _widths_of(chips: Laid) -> Points:
    """Return the narrowest place of each cut chip."""
    parts, (widths, are_exact) = chips.cut_parts, chips.cut_widths
    asked = np.flatnonzero(~are_exact).tolist()
    exact = widths.copy()
    exact[asked] = narrowest_of_many(
        [parts.outlines[k] for k in asked], [parts.holes.get(k, ()) for k in asked]
    )
    return exact


def _lines_over(laid: LaidMosaic) -> Points:
    """Return the middle lines (n, 2, 2) of the joints between chips of one sheet, all across the region."""
    placed, tile = laid.chips.placed, laid.mosaic
    reach = placed.in_lattice(np.concatenate(laid.region.rings))
    low, high = np.floor(reach.min(axis=0)), np.ceil(reach.max(axis=0))
    pitches, lines = np.hypot(*placed.vectors.T), []
    for axis, count in enumerate((tile.chips_across, tile.chips_up)):
        steps = np.arange(low[axis] + 1, high[axis])
        at = steps[steps % count != 0] - tile.chip_joint / pitches[axis] / 2
        ends = np.empty((len(at), 2, 2))
        ends[..., axis] = at[:, None]
        ends[..., 1 - axis] = low[1 - axis], high[1 - axis]
        lines.append(placed.start + ends @ placed.vectors)
    return np.concatenate(lines)
