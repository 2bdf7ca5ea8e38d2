"""The narrowest place of a polygon: the width of its thinnest arm.

It is the largest w for which shrinking the polygon by w/2 and growing it again, both with mitred corners,
still gives all of it back. A convex polygon is given back until it shrinks to nothing, so w is the diameter
of its largest circle (`inscribed`); otherwise an arm is lost first (`arms`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.arms import thinnest_radii
from tilelayout.geometry.inscribed import radii_of_rings
from tilelayout.geometry.tidied import bend_inwards, neighbours, tidied

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]
Places = NDArray[np.intp]

_SURE_TURN = 1e-3
"""Twice the area of the triangle at a corner, in mm2, from which the corner surely is a convex one."""


def narrowest(outline: Points, holes: Sequence[Points] = ()) -> float:
    """Return the narrowest place of a polygon with holes, in mm; rings may run either way.

    A smooth run of chords counts as the one curve it stands for: growing continues the curve, as it
    continues a straight side. A tooth of less than 1 mm2 counts for nothing.

    >>> round(narrowest(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 3.0]])), 9)
    2.0
    """
    return float(narrowest_of_many([outline], [holes])[0])


def narrowest_of_many(outlines: Sequence[Points], holes: Sequence[Sequence[Points]] = ()) -> Numbers:
    """Return the narrowest place of each of many polygons, in mm.

    `holes` has the holes of each polygon; left out, none has any.
    """
    if not len(outlines):
        return np.empty(0)
    sizes = np.array([len(outline) for outline in outlines])
    holed = {at: inner for at, inner in enumerate(holes) if len(inner)}
    return least_widths(np.concatenate(list(outlines)), sizes, holed, np.inf)[0]


def least_widths(
    points: Points,
    sizes: Places,
    holes: Mapping[int, Sequence[Points]],
    limit: float,
    negligible: float = 0.0,
) -> tuple[Numbers, Flags]:
    """Return a width (m,) that no place of each polygon is under, and whether it is its narrowest place.

    Every narrowest place under `limit` is exact; telling that one is over it is often quicker than
    measuring it. Of one under `negligible` any width may be told that is under it too. The outlines follow
    one another in `points`, of `sizes` (m,) corners each; `holes` are by the polygon's number.
    """
    widths, is_exact = np.empty(len(sizes)), np.ones(len(sizes), dtype=bool)
    if not len(sizes):
        return widths, is_exact
    first = np.cumsum(sizes) - sizes
    plain = _plainly_convex(points, sizes, first)
    plain[list(holes)] = False
    chosen = np.flatnonzero(plain)
    widths[chosen] = 2.0 * radii_of_rings([points[first[k] : first[k] + sizes[k]] for k in chosen])
    others = np.flatnonzero(~plain)
    polygons = [[points[first[k] : first[k] + sizes[k]], *holes.get(int(k), ())] for k in others]
    if polygons:
        widths[others], is_exact[others] = _widths_of_any(polygons, limit, negligible)
    return widths, is_exact


def _plainly_convex(points: Points, sizes: Places, first: Places) -> Flags:
    after, _ = neighbours(sizes)
    x, y = points.T
    along_x, along_y = x.take(after) - x, y.take(after) - y
    turns = along_x * along_y.take(after) - along_y * along_x.take(after)
    return np.asarray(np.logical_and.reduceat(turns > _SURE_TURN, first))


def _widths_of_any(
    polygons: Sequence[Sequence[Points]], limit: float, negligible: float
) -> tuple[Numbers, Flags]:
    """Return the widths of polygons of any kind, given by their rings."""
    are_holes = np.array([at > 0 for polygon in polygons for at in range(len(polygon))])
    rings = tidied([ring for polygon in polygons for ring in polygon], are_holes)
    of_polygon = iter(rings)
    tidy = [[next(of_polygon) for _ in polygon] for polygon in polygons]
    radii, is_exact = np.empty(len(tidy)), np.ones(len(tidy), dtype=bool)
    has_hole = np.array([len(polygon) > 1 for polygon in polygons])
    are_convex = ~bend_inwards(rings)[~are_holes] & ~has_hole
    convex = np.flatnonzero(are_convex)
    radii[convex] = radii_of_rings([tidy[at][0] for at in convex])
    others = np.flatnonzero(~are_convex)
    if len(others):
        radii[others], is_exact[others] = thinnest_radii(
            [tidy[at] for at in others], limit / 2.0, negligible / 2.0
        )
    return 2.0 * radii, is_exact
