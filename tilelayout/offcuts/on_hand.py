"""Offcuts on hand as parts of their tile: where a piece fits in one, it would lie in the tile."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

import shapely

from tilelayout.base.tolerance import NO_AREA, ON_EDGE
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.values import Point, RectangleTile, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Points


def parts_on_hand(tile: Tile) -> Mapping[tuple[Point, ...], int]:
    """Return the outlines, in tile coordinates, of the offcuts that may be used, and how many of each."""
    parts: Counter[tuple[Point, ...]] = Counter()
    for offcut in tile.offcuts_to_use:
        parts[part_of(tile, offcut)] += offcut.count
    return {part: count for part, count in parts.items() if part}


def part_of(tile: Tile, offcut: OffcutOnHand) -> tuple[Point, ...]:
    """Return the outline of an offcut in the coordinates of its tile, face up.

    One that is given by its size stands at those sides of the tile that are still factory edges, and between
    sawn ones in the middle. Other tiles than rectangles have outlines only.
    """
    if offcut.outline or not isinstance(tile, RectangleTile):
        return _within(tile_outline(tile), offcut.outline)
    left = _from(tile.length, offcut.length or 0.0, offcut, (TileSide.LEFT, TileSide.RIGHT))
    low = _from(tile.width, offcut.width or 0.0, offcut, (TileSide.LOWER, TileSide.UPPER))
    right, high = left + (offcut.length or 0.0), low + (offcut.width or 0.0)
    return (left, low), (right, low), (right, high), (left, high)


def _within(outline: Points, part: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return a part less what is drawn past the tile; none of it if nothing is left."""
    if shapely.Polygon(outline).buffer(ON_EDGE, join_style="mitre").covers(shapely.Polygon(part)):
        return part
    left = shapely.Polygon(part).intersection(shapely.Polygon(outline))
    largest = max(shapely.get_parts(left), key=lambda each: float(each.area), default=None)
    if not isinstance(largest, shapely.Polygon) or largest.area < NO_AREA:
        return ()
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(largest.exterior)[:-1])


def _from(whole: float, size: float, offcut: OffcutOnHand, sides: tuple[TileSide, TileSide]) -> float:
    first, last = (side in offcut.factory for side in sides)
    if first:
        return 0.0
    return whole - size if last else (whole - size) / 2
