"""An offcut measured again: size and factory edges depend on each other, so one brings the other along.

What is as long as its tile has both ends of it; what was sawn shorter has one of them at most.
"""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.values import RectangleTile

_ENDS = {"length": (TileSide.LEFT, TileSide.RIGHT), "width": (TileSide.LOWER, TileSide.UPPER)}


def measured(offcut: OffcutOnHand, tile: RectangleTile, key: str, size: float) -> OffcutOnHand:
    """Return the offcut with another `length` or `width` (the `key`) in mm, and its factory edges then."""
    first, last = _ENDS[key]
    sides = set(offcut.factory)
    if size > getattr(tile, key) - ON_EDGE:
        sides |= {first, last}
    elif {first, last} <= sides:
        sides.remove(last)
    return _with(offcut, sides, key, size)


def with_edge(offcut: OffcutOnHand, tile: RectangleTile, side: TileSide, is_factory: bool) -> OffcutOnHand:
    """Return the offcut with a side that is or is not a factory edge; both ends make it as long as the tile.

    To take one of both ends away leaves a size that cannot be: it has to be measured first.
    """
    key = next(key for key, ends in _ENDS.items() if side in ends)
    sides = set(offcut.factory) | {side} if is_factory else set(offcut.factory) - {side}
    has_both = set(_ENDS[key]) <= sides
    return _with(offcut, sides, key, getattr(tile, key) if has_both else getattr(offcut, key))


def _with(offcut: OffcutOnHand, sides: set[TileSide], key: str, size: float | None) -> OffcutOnHand:
    changes = {key: size, "factory": tuple(side for side in TileSide if side in sides)}
    changed: OffcutOnHand = replace(offcut, **changes)
    return changed
