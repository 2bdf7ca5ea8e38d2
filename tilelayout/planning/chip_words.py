"""How a mosaic sheet is cut, in words: between chips with a knife, then only the chips that a wall crosses.

A straight cut along the chips is said by the chips that are kept, counted from a factory edge, and by what is
left of the next one; of any other cut it is said how many chips it crosses.
"""

from __future__ import annotations

from dataclasses import dataclass

import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.base.units import LengthStyle, cut_size, format_length
from tilelayout.job.values import MosaicTile
from tilelayout.layout.mosaic import MosaicPiece
from tilelayout.layout.values import Cut, CutKind, Piece
from tilelayout.planning.zigzag_words import left_of_chips

_NEAR = 0.01
"""A chip that comes so near to a cut, in mm, is cut by it."""


@dataclass(frozen=True)
class ChipsKept:
    """What a straight cut along the chips keeps: whole chips, and so many mm of the next one (0 if none).

    `size` is how far the cut lies from the edge that stays, in mm, and crosses `beside` chips that lie side
    by side.
    """

    whole: int
    rest: float
    size: float
    beside: int


def chips_kept(cut: Cut, piece: Piece, style: LengthStyle) -> ChipsKept | None:
    """Return what a cut keeps, the rest rounded down to a mark; None if it does not run along the chips."""
    tile = piece.tile
    if not isinstance(tile, MosaicTile) or cut.stops or cut.kind not in (CutKind.RIP, CutKind.CROSS):
        return None
    is_across = cut.kind is CutKind.CROSS
    side, beside = (tile.chip_length, tile.chips_up) if is_across else (tile.chip_width, tile.chips_across)
    pitch = side + tile.chip_joint
    whole = int((cut.sizes[0] + tile.chip_joint + ON_EDGE) // pitch)
    rest = cut.sizes[0] - whole * pitch
    if rest <= ON_EDGE:
        return ChipsKept(whole, 0.0, whole * pitch - tile.chip_joint, beside)
    rest = cut_size(rest, style)
    return ChipsKept(whole, rest, whole * pitch + rest, beside)


def knife_words(cut: Cut, kept: ChipsKept, side: str, style: LengthStyle) -> str:
    """Return a straight cut along the chips in words; `side` is the edge of the sheet that stays."""
    is_across = cut.kind is CutKind.CROSS
    way, each = ("across", "row") if is_across else ("up", "column")
    keep = max(kept.whole, 1)
    words = f"knife: keep {keep} {'chip' if keep == 1 else 'chips'} {way}, counted from the {side}"
    if not kept.rest:
        return words
    many = f" of each {each}" if kept.beside > 1 else ""
    nth = f"the {_ordinal(kept.whole + 1)} chip{many}" if kept.whole else f"that chip{many}"
    return f"{words}, then cut {nth} to {format_length(kept.rest, style)}"


def crossing_words(cut: Cut, piece: Piece, style: LengthStyle) -> str:
    """Return how many chips a cut crosses, to follow its sizes; "" if the piece is of no mosaic sheet.

    Where the knife goes along a zigzag is said apart, so then it is said to what the chips are cut.
    """
    if not isinstance(piece, MosaicPiece):
        return ""
    line = shapely.LineString(cut.line)
    chips = [
        chip for chip in map(piece.in_tile, piece.cut_chips) if line.distance(shapely.Polygon(chip)) < _NEAR
    ]
    if not chips:
        return ": with the knife, between the chips"
    crossed = f": cut the {'chip' if len(chips) == 1 else f'{len(chips)} chips'} it crosses"
    if piece.parted:
        return f"{crossed}{left_of_chips(cut, chips, style)}"
    return f"{crossed}, the rest with the knife"


def kept_words(kept: ChipsKept, style: LengthStyle) -> str:
    """Return what a drawing writes at a straight cut along the chips: "7 chips + 12 mm"."""
    chips = f"{kept.whole} {'chip' if kept.whole == 1 else 'chips'}" if kept.whole else ""
    return " + ".join(filter(None, (chips, format_length(kept.rest, style) if kept.rest else "")))


def _ordinal(number: int) -> str:
    """Return a number with its ending.

    >>> [_ordinal(number) for number in (1, 2, 3, 8, 11, 22)]
    ['1st', '2nd', '3rd', '8th', '11th', '22nd']
    """
    is_teen = number % 100 in (11, 12, 13)
    return f"{number}{'th' if is_teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"
