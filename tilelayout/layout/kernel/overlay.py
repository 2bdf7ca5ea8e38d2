"""Cuts the few tiles that the region's boundary runs through more than once, by general overlay.

A hole near a wall, a slot or a thin rib makes such tiles, and they may fall apart or have holes. They are
few even in a large room, so an overlay that takes some ten microseconds for each is good enough here.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.base.tolerance import NO_AREA
from tilelayout.geometry.overlays import FINEST
from tilelayout.layout.kernel.arrays import Outlines, Whole, outlines_of
from tilelayout.layout.values import Points, Region

_POLYGON = 3


@dataclass(frozen=True, eq=False)
class Fragments:
    """The connected parts of the tiles: whose part each is, its outline, area, and holes if it has any."""

    owner: Whole
    outlines: Outlines
    areas: Points
    holes: dict[int, tuple[Points, ...]]


def fragments(region: Region, corners: Points) -> Fragments:
    """Return the connected parts of (tile and region) for tiles (n, m, 2); `owner` counts the tiles."""
    overlaid = shapely.intersection(region.shape, shapely.polygons(corners), grid_size=FINEST)
    return fragments_of(np.asarray(overlaid))


def fragments_of(overlaid: NDArray[np.object_]) -> Fragments:
    """Return the connected parts of shapes (n,); `owner` counts the shapes."""
    parts, owner = shapely.get_parts(overlaid, return_index=True)
    area = shapely.area(parts)
    there = (shapely.get_type_id(parts) == _POLYGON) & (area > NO_AREA)
    parts = shapely.orient_polygons(parts[there])
    points, ring = shapely.get_coordinates(shapely.get_exterior_ring(parts), return_index=True)
    closes = np.append(ring[1:] != ring[:-1], True)[: len(ring)]
    outlines = outlines_of(points[~closes], np.bincount(ring, minlength=len(parts)) - 1)
    return Fragments(owner[there], outlines, area[there], _holes(parts))


def _holes(parts: NDArray[np.object_]) -> dict[int, tuple[Points, ...]]:
    holed = np.flatnonzero(shapely.get_num_interior_rings(parts))
    return {int(k): tuple(shapely.get_coordinates(hole)[:-1] for hole in parts[k].interiors) for k in holed}
