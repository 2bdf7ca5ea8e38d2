"""Grows an outline by a margin all round, corners mitred: each side moves out and meets its neighbours.

Worked out corner by corner from the lines of the sides, so it is exact for any sharp corner, and a notch
that the margin closes shows as an outline that crosses itself.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.inscribed import inward_normals
from tilelayout.geometry.rings import following

Points = NDArray[np.float64]


def grown(ring: Points, margin: float) -> Points:
    """Return a counter-clockwise ring (n, 2) without straight corners, grown by `margin` mm.

    The corners stay in order, and an inward corner moves into the notch.

    >>> grown(np.array([[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]]), 1.0).tolist()
    [[-1.0, -1.0], [5.0, -1.0], [5.0, 4.0], [-1.0, 4.0]]
    """
    return np.asarray(ring + margin * outward_mitres(ring))


def outward_mitres(ring: Points) -> Points:
    """Return by how much each corner moves when a ring grows by 1 mm: (n, 2)."""
    normals, _ = inward_normals(ring, following(ring))
    before = np.roll(normals, 1, axis=0)
    return np.asarray(-(before + normals) / (1.0 + np.sum(before * normals, axis=1))[:, None])


def gains(ring: Points) -> Points:
    """Return how much longer each side, from corner k to the next, gets when a ring grows by 1 mm: (n,)."""
    mitres, sides = outward_mitres(ring), following(ring) - ring
    along = sides / np.hypot(sides[:, 0], sides[:, 1])[:, None]
    return np.asarray(np.sum((following(mitres) - mitres) * along, axis=1))
