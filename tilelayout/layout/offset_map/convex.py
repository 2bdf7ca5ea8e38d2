"""How narrow convex parts are: all parts with as many corners in one expression."""

from __future__ import annotations

import numpy as np

from tilelayout.geometry.inscribed import inscribed_radii
from tilelayout.geometry.rings import cross
from tilelayout.geometry.widths import narrowest_of_many
from tilelayout.layout.kernel.arrays import Outlines, Whole
from tilelayout.layout.values import Points

_SURE_TURN = 1e-3
"""Twice the area of the triangle at a corner, in mm2, from which the corner surely is one."""


def convex_widths(outlines: Outlines, chosen: Whole) -> Points:
    """Return the narrowest place (n,) of each of the chosen rings, which are convex and counter-clockwise."""
    widths, sizes = np.empty(len(chosen)), outlines.sizes[chosen]
    for size in np.unique(sizes).tolist():
        members = np.flatnonzero(sizes == size)
        rings = outlines.points[outlines.starts[chosen[members]][:, None] + np.arange(size)]
        steps = np.roll(rings, -1, axis=1) - rings
        is_sure = (cross(steps, np.roll(steps, -1, axis=1)) > _SURE_TURN).all(axis=1)
        if is_sure.any():
            widths[members[is_sure]] = 2.0 * inscribed_radii(rings[is_sure])
        widths[members[~is_sure]] = narrowest_of_many(list(rings[~is_sure]))
    return widths
