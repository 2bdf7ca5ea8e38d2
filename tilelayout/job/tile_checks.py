"""What makes the shape of a tile one that cannot be: a size beyond the limits, an outline that is none."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, degrees, sqrt

from tilelayout.job import limits
from tilelayout.job.limits import Limit, Problem
from tilelayout.job.surface_checks import polygon_problems
from tilelayout.job.values import (
    HexagonMosaicTile,
    HexagonTile,
    MosaicTile,
    OctagonTile,
    OffsetSheet,
    ParallelogramTile,
    PicketTile,
    Point,
    PolygonTile,
    RectangleTile,
    RhombusTile,
    RoundMosaicTile,
    Tile,
    TriangleTile,
)


def shape_problems(tile: Tile) -> Iterator[Problem]:
    """Return what is wrong with the tile's sizes, angle or outline; places are keys of the tile."""
    for key, size, limit in sizes_of(tile):
        yield from limit.problems(size, key)
    if isinstance(tile, PicketTile) and tile.point > (tile.length - _STRAIGHT) / 2:
        what = f"The points stand out {tile.point:g} mm, which leaves nothing straight between them."
        yield Problem("point", what, f"It can be up to {(tile.length - _STRAIGHT) / 2:g} mm.")
    if isinstance(tile, OctagonTile) and tile.side > tile.across_flats - _LEAST_CORNERS:
        what = f"Sides of {tile.side:g} mm leave no slanted ones between them."
        yield Problem("side", what, f"They can be up to {tile.across_flats - _LEAST_CORNERS:g} mm.")
    if isinstance(tile, MosaicTile | HexagonMosaicTile | RoundMosaicTile):
        yield from _sheet_problems(tile)
    if isinstance(tile, PolygonTile):
        yield from _outline_problems(tile.outline)


def use_problems(tile: Tile) -> Iterator[Problem]:
    """Return what is wrong with the tile's weight, absorption, warpage, spread, nominal size and spare."""
    if tile.weight_kg is not None and tile.weight_kg_per_m2 is not None:
        what = "The weight is given twice: of one tile and of a square metre."
        yield Problem("weight_kg", what, "Give one of the two.")
    for key, limit in _LIMITS_OF_USE.items():
        yield from limit.problems(getattr(tile, key), key)


_LIMITS_OF_USE = {
    "weight_kg": limits.TILE_WEIGHT,
    "weight_kg_per_m2": limits.TILE_WEIGHT_PER_M2,
    "absorption_percent": limits.ABSORPTION,
    "warpage": limits.WARPAGE,
    "spread": limits.SPREAD,
    "nominal": limits.TILE_SIZE,
    "spare": limits.SPARE,
}

_STRAIGHT = 1.0
"""A picket has at least so many mm of straight side; without any it is a rhombus."""


_LEAST_CORNERS = 2.0
"""The corners of an octagon take at least so many mm of its width together; without any it is a square."""


def sizes_of(tile: Tile) -> tuple[tuple[str, float, Limit], ...]:
    """Return the sizes and angles that make a tile of its shape: key, value and limit of each."""
    keys = _SIZES.get(type(tile), ())
    return tuple((key, float(getattr(tile, key)), _LIMITS.get(key, limits.TILE_SIZE)) for key in keys)


_SIZES: dict[type[Tile], tuple[str, ...]] = {
    RectangleTile: ("length", "width"),
    HexagonTile: ("across_flats",),
    OctagonTile: ("across_flats", "side"),
    ParallelogramTile: ("length", "width", "angle"),
    RhombusTile: ("side", "angle"),
    TriangleTile: ("side",),
    PicketTile: ("length", "width", "point"),
    MosaicTile: ("chip_length", "chip_width", "chips_across", "chips_up", "chip_joint"),
    HexagonMosaicTile: ("across_flats", "chips_across", "chips_up", "chip_joint"),
    RoundMosaicTile: ("diameter", "chips_across", "chips_up", "chip_joint"),
}
"""The keys that measure a tile of each shape; a polygon is measured by its outline."""


_LIMITS = {
    "angle": limits.TILE_ANGLE,
    "chips_across": limits.CHIPS,
    "chips_up": limits.CHIPS,
    "chip_joint": limits.JOINT,
}
"""The limits of those keys that are no sizes of a tile."""


def _sheet_problems(tile: MosaicTile | OffsetSheet) -> Iterator[Problem]:
    for key, size in zip(("chips_across", "chips_up"), _sheet_size(tile), strict=True):
        if size > limits.TILE_SIZE.most:
            what = f"So many chips make a sheet of {size:g} mm."
            yield Problem(key, what, f"It can be up to {limits.TILE_SIZE.most:g} mm: give fewer chips.")


def _sheet_size(tile: MosaicTile | OffsetSheet) -> tuple[float, float]:
    """Return length and width of a sheet; of rows half a chip over, from one sheet to the next."""
    if isinstance(tile, MosaicTile):
        return tile.sheet_length, tile.sheet_width
    pitch = (tile.across_flats if isinstance(tile, HexagonMosaicTile) else tile.diameter) + tile.chip_joint
    return tile.chips_across * pitch, tile.chips_up * pitch * sqrt(3.0) / 2.0


def _outline_problems(outline: tuple[Point, ...]) -> Iterator[Problem]:
    yield from limits.TILE_CORNERS.problems(len(outline), "outline")
    yield from polygon_problems(outline, "outline", "The outline of the tile")
    for places in zip(*outline, strict=True):
        yield from limits.TILE_SIZE.problems(max(places) - min(places), "outline")
    for at, corner in enumerate(outline):
        within = _angle_at(outline[at - 1], corner, outline[(at + 1) % len(outline)])
        yield from limits.SHARPEST_CORNER.problems(within, f"outline[{at}]")


def _angle_at(before: Point, corner: Point, after: Point) -> float:
    """Return the angle at a corner in degrees, 0 to 180, however it bends."""
    to_before = (before[0] - corner[0], before[1] - corner[1])
    to_after = (after[0] - corner[0], after[1] - corner[1])
    turn = to_before[0] * to_after[1] - to_before[1] * to_after[0]
    return abs(degrees(atan2(turn, to_before[0] * to_after[0] + to_before[1] * to_after[1])))
