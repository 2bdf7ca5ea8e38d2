"""Tiles as rigid plates: where each would touch a surface, laid on it without mortar.

A plate is flat and the surface is flat between the sides of its triangles. So it is enough to know the
surface at the corners of what triangles and plate have in common: a plane that is over it there is over it
everywhere under the plate.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.flatness.mesh import Flags, Mesh, Numbers, Places, Points
from tilelayout.geometry.overlays import FINEST

Shapes = NDArray[np.object_]

_LEAST_LAID = 0.5
"""A plate is laid on the surface if so large a share of it lies on the readings."""

_ROUNDING = 1e-9
_STRAIGHT = 1e-3
"""A corner that stands out no more than this (mm) is none."""

_LEAST_READ = 0.9
"""So large a share must, for nothing to be hidden beyond them: as of a whole surface."""


@dataclass(frozen=True, eq=False)
class Bearings:
    """The surface under k plates: points (p, 2) with heights (p,), plate by plate.

    Only plates that lie on the readings for the most part are laid. Plate `kept[i]` has the points from
    `starts[i]` up to `starts[i + 1]`. `middles` (i, 2) are the centroids of what of the plates lies on the
    readings, `read` (k,) is the share of each plate that does. `rims` are the corners (c, 2) at which it can
    be pressed, and which of the plates laid each belongs to (c,).
    """

    points: Points
    heights: Numbers
    starts: Places
    kept: Places
    middles: Points
    read: Numbers
    rims: tuple[Points, Places]

    @property
    def counts(self) -> Places:
        """How many points there are under each plate that is laid (i,)."""
        return np.diff(self.starts)

    @property
    def owner(self) -> Places:
        """Which of the plates laid each point lies under (p,), counted among `kept`."""
        return np.repeat(np.arange(len(self.kept)), self.counts)

    @property
    def is_read(self) -> Flags:
        """Which of the k plates lie on the readings so far that nothing of them is hidden."""
        return np.asarray(self.read >= _LEAST_READ)

    def of_plates(self, first: int, last: int) -> Bearings:
        """Return what lies under the plates laid, from `first` up to but without `last`."""
        some = slice(self.starts[first], self.starts[last])
        starts = self.starts[first : last + 1] - self.starts[first]
        kept, middles = self.kept[first:last], self.middles[first:last]
        corners, owner = self.rims
        on_rim = slice(*np.searchsorted(owner, (first, last)).tolist())
        rims = corners[on_rim], owner[on_rim] - first
        return Bearings(self.points[some], self.heights[some], starts, kept, middles, self.read, rims)

    @cached_property
    def padded(self) -> tuple[Points, Numbers]:
        """Points (i, m, 2) and heights (i, m), filled up with points that no plate can touch."""
        most = int(self.counts.max(initial=0))
        place = np.arange(len(self.points)) - np.repeat(self.starts[:-1], self.counts)
        points = np.repeat(self.middles[:, None, :], most, axis=1)
        heights = np.full(points.shape[:2], -np.inf)
        points[self.owner, place], heights[self.owner, place] = self.points, self.heights
        return points, heights


def bearings(mesh: Mesh, heights: Numbers, shapes: Shapes) -> Bearings:
    """Return the surface under plates of these outlines (k,) with holes; `heights` (v,) of the corners."""
    known = _on_readings(mesh, shapes)
    read = shapely.area(known) / shapely.area(shapes)
    kept = np.flatnonzero(read >= _LEAST_LAID)
    known = known[kept]
    under = [find(mesh, heights, known) for find in (_own_corners, _mesh_corners, _crossings)]
    points, found, owner = (np.concatenate([each[part] for each in under]) for part in range(3))
    order = np.argsort(owner, kind="stable")
    starts = np.searchsorted(owner[order], np.arange(len(kept) + 1))
    middles = shapely.get_coordinates(shapely.centroid(known))
    return Bearings(points[order], found[order], starts, kept, middles, read, _rims(known))


def _on_readings(mesh: Mesh, shapes: Shapes) -> Shapes:
    """What of each plate lies on the readings."""
    known = shapes.copy()
    is_cut = ~mesh.covers(shapes)
    known[is_cut] = shapely.intersection(shapes[is_cut], mesh.domain, grid_size=FINEST)
    return known


_Found = tuple[Points, Numbers, Places]
"""Points (p, 2), the heights of the surface there (p,), and which plate each lies under (p,)."""


def _own_corners(mesh: Mesh, heights: Numbers, plates: Shapes) -> _Found:
    points, owner = shapely.get_coordinates(plates, return_index=True)
    found = mesh.heights_at(points, heights) if len(points) else np.empty(0)
    is_on = np.isfinite(found)
    return points[is_on], found[is_on], owner[is_on]


def _mesh_corners(mesh: Mesh, heights: Numbers, plates: Shapes) -> _Found:
    corner, owner = shapely.STRtree(plates).query(shapely.points(mesh.places), predicate="intersects")
    return mesh.places[corner], heights[corner], owner


def _crossings(mesh: Mesh, heights: Numbers, plates: Shapes) -> _Found:
    """Where the sides of plates cross those of triangles. What runs along one is known by its ends."""
    starts, ends, whose = _sides(plates)
    edges = mesh.places[mesh.edges]
    tree = shapely.STRtree(np.asarray(shapely.linestrings(edges)))
    side, edge = tree.query(shapely.linestrings(np.stack([starts, ends], axis=1)))
    begin, along = edges[edge, 0], edges[edge, 1] - edges[edge, 0]
    u, to = ends[side] - starts[side], starts[side] - begin
    whole = _cross(u, along)
    with np.errstate(divide="ignore", invalid="ignore"):
        at, share = _cross(along, to) / whole, _cross(u, to) / whole
    hits = (at >= 0.0) & (at <= 1.0) & (share >= 0.0) & (share <= 1.0)
    hits &= np.abs(whole) > _ROUNDING * np.hypot(*u.T) * np.hypot(*along.T)
    side, edge, share = side[hits], edge[hits], share[hits]
    low, high = (heights[mesh.edges[edge, end]] for end in (0, 1))
    points = begin[hits] + share[:, None] * along[hits]
    return points, low + share * (high - low), whose[side]


def _sides(plates: Shapes) -> tuple[Points, Points, Places]:
    """The sides of all rings of plates, and whose they are."""
    rings, plate = shapely.get_rings(plates, return_index=True)
    points, ring = shapely.get_coordinates(rings, return_index=True)
    is_side = ring[1:] == ring[:-1]
    return points[:-1][is_side], points[1:][is_side], plate[ring[:-1][is_side]]


def _cross(u: Points, v: Points) -> Numbers:
    return np.asarray(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])


def _rims(plates: Shapes) -> tuple[Points, Places]:
    """The corners (c, 2) of plates with their hollows bridged, and whose they are (c,)."""
    hulls = shapely.simplify(shapely.convex_hull(plates), _STRAIGHT)
    corners, owner = shapely.get_coordinates(shapely.get_exterior_ring(hulls), return_index=True)
    is_last = np.ones(len(owner), dtype=bool)
    is_last[:-1] = owner[1:] != owner[:-1]
    return corners[~is_last], owner[~is_last]


def neighbours(owner: Places) -> tuple[Places, Places]:
    """Return the number of the corner before and after each (c,) in rings that follow one another."""
    at, first = np.arange(len(owner)), np.searchsorted(owner, owner, side="left")
    last = np.searchsorted(owner, owner, side="right") - 1
    return np.where(at == first, last, at - 1), np.where(at == last, first, at + 1)
