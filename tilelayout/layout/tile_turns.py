"""By how much a tile may be turned onto itself, found from its outline, whatever its shape.

A turn of the tile onto itself brings every factory edge onto a factory edge, so a piece that is sawn from the
turned tile is the same piece. A mirror image never is.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.turns import turning
from tilelayout.job.values import MosaicTile, OffsetSheet, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Points


@lru_cache(maxsize=64)
def tile_turns(tile: Tile) -> tuple[int, ...]:
    """Return by how many degrees a tile may be turned onto itself before sawing.

    A square mosaic sheet of oblong chips is not turned by a quarter. A sheet with rows half a chip over is
    turned by half, if its last row stands as its first does when seen from the other end.
    """
    if tile.directional:
        return (0,)
    if isinstance(tile, MosaicTile) and abs(tile.chip_length - tile.chip_width) > ON_EDGE:
        return (0, 180)
    if isinstance(tile, OffsetSheet) and tile.chips_across * tile.chips_up > 1:
        return (0, 180) if tile.chips_up == 1 or tile.chips_up % 2 == 0 else (0,)
    outline = tile_outline(tile)
    centred = outline - middle_of(outline)
    count = next(n for n in range(len(outline), 0, -1) if 360 % n == 0 and _is_same(centred, 360 // n))
    return tuple(range(0, 360, 360 // count))


def middle_of(outline: Points) -> Points:
    """Return the centre of area (2,), about which every turn of the outline onto itself turns."""
    middle = shapely.Polygon(outline).centroid
    return np.array([middle.x, middle.y])


def _is_same(centred: Points, degrees: int) -> bool:
    """Claim that a turn brings every corner of a centred outline onto a corner."""
    away = (centred @ turning(degrees))[:, None] - centred
    return bool(np.all(np.hypot(away[..., 0], away[..., 1]).min(axis=1) < ON_EDGE))
