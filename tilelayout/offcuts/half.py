"""The offcut that a person is offered first when entering one: half of the tile."""

from __future__ import annotations

import numpy as np
import shapely

from tilelayout.geometry.halves import half_of
from tilelayout.geometry.overlays import polygons_of
from tilelayout.job.stock import OffcutOnHand
from tilelayout.job.values import Saw, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.offcuts.kept import as_kept
from tilelayout.offcuts.rules import Blank


def half_tile(tile: Tile) -> OffcutOnHand:
    """Return the left half of a tile; of one that bends inwards the largest part of it."""
    outline = tile_outline(tile)
    middle = round(float(outline[:, 0].max()) / 2, 1)
    half = polygons_of(half_of(shapely.Polygon(outline), np.array([1.0, 0.0]), middle))
    largest = max(half, key=lambda part: float(part.area))
    return as_kept(shapely.get_coordinates(largest.exterior)[:-1], Blank(tile, Saw()))
