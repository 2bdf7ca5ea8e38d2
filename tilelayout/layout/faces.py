"""The outline of a tile in its own coordinates: the frame in which every piece is measured and cut.

The tile lies face up with its length along x; the lower left corner of its bounding box is (0, 0).
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, radians, sin, sqrt, tan

import numpy as np
from msgspec.structs import replace

from tilelayout.geometry.rings import counter_clockwise, without_straight_corners
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import (
    HexagonMosaicTile,
    HexagonTile,
    MosaicTile,
    OctagonTile,
    ParallelogramTile,
    PicketTile,
    PolygonTile,
    RectangleTile,
    RhombusTile,
    RoundMosaicTile,
    Tile,
    TriangleTile,
)
from tilelayout.layout.offset_sheets import chip_across, chips_of_sheet, outlines_of_chips
from tilelayout.layout.values import Points


@lru_cache(maxsize=64)
def tile_outline(tile: Tile) -> Points:
    """Return the tile's outline (n, 2), counter-clockwise; a hexagon stands on a point, flats left and right.

    The array is shared and cannot be written to.
    """
    outline = _outline(tile)
    outline = np.asarray(outline - outline.min(axis=0))
    outline.flags.writeable = False
    return outline


@lru_cache(maxsize=64)
def tile_width(tile: Tile) -> float:
    """Return the narrowest place of the tile: a rectangle's shorter side, a hexagon across its flats.

    A mosaic sheet is as narrow as one of its chips.
    """
    if isinstance(tile, HexagonTile):
        return tile.across_flats
    if isinstance(tile, RectangleTile):
        return min(tile.length, tile.width)
    if isinstance(tile, MosaicTile):
        return min(tile.chip_length, tile.chip_width)
    if isinstance(tile, HexagonMosaicTile | RoundMosaicTile):
        return chip_across(tile)
    return narrowest(tile_outline(tile))


def mirror_image(tile: ParallelogramTile) -> ParallelogramTile:
    """Return the tile of the other hand: what a looking-glass shows, which no turning makes of the tile.

    The offcuts on hand are of the hand that was measured.
    """
    return replace(tile, angle=180.0 - tile.angle, offcuts=())


def hand_of(tile: Tile, one_laid: Tile) -> str:
    """Return "left" or "right" for `tile`, which is `one_laid` or its mirror image; "" if it has no hands."""
    if not isinstance(tile, ParallelogramTile) or not tile.left_and_right:
        return ""
    return "left" if tile == one_laid else "right"


def _outline(tile: Tile) -> Points:
    match tile:
        case RectangleTile():
            outline = _leaning(tile.length, tile.width, 0.0)
        case MosaicTile():
            outline = _leaning(tile.sheet_length, tile.sheet_width, 0.0)
        case HexagonMosaicTile() | RoundMosaicTile():
            (outline,) = outlines_of_chips(tile, chips_of_sheet(tile))
        case HexagonTile():
            outline = _hexagon(tile.across_flats)
        case OctagonTile():
            outline = _octagon(tile.across_flats, (tile.across_flats - tile.side) / 2)
        case ParallelogramTile():
            outline = _leaning(tile.length, tile.width, tile.width / tan(radians(tile.angle)))
        case RhombusTile():
            angle = radians(tile.angle)
            outline = _leaning(tile.side, tile.side * sin(angle), tile.side * cos(angle))
        case TriangleTile():
            outline = np.array([(0.0, 0.0), (tile.side, 0.0), (tile.side / 2, tile.side * sqrt(3.0) / 2)])
        case PicketTile():
            outline = _picket(tile.length, tile.width, tile.point)
        case PolygonTile():
            outline = without_straight_corners(counter_clockwise(np.array(tile.outline, dtype=float)))
    return outline


def _leaning(length: float, width: float, lean: float) -> Points:
    return np.array([(0.0, 0.0), (length, 0.0), (length + lean, width), (lean, width)])


def _picket(length: float, width: float, point: float) -> Points:
    near, far, middle = point, length - point, width / 2
    corners = [(near, 0.0), (far, 0.0), (length, middle), (far, width), (near, width), (0.0, middle)]
    return without_straight_corners(np.array(corners))


def _hexagon(across: float) -> Points:
    side = across / sqrt(3.0)
    return np.array(
        [
            (across / 2.0, 0.0),
            (across, side / 2.0),
            (across, side * 1.5),
            (across / 2.0, side * 2.0),
            (0.0, side * 1.5),
            (0.0, side / 2.0),
        ]
    )


def _octagon(across: float, corner: float) -> Points:
    """Return a square whose corners are cut off, each by two legs of length `corner`."""
    near, far = corner, across - corner
    return np.array(
        [
            (near, 0.0),
            (far, 0.0),
            (across, near),
            (across, far),
            (far, across),
            (near, across),
            (0.0, far),
            (0.0, near),
        ]
    )
