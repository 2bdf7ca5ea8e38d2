"""Words for the sides and corners of a tile that lies face up, its length from left to right."""

from __future__ import annotations

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE, SAME_PLACE
from tilelayout.geometry.rings import following
from tilelayout.job.values import MosaicSheet, ParallelogramTile, RectangleTile, Tile
from tilelayout.layout.chips import measured_outline
from tilelayout.layout.values import Points

_ACROSS = ("left", "", "right")
_UP = ("lower", "", "upper")


def side_word(tile: Tile, point: Points) -> str:
    """Return the side of the tile that a point (2,) lies on or beyond: "left end", "upper edge"."""
    outline = measured_outline(tile)
    along = following(outline) - outline
    outward = np.column_stack([along[:, 1], -along[:, 0]]) / np.hypot(*along.T)[:, None]
    beyond = ((point - outline) * outward).sum(axis=1)
    away = _away(point, outline, along)
    direction = outward[int(np.argmax(np.where(away < away.min() + ON_EDGE, beyond, -np.inf)))]
    if isinstance(tile, ParallelogramTile) and abs(direction[1]) < 1.0 - SAME_PLACE:
        return "left end" if direction[0] < 0 else "right end"
    noun = "end" if isinstance(tile, RectangleTile | MosaicSheet) and abs(direction[0]) > 0.5 else "edge"
    return f"{_direction(direction)} {noun}"


def corner_word(tile: Tile, point: Points) -> str:
    """Return the corner of the tile that a point (2,) is nearest to: "upper right corner"."""
    outline = measured_outline(tile)
    nearest = outline[int(np.argmin(np.hypot(*(outline - point).T)))]
    middle = (outline.min(axis=0) + outline.max(axis=0)) / 2
    return f"{_direction((nearest - middle) / np.hypot(*(nearest - middle)))} corner"


def corner_taken(tile: Tile, ends: Points, legs: tuple[float, ...]) -> Points:
    """Return the corner of the tile (2,) that a cut takes off which ends (2, 2) so far from it, in mm."""
    outline = measured_outline(tile)
    away = np.hypot(*(outline[:, None] - ends).transpose(2, 0, 1))
    return np.asarray(outline[int(np.argmin(np.abs(away - np.array(legs)).sum(axis=1)))])


def crossings(tile: Tile, line: Points) -> Points:
    """Return where the line through two points (2, 2) enters and leaves the tile, in its direction (2, 2).

    Points that lie on the outline already are where it does.
    """
    outline = measured_outline(tile)
    ring = shapely.LinearRing(outline)
    if all(ring.distance(shapely.Point(point)) < ON_EDGE for point in line):
        return line
    reach = (line[1] - line[0]) * np.ptp(outline) * 2 / np.hypot(*(line[1] - line[0]))
    inside = shapely.LineString([line[0] - reach, line[1] + reach]) & shapely.Polygon(outline)
    ends = shapely.get_coordinates(inside)[[0, -1]]
    return ends if (ends[1] - ends[0]) @ reach > 0 else ends[::-1]


def _away(point: Points, outline: Points, along: Points) -> Points:
    """Return how far a point (2,) lies from each side of the outline: (n,)."""
    share = ((point - outline) * along).sum(axis=1) / (along**2).sum(axis=1)
    return np.asarray(np.hypot(*(point - outline - np.clip(share, 0.0, 1.0)[:, None] * along).T))


def _direction(vector: Points) -> str:
    across, up = (int(np.sign(part)) if abs(part) > 0.1 else 0 for part in vector)
    return f"{_UP[up + 1]} {_ACROSS[across + 1]}".strip()
