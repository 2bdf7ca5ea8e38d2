"""The outline of a tile in its own coordinates: the frame in which every piece is measured and cut.

The tile lies face up with its length along x; the lower left corner of its bounding box is (0, 0).
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

import numpy as np

from tilelayout.job.values import HexagonTile, RectangleTile, Tile
from tilelayout.layout.values import Points


@lru_cache(maxsize=64)
def tile_outline(tile: Tile) -> Points:
    """Return the tile's outline (n, 2), counter-clockwise; a hexagon stands on a point, flats left and right.

    The array is shared and cannot be written to.
    """
    outline = _hexagon(tile.across_flats) if isinstance(tile, HexagonTile) else _rectangle(tile)
    outline.flags.writeable = False
    return outline


def tile_width(tile: Tile) -> float:
    """Return the smaller size of the tile: a rectangle's shorter side, a hexagon across its flats."""
    return tile.across_flats if isinstance(tile, HexagonTile) else min(tile.length, tile.width)


def _rectangle(tile: RectangleTile) -> Points:
    return np.array([(0.0, 0.0), (tile.length, 0.0), (tile.length, tile.width), (0.0, tile.width)])


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
