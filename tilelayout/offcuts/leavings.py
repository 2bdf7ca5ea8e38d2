"""What is left of a tile when its pieces are sawn: the offcuts, with the factory edges they still have."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.base.tolerance import NO_AREA
from tilelayout.geometry.rings import clockwise, counter_clockwise, without_straight_corners
from tilelayout.geometry.widths import narrowest
from tilelayout.layout.bordering import is_sawn
from tilelayout.layout.values import Points

LEAST_USEFUL = 20.0
"""An offcut narrower than this is not told of: too narrow to hold at the saw. Common practice, no source."""


@dataclass(frozen=True, eq=False)
class Offcut:
    """One part of what is left: `outline` (n, 2) in tile coordinates, and which of its sides are factory."""

    outline: Points
    holes: tuple[Points, ...]
    is_factory: NDArray[np.bool_]
    narrowest: float


def leavings(
    tile: Points,
    pieces: Sequence[Points],
    kerf: float,
    least: float = LEAST_USEFUL,
    part: shapely.Polygon | None = None,
) -> tuple[Offcut, ...]:
    """Return the offcuts that are `least` wide or wider, the largest first; of `part` of a tile if given.

    Taken is each piece's hull and a kerf around it, since a straight cut runs past a notch or a curve.
    """
    taken = [shapely.Polygon(piece).convex_hull.buffer(kerf, join_style="mitre") for piece in pieces]
    left = (part or shapely.Polygon(tile)).difference(shapely.union_all(taken))
    parts = [part for part in shapely.get_parts(left) if isinstance(part, shapely.Polygon)]
    found = [_offcut(part, tile) for part in parts if part.area > NO_AREA]
    useful = [offcut for offcut in found if offcut.narrowest >= least]
    return tuple(sorted(useful, key=lambda each: (-shapely.Polygon(each.outline).area, *each.outline[0])))


def _offcut(part: shapely.Polygon, tile: Points) -> Offcut:
    ring = without_straight_corners(counter_clockwise(_corners(part.exterior)))
    holes = tuple(clockwise(_corners(hole)) for hole in part.interiors)
    return Offcut(ring, holes, ~is_sawn(ring, tile), narrowest(ring, holes))


def _corners(ring: shapely.LinearRing) -> Points:
    return shapely.get_coordinates(ring)[:-1]
