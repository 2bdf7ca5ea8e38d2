"""The tile in words: its measured size, whatever its shape, and how many of each hand are needed."""

from __future__ import annotations

import numpy as np

from tilelayout.base.counts import so_many
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.values import (
    HexagonMosaicTile,
    HexagonTile,
    MosaicTile,
    OctagonTile,
    OffsetSheet,
    ParallelogramTile,
    PicketTile,
    PolygonTile,
    RectangleTile,
    RhombusTile,
    RoundMosaicTile,
    Tile,
    TriangleTile,
)
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.slivers import sliver_limit
from tilelayout.offcuts.tile_counts import TileCount, by_tile
from tilelayout.planning.plan import Plan


def tile_size(tile: Tile, style: LengthStyle) -> str:
    """Return the measured size of a tile ("597 mm × 297 mm"), after the name of any shape but a rectangle."""

    def said(size: float) -> str:
        return format_length(size, style)

    match tile:
        case RectangleTile():
            words = f"{said(tile.length)} × {said(tile.width)}"
        case HexagonTile():
            words = f"hexagon, {said(tile.across_flats)} across flats"
        case OctagonTile():
            words = f"octagon, {said(tile.across_flats)} across flats, side {said(tile.side)}"
        case ParallelogramTile():
            hands = ", left and right" if tile.left_and_right else ""
            words = f"parallelogram, {said(tile.length)} × {said(tile.width)}, {tile.angle:g}°{hands}"
        case RhombusTile():
            words = f"rhombus, side {said(tile.side)}, {tile.angle:g}°"
        case TriangleTile():
            words = f"triangle, side {said(tile.side)}"
        case PicketTile():
            words = f"picket, {said(tile.length)} × {said(tile.width)}, points of {said(tile.point)}"
        case MosaicTile():
            chip, sheet = (f"{said(a)} × {said(b)}" for a, b in _chip_and_sheet(tile))
            chips = f"{tile.chips_across} × {tile.chips_up} chips of {chip}"
            words = f"mosaic sheet {sheet}, {chips}, chip joint {said(tile.chip_joint)}"
        case HexagonMosaicTile():
            words = _offset_sheet(tile, f"hexagons, {said(tile.across_flats)} across flats", style)
        case RoundMosaicTile():
            words = _offset_sheet(tile, f"round chips of {said(tile.diameter)}", style)
        case PolygonTile():
            length, width = np.ptp(tile_outline(tile), axis=0).tolist()
            words = f"drawn, {said(length)} × {said(width)} over all"
    return words


def _chip_and_sheet(tile: MosaicTile) -> tuple[tuple[float, float], ...]:
    return (tile.chip_length, tile.chip_width), (tile.sheet_length, tile.sheet_width)


def _offset_sheet(tile: OffsetSheet, chips: str, style: LengthStyle) -> str:
    """Return the size of a sheet from tip to tip, and its chips."""
    length, width = (format_length(size, style) for size in np.ptp(tile_outline(tile), axis=0).tolist())
    joint = format_length(tile.chip_joint, style)
    many = f"{tile.chips_across} × {tile.chips_up} {chips}"
    return f"mosaic sheet {length} × {width} over all, {many}, chip joint {joint}"


def tile_counts(plan: Plan, *, so_far: bool = False) -> tuple[tuple[str, str], ...]:
    """Return for each of a plan's several tiles its name and how many are needed, in words; none for one.

    `so_far` takes the sharing of offcuts as far as it is known, which is quick.
    """
    if len(plan.tiles) < 2:
        return ()
    counts = by_tile(plan.tiles, plan.laid.whole_tiles, plan.sharing_so_far) if so_far else plan.by_tile
    return tuple((count.tile.title, _count_words(count)) for count in counts)


def _count_words(count: TileCount) -> str:
    boxes = ""
    if count.boxes is not None:
        boxes = f" to open, {so_many(count.boxes, 'box', 'boxes')} without breakage and spare"
    pieces = "piece" if count.cut == 1 else "pieces"
    least = f", no fewer than {count.needed_at_least}" if count.needed_at_least < count.needed else ""
    sawn = f", {count.needed - count.whole} for {count.cut} cut {pieces}" if count.cut else ""
    return f"{count.needed}{boxes} ({count.whole} whole{sawn}{least})"


def chip_words(plan: Plan) -> str:
    """Return a sentence on the chips of mosaic sheets; "" if the tile is no mosaic."""
    if plan.chips is None:
        return ""
    whole, cut = plan.chips.whole_count, len(plan.chips.cut_parts)
    chips = "chip is" if cut == 1 else "chips are"
    return f"{plan.tile.title} is counted by the sheet; {whole} of its chips stay whole, {cut} {chips} cut."


def sliver_words(plan: Plan) -> str:
    """Return under which size a piece is a sliver: that of the tile, or of each of several."""
    limits = dict.fromkeys(format_length(sliver_limit(tile), plan.style) for tile in plan.tiles)
    if len(limits) == 1:
        return f"under {next(iter(limits))}"
    each = (f"{format_length(sliver_limit(tile), plan.style)} ({tile.title})" for tile in plan.tiles)
    return f"under {', '.join(each)}"


def hand_words(plan: Plan) -> str:
    """Return a sentence on how many of the tiles are left and right ones; "" if the tile has no hands."""
    hands = next((count.hands for count in plan.by_tile if count.tile == plan.tile), None)
    return "" if hands is None else f"{hands[0]} of the tiles are left and {hands[1]} right ones."
