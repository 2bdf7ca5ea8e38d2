"""The sides of polygons with holes, as arrays, and the mitred strips that lie along them.

Shrinking a polygon by r with mitred corners takes away, along each side, a strip r wide: cut square at a
corner that bends outwards, where the neighbour's strip takes the rest, and reaching to the bisector at a
corner that bends inwards. A point is still there as long as no strip reaches it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.inscribed import inward_normals
from tilelayout.geometry.rings import cross
from tilelayout.geometry.tidied import neighbours

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Places = NDArray[np.intp]

_INWARD_TURN = -1e-9
_LONGEST_MITRE = 1e6


@dataclass(frozen=True, eq=False)
class Sides:
    """The n sides of all rings of m polygons, the polygon on their left.

    `next` and `before` are the neighbours in the ring. `bends_in` tells of the corner at a side's end
    whether the polygon bends inwards there. `mitres` is, for a side's start and end (n, 2), how far its strip
    reaches past the corner for each mm of its width. Polygon k has the sides from `first[k]` up to but not
    `first[k + 1]`, its rings one after another; `ring` (n,) counts the rings of all.
    """

    starts: Points
    ends: Points
    along: Points
    normals: Points
    lengths: Numbers
    offsets: Numbers
    next: Places
    before: Places
    bends_in: NDArray[np.bool_]
    mitres: Numbers
    ring: Places
    first: Places

    def depths(self, points: Points) -> Numbers:
        """Return how far each point lies inside the line of each side: (m, 2) to (m, n)."""
        return points @ self.normals.T - self.offsets

    def meets(self, points: Points, depths: Numbers, slack: float) -> NDArray[np.bool_]:
        """Tell which points lie beside which side, between the ends of its strip of that depth: (m, n)."""
        places = points @ self.along.T - np.sum(self.starts * self.along, axis=1)
        before_end = places <= self.lengths + self.mitres[:, 1] * depths + slack
        return np.asarray(before_end & (places >= -self.mitres[:, 0] * depths - slack))

    def contain(self, points: Points) -> NDArray[np.bool_]:
        """Tell which points lie in the polygon: (m, 2) to (m,). Counts the sides to the right of each."""
        above = self.starts[:, 1] > points[:, 1:2]
        spans = above != (self.ends[:, 1] > points[:, 1:2])
        is_left = (self.depths(points) > 0) != above
        return np.asarray(np.sum(spans & is_left, axis=1) % 2 == 1)


def sides_of(polygons: Sequence[Sequence[Points]]) -> Sides:
    """Return the sides of polygons, each its outer ring, counter-clockwise, and its clockwise holes."""
    rings = [ring for polygon in polygons for ring in polygon]
    sizes = np.array([len(ring) for ring in rings])
    starts, (after, before) = np.concatenate(rings), neighbours(sizes)
    ends = starts[after]
    normals, lengths = inward_normals(starts, ends)
    along = np.stack([normals[:, 1], -normals[:, 0]], axis=1)
    turns = cross(along, along[after])
    bends_in = turns < _INWARD_TURN
    straightness = 1.0 + np.sum(along * along[after], axis=1)
    reach = np.where(bends_in, -turns / np.maximum(straightness, 1.0 / _LONGEST_MITRE), 0.0)
    mitres = np.stack([reach[before], reach], axis=1)
    offsets = np.sum(normals * starts, axis=1)
    ring = np.repeat(np.arange(len(rings)), sizes)
    first = np.cumsum([0, *(sum(map(len, polygon)) for polygon in polygons)])
    return Sides(starts, ends, along, normals, lengths, offsets, after, before, bends_in, mitres, ring, first)
