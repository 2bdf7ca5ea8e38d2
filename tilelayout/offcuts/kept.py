"""Offcuts as a person keeps them: by size and factory edges where that says all, else by outline.

A tile can be turned onto itself, so one and the same offcut has several places in it. The same place is said
of all that are alike, so that they are counted as one kind.
"""

from __future__ import annotations

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.values import RectangleTile
from tilelayout.layout.bordering import is_sawn
from tilelayout.layout.slivers import sliver_limit
from tilelayout.layout.tile_turns import tile_turns
from tilelayout.layout.values import Points
from tilelayout.offcuts.leavings import LEAST_USEFUL
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.offcuts.rules import Blank
from tilelayout.offcuts.straight_offcuts import straight_offcuts

_DECIMALS = 6
"""A nanometre: far below any measure, and equal sizes come out equal."""


def worth_keeping(opened: OpenedTile) -> tuple[OffcutOnHand, ...]:
    """Return the offcuts that a sawn tile leaves and another piece may come from; their lot is not said.

    One narrower than a sliver could give nothing but slivers. One without a factory edge gives no piece that
    shows one, so it is kept only if sawn edges are dressed.
    """
    blank = opened.blank
    least = max(LEAST_USEFUL, sliver_limit(blank.tile), blank.saw.least_offcut)
    outlines = straight_offcuts(opened, least)
    useful = [each for each in outlines if blank.saw.dressed or not is_sawn(each, blank.plain_outline).all()]
    return tuple(as_kept(each, blank) for each in useful)


def as_kept(outline: Points, blank: Blank) -> OffcutOnHand:
    """Return the offcut with this outline (n, 2) in tile coordinates as one on hand."""
    turns = tile_turns(blank.tile)
    said = [_said(blank.turned(outline, degrees), blank) for degrees in turns]
    return min(said, key=_order)


def _order(offcut: OffcutOnHand) -> tuple[object, ...]:
    """Put first what stands farthest left and low."""
    places = [
        list(TileSide).index(side) for side in (TileSide.LEFT, TileSide.LOWER) if side in offcut.factory
    ]
    return -len(places), -(offcut.length or 0.0), offcut.outline, offcut.factory


def _said(outline: Points, blank: Blank) -> OffcutOnHand:
    outline = np.round(outline, _DECIMALS) + 0.0
    (left, low), (right, high) = outline.min(axis=0).tolist(), outline.max(axis=0).tolist()
    if not isinstance(blank.tile, RectangleTile) or not _is_box(outline):
        first = int(np.lexsort((outline[:, 1], outline[:, 0]))[0])
        return OffcutOnHand(outline=tuple((x, y) for x, y in np.roll(outline, -first, axis=0).tolist()))
    is_at = {
        TileSide.LEFT: left < ON_EDGE,
        TileSide.RIGHT: right > blank.tile.length - ON_EDGE,
        TileSide.LOWER: low < ON_EDGE,
        TileSide.UPPER: high > blank.tile.width - ON_EDGE,
    }
    size = (round(right - left, _DECIMALS), round(high - low, _DECIMALS))
    return OffcutOnHand(
        length=size[0], width=size[1], factory=tuple(side for side in TileSide if is_at[side])
    )


def _is_box(outline: Points) -> bool:
    """Tell whether an outline is a rectangle along and across."""
    sides = np.abs(np.roll(outline, -1, axis=0) - outline)
    return len(outline) == 4 and bool(np.all(sides.min(axis=1) < ON_EDGE))
