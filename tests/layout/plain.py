"""A plain laying to compare with: one tile after another, one overlay each, straight from the definitions.

It shares nothing with the program but the job's values: every tile is worked out from what the job file
says of the pattern, in the pattern's own coordinates, into which the region is turned.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, cos, floor, pi, sin, sqrt

import shapely
from shapely import affinity

from tilelayout.job.values import HexagonTile, Layout, RectangleTile, Tile

NOTHING = 1e-3
Bounds = tuple[float, float, float, float]


@dataclass(frozen=True)
class PlainLaying:
    """Counts and the areas of all connected parts of cut tiles, in order of size."""

    whole: int
    cut_areas: tuple[float, ...]
    faces: shapely.Geometry


def lay_plainly(region: shapely.Polygon | shapely.MultiPolygon, tile: Tile, layout: Layout) -> PlainLaying:
    """Lay the tile; every part counts, however narrow."""
    moved = affinity.translate(region, -layout.start[0], -layout.start[1])
    turned = affinity.rotate(moved, -layout.angle, origin=(0, 0))
    whole, parts, faces = 0, [], []
    for face in faces_of(tile, layout, turned.bounds):
        kept = turned.intersection(face)
        if kept.area <= NOTHING:
            continue
        faces.append(face)
        if kept.area >= face.area - NOTHING:
            whole += 1
        else:
            pieces = shapely.get_parts(kept)
            parts += [piece.area for piece in pieces if piece.geom_type == "Polygon" and piece.area > NOTHING]
    back = affinity.rotate(shapely.MultiPolygon(faces), layout.angle, origin=(0, 0))
    return PlainLaying(whole, tuple(sorted(parts)), affinity.translate(back, *layout.start))


def faces_of(tile: Tile, layout: Layout, bounds: Bounds) -> Iterator[shapely.Polygon]:
    """Yield every face that may reach into the bounds, and some more."""
    if isinstance(tile, HexagonTile):
        yield from _hexagons(tile, layout, bounds)
    elif layout.pattern == "herringbone":
        yield from _herringbone(tile, layout, bounds)
    else:
        yield from _rows(tile, layout, bounds)


def _rows(tile: RectangleTile, layout: Layout, bounds: Bounds) -> Iterator[shapely.Polygon]:
    low_x, low_y, high_x, high_y = bounds
    along, up = tile.length + layout.joint, tile.width + layout.joint
    offsets = layout.settings.get("row_offsets", (0,))
    for k in range(floor(low_y / up) - 1, ceil(high_y / up) + 1):
        shift = offsets[k % len(offsets)] * along
        for i in range(floor((low_x - shift) / along) - 1, ceil((high_x - shift) / along) + 1):
            x, y = i * along + shift, k * up
            yield shapely.box(x, y, x + tile.length, y + tile.width)


def _herringbone(tile: RectangleTile, layout: Layout, bounds: Bounds) -> Iterator[shapely.Polygon]:
    low_x, low_y, high_x, high_y = bounds
    a, b = tile.length + layout.joint, tile.width + layout.joint
    for j in range(floor((low_x - high_y) / (2 * a)) - 2, ceil((high_x - low_y) / (2 * a)) + 3):
        for i in range(floor((low_y + j * a - a) / b) - 2, ceil((high_y + j * a) / b) + 2):
            x, y = i * b + j * a, i * b - j * a
            yield shapely.box(x, y, x + tile.length, y + tile.width)
            yield shapely.box(x, y + b, x + tile.width, y + b + tile.length)


def _hexagons(tile: HexagonTile, layout: Layout, bounds: Bounds) -> Iterator[shapely.Polygon]:
    low_x, low_y, high_x, high_y = bounds
    pitch, rise = tile.across_flats + layout.joint, (tile.across_flats + layout.joint) * sqrt(3) / 2
    turned = layout.settings.get("up") == "flat"
    if turned:
        low_x, low_y, high_x, high_y = low_y, low_x, high_y, high_x
    for k in range(floor(low_y / rise) - 1, ceil(high_y / rise) + 2):
        for i in range(floor(low_x / pitch) - 2, ceil(high_x / pitch) + 2):
            x, y = (i + (k % 2) / 2) * pitch, k * rise
            yield _hexagon(y, x, tile, 0.0) if turned else _hexagon(x, y, tile, pi / 6)


def _hexagon(x: float, y: float, tile: HexagonTile, first: float) -> shapely.Polygon:
    radius = tile.across_flats / sqrt(3)
    corners = [first + k * pi / 3 for k in range(6)]
    return shapely.Polygon([(x + radius * cos(corner), y + radius * sin(corner)) for corner in corners])
