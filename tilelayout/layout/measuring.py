"""How narrow the parts are: exactly where that is under a limit, else at least that they are not.

A start dragged across a floor asks of every cut part whether it is under some small limit, and the parts
that are not need no exact figure.
"""

from __future__ import annotations

import numpy as np

from tilelayout.geometry import widths
from tilelayout.layout.kernel.arrays import Flags, Outlines
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.values import Points


def least_widths(parts: Parts, limit: float) -> tuple[Points, Flags]:
    """Return a width (n,) that no place of the part is under, and whether it is its narrowest place.

    Every narrowest place under `limit` is exact.
    """
    return widths.least_widths(parts.outlines.points, parts.outlines.sizes, parts.holes, limit)


def are_convex(outlines: Outlines) -> Flags:
    """Tell which counter-clockwise rings (n,) turn left at every corner."""
    if not len(outlines):
        return np.empty(0, dtype=bool)
    onward = outlines.following() - outlines.points
    after = Outlines(onward, outlines.starts).following()
    turns = onward[:, 0] * after[:, 1] - onward[:, 1] * after[:, 0]
    return np.asarray(np.logical_and.reduceat(turns > 0.0, outlines.starts[:-1]))
