"""The sizes of a cut as they are set on the saw: rounded so that a piece never comes out too large.

What is kept is rounded down and what is taken away is rounded up, to the mark that a person reads on the
fence. A piece cut so fits its place with a trifle to spare, which the gap at the wall takes.
"""

from __future__ import annotations

import numpy as np

from tilelayout.base.units import LengthStyle, cut_size
from tilelayout.layout.values import Cut, CutKind, Piece
from tilelayout.planning.chip_words import chips_kept

_ON_THE_FENCE = {LengthStyle.M: LengthStyle.MM, LengthStyle.DECIMAL_FEET: LengthStyle.INCH}


def saw_style(style: LengthStyle) -> LengthStyle:
    """Return how sizes are set on the saw: no fence carries metres or decimal feet, but mm and inches.

    >>> saw_style(LengthStyle.M), saw_style(LengthStyle.FEET)
    (<LengthStyle.MM: 'mm'>, <LengthStyle.FEET: 'feet'>)
    """
    return _ON_THE_FENCE.get(style, style)


def saw_sizes(cut: Cut, piece: Piece, style: LengthStyle) -> tuple[float, ...]:
    """Return the sizes of `cut` in the order of `cut.sizes`, each to the mark to set. Lengths in mm.

    A hole that is not round has its lower left corner in place of its centre, since that can be marked. A
    cut along the chips of a mosaic sheet is set by what is left of a chip.
    """
    kept = chips_kept(cut, piece, style)
    if kept is not None:
        return (kept.size,)
    match cut.kind:
        case CutKind.CORNER | CutKind.NOTCH:
            return tuple(at_least(size, style) for size in cut.sizes)
        case CutKind.SLOT:
            width, depth, distance = cut.sizes
            start, taken = _opening(distance, distance + width, style)
            return taken, at_least(depth, style), start
        case CutKind.HOLE if len(cut.sizes) == 4:
            return _square_hole(cut, style)
        case CutKind.HOLE | CutKind.CURVE:
            x, y, across = cut.sizes
            rounded = cut_size if is_inside(cut, piece) else at_least
            return nearest(x, style), nearest(y, style), rounded(across, style)
    return tuple(cut_size(size, style) for size in cut.sizes)


def at_least(size: float, style: LengthStyle) -> float:
    """Return the first mark that is no smaller than `size`."""
    return -cut_size(-size, style)


def nearest(size: float, style: LengthStyle) -> float:
    """Return the mark nearest to `size`."""
    below, above = cut_size(size, style), at_least(size, style)
    return below if size - below < above - size else above


def _opening(low: float, high: float, style: LengthStyle) -> tuple[float, float]:
    """Return where an opening that reaches from `low` to `high` starts, and its width."""
    start = cut_size(low, style)
    return start, at_least(high, style) - start


def _square_hole(cut: Cut, style: LengthStyle) -> tuple[float, ...]:
    x, y, width, height = cut.sizes
    left, wide = _opening(x - width / 2, x + width / 2, style)
    lower, high = _opening(y - height / 2, y + height / 2, style)
    return left, lower, wide, high


def is_inside(cut: Cut, piece: Piece) -> bool:
    """Claim that the piece lies inside the circle it is cut along, as in a bay."""
    if cut.kind is CutKind.HOLE:
        return False
    x, y, radius = cut.sizes
    away = piece.in_tile(piece.outline) - np.array([x, y])
    return bool(np.hypot(away[:, 0], away[:, 1]).max() <= radius + 0.1)
