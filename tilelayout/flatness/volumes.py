"""Volumes between a surface and what is laid on it: integrals over the ground that both cover.

Ground is the outline less its cutouts. It counts where the readings reach; beyond the outermost readings
nothing is known, nothing is counted, and the area left out is told.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from tilelayout.flatness.mesh import Mesh, Numbers, Places, Points
from tilelayout.geometry.overlays import areas_of, shared_by_each


@dataclass(frozen=True, eq=False)
class Ground:
    """The triangles of a mesh clipped to the ground: p small triangles of known area and corners.

    `corners` (p, 3, 2), and `owner` (p,) the triangle of the mesh that each is part of.
    """

    mesh: Mesh
    corners: Points
    owner: Places
    whole_area: float

    @cached_property
    def areas(self) -> Numbers:
        """Area of each small triangle (p,), mm2."""
        ab, ac = self.corners[:, 1] - self.corners[:, 0], self.corners[:, 2] - self.corners[:, 0]
        return np.abs(ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]) / 2.0

    @property
    def area(self) -> float:
        """The area that counts, mm2."""
        return float(self.areas.sum())

    @property
    def area_beyond(self) -> float:
        """The area of the ground beyond the readings, mm2."""
        return max(self.whole_area - self.area, 0.0)

    @cached_property
    def weights(self) -> Numbers:
        """The volume (v,) that each mm of height at a corner of the mesh adds, mm3 per mm."""
        shares = self.mesh.corner_shares(self.corners.mean(axis=1), self.owner) * self.areas[:, None]
        weights = np.zeros(len(self.mesh.places))
        np.add.at(weights, self.mesh.triangles[self.owner], shares)
        return weights

    def of_readings(self, count: int) -> Numbers:
        """Return the volume (count,) that each mm of height at a reading adds."""
        weights = np.zeros(count)
        np.add.at(weights, self.mesh.parents, self.mesh.shares * self.weights[:, None])
        return weights

    def at_corners(self, heights: Numbers) -> Numbers:
        """Return heights (v,) of the mesh's corners carried to the corners (p, 3) of the small triangles."""
        owners = np.repeat(self.owner, 3)
        shares = self.mesh.corner_shares(self.corners.reshape(-1, 2), owners)
        found = np.sum(heights[self.mesh.triangles[owners]] * shares, axis=1)
        return np.asarray(found.reshape(-1, 3))

    def volume(self, heights: Numbers) -> float:
        """Return the volume under heights (v,) of the mesh's corners, mm3; below nought counts against it."""
        return float(self.weights @ heights)

    def volume_above_nought(self, heights: Numbers) -> float:
        """Return the volume under heights (v,) where they are positive, exact where they cross nought."""
        at = np.sort(self.at_corners(heights), axis=1)
        return float(np.sum(self.areas * _mean_positive(*at.T)))


def ground_of(mesh: Mesh, ground: shapely.Geometry) -> Ground:
    """Clip a mesh to the ground."""
    parts = np.array([areas_of(part) for part in shared_by_each(mesh.shapes, ground)], dtype=object)
    cut = shapely.constrained_delaunay_triangles(parts)
    pieces, owner = shapely.get_parts(cut, return_index=True)
    good = shapely.area(pieces) > 1e-6
    corners = shapely.get_coordinates(pieces[good]).reshape(-1, 4, 2)[:, :3]
    return Ground(mesh, corners, np.asarray(owner[good]), float(shapely.area(ground)))


def _mean_positive(low: Numbers, middle: Numbers, high: Numbers) -> Numbers:
    """The mean over a triangle of a linear height, taken as nought where it is negative; corners sorted.

    Above nought at one corner only: a small triangle of it. Below at one corner only: all less the small
    triangle below.
    """
    mean = (low + middle + high) / 3.0
    tip = _tip(high, middle, low)
    all_less_pit = mean + _tip(-low, -middle, -high)
    return np.select([low >= 0.0, middle >= 0.0, high > 0.0], [mean, all_less_pit, tip], 0.0)


def _tip(top: Numbers, other: Numbers, another: Numbers) -> Numbers:
    """The mean of what stands above nought at one corner alone."""
    product = (top - other) * (top - another)
    return np.divide(top**3, 3.0 * product, out=np.zeros_like(top), where=product > 0.0)
