"""Strips of trim as pieces of their tile, so that they share tiles with the pieces of floors and walls.

A strip lies in the tile where its factory edges are: its upper edge at the tile's, its ends at the tile's
ends. Where it may have sawn edges on either side it lies in the middle, and may slide.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely

from tilelayout.job.values import Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.trim import LEFT, RIGHT, TOP, Strip, strip_sizes
from tilelayout.layout.values import Piece, Points


def strip_pieces(strips: Iterable[Strip], tile: Tile, name: str) -> tuple[Piece, ...]:
    """Return a piece for each strip, called by `name` and numbered from 1. LayoutError if no rectangle."""
    return tuple(_piece(strip, tile, f"{name} {number}") for number, strip in enumerate(strips, start=1))


def _piece(strip: Strip, tile: Tile, id: str) -> Piece:
    face = tile_outline(tile)
    outline = _in_place(strip, tile)
    area = float(shapely.Polygon(outline).area)
    return Piece(id, False, outline, (), face, 0.0, (0.0, 0.0), tile, area)


def _in_place(strip: Strip, tile: Tile) -> Points:
    """Return the outline in the coordinates of the tile; its length lies along the tile's longer side."""
    longest, across = strip_sizes(tile)
    ring = strip.outline - strip.outline.min(axis=0)
    length, height = np.ptp(ring, axis=0)
    middle = (longest - length) / 2
    x = 0.0 if LEFT in strip.factory_sides else longest - length if RIGHT in strip.factory_sides else middle
    y = across - height if TOP in strip.factory_sides else (across - height) / 2
    placed = ring + np.array([x, y])
    is_along = np.ptp(tile_outline(tile)[:, 0]) >= longest
    return np.asarray(placed if is_along else np.column_stack([across - placed[:, 1], placed[:, 0]]))
