"""Starts that set a cutout well into the tiles: its middle in the middle of a tile, or on a joint or corner.

A drain or a pipe is cut best where the tile round it stays widest, and nowhere else is much known to happen
there: no joint needs to meet its edge. So these starts are laid beside those along the walls.
"""

from __future__ import annotations

import numpy as np

from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.values import Points, Region

_MOST = 4
"""Of more cutouts the smallest are tried, which can be set into one tile."""


def starts_at_cutouts(region: Region, placed: Placed) -> Points:
    """Return the starts (n, 2) that set the smallest cutouts at what is one in every tile: n may be 0."""
    holes = [ring for ring in region.rings if _is_hole(ring)]
    holes.sort(key=lambda ring: tuple(np.ptp(ring, axis=0)))
    middles = [(ring.min(axis=0) + ring.max(axis=0)) / 2.0 for ring in holes[:_MOST]]
    if not middles:
        return np.empty((0, 2))
    return np.vstack([middle - _places(placed) for middle in middles])


def _is_hole(ring: Points) -> bool:
    """Tell whether the region lies outside of a ring: it turns clockwise."""
    onward = np.roll(ring, -1, axis=0)
    return bool((ring[:, 0] * onward[:, 1] - ring[:, 1] * onward[:, 0]).sum() < 0.0)


def _places(placed: Placed) -> Points:
    """Return from the start to the middle, the corners and the middles of the sides of each face (n, 2)."""
    found = []
    for corners, count in zip(placed.corners, placed.corner_counts, strict=True):
        face = corners[:count]
        found += [face.mean(axis=0, keepdims=True), face, (face + np.roll(face, -1, axis=0)) / 2.0]
    return np.vstack(found) - placed.start
