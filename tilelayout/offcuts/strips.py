"""How wide a strip there is between convex outlines, for many pairs at a time.

The sides of both outlines are tried as the direction of the strip. That gives the distance unless the nearest
points are two corners; only of those few, and only where it decides, is the distance worked out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.geometry.inscribed import inward_normals
from tilelayout.geometry.rings import following
from tilelayout.layout.values import Points

_MOST_CORNERS = (3, 4, 6, 8, 16, 32, 64, 128, 1024)
"""Outlines with up to so many corners are handled together; a last corner is repeated to fill up."""

_FEW = 200
"""So many outlines at a time keep the arrays in the processor's cache."""


@dataclass(frozen=True, eq=False)
class _Alike:
    """Outlines with about as many corners: `chosen` (n,) of all, corners and outward normals (m, n, 2).

    `reach` (m, n) is how far each side stands out along its normal.
    """

    chosen: NDArray[np.intp]
    corners: Points
    normals: Points
    reach: Points

    def in_parts(self) -> Iterator[_Alike]:
        """Yield them a few at a time."""
        for first in range(0, len(self.chosen), _FEW):
            part = slice(first, first + _FEW)
            yield _Alike(self.chosen[part], self.corners[:, part], self.normals[:, part], self.reach[:, part])


@dataclass(frozen=True, eq=False)
class Outlines:
    """Convex outlines (n, 2), each counter-clockwise."""

    rings: tuple[Points, ...]

    def __len__(self) -> int:
        return len(self.rings)

    @cached_property
    def shapes(self) -> NDArray[np.object_]:
        """The outlines as polygons."""
        owners = np.repeat(np.arange(len(self)), [len(ring) for ring in self.rings])
        return np.asarray(
            shapely.polygons(shapely.linearrings(np.concatenate(list(self.rings)), indices=owners))
        )

    @cached_property
    def alike(self) -> tuple[_Alike, ...]:
        """The outlines by their number of corners."""
        classes = np.searchsorted(_MOST_CORNERS, [len(ring) for ring in self.rings])
        return tuple(self._of_class(int(each), classes) for each in np.unique(classes))

    def _of_class(self, which: int, classes: NDArray[np.intp]) -> _Alike:
        chosen = np.flatnonzero(classes == which)
        most = max(len(self.rings[k]) for k in chosen)
        corners = np.stack([_filled_up(self.rings[k], most) for k in chosen], axis=1)
        sides = [inward_normals(self.rings[k], following(self.rings[k]))[0] for k in chosen]
        normals = -np.stack([_filled_up(each, most) for each in sides], axis=1)
        return _Alike(chosen, corners, normals, np.sum(normals * corners, axis=2))


def _filled_up(points: Points, count: int) -> Points:
    """Return the points with the last one repeated."""
    return np.concatenate([points, np.repeat(points[-1:], count - len(points), axis=0)])


def gaps(one: Outlines, other: Outlines, enough: float) -> Points:
    """Return the widths of the strips (one, other), 0 or less if there is none; exact only up to `enough`."""
    found = np.empty((len(one), len(other)))
    for these in one.alike:
        for few in these.in_parts():
            for those in other.alike:
                widths = np.maximum(_along_sides(few, those), _along_sides(those, few).T)
                found[np.ix_(few.chosen, those.chosen)] = widths
    _be_exact(found, one, other, enough)
    return found


def _be_exact(found: Points, one: Outlines, other: Outlines, enough: float) -> None:
    rows, columns = np.nonzero((found > 0.0) & (found < enough))
    if len(rows):
        found[rows, columns] = shapely.distance(one.shapes[rows], other.shapes[columns])


def _along_sides(one: _Alike, other: _Alike) -> Points:
    """Return the widest strip along a side of each of `one` before each of `other`."""
    widest = np.full((len(one.chosen), len(other.chosen)), -np.inf)
    for normals, reach in zip(one.normals, one.reach, strict=True):
        nearest = normals @ other.corners[0].T
        for corners in other.corners[1:]:
            np.minimum(nearest, normals @ corners.T, out=nearest)
        np.maximum(widest, nearest - reach[:, None], out=widest)
    return widest
