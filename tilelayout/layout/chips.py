"""The chips of a mosaic sheet: one of them, how they are laid, and the joints between them."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from tilelayout.geometry.rings import area
from tilelayout.job.values import Layout, MosaicSheet, MosaicTile, OffsetSheet, RectangleTile, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.kernel.arrays import Whole
from tilelayout.layout.offset_sheets import (
    chips_of_sheet,
    offset_vectors,
    outlines_of_chips,
    places_in_sheets,
)
from tilelayout.layout.values import Points


def chip_of(tile: MosaicSheet) -> Tile:
    """Return one chip of a sheet as a tile; of rows half a chip over that is a sheet of one chip."""
    if isinstance(tile, OffsetSheet):
        return replace(tile, chips_across=1, chips_up=1)
    assert isinstance(tile, MosaicTile)
    return RectangleTile(
        id=tile.id,
        name=tile.name,
        directional=tile.directional,
        length=tile.chip_length,
        width=tile.chip_width,
    )


def chip_vectors(tile: Tile) -> Points:
    """Return the ways (2, 2) from chip to chip of a mosaic sheet: along its row, and to the next row."""
    if isinstance(tile, OffsetSheet):
        return offset_vectors(tile)
    assert isinstance(tile, MosaicTile)
    return np.diag([tile.chip_length, tile.chip_width]) + tile.chip_joint * np.eye(2)


def sheets_of_chips(tile: MosaicSheet, column: Whole, row: Whole) -> tuple[Whole, Whole]:
    """Return column and row of the sheet that each chip belongs to."""
    if isinstance(tile, OffsetSheet):
        return places_in_sheets(tile, column, row)[:2]
    return column // tile.chips_across, row // tile.chips_up


def laid_in_chips(tile: Tile, layout: Layout) -> tuple[Tile, Layout]:
    """Return the tile and layout by which narrow pieces are judged: of mosaic sheets those of their chips.

    The chips are laid from the same start, so every start of theirs is one of the sheets.
    """
    if not isinstance(tile, MosaicSheet):
        return tile, layout
    if isinstance(tile, OffsetSheet):
        return chip_of(tile), layout
    return chip_of(tile), replace(layout, pattern="rows", settings={}, joint=tile.chip_joint)


def face_area(tile: Tile) -> float:
    """Return the area that a whole tile covers, in mm2: of a mosaic sheet that of its chips."""
    chips = tile.chips_across * tile.chips_up if isinstance(tile, MosaicSheet) else 1
    return chips * area(hard_outline(tile))


def hard_outline(tile: Tile) -> Points:
    """Return the outline (n, 2) of what is one hard piece: the tile, or a single chip of a mosaic sheet."""
    return tile_outline(chip_of(tile) if isinstance(tile, MosaicSheet) else tile)


def measured_outline(tile: Tile) -> Points:
    """Return the outline (n, 2) on which cuts are measured: the tile's own, or the box round a zigzag one."""
    outline = tile_outline(tile)
    if not isinstance(tile, OffsetSheet):
        return outline
    length, width = outline.max(axis=0).tolist()
    return np.array([(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)])


def chip_outlines(tile: OffsetSheet) -> list[Points]:
    """Return the outline (n, 2) of every chip of a sheet, in tile coordinates."""
    (sheet,) = outlines_of_chips(tile, chips_of_sheet(tile))
    (chip,) = outlines_of_chips(tile, [(0, 0)])
    return [chip + np.array(at) @ offset_vectors(tile) - sheet.min(axis=0) for at in chips_of_sheet(tile)]


def joint_lines(tile: MosaicTile) -> Points:
    """Return the middle lines (n, 2, 2) of the joints between the chips, in tile coordinates."""
    across = _middles(tile.chips_across, tile.chip_length, tile.chip_joint)
    up = _middles(tile.chips_up, tile.chip_width, tile.chip_joint)
    upright = (((x, 0.0), (x, tile.sheet_width)) for x in across)
    level = (((0.0, y), (tile.sheet_length, y)) for y in up)
    return np.array([*upright, *level], dtype=float).reshape(-1, 2, 2)


def _middles(count: int, side: float, joint: float) -> list[float]:
    return [at * (side + joint) - joint / 2 for at in range(1, count)]
