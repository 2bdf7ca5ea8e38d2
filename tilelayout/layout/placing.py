"""Sets a tile down in a pattern: turned, then moved, so that a face always knows its way back to the tile."""

from __future__ import annotations

import numpy as np

from tilelayout.geometry.turns import turning
from tilelayout.job.values import Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Face, Points


def face_with_corner(tile: Tile, turn: float, low: tuple[float, float], course: int = 0) -> Face:
    """Return the tile turned by `turn` degrees with the lower left of its bounding box at `low`."""
    turned = tile_outline(tile) @ turning(turn)
    return _moved(tile, turned, turn, np.array(low) - turned.min(axis=0), course)


def face_about(tile: Tile, turn: float, centre: tuple[float, float], course: int = 0) -> Face:
    """Return the tile turned by `turn` degrees with the middle of its bounding box at `centre`."""
    turned = tile_outline(tile) @ turning(turn)
    middle = (turned.min(axis=0) + turned.max(axis=0)) / 2
    return _moved(tile, turned, turn, np.array(centre) - middle, course)


def face_with_origin(tile: Tile, turn: float, origin: tuple[float, float], course: int = 0) -> Face:
    """Return the tile turned by `turn` degrees about its own (0, 0), which is set down at `origin`."""
    return _moved(tile, tile_outline(tile) @ turning(turn), turn, np.array(origin), course)


def face_with_point(
    tile: Tile, turn: float, own: Points, there: tuple[float, float], course: int = 0
) -> Face:
    """Return the tile turned by `turn` degrees with its own point `own` (2,) at `there`."""
    turned = tile_outline(tile) @ turning(turn)
    return _moved(tile, turned, turn, np.array(there) - own @ turning(turn), course)


def _moved(tile: Tile, turned: Points, turn: float, by: Points, course: int) -> Face:
    return Face(turned + by, turn % 360.0, (float(by[0]), float(by[1])), tile, course)
