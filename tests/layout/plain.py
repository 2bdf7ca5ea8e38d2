"""A plain laying to compare with: one tile after another, one overlay each, straight from the definitions.

It shares nothing with the program but the job's values: every tile is worked out from what the job file
says of the pattern, in the pattern's own coordinates, into which the region is turned.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, cos, floor, pi, radians, sin, sqrt, tan
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity

from tilelayout.job.values import (
    HexagonTile,
    Layout,
    ParallelogramTile,
    PicketTile,
    PolygonTile,
    RectangleTile,
    RhombusTile,
    Tile,
    TriangleTile,
)

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
        kept = shapely.intersection(turned, face, grid_size=1e-7)  # walls may be flush with sides
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
    elif layout.pattern == "herringbone" and isinstance(tile, RectangleTile):
        yield from _herringbone(tile, layout, bounds)
    elif layout.pattern in {"rows", "random_planks"} and isinstance(tile, RectangleTile):
        yield from _rows(tile, layout, bounds)
    else:
        rings, vectors = drawn_cell(tile, layout)
        yield from _repeated(rings, vectors, bounds)


def _rows(tile: RectangleTile, layout: Layout, bounds: Bounds) -> Iterator[shapely.Polygon]:
    low_x, low_y, high_x, high_y = bounds
    along, up = tile.length + layout.joint, tile.width + layout.joint
    own = layout.settings
    offsets = [shift / along for shift in own["shifts"]] if "shifts" in own else own.get("row_offsets", (0,))
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


Ring = list[tuple[float, float]]
Drawing = tuple[list[Ring], Any]
"""The rings of one cell and its two vectors."""


def _repeated(rings: list[Ring], vectors: Any, bounds: Bounds) -> Iterator[shapely.Polygon]:
    low_x, low_y, high_x, high_y = bounds
    lattice = np.array(vectors, dtype=float)
    corners = np.array([(x, y) for x in (low_x, high_x) for y in (low_y, high_y)]) @ np.linalg.inv(lattice)
    reach = np.abs(np.concatenate([np.array(ring) for ring in rings]) @ np.linalg.inv(lattice)).max() + 1
    (i0, j0), (i1, j1) = corners.min(axis=0) - reach, corners.max(axis=0) + reach
    box = shapely.box(*bounds)
    for i in range(floor(i0), ceil(i1) + 1):
        for j in range(floor(j0), ceil(j1) + 1):
            for ring in rings:
                face = shapely.Polygon(np.array(ring) + np.array([i, j]) @ lattice)
                if face.intersects(box):
                    yield face


def drawn_cell(tile: Tile, layout: Layout) -> Drawing:
    """Return the rings of one cell and its two vectors, as drawn with ruler and compasses."""
    joint, own = layout.joint, layout.settings
    if isinstance(tile, RectangleTile):
        return _boxes(tile, layout)
    if isinstance(tile, PolygonTile):
        return _drawn(tile, joint, own)
    if isinstance(tile, RhombusTile):
        return _rhombi(tile, layout.pattern, joint)
    if isinstance(tile, ParallelogramTile):
        if layout.pattern == "rows":
            return _leaning_rows(tile, joint, own["row_offsets"])
        return _chevron(tile.length, tile.width, radians(tile.angle), joint)
    assert isinstance(tile, TriangleTile | PicketTile)
    return _triangles(tile.side, joint) if isinstance(tile, TriangleTile) else _pickets(tile, joint)


def _rhombi(tile: RhombusTile, pattern: str, joint: float) -> Drawing:
    angle = radians(tile.angle)
    if pattern == "chevron":
        return _chevron(tile.side, tile.side * sin(angle), angle, joint)
    if pattern == "tumbling_blocks":
        return _blocks(tile.side, joint)
    return _diamonds(tile.side, angle / 2, joint)


def _box(x: float, y: float, wide: float, high: float) -> Ring:
    return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]


def _boxes(tile: RectangleTile, layout: Layout) -> Drawing:
    length, width, joint = tile.length, tile.width, layout.joint
    a, b = length + joint, width + joint
    if layout.pattern == "stack":
        offsets = layout.settings.get("column_offsets", (0.0,))
        rings = [_box(k * b, offset * a, width, length) for k, offset in enumerate(offsets)]
        return rings, ((b * len(offsets), 0.0), (0.0, a))
    if layout.pattern == "herringbone_double":
        lying, standing = [(0.0, 0.0), (0.0, b)], [(0.0, 2 * b), (b, 2 * b)]
        vectors = ((2 * b, 2 * b), (a, -a))
    else:
        count = layout.settings.get("tiles", 2)
        lying, standing = [(0.0, k * b) for k in range(count)], [(a + k * b, 0.0) for k in range(count)]
        vectors = ((2 * a, 0.0), (a, a))
    return [_box(*at, length, width) for at in lying] + [_box(*at, width, length) for at in standing], vectors


def _leaning_rows(tile: ParallelogramTile, joint: float, offsets: tuple[float, ...]) -> Drawing:
    slope, steep = tan(radians(tile.angle)), sin(radians(tile.angle))
    along, up = tile.length + joint / steep, tile.width + joint
    rings = []
    for row, offset in enumerate(offsets):
        x, y, lean = row * up / slope + offset * along, row * up, tile.width / slope
        top = y + tile.width
        rings.append([(x, y), (x + tile.length, y), (x + tile.length + lean, top), (x + lean, top)])
    return rings, ((along, 0.0), (len(offsets) * up / slope, len(offsets) * up))


def _chevron(length: float, width: float, angle: float, joint: float) -> Drawing:
    column, climb, end = length * sin(angle), length * cos(angle), width / sin(angle)
    right = column + joint
    rising = [(0.0, 0.0), (column, climb), (column, climb + end), (0.0, end)]
    falling = [(right, climb), (right + column, 0.0), (right + column, end), (right, climb + end)]
    return [rising, falling], ((2 * right, 0.0), (0.0, (width + joint) / sin(angle)))


def _blocks(side: float, joint: float) -> Drawing:
    rings = []
    for third in (90, 210, 330):
        middle, left, right = (_compass(third + turn) for turn in (0, 60, -60))
        foot = joint / sqrt(3) * middle
        rings.append([tuple(foot + side * way) for way in (0 * middle, right, right + left, left)])
    pitch = sqrt(3) * side + 2 * joint
    return rings, ((pitch, 0.0), (pitch / 2, pitch * sqrt(3) / 2))


def _compass(degrees: float) -> NDArray[np.float64]:
    return np.array([cos(radians(degrees)), sin(radians(degrees))])


def _diamonds(side: float, half: float, joint: float) -> Drawing:
    across, up = side * sin(half), side * cos(half)
    wide, high = across + joint / 2 / cos(half), up + joint / 2 / sin(half)
    return [[(0.0, -up), (across, 0.0), (0.0, up), (-across, 0.0)]], ((2 * wide, 0.0), (wide, high))


def _triangles(side: float, joint: float) -> Drawing:
    pitch = side + sqrt(3) * joint
    middle = np.array([side / 2, side / sqrt(12)])
    above = middle + np.array([pitch / 2, pitch / sqrt(12)])
    upright = [tuple(middle + side / sqrt(3) * _compass(turn)) for turn in (90, 210, 330)]
    hanging = [tuple(above + side / sqrt(3) * _compass(turn)) for turn in (270, 30, 150)]
    return [upright, hanging], ((pitch, 0.0), (pitch / 2, pitch * sqrt(3) / 2))


def _pickets(tile: PicketTile, joint: float) -> Drawing:
    half, tip, slope = tile.width / 2, tile.length / 2, 2 * tile.point / tile.width
    shoulder, on = tip - tile.point, half + joint / 2
    ring = [
        (0.0, -tip),
        (half, -shoulder),
        (half, shoulder),
        (0.0, tip),
        (-half, shoulder),
        (-half, -shoulder),
    ]
    return [ring], ((2 * on, 0.0), (on, tile.length - on * slope + joint * sqrt(1 + slope**2)))


def _drawn(tile: PolygonTile, joint: float, own: dict[str, Any]) -> Drawing:
    ring = [(float(x), float(y)) for x, y in tile.outline]
    return ([ring], own["vectors"]) if "vectors" in own else _half_turned(ring, joint)


def _half_turned(ring: Ring, joint: float) -> Drawing:
    """Return a quadrilateral and its copy turned by half about a side's middle; they repeat by the diagonals.

    That every quadrilateral fills the plane so is known since antiquity.
    """
    with_joint = shapely.Polygon(ring).buffer(joint / 2, join_style="mitre", mitre_limit=100)
    a, b, c, d = shapely.get_coordinates(with_joint)[:4]
    x, y = a + b
    return [ring, [(x - p, y - q) for p, q in ring]], (tuple(c - a), tuple(d - b))
