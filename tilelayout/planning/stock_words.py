"""What is on hand, or left, in words: whole tiles, and offcuts by size and factory edges."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tilelayout.base.counts import so_many
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.stock_files import Stock
from tilelayout.job.values import Tile
from tilelayout.planning.tile_words import tile_size

SIDE_WORDS = {
    TileSide.LEFT: "left",
    TileSide.RIGHT: "right",
    TileSide.LOWER: "lower",
    TileSide.UPPER: "upper",
}


def offcut_size(offcut: OffcutOnHand, style: LengthStyle) -> str:
    """Return the size of an offcut along and across its tile, "297 mm × 145 mm"; of an outline over all."""
    if offcut.outline:
        length, width = np.ptp(np.array(offcut.outline), axis=0).tolist()
    else:
        length, width = offcut.length or 0.0, offcut.width or 0.0
    return f"{format_length(length, style)} × {format_length(width, style)}"


def edges_words(offcut: OffcutOnHand) -> str:
    """Return which of its sides are factory edges: "factory edges left, lower"."""
    if offcut.outline:
        return "by its outline"
    sides = [SIDE_WORDS[side] for side in TileSide if side in offcut.factory]
    if len(sides) == len(TileSide):
        return "all edges factory"
    words = "factory edge" if len(sides) == 1 else "factory edges"
    return f"{words} {', '.join(sides)}" if sides else "no factory edge"


def offcut_words(offcut: OffcutOnHand, style: LengthStyle) -> str:
    """Return a line on an offcut: "3 of 297 mm × 145 mm, factory edges left, lower, lot K7"."""
    lot = f", lot {offcut.lot}" if offcut.lot else ""
    return f"{offcut.count} of {offcut_size(offcut, style)}, {edges_words(offcut)}{lot}"


def stock_summary(tile: Tile) -> str:
    """Return what there is of a tile in short: "4 whole tiles and 7 offcuts, lot K7"."""
    offcuts = sum(each.count for each in tile.offcuts)
    parts = [
        so_many(count, words)
        for count, words in ((tile.whole_on_hand, "whole tile"), (offcuts, "offcut"))
        if count
    ]
    lot = f", lot {tile.lot}" if tile.lot else ""
    return f"{' and '.join(parts) or 'nothing'}{lot}"


def stock_lines(stock: Stock, style: LengthStyle) -> Iterator[str]:
    """Yield a line for each tile and, set in below it, one for each kind of offcut."""
    for tile in stock.tiles:
        yield f"{tile.title}, {tile_size(tile, style)}: {stock_summary(tile)}"
        yield from (f"  {offcut_words(offcut, style)}" for offcut in tile.offcuts)
