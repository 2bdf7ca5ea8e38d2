"""How a sheet of hexagons or round chips is cut, in words: where the knife goes, what is left of chips.

The knife follows the zigzag between the chips; then only the chips that a wall crosses are cut, to a width
square to the wall, rounded down as for the saw.
"""

from __future__ import annotations

from collections import Counter

import numpy as np

from tilelayout.base.units import LengthStyle, cut_size, format_length
from tilelayout.job.values import MosaicSheet
from tilelayout.layout.mosaic import MosaicPiece
from tilelayout.layout.values import Cut, Piece, Points

_MOST_SIZES = 3
"""Chips cut to more different widths than these are said by the least and the most."""


def zigzag_words(piece: Piece) -> str:
    """Return which chips of its sheet a piece keeps, parted along the zigzag between them."""
    assert isinstance(piece, MosaicPiece)
    assert isinstance(piece.tile, MosaicSheet)
    kept = _whole_rows(piece, piece.tile) or _start_of_rows(piece, piece.tile) or _count(piece, piece.tile)
    return f"knife along the zigzag between the chips: keep {kept}"


def left_of_chips(cut: Cut, chips: list[Points], style: LengthStyle) -> str:
    """Return to what width a straight cut leaves the chips (n, 2) it crosses, to follow their number."""
    if len(cut.line) != 2:
        return ""
    along = cut.line[1] - cut.line[0]
    square = np.array([-along[1], along[0]]) / np.hypot(*along)
    widths = Counter(cut_size(float(np.abs((chip - cut.line[0]) @ square).max()), style) for chip in chips)
    if len(widths) == 1:
        return f" to {format_length(next(iter(widths)), style)}"
    if len(widths) <= _MOST_SIZES:
        counts = (
            f"{widths[width]} to {format_length(width, style)}" for width in sorted(widths, reverse=True)
        )
        return f", {' and '.join(counts)}"
    least, most = (format_length(width, style) for width in (min(widths), max(widths)))
    return f", to {least} up to {most}"


def _whole_rows(piece: MosaicPiece, tile: MosaicSheet) -> str:
    """Say how many whole rows from one edge are kept; "" if it is not that."""
    rows = np.unique(piece.chips[:, 1])
    if len(piece.chips) != len(rows) * tile.chips_across or np.ptp(rows) != len(rows) - 1:
        return ""
    edge = {rows[0] == 0: "lower edge", rows[-1] == tile.chips_up - 1: "upper edge"}.get(True)
    return f"{len(rows)} {'row' if len(rows) == 1 else 'rows'}, counted from the {edge}" if edge else ""


def _start_of_rows(piece: MosaicPiece, tile: MosaicSheet) -> str:
    """Say how many chips of every row are kept from one end, in rows by turns; "" if it is not that."""
    by_row = [np.sort(piece.chips[piece.chips[:, 1] == row, 0]) for row in range(tile.chips_up)]
    if not all(len(row) and np.ptp(row) == len(row) - 1 for row in by_row):
        return ""
    is_left = all(row[0] == 0 for row in by_row)
    if not is_left and not all(row[-1] == tile.chips_across - 1 for row in by_row):
        return ""
    counts = [len(row) for row in by_row]
    if len(set(counts[::2])) > 1 or len(set(counts[1::2])) > 1:
        return ""
    end = "left end" if is_left else "right end"
    if len(set(counts)) == 1:
        return f"{counts[0]} {'chip' if counts[0] == 1 else 'chips'} of each row, counted from the {end}"
    return (
        f"{counts[0]} and {counts[1]} chips of the rows by turns from the lowest up, counted from the {end}"
    )


def _count(piece: MosaicPiece, tile: MosaicSheet) -> str:
    return f"{len(piece.chips)} of its {tile.chips_across * tile.chips_up} chips"
