"""Mosaic sheets laid as tiles, and their chips laid as a second grid from the same start.

A sheet is the piece that is numbered and bought; what is narrow is judged by its chips. A sheet is parted
between chips with a knife, and only chips that the border of the region crosses are cut. So a chip that
would be under `least_piece` is left to the joint, a part of a sheet reaches no further than the chips it
keeps, and it is no piece if it keeps none. Sheets of hexagons and round chips are parted along the zigzag
round the chips that are kept: see `offset_sheets`.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from functools import cached_property

import numpy as np
import shapely

from tilelayout.geometry.overlays import stretches_in
from tilelayout.geometry.widths import narrowest_of_many
from tilelayout.job.values import MosaicTile, OffsetSheet
from tilelayout.layout.chip_grid import NONE, ChipGrid
from tilelayout.layout.chips import face_area, laid_in_chips
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.kernel.overlap import Overlap, overlap
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.laid import Laid
from tilelayout.layout.mosaic_parts import no_further_than_chips, zigzags_round
from tilelayout.layout.offset_sheets import places_in_sheets
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.values import Piece, Points


@dataclass(frozen=True, eq=False)
class MosaicPiece(Piece):
    """A part of a mosaic sheet: how many of its chips are whole, and the outlines (n, 2) of the cut ones.

    `chips` (n, 2) are the places of all of them, along and up in the sheet. Of a sheet that is parted along
    zigzags, `parted` are the rings (n, 2) that the knife leaves, in surface coordinates; else none.
    """

    chips_whole: int = 0
    cut_chips: tuple[Points, ...] = ()
    chips: Whole = field(default_factory=lambda: np.empty((0, 2), dtype=np.int64))
    parted: tuple[Points, ...] = ()

    @property
    def sawn_from(self) -> tuple[Points, ...]:
        """The rings that the knife leaves: the saw cuts chips alone."""
        return self.parted or super().sawn_from


@dataclass(frozen=True, eq=False, kw_only=True)
class LaidMosaic(Laid):
    """Laid mosaic sheets. `chips` are their chips, laid by themselves.

    `part_of_chip` (k,) is the number of the part that each cut chip belongs to; `chips_whole` (n,) is how
    many whole chips each part has. `chips_by_part` are column and row (m, 2) of the chips of each part.
    """

    mosaic: MosaicTile | OffsetSheet
    chips: Laid
    part_of_chip: Whole
    chips_whole: Whole
    chips_by_part: tuple[Whole, ...]

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
        """The joints between chips of one sheet, as middle lines (2, 2) that lie within the region.

        Chips in rows and columns have such lines; none for others.
        """
        if not isinstance(self.mosaic, MosaicTile):
            return ()
        lines = np.asarray(shapely.linestrings(_lines_over(self, self.mosaic)))
        return tuple(shapely.get_coordinates(line) for line in stretches_in(lines, self.region.shape))

    def chip_outlines(self, part: int) -> list[Points]:
        """Return the outlines (n, 2) of the chips of one of the `cut_parts`."""
        cut, is_cut = self.chips.cut_parts, np.flatnonzero(self.part_of_chip == part)
        some_cut = {(int(cut.column[chip]), int(cut.row[chip])) for chip in is_cut}
        whole = np.array([chip for chip in self.chips_by_part[part].tolist() if tuple(chip) not in some_cut])
        faces = self.chips.placed.outlines(
            *np.zeros((1, len(whole)), dtype=np.int64), *whole.reshape(-1, 2).T
        )
        return [*faces, *(cut.outlines[chip] for chip in is_cut.tolist())]

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
        own = np.unique(self.chips_by_part[part], axis=0)
        return MosaicPiece(
            **{each.name: getattr(plain, each.name) for each in fields(plain)},
            chips_whole=int(self.chips_whole[part]),
            cut_chips=tuple(chips[chip] for chip in np.flatnonzero(self.part_of_chip == part).tolist()),
            chips=_places(self.mosaic, own),
            parted=tuple(zigzags_round(own, self.chips, self.mosaic)),
        )

    def _whole_piece(self, id: str, face: int, outline: Points) -> Piece:
        return replace(super()._whole_piece(id, face, outline), area=face_area(self.mosaic))


def with_chips(laid: Laid, tile: MosaicTile | OffsetSheet) -> LaidMosaic:
    """Return laid mosaic sheets as what their chips make of them."""
    chips = _chips_of(laid, tile)
    parts = no_further_than_chips(laid.overlap.parts, chips, tile)
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
        chips_by_part=tuple(own for own, is_kept in zip(grid.chips_by_part, kept, strict=True) if is_kept),
    )


def _chips_of(laid: Laid, tile: MosaicTile | OffsetSheet) -> Laid:
    chip, layout = laid_in_chips(tile, laid.layout)
    cell = cell_of(layout, chip)
    set_down = placed(cell, layout.angle, layout.start)
    return Laid(laid.surface, chip, layout, cell, laid.region, set_down, overlap(laid.region, set_down))


def _places(tile: MosaicTile | OffsetSheet, chips: Whole) -> Whole:
    """Return the places (n, 2), along and up in their sheet, of chips given by column and row."""
    if isinstance(tile, OffsetSheet):
        return np.column_stack(places_in_sheets(tile, *chips.T)[2:])
    return chips % (tile.chips_across, tile.chips_up)


def _widths_of(chips: Laid) -> Points:
    """Return the narrowest place of each cut chip."""
    parts, (widths, are_exact) = chips.cut_parts, chips.cut_widths
    asked = np.flatnonzero(~are_exact).tolist()
    exact = widths.copy()
    exact[asked] = narrowest_of_many(
        [parts.outlines[k] for k in asked], [parts.holes.get(k, ()) for k in asked]
    )
    return exact


def _lines_over(laid: LaidMosaic, tile: MosaicTile) -> Points:
    """Return the middle lines (n, 2, 2) of the joints between chips of one sheet, all across the region."""
    placed = laid.chips.placed
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
