"""Rings tidied for measuring, many at a time: each runs the way it should and has no corner that is none.

Most rings need nothing done, so all are looked at in one array and only the others are touched.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import ON_EDGE, SAME_PLACE
from tilelayout.geometry.rings import clockwise, counter_clockwise, cross, without_straight_corners

Points = NDArray[np.float64]
Places = NDArray[np.intp]
Flags = NDArray[np.bool_]


def tidied(rings: Sequence[Points], are_holes: Flags) -> list[Points]:
    """Return the rings without repeated or straight corners, holes clockwise and others counter-clockwise."""
    sizes = np.array([len(ring) for ring in rings])
    points, (after, before) = np.concatenate(list(rings)), neighbours(sizes)
    first = np.cumsum(sizes) - sizes
    steps = points[after] - points
    is_none = np.hypot(steps[:, 0], steps[:, 1]) <= SAME_PLACE
    is_none |= np.abs(_heights(points, after, before)) <= ON_EDGE
    local = points - np.repeat(points[first], sizes, axis=0)
    doubled = np.add.reduceat(cross(local, local[after]), first)
    untidy = np.logical_or.reduceat(is_none, first) | ((doubled < 0.0) != are_holes)
    return [
        _tidy(ring, is_hole=bool(is_hole)) if is_untidy else ring
        for ring, is_hole, is_untidy in zip(rings, are_holes, untidy, strict=True)
    ]


def bend_inwards(rings: Sequence[Points]) -> Flags:
    """Tell which counter-clockwise rings have a corner that bends inwards by more than rounding."""
    sizes = np.array([len(ring) for ring in rings])
    points, (after, before) = np.concatenate(list(rings)), neighbours(sizes)
    heights = _heights(points, after, before)
    return np.asarray(np.logical_or.reduceat(heights < -ON_EDGE, np.cumsum(sizes) - sizes))


def neighbours(sizes: Places) -> tuple[Places, Places]:
    """Return the places of the corners after and before each corner, in rings that follow one another."""
    beyond = np.cumsum(sizes)
    after, before = np.arange(1, beyond[-1] + 1), np.arange(-1, beyond[-1] - 1)
    after[beyond - 1], before[beyond - sizes] = beyond - sizes, beyond - 1
    return after, before


def _heights(points: Points, after: Places, before: Places) -> Points:
    """How far each corner stands off the line between its neighbours; negative if it bends inwards."""
    span = points[after] - points[before]
    return np.asarray(
        cross(points - points[before], span) / np.maximum(np.hypot(span[:, 0], span[:, 1]), SAME_PLACE)
    )


def _tidy(ring: Points, *, is_hole: bool) -> Points:
    return without_straight_corners(clockwise(ring) if is_hole else counter_clockwise(ring))
