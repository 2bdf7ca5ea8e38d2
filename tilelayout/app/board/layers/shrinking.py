"""Faces a little smaller than they are, so that a joint is never thinner than one pixel.

A joint of 3 mm on a floor shown at 0.1 px to the mm would be a third of a pixel, and a grey blur instead of
a line.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]


def lack_of_joint(joint: float, px_per_mm: float, least_px: float = 1.0) -> float:
    """Return by how many mm each face must draw back for its joints to be `least_px` wide."""
    return max(0.0, (least_px / px_per_mm - joint) / 2)


def shrunk(outline: Points, by: float) -> Points:
    """Return a convex ring (n, 2) with every side moved inwards by `by` mm (mitred).

    A face too small to shrink so far becomes a point in its middle.
    """
    if by <= 0.0:
        return outline
    sides = np.roll(outline, -1, axis=0) - outline
    turn = 1.0 if _area(outline) > 0 else -1.0
    inward = np.stack((-sides[:, 1], sides[:, 0]), axis=1) * (turn / np.hypot(*sides.T)[:, None])
    before = np.roll(inward, 1, axis=0)
    mitre = (before + inward) / (1.0 + np.sum(before * inward, axis=1))[:, None]
    smaller = outline + mitre * by
    if _area(smaller) * turn <= 0 or np.any(np.sum((np.roll(smaller, -1, 0) - smaller) * sides, axis=1) < 0):
        return np.broadcast_to(outline.mean(axis=0), outline.shape)
    return np.asarray(smaller)


def _area(ring: Points) -> float:
    x, y = ring[:, 0], ring[:, 1]
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
