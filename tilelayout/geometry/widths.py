"""The narrowest place of a polygon: the width of its thinnest arm.

It is the largest w for which shrinking the polygon by w/2 and growing it again, both with mitred corners,
still gives all of it back. A convex polygon is given back until it shrinks to nothing, so w is the diameter
of its largest circle (`inscribed`); otherwise an arm is lost first (`arms`).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.arms import thinnest_radius
from tilelayout.geometry.inscribed import inscribed_radii
from tilelayout.geometry.rings import (
    clockwise,
    counter_clockwise,
    cross,
    is_convex,
    without_straight_corners,
)

Points = NDArray[np.float64]

_SURE_TURN = 1e-3
"""Twice the area of the triangle at a corner, in mm2, from which the corner surely is a convex one."""


def narrowest(outline: Points, holes: Sequence[Points] = ()) -> float:
    """Return the narrowest place of a polygon with holes, in mm; rings may run either way.

    A smooth run of chords counts as the one curve it stands for: growing continues the curve, as it
    continues a straight side.

    >>> round(narrowest(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 3.0]])), 9)
    2.0
    """
    return float(narrowest_of_many([outline], [holes])[0])


def narrowest_of_many(
    outlines: Sequence[Points], holes: Sequence[Sequence[Points]] = ()
) -> NDArray[np.float64]:
    """Return the narrowest place of each of many polygons, in mm: convex ones of a kind go together.

    `holes` has the holes of each polygon; left out, none has any.
    """
    widths = np.empty(len(outlines))
    for members in _of_equal_length(outlines, holes):
        rings = np.array([outlines[at] for at in members])
        plain = _plainly_convex(rings)
        if plain.any():
            widths[np.array(members)[plain]] = 2.0 * inscribed_radii(rings[plain])
        for at in np.array(members)[~plain]:
            widths[at] = _narrowest_of_one(outlines[at], ())
    for at, inner in enumerate(holes):
        if len(inner):
            widths[at] = _narrowest_of_one(outlines[at], inner)
    return widths


def _of_equal_length(outlines: Sequence[Points], holes: Sequence[Sequence[Points]]) -> list[list[int]]:
    """Places of the outlines without holes, gathered by their number of corners."""
    groups: dict[int, list[int]] = {}
    for at, outline in enumerate(outlines):
        if not (len(holes) and len(holes[at])):
            groups.setdefault(len(outline), []).append(at)
    return list(groups.values())


def _plainly_convex(rings: Points) -> NDArray[np.bool_]:
    steps = np.roll(rings, -1, axis=1) - rings
    return np.asarray(np.all(cross(steps, np.roll(steps, -1, axis=1)) > _SURE_TURN, axis=1))


def _narrowest_of_one(outline: Points, holes: Sequence[Points]) -> float:
    outer = without_straight_corners(counter_clockwise(outline))
    if not len(holes) and is_convex(outer):
        return 2.0 * float(inscribed_radii(outer[None])[0])
    inner = [without_straight_corners(clockwise(hole)) for hole in holes]
    return 2.0 * thinnest_radius([outer, *inner])
