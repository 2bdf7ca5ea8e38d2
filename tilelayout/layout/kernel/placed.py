"""A pattern's cell set down on a surface, with the tables the kernel works from.

All faces of the cell go through each step together, so their corners stand in one array; a face with fewer
corners than the others repeats its last, which changes neither its sides nor its area.

What a straight side of the region meets is asked of sides that a face lies inside of. A face that bends
inwards has none, so its hull stands in for it: what does not meet the hull does not meet the face, and where
the hull is met the face goes to the general overlay. Lattice coordinates (u, v) count cells along the two
vectors: tile (face, i, j) is the face moved by i and j.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.geometry.rings import is_convex
from tilelayout.geometry.turns import turning
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.values import Cell, Points


@dataclass(frozen=True, eq=False)
class Placed:
    """The tables, all in surface coordinates (mm) or lattice coordinates (cells).

    `corners` (f, m, 2) are the faces at cell (0, 0), `corner_counts` (f,) how many of them are real,
    `are_convex` (f,) which of them never bend inwards. `normals` (f, m, 2) point into the face's hull from
    the side that leaves its corner k, and a point p is on the inner side if normal . p > `reach`; the hull of
    a convex face has its corners. `low`, `high` (f, 2) box each face in lattice coordinates, `centres` (f, 2)
    lie inside.
    """

    vectors: Points
    to_lattice: Points
    start: Points
    corners: Points
    corner_counts: Whole
    are_convex: Flags
    normals: Points
    reach: Points
    low: Points
    high: Points
    centres: Points
    areas: Points

    def outlines(self, face: Whole, column: Whole, row: Whole) -> Points:
        """Return the corners (n, m, 2) of n tiles, repeated ones and all."""
        return np.asarray(self.corners.take(face, axis=0) + self.shifts(column, row)[:, None, :])

    def points(self, face: Whole, corner: Whole, column: Whole, row: Whole) -> Points:
        """Return one corner (n, 2) of each of n tiles."""
        at = face * self.corners.shape[1] + corner
        return np.asarray(self.corners.reshape(-1, 2).take(at, axis=0) + self.shifts(column, row))

    def shifts(self, column: Whole, row: Whole) -> Points:
        """Return the ways (n, 2) from cell (0, 0) to other cells."""
        shifts = np.empty((len(column), 2))
        for axis in (0, 1):
            shifts[:, axis] = column * self.vectors[0, axis] + row * self.vectors[1, axis]
        return shifts

    def in_lattice(self, points: Points) -> Points:
        """Return surface points (..., 2) in lattice coordinates."""
        return np.asarray((points - self.start) @ self.to_lattice)


def placed(cell: Cell, angle: float, start: tuple[float, float]) -> Placed:
    """Return the cell turned by `angle` degrees about its origin, which is set down on `start`."""
    turn, origin = turning(angle), np.array(start)
    vectors = cell.vectors @ turn
    outlines = [face.outline for face in cell.faces]
    hulls = [_hull(outline) for outline in outlines]
    corners, hull_corners = (_padded(rings, outlines) @ turn + origin for rings in (outlines, hulls))
    normals = _normals(np.roll(hull_corners, -1, axis=1) - hull_corners)
    inverse = _inverse(vectors)
    in_lattice = (corners - origin) @ inverse
    return Placed(
        vectors,
        inverse,
        origin,
        corners,
        np.array([len(outline) for outline in outlines]),
        np.array([hull is outline for hull, outline in zip(hulls, outlines, strict=True)]),
        normals,
        (normals * hull_corners).sum(axis=2),
        in_lattice.min(axis=1),
        in_lattice.max(axis=1),
        np.array([_inner_point(outline) for outline in outlines]) @ turn @ inverse,
        _areas(corners),
    )


def _hull(outline: Points) -> Points:
    """Return the convex hull; the very same array if the outline is its own hull."""
    if is_convex(outline):
        return outline
    hull = shapely.orient_polygons(shapely.Polygon(outline).convex_hull)
    return np.asarray(shapely.get_coordinates(hull)[:-1])


def _inner_point(outline: Points) -> Points:
    if is_convex(outline):
        return np.asarray(outline.mean(axis=0))
    inside = shapely.Polygon(outline).representative_point()
    return np.array([inside.x, inside.y])


def _padded(rings: list[Points], longest: list[Points]) -> Points:
    """Return the rings in one array (f, m, 2), as long as the longest of `longest`."""
    most = max(len(ring) for ring in longest)
    return np.stack([np.concatenate((r, r[-1:].repeat(most - len(r), axis=0))) for r in rings])


def _inverse(matrix: Points) -> Points:
    (a, b), (c, d) = matrix
    return np.array([(d, -b), (-c, a)], dtype=np.float64) / float(a * d - b * c)


def _normals(sides: Points) -> Points:
    """Return the inner unit normals; a side of no length takes that of the next real one."""
    lengths = np.hypot(sides[..., 0], sides[..., 1])
    for k in range(sides.shape[1] - 2, -1, -1):
        empty = lengths[:, k] == 0.0
        sides[empty, k], lengths[empty, k] = sides[empty, k + 1], lengths[empty, k + 1]
    return np.asarray(np.stack((-sides[..., 1], sides[..., 0]), axis=-1) / lengths[..., None])


def _areas(corners: Points) -> Points:
    local = corners - corners[:, :1]
    x, y = local[..., 0], local[..., 1]
    return np.asarray((x * np.roll(y, -1, axis=1) - y * np.roll(x, -1, axis=1)).sum(axis=1) / 2)
