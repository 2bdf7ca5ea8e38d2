"""How narrow the parts are: exactly where that is quick, else whether they are surely wide enough.

The narrowest place of a convex part comes with all others in one expression. A notched or curved one
takes a hundred times as long, which a start dragged across a floor cannot wait for; but what is asked
then is only whether the part is under some small limit, and shrinking and growing it by that limit tells,
for all such parts at once.
"""

from __future__ import annotations

import numpy as np
import shapely

from tilelayout.geometry.widths import narrowest, narrowest_of_many
from tilelayout.layout.kernel.arrays import Flags, Outlines
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.values import Points

_SHARPEST_CORNER = 1e3
"""How far, in widths shrunk by, a corner may be grown back: sharper ones are under a tenth of a degree."""

_ROUGHNESS = 1.0
"""Less lost than this, in mm2, is the chords of a curve and no arm."""


def least_widths(parts: Parts, limit: float) -> tuple[Points, Flags]:
    """Return a width (n,) that no place of the part is under, and whether it is its narrowest place.

    A width that is not exact is `limit`: shrunk and grown by that much the part is given back, so by the
    meaning of the narrowest place it is no less.
    """
    widths, is_exact = np.full(len(parts), limit), are_convex(parts.outlines)
    is_exact[list(parts.holes)] = False
    plain = np.flatnonzero(is_exact)
    widths[plain] = narrowest_of_many([parts.outlines[int(k)] for k in plain])
    others = np.flatnonzero(~is_exact)
    for k in others[~_are_given_back(parts, others.tolist(), limit)]:
        widths[k] = narrowest(parts.outlines[k], parts.holes.get(int(k), ()))
        is_exact[k] = True
    return widths, is_exact


def _are_given_back(parts: Parts, chosen: list[int], width: float) -> Flags:
    """Tell which parts come back whole when shrunk and grown by half the width, corners mitred."""
    shapes = np.array(
        [shapely.Polygon(parts.outlines[k], parts.holes.get(k, ())) for k in chosen], dtype=object
    )
    shrunk = shapely.buffer(shapes, -width / 2, join_style="mitre", mitre_limit=_SHARPEST_CORNER)
    grown = shapely.buffer(shrunk, width / 2, join_style="mitre", mitre_limit=_SHARPEST_CORNER)
    return np.asarray(shapely.area(shapely.difference(shapes, grown)) < _ROUGHNESS, dtype=bool)


def are_convex(outlines: Outlines) -> Flags:
    """Tell which counter-clockwise rings (n,) turn left at every corner."""
    if not len(outlines):
        return np.empty(0, dtype=bool)
    onward = outlines.following() - outlines.points
    after = Outlines(onward, outlines.starts).following()
    turns = onward[:, 0] * after[:, 1] - onward[:, 1] * after[:, 0]
    return np.asarray(np.logical_and.reduceat(turns > 0.0, outlines.starts[:-1]))
