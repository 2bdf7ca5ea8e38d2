"""What a wall a little elsewhere, or tiles a little larger or smaller, do to the edge cuts and the counts.

The start stays where it is snapped. One wall at a time moves square to itself, its corners sliding along the
walls beside it; tiles grow or shrink while the joint stays, so that the difference adds up from tile to tile.
Each such case is laid for itself: a border cut may jump where a strip becomes too narrow to lay, and counts
follow no rule of thumb.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import sqrt

import numpy as np
from msgspec.structs import replace

from tilelayout.base.errors import TileLayoutError
from tilelayout.geometry.rings import cross, signed_area
from tilelayout.job.values import (
    HexagonMosaicTile,
    HexagonTile,
    MosaicTile,
    OctagonTile,
    OffsetSheet,
    Point,
    PolygonTile,
    RhombusTile,
    RoundMosaicTile,
    Surface,
    Tile,
    TriangleTile,
)
from tilelayout.layout.patterns import cell_of, more_sizes
from tilelayout.layout.roles import MoreTiles, tile_of_size
from tilelayout.layout.values import Points
from tilelayout.planning.kept import Kept
from tilelayout.planning.plan import Plan

WALL_OFF = 3.0
"""How far a wall may be from where it was measured, in mm. Common practice, no source."""

TILE_OFF = 0.5
"""How much a tile may be larger or smaller than measured, in mm. Common practice, no source."""

_NEARLY_PARALLEL = 0.1
"""The sine of the least angle at which a corner slides along the wall beside."""


@dataclass
class Range:
    """From the least to the greatest of some figures; none seen yet if `least` is infinite."""

    least: float = np.inf
    greatest: float = -np.inf

    def take(self, least: float, greatest: float | None = None) -> None:
        """Stretch the range to hold a figure, or two."""
        self.least = min(self.least, least)
        self.greatest = max(self.greatest, least if greatest is None else greatest)


@dataclass
class BorderRange(Range):
    """The range of the border cuts along one edge. `may_be_whole`: in some case whole tiles stand there."""

    may_be_whole: bool = False


@dataclass
class Ranges:
    """The ranges of a plan's figures over all cases laid; lengths in mm, `borders` by the edge's number.

    `not_laid` counts the cases that cannot be laid at all.
    """

    whole: Range = field(default_factory=Range)
    cut: Range = field(default_factory=Range)
    slivers: Range = field(default_factory=Range)
    narrowest: Range = field(default_factory=Range)
    borders: dict[int, BorderRange] = field(default_factory=dict)
    not_laid: int = 0

    def take(self, plan: Plan) -> None:
        """Stretch the ranges to hold a plan's figures; LayoutError if it cannot be laid."""
        self.whole.take(plan.whole)
        self.cut.take(plan.cut)
        self.slivers.take(len(plan.slivers))
        if plan.narrowest is not None:
            self.narrowest.take(plan.narrowest)
        for border in plan.borders:
            held = self.borders.setdefault(border.edge, BorderRange())
            if border.is_whole:
                held.may_be_whole = True
            else:
                held.take(border.least, border.greatest)


def ranges(plan: Plan) -> Ranges:
    """Return the ranges of a plan's figures, kept for as long as its parts are the same."""
    *_, found = range_steps(plan)
    return found


def range_steps(plan: Plan) -> Iterator[Ranges]:
    """Yield the ranges as they grow, once for each case; at once the whole of them if they are known."""
    known = _known(plan)
    if known.is_finished:
        yield known.ranges
        return
    found = Ranges()
    for case in cases(plan):
        try:
            found.take(case)
        except TileLayoutError:
            found.not_laid += 1
        yield found
    known.ranges, known.is_finished = found, True


@dataclass
class _Known:
    ranges: Ranges = field(default_factory=Ranges)
    is_finished: bool = False


def _known(plan: Plan) -> _Known:
    return _kept.get((plan.surface, plan.tile, plan.layout, *plan.more.values()), _Known)


