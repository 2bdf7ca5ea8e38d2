"""How narrow the parts of many starts are, looked at as closely as their starts are worth.

A part with few corners that never bends inwards is measured at once, with all its like. What is left takes
longer. First a width that they surely have is asked of all parts that bend inwards, together: most are then
wider than another of their start, and of no account. Then come the convex parts along a curve, then the
straight-sided ones, and last the curved ones that bend inwards, one of each start at a time. After every
round a start is dropped if it is no longer worth the trouble.
"""

from __future__ import annotations

import numpy as np

from tilelayout.geometry.widths import least_widths
from tilelayout.layout.kernel.arrays import Flags, Outlines, Whole
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.measuring import are_convex
from tilelayout.layout.values import Points

_FEW, _MANY = 8, 16
"""A part with more corners than few has none that is measured at once; with more than many it is curved."""


class Closely:
    """The widths (n,) of parts, NaN where not yet known, and a width (n,) that none is under.

    No width from `limit` on needs to be exact by itself, and under `least_piece` it is only told that it is.
    """

    def __init__(self, parts: Parts, owner: Whole, limit: float, least_piece: float) -> None:
        self.parts, self.owner, self._limit, self._least_piece = parts, owner, limit, least_piece
        self.widths, self.at_least = np.full(len(parts), np.nan), np.zeros(len(parts))
        is_convex = are_convex(parts.outlines)
        is_convex[list(parts.holes)] = False
        self._is_convex, self._sizes = is_convex, parts.outlines.sizes
        self._is_bounded = is_convex.copy()
        self._measure(np.flatnonzero(is_convex & (self._sizes <= _FEW)), np.inf)
        slow = is_convex & (self._sizes > _FEW)
        self.at_least[slow] = held_by_the_middle(parts.outlines.only(slow))

    @property
    def are_enough(self) -> Flags:
        """Which parts are known, or known to be no slivers."""
        return np.asarray(~np.isnan(self.widths) | (self.at_least >= self._limit))

    def are_open(self, most: Points) -> Flags:
        """Tell of each start whether there is more to know of it; see `look_closer`."""
        return np.bincount(self.owner[self._left(most)], minlength=len(most)) > 0

    def look_closer(self, most: Points, are_hopeful: Flags, first: int | None = None) -> bool:
        """Measure some more of the parts of hopeful starts; False if there is nothing more to know.

        `most` are widths that no start exceeds; a part as wide as that is of no account. If a start comes
        first, only its parts are looked at as soon as that takes long.
        """
        left = self._left(most) & are_hopeful[self.owner]
        if not left.any():
            return False
        if (bent := left & ~self._is_bounded).any():
            self._is_bounded |= bent
            self._measure(np.flatnonzero(bent), 0.0)
            return True
        if (convex := left & self._is_convex).any():
            self._measure(np.flatnonzero(convex), np.inf)
            return True
        unsure = left & (self.at_least < self._limit)
        straight = np.flatnonzero(unsure & (self._sizes <= _MANY))
        if len(straight):
            self._measure(straight, self._limit)
            return True
        if first is not None:
            left, unsure = (flags & (self.owner == first) for flags in (left, unsure))
        chosen = np.flatnonzero(unsure if unsure.any() else left)
        one_each = chosen[np.sort(np.unique(self.owner[chosen], return_index=True)[1])]
        self._measure(one_each, self._limit if unsure.any() else np.inf)
        return True

    def _left(self, most: Points) -> Flags:
        """Which parts may yet change what is told of their start."""
        matters = (self.at_least < self._limit) | (self.at_least < most[self.owner])
        return np.asarray(np.isnan(self.widths) & matters)

    def _measure(self, chosen: Whole, limit: float) -> None:
        flags = np.zeros(len(self.parts), dtype=bool)
        flags[chosen] = True
        these = self.parts.only(flags)
        widths, is_exact = least_widths(
            these.outlines.points, these.outlines.sizes, these.holes, limit, self._least_piece
        )
        self.at_least[chosen] = np.maximum(self.at_least[chosen], widths)
        self.widths[chosen[is_exact]] = widths[is_exact]


def held_by_the_middle(outlines: Outlines) -> Points:
    """Return the diameter (n,) of the circle about the mean corner that each convex ring holds."""
    if not len(outlines):
        return np.empty(0)
    first, sizes = outlines.starts[:-1], outlines.sizes
    middles = np.add.reduceat(outlines.points, first) / sizes[:, None]
    along = outlines.following() - outlines.points
    away = np.repeat(middles, sizes, axis=0) - outlines.points
    depths = (along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0]) / np.hypot(along[:, 0], along[:, 1])
    return np.asarray(2.0 * np.minimum.reduceat(depths, first))
