"""Finds which triangle lies under each of many points.

The ground is divided into small squares that know the triangles they touch, so that each point is tried
against a few triangles only, all points at once.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

Points = NDArray[np.float64]
Places = NDArray[np.intp]

_INSIDE = -1e-9
"""A point counts as inside a triangle if none of its shares is below this: a hair beyond a side."""

_SQUARES_PER_TRIANGLE = 24.0


class Locator:
    """Triangles (f, 3, 2), ready to be asked what lies under points."""

    def __init__(self, corners: Points) -> None:
        self._terms = _share_terms(corners)
        self._by_corner = [np.ascontiguousarray(self._terms[:, corner]) for corner in range(3)]
        self._low = corners.min(axis=(0, 1)) - 1.0
        size = corners.max(axis=(0, 1)) + 1.0 - self._low
        self._side = float(np.sqrt(size[0] * size[1] / (_SQUARES_PER_TRIANGLE * len(corners))))
        self._shape = np.ceil(size / self._side).astype(np.intp) + 1
        self._touching = self._squares(corners)

    def _squares(self, corners: Points) -> Places:
        """The triangles (s, k) that touch each square, padded with -1."""
        columns, rows = np.meshgrid(np.arange(self._shape[0]), np.arange(self._shape[1]), indexing="ij")
        low = self._low + np.column_stack([columns.ravel(), rows.ravel()]) * self._side
        boxes = shapely.box(*(low - 1e-3).T, *(low + self._side + 1e-3).T)
        square, triangle = shapely.STRtree(np.asarray(shapely.polygons(corners))).query(boxes, "intersects")
        order = np.lexsort((triangle, square))
        square, triangle = square[order], triangle[order]
        counts = np.bincount(square, minlength=len(boxes))
        found = np.full((len(boxes), int(counts.max())), -1)
        found[square, np.arange(len(square)) - np.repeat(np.cumsum(counts) - counts, counts)] = triangle
        return found

    def shares(self, points: Points, triangle: Places) -> Points:
        """Return the shares (p, 3) that the corners of its triangle have in each point."""
        terms = self._terms[triangle]
        return np.asarray(terms[..., 0] * points[:, :1] + terms[..., 1] * points[:, 1:2] + terms[..., 2])

    def under(self, points: Points) -> Places:
        """Return the triangle (p,) under each point, -1 where there is none."""
        at = np.floor((points - self._low) / self._side)
        on = np.all((at >= 0) & (at < self._shape), axis=1)
        at = np.where(on[:, None], at, 0).astype(np.intp)
        tried = self._touching[at[:, 0] * self._shape[1] + at[:, 1]]
        x, y = points[:, :1], points[:, 1:]
        each = (t[tried, 0] * x + t[tried, 1] * y + t[tried, 2] for t in self._by_corner)
        least = np.minimum.reduce(list(each))
        least = np.where(tried < 0, -np.inf, least)
        best = np.argmax(least, axis=1)
        row = np.arange(len(points))
        return np.asarray(np.where(on & (least[row, best] >= _INSIDE), tried[row, best], -1))


def _share_terms(corners: Points) -> Points:
    """Return (f, 3, 3): the share of each corner as a sum of x, y and one."""
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    terms = []
    for p, q, r in ((a, b, c), (b, c, a), (c, a, b)):
        whole = (q - p)[:, 0] * (r - p)[:, 1] - (q - p)[:, 1] * (r - p)[:, 0]
        x, y = (q - r)[:, 1] / whole, (r - q)[:, 0] / whole
        terms.append(np.column_stack([x, y, -(x * q[:, 0] + y * q[:, 1])]))
    return np.stack(terms, axis=1)
