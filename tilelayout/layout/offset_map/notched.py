"""How narrow notched, holed and curved parts are, as far as it matters to their start.

Whether a part is a piece, a sliver, or narrower than every other at its start is told by shrinking and
growing it. What comes back as it was is as wide as it was shrunk by; what loses area is not, unless it is the
end of a curve that was lost. Only the few parts that may be the narrowest of their start are measured, and
those of which this tells nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.geometry.overlays import lost_areas
from tilelayout.geometry.widths import narrowest
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.values import Points

_SHARPEST_CORNER = 1e3
_ROUGHNESS = 1.0
"""Less area than this, in mm2, is the chords of a curve."""


@dataclass(frozen=True)
class Limits:
    """Widths in mm: what is narrower than `piece` is no piece, than `sliver` a sliver."""

    piece: float
    sliver: float


@dataclass(frozen=True, eq=False)
class Notched:
    """Parts that are not convex, (n,): their numbers, which of them can be seen, which have a curved side."""

    part: Whole
    is_seen: Flags
    is_curved: Flags


def notched_widths(parts: Parts, notched: Notched, asked: Points, limits: Limits) -> Points:
    """Return a width (n,) for each of the notched parts that is right as far as it is asked.

    It is on the right side of both limits, and the narrowest place itself if that is less than `asked` (n,)
    and the part can be seen.
    """
    chosen = notched.part
    shapes = [shapely.Polygon(parts.outlines[k], parts.holes.get(k, ())) for k in chosen.tolist()]
    sorting = _Sorting(np.array(shapes, dtype=object), notched.is_curved)
    small = max(limits.sliver, limits.piece)
    sorting.sort_out(np.maximum(asked, small), np.inf)
    sorting.sort_out(np.full(len(chosen), small), small)
    sorting.sort_out(np.full(len(chosen), limits.piece), limits.piece)
    found = np.where(sorting.is_left, 0.0, sorting.found)
    may_be_least = notched.is_seen & (found >= limits.piece) & (found < asked)
    unsure = np.flatnonzero(may_be_least & (asked < small))
    is_wider, _ = sorting.told(unsure, asked[unsure])
    found[unsure[is_wider]], may_be_least[unsure[is_wider]] = asked[unsure[is_wider]], False
    for k in np.flatnonzero(may_be_least | sorting.is_unclear).tolist():
        part = int(chosen[k])
        found[k] = narrowest(parts.outlines[part], parts.holes.get(part, ()))
    return found


class _Sorting:
    """Parts sorted from wide to narrow: `found` is a width that each reaches, NaN while none is known."""

    def __init__(self, shapes: NDArray[np.object_], is_curved: Flags) -> None:
        self._shapes, self._is_curved = shapes, is_curved
        self.found = np.full(len(shapes), np.nan)
        self.is_unclear = np.zeros(len(shapes), dtype=bool)
        self._narrower_than = np.full(len(shapes), np.inf)

    @property
    def is_left(self) -> Flags:
        """Which parts are narrower than all widths tried."""
        return np.asarray(np.isnan(self.found) & ~self.is_unclear)

    def sort_out(self, widths: Points, found: float) -> None:
        """Try the parts that are left at these widths (n,); those that reach theirs are given `found`."""
        tried = np.flatnonzero(self.is_left & (widths < self._narrower_than))
        is_wider, is_narrower = self.told(tried, widths[tried])
        self.found[tried[is_wider]] = found
        self.is_unclear[tried[~is_wider & ~is_narrower]] = True
        self._narrower_than[tried[is_narrower]] = widths[tried[is_narrower]]

    def told(self, chosen: Whole, widths: Points) -> tuple[Flags, Flags]:
        """Tell which parts surely are as wide as `widths` (n,) everywhere, and which surely are not.

        A part that comes back larger has lost a side on the way, and an arm beside it perhaps: it tells
        nothing, nor does a curved part that comes back smaller.
        """
        shapes = self._shapes[chosen]
        with np.errstate(divide="ignore", invalid="ignore"):  # the library divides by sides without length
            shrunk = shapely.buffer(shapes, -widths / 2, join_style="mitre", mitre_limit=_SHARPEST_CORNER)
            grown = shapely.buffer(shrunk, widths / 2, join_style="mitre", mitre_limit=_SHARPEST_CORNER)
        lost = lost_areas(shapes, grown)
        is_larger = shapely.area(grown) - shapely.area(shapes) + lost >= _ROUGHNESS
        is_smaller = lost >= _ROUGHNESS
        wider, narrower = ~is_smaller & ~is_larger, is_smaller & ~is_larger & ~self._is_curved[chosen]
        return np.asarray(wider), np.asarray(narrower)
