"""Rings: closed polygons as arrays (n, 2) of their corners, the first not repeated.

Everything here follows from the turns at the corners: which way a ring runs, whether it is convex, and which
of its corners are none because the ring runs straight on.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import ON_EDGE, SAME_PLACE

Points = NDArray[np.float64]


def following(ring: Points) -> Points:
    """Return the corner after each corner."""
    return np.concatenate([ring[1:], ring[:1]])


def cross(u: Points, v: Points) -> Points:
    """Return the cross products of vectors (..., 2): positive where `v` turns left of `u`."""
    return np.asarray(u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0])


def signed_area(ring: Points) -> float:
    """Return the area, positive for a ring that runs counter-clockwise.

    >>> signed_area(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 3.0]]))
    6.0
    """
    centred = ring - ring[0]
    return float(np.sum(cross(centred, following(centred)))) / 2.0


def area(outline: Points, holes: Sequence[Points] = ()) -> float:
    """Return the area within `outline` and outside `holes`, whichever way the rings run."""
    return abs(signed_area(outline)) - sum(abs(signed_area(hole)) for hole in holes)


def counter_clockwise(ring: Points) -> Points:
    """Return the ring running counter-clockwise."""
    return ring if signed_area(ring) >= 0 else ring[::-1]


def clockwise(ring: Points) -> Points:
    """Return the ring running clockwise."""
    return ring if signed_area(ring) <= 0 else ring[::-1]


def is_convex(ring: Points, tolerance: float = ON_EDGE) -> bool:
    """Tell whether no corner of a counter-clockwise ring bends inwards by more than `tolerance`."""
    return bool(np.all(corner_heights(ring) >= -tolerance))


def corner_heights(ring: Points) -> Points:
    """Return how far each corner stands off the line between its neighbours: (n,), negative if inwards."""
    before, after = np.roll(ring, 1, axis=0), following(ring)
    span = after - before
    length = np.maximum(np.hypot(span[:, 0], span[:, 1]), SAME_PLACE)
    return np.asarray(cross(ring - before, span) / length)


def without_straight_corners(ring: Points, tolerance: float = ON_EDGE) -> Points:
    """Return the ring without repeated corners and corners at which it runs straight on.

    Of several such corners in a row every second goes at a time, so that a finely divided curve is not
    straightened as a whole.
    """
    while len(ring) > 3:
        gone = _straight_corners(ring, tolerance)
        if not gone.any():
            return ring
        ring = ring[~gone]
    return ring


def _straight_corners(ring: Points, tolerance: float) -> NDArray[np.bool_]:
    step = following(ring) - ring
    repeated = np.hypot(step[:, 0], step[:, 1]) <= SAME_PLACE
    if repeated.any():
        return np.asarray(repeated)
    gone = np.abs(corner_heights(ring)) <= tolerance
    if not gone.any():
        return np.asarray(gone)
    if gone.all():
        return np.asarray(np.arange(len(ring)) % 2 == 1)
    first = int(np.argmin(gone))
    for at in range(first, first + len(ring)):
        here, before = at % len(ring), (at - 1) % len(ring)
        if gone[here] and gone[before]:
            gone[here] = False
    return gone


def sum_of_convex(one: Points, other: Points) -> Points:
    """Return the ring (n + m, 2) of all sums of a point of each of two convex rings, counter-clockwise.

    Its sides are those of both in the order of their directions (H. Minkowski's sum).
    """
    sides = np.concatenate([following(one) - one, following(other) - other])
    order = np.argsort(np.arctan2(sides[:, 1], sides[:, 0]) % (2.0 * np.pi), kind="stable")
    low = _lowest(one) + _lowest(other)
    return np.asarray(low + np.cumsum(sides[order], axis=0))


def _lowest(ring: Points) -> Points:
    """Return the lowest corner (2,), of several the leftmost."""
    return np.asarray(ring[np.lexsort((ring[:, 0], ring[:, 1]))[0]])