def cases(plan: Plan) -> Iterator[Plan]:
    """Yield the plan itself and every case of one wall off, tiles off, or both."""
    surfaces = [plan.surface]
    for edge in range(len(plan.surface.outline)):
        if plan.surface.edge(edge).through is None:
            surfaces += [with_wall_moved(plan.surface, edge, by) for by in (WALL_OFF, -WALL_OFF)]
    sets = [(plan.tile, plan.more), *(_with_sizes_off(plan, by) for by in (TILE_OFF, -TILE_OFF))]
    for surface in surfaces:
        for tile, more in sets:
            yield Plan(surface, tile, plan.layout, plan.style, more, plan.saw)


def _with_sizes_off(plan: Plan, by: float) -> tuple[Tile, MoreTiles]:
    """Return the tiles larger by so many mm; where they must fit each other, as far off as still fits."""
    tile = with_size_off(plan.tile, by)
    more = {role: with_size_off(other, by) for role, other in plan.more.items()}
    try:
        cell_of(plan.layout, tile, more)
    except TileLayoutError:
        sizes = more_sizes(plan.layout, tile).items()
        more |= {role: tile_of_size(more[role].id, size) for role, size in sizes if role in more}
    return tile, more


def with_wall_moved(surface: Surface, edge: int, by: float) -> Surface:
    """Return the surface with one straight edge moved out of the room by so many mm (into it if negative).

    A corner slides along the edge beside it; if that is an arc or runs on nearly straight, the corner moves
    square to the wall and the edge beside turns a little.
    """
    outline = np.array(surface.outline, dtype=float)
    count = len(outline)
    start, end = outline[edge], outline[(edge + 1) % count]
    way = (end - start) / np.hypot(*(end - start))
    outward = np.array([way[1], -way[0]]) * np.sign(signed_area(outline)) * by
    before, after = (edge - 1) % count, (edge + 1) % count
    moved = outline.copy()
    moved[edge] += _slide(surface, before, outline, way, outward)
    moved[after] += _slide(surface, after, outline, way, outward)
    return replace(surface, outline=tuple(_point(corner) for corner in moved))


def _slide(surface: Surface, beside: int, outline: Points, way: Points, outward: Points) -> Points:
    """Return how a corner moves so that it stays on the edge `beside` and the wall comes to lie `outward`."""
    along = outline[(beside + 1) % len(outline)] - outline[beside]
    along = along / np.hypot(*along)
    sine = float(cross(way, along))
    if surface.edge(beside).through is not None or abs(sine) < _NEARLY_PARALLEL:
        return outward
    return np.asarray(along * float(cross(way, outward)) / sine)


def _point(corner: Points) -> Point:
    return float(corner[0]), float(corner[1])


def with_size_off(tile: Tile, by: float) -> Tile:
    """Return the tile larger by so many mm from side to side (smaller if negative)."""
    match tile:
        case HexagonTile():
            return replace(tile, across_flats=tile.across_flats + by)
        case OctagonTile():
            return replace(tile, across_flats=tile.across_flats + by, side=tile.side + by * (sqrt(2.0) - 1.0))
        case RhombusTile() | TriangleTile():
            return replace(tile, side=tile.side + by)
        case MosaicTile() | HexagonMosaicTile() | RoundMosaicTile():
            return _with_chips_off(tile, by / tile.chips_across, by / tile.chips_up)
        case PolygonTile():
            return _scaled(tile, by)
        case _:
            return replace(tile, length=tile.length + by, width=tile.width + by)


def _with_chips_off(tile: MosaicTile | OffsetSheet, along: float, up: float) -> Tile:
    """Return the mosaic sheet with every chip larger by so many mm."""
    match tile:
        case HexagonMosaicTile():
            return replace(tile, across_flats=tile.across_flats + along)
        case RoundMosaicTile():
            return replace(tile, diameter=tile.diameter + along)
        case _:
            return replace(tile, chip_length=tile.chip_length + along, chip_width=tile.chip_width + up)


def _scaled(tile: PolygonTile, by: float) -> PolygonTile:
    """Return a drawn tile scaled until its longer extent differs by so much."""
    outline = np.array(tile.outline, dtype=float)
    extent = float(np.ptp(outline, axis=0).max())
    return replace(tile, outline=tuple(_point(corner) for corner in outline * (1.0 + by / extent)))


_kept: Kept[_Known] = Kept(16)
