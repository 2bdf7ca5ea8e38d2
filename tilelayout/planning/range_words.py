"""The ranges of `sensitivity` in words, for the window and the command line."""

from __future__ import annotations

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.layout.borders import BorderCut
from tilelayout.planning.sensitivity import TILE_OFF, WALL_OFF, BorderRange, Range, Ranges


def off_words(style: LengthStyle) -> str:
    """Return what is off: "one wall 3 mm off, tiles 0.5 mm off"."""
    wall, tile = (format_length(length, style, fraction=64) for length in (WALL_OFF, TILE_OFF))
    return f"one wall {wall} off, tiles {tile} off"


def border_cut_words(cut: BorderCut, style: LengthStyle) -> str:
    """Return the border cut in words: whole, one size, or the range of a taper."""
    if cut.is_whole:
        return "whole tiles"
    return length_range_words(Range(cut.least, cut.greatest), style)


def border_range_words(found: BorderRange, style: LengthStyle) -> str:
    """Return the range of a border cut: "240 mm to 246 mm"; "" if whole tiles stand there in every case."""
    if found.least > found.greatest:
        return ""
    words = length_range_words(found, style)
    return f"{words} or whole" if found.may_be_whole else words


def length_range_words(found: Range, style: LengthStyle) -> str:
    """Return a range of lengths."""
    least, greatest = (format_length(length, style) for length in (found.least, found.greatest))
    return least if least == greatest else f"{least} to {greatest}"


def count_range_words(found: Range) -> str:
    """Return a range of counts."""
    least, greatest = round(found.least), round(found.greatest)
    return str(least) if least == greatest else f"{least} to {greatest}"


def counts_words(found: Ranges) -> str:
    """Return the ranges of the counts in one line."""
    counts = ((found.whole, "whole"), (found.cut, "cut"), (found.slivers, "slivers"))
    return ", ".join(f"{count_range_words(each)} {name}" for each, name in counts)
