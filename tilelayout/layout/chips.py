"""The chips of a mosaic sheet: one of them, how they are laid, and the lines of the joints between them."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from tilelayout.geometry.rings import area
from tilelayout.job.values import Layout, MosaicTile, RectangleTile, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Points


def chip_of(tile: MosaicTile) -> RectangleTile:
    """Return one chip of a sheet as a tile."""
    return RectangleTile(
        id=tile.id,
        name=tile.name,
        directional=tile.directional,
        length=tile.chip_length,
        width=tile.chip_width,
    )


def laid_in_chips(tile: Tile, layout: Layout) -> tuple[Tile, Layout]:
    """Return the tile and layout by which narrow pieces are judged: of mosaic sheets those of their chips.

    The chips are a plain grid from the same start, so every start of theirs is one of the sheets.
    """
    if not isinstance(tile, MosaicTile):
        return tile, layout
    return chip_of(tile), replace(layout, pattern="rows", settings={}, joint=tile.chip_joint)


def face_area(tile: Tile) -> float:
    """Return the area that a whole tile covers, in mm2: of a mosaic sheet that of its chips."""
    if isinstance(tile, MosaicTile):
        return tile.chips_across * tile.chips_up * tile.chip_length * tile.chip_width
    return area(tile_outline(tile))


def hard_outline(tile: Tile) -> Points:
    """Return the outline (n, 2) of what is one hard piece: the tile, or a single chip of a mosaic sheet."""
    return tile_outline(chip_of(tile) if isinstance(tile, MosaicTile) else tile)


def joint_lines(tile: MosaicTile) -> Points:
    """Return the middle lines (n, 2, 2) of the joints between the chips, in tile coordinates."""
    across = _middles(tile.chips_across, tile.chip_length, tile.chip_joint)
    up = _middles(tile.chips_up, tile.chip_width, tile.chip_joint)
    upright = (((x, 0.0), (x, tile.sheet_width)) for x in across)
    level = (((0.0, y), (tile.sheet_length, y)) for y in up)
    return np.array([*upright, *level], dtype=float).reshape(-1, 2, 2)


def _middles(count: int, side: float, joint: float) -> list[float]:
    return [at * (side + joint) - joint / 2 for at in range(1, count)]
