"""Plain ways to clip a pattern to a room, to race against; each starts from the same room and cell.

All make the tiles of the room's bounding box as arrays first; what differs is how these meet the room.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.geometry.turns import turning
from tilelayout.layout.kernel.overlap import overlap
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.values import Cell, Region

NOTHING = 1e-3
Polygons = NDArray[np.object_]


@dataclass(frozen=True)
class Course:
    """What is raced over: a room and a pattern set down in it."""

    region: Region
    cell: Cell
    angle: float
    start: tuple[float, float]


@dataclass(frozen=True)
class Found:
    """What every rival must find: whole tiles, parts of cut tiles, and the area of these."""

    whole: int
    cut: int
    cut_area: float


def tiles_in_bounds(course: Course) -> Polygons:
    """Return all tiles that reach into the room's bounding box."""
    turn, start = turning(course.angle), np.array(course.start)
    vectors = course.cell.vectors @ turn
    low_x, low_y, high_x, high_y = course.region.shape.bounds
    box = np.array([(low_x, low_y), (high_x, low_y), (high_x, high_y), (low_x, high_y)])
    at = (box - start) @ np.linalg.inv(vectors)
    (first_i, first_j), (last_i, last_j) = np.floor(at.min(axis=0)) - 2, np.ceil(at.max(axis=0)) + 2
    i, j = np.meshgrid(np.arange(first_i, last_i + 1), np.arange(first_j, last_j + 1))
    shifts = np.column_stack((i.ravel(), j.ravel())) @ vectors + start
    tiles = []
    for face in course.cell.faces:
        corners = (face.outline @ turn) + shifts[:, None, :]
        low, high = corners.min(axis=1), corners.max(axis=1)
        near = (high > (low_x, low_y)).all(axis=1) & (low < (high_x, high_y)).all(axis=1)
        tiles.append(shapely.polygons(corners[near]))
    return np.concatenate(tiles)


def tile_by_tile(course: Course) -> Found:
    """Overlay every tile with the room, one after another."""
    room, whole, cut, area = course.region.shape, 0, 0, 0.0
    for tile in tiles_in_bounds(course):
        kept = room.intersection(tile)
        if kept.area > tile.area - NOTHING:
            whole += 1
        elif kept.area > NOTHING:
            parts = [part.area for part in getattr(kept, "geoms", [kept])]
            cut += sum(part > NOTHING for part in parts)
            area += sum(parts)
    return Found(whole, cut, area)


def all_at_once(course: Course) -> Found:
    """Ask for all tiles at once which lie in the room, and overlay the others at once."""
    room, tiles = course.region.shape, tiles_in_bounds(course)
    shapely.prepare(room)
    inside = shapely.contains_properly(room, tiles)
    others = tiles[~inside]
    kept = shapely.intersection(room, others)
    area = shapely.area(kept)
    whole = area > shapely.area(others) - NOTHING
    parts = shapely.area(shapely.get_parts(kept[~whole]))
    parts = parts[parts > NOTHING]
    return Found(int(inside.sum() + whole.sum()), len(parts), float(parts.sum()))


def touched_tiles(course: Course) -> Polygons:
    """Return the tiles that are cut: found beforehand, so that the floor below has no finding to do."""
    tiles = tiles_in_bounds(course)
    area = shapely.area(shapely.intersection(course.region.shape, tiles))
    return tiles[(area > NOTHING) & (area < shapely.area(tiles) - NOTHING)]


def overlay_alone(course: Course, touched: Polygons) -> float:
    """Overlay the touched tiles: what the cuts alone cost a general overlay, however well they are found."""
    return float(shapely.area(shapely.intersection(course.region.shape, touched)).sum())


def ours(course: Course) -> Found:
    """Lay with the program's kernel, tables and all."""
    found = overlap(course.region, placed(course.cell, course.angle, course.start))
    return Found(found.whole.count, len(found.parts), float(found.parts.areas.sum()))
