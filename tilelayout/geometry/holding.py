"""How far polygons can shrink and still hold one of a few points: a width that they surely have.

A point is there until the first strip along a side reaches it, so the depths of some points in the strips
they lie beside, of all polygons in one array, tell without any search.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.sides import Sides

Numbers = NDArray[np.float64]
Places = NDArray[np.intp]

_SHARES = np.array([0.25, 0.375, 0.5, 0.625, 0.75])
"""Where in its box, along both its sides, a polygon is asked for points that last long."""


def held_radii(sides: Sides, polygons: Places) -> Numbers:
    """Return by how much each of some polygons (p,) can be shrunk with something left of it; 0 if unknown."""
    if not len(polygons):
        return np.empty(0)
    counts = np.diff(sides.first)[polygons]
    first = np.cumsum(counts) - counts
    side = np.arange(counts.sum()) + np.repeat(sides.first[polygons] - first, counts)
    x, y = (np.repeat(along, counts, axis=0) for along in _points(sides, side, first))
    depths, is_inside = _depths(sides, side, x, y), _crossings(sides, side, x, y)
    radii = np.minimum.reduceat(depths, first)
    return np.asarray(np.where(np.add.reduceat(is_inside, first) % 2 == 1, radii, 0.0).max(axis=1))


def _points(sides: Sides, side: Places, first: Places) -> tuple[Numbers, Numbers]:
    """The points of each polygon (p, k), spread over its box."""
    corners = sides.starts[side]
    low, high = np.minimum.reduceat(corners, first), np.maximum.reduceat(corners, first)
    across, up = np.meshgrid(_SHARES, _SHARES)
    shares = np.column_stack([across.ravel(), up.ravel()])
    points = low[:, None] + (high - low)[:, None] * shares
    return points[..., 0], points[..., 1]


def _depths(sides: Sides, side: Places, x: Numbers, y: Numbers) -> Numbers:
    """After how much shrinking the strip of a side reaches each point (s, k); infinity if it never does."""
    normal, along, start = sides.normals[side], sides.along[side], sides.starts[side]
    depths = x * normal[:, :1] + y * normal[:, 1:] - sides.offsets[side][:, None]
    places = x * along[:, :1] + y * along[:, 1:] - np.sum(start * along, axis=1)[:, None]
    mitres, lengths = sides.mitres[side], sides.lengths[side][:, None]
    is_beside = (places >= -mitres[:, :1] * depths) & (places <= lengths + mitres[:, 1:] * depths)
    return np.asarray(np.where(is_beside & (depths >= 0.0), depths, np.inf))


def _crossings(sides: Sides, side: Places, x: Numbers, y: Numbers) -> Places:
    """Whether a line from each point (s, k) to the right crosses a side: 1 or 0."""
    above, end_above = sides.starts[side, 1:] > y, sides.ends[side, 1:] > y
    normal = sides.normals[side]
    is_left = x * normal[:, :1] + y * normal[:, 1:] > sides.offsets[side][:, None]
    return np.asarray((above != end_above) & (is_left != above), dtype=np.intp)
