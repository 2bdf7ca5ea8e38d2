"""What is kept of the parts of mosaic sheets: they reach no further than the chips they keep.

A strip of joint, or of chips that are lost, is not there. Chips in rows and columns end at lines along them,
so a part is clipped to a box; of rows half a chip over to the zigzag round its chips that the knife follows.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.overlays import FINEST, beyond, covered
from tilelayout.geometry.rings import signed_area
from tilelayout.geometry.turns import turning
from tilelayout.job.values import MosaicSheet, OffsetSheet
from tilelayout.layout.chip_grid import ChipGrid, ends_of, polygons_of_parts
from tilelayout.layout.kernel.arrays import Whole
from tilelayout.layout.kernel.overlap import Parts, both
from tilelayout.layout.kernel.overlay import fragments_of
from tilelayout.layout.laid import Laid
from tilelayout.layout.offset_sheets import outlines_of_chips
from tilelayout.layout.values import Points


def no_further_than_chips(parts: Parts, chips: Laid, tile: MosaicSheet) -> Parts:
    """Return what of the parts of sheets lies within their chips and the joints between these."""
    grid = ChipGrid(chips, tile, parts)
    if isinstance(tile, OffsetSheet):
        return _within_zigzags(parts, grid, chips, tile)
    return _within_boxes(parts, grid, chips)


def zigzags_round(own: Whole, chips: Laid, tile: MosaicSheet) -> list[Points]:
    """Return the rings round some chips (n, 2), in surface coordinates; none for chips in columns."""
    if not isinstance(tile, OffsetSheet):
        return []
    turn, start = turning(chips.layout.angle), np.array(chips.layout.start)
    rings = outlines_of_chips(tile, [(column, row) for column, row in own.tolist()])
    return [ring @ turn + start for ring in rings]


def _within_zigzags(parts: Parts, grid: ChipGrid, chips: Laid, tile: OffsetSheet) -> Parts:
    has_any = np.array([len(own) > 0 for own in grid.chips_by_part], dtype=bool)
    within = [_shape(zigzags_round(own, chips, tile)) for own in grid.chips_by_part if len(own)]
    return _clipped(parts.only(has_any), np.array(within, dtype=object))


def _shape(rings: list[Points]) -> shapely.Geometry:
    """Return the area within rings, of which the clockwise ones are holes."""
    if len(rings) == 1:
        return shapely.Polygon(rings[0])
    outer = covered(shapely.Polygon(ring) for ring in rings if signed_area(ring) > 0)
    return beyond(outer, covered(shapely.Polygon(ring) for ring in rings if signed_area(ring) < 0))


def _within_boxes(parts: Parts, grid: ChipGrid, chips: Laid) -> Parts:
    low, high = grid.reaches()
    placed, has_any = chips.placed, np.asarray(np.isfinite(low).all(axis=1))
    parts, low, high = parts.only(has_any), low[has_any], high[has_any]
    own_low, own_high = ends_of(placed.in_lattice(parts.outlines.points), parts.outlines.starts)
    slack = ON_EDGE / np.hypot(*placed.vectors.T)
    over_low, over_high = low - own_low > slack, own_high - high > slack
    low, high = np.where(over_low, low, own_low - 1.0), np.where(over_high, high, own_high + 1.0)
    is_over = np.asarray((over_low | over_high).any(axis=1))
    boxes = placed.start + _boxes(low[is_over], high[is_over]) @ placed.vectors
    return both(parts.only(~is_over), _clipped(parts.only(is_over), np.asarray(shapely.polygons(boxes))))


def _boxes(low: Points, high: Points) -> Points:
    """Return the corners (n, 4, 2) of boxes, counter-clockwise."""
    (left, lower), (right, upper) = low.T, high.T
    sides = ((left, lower), (right, lower), (right, upper), (left, upper))
    return np.stack([np.column_stack(corner) for corner in sides], axis=1)


def _clipped(parts: Parts, within: NDArray[np.object_]) -> Parts:
    """Return what of each part lies within its shape (n,)."""
    overlaid = shapely.intersection(polygons_of_parts(parts), within, grid_size=FINEST)
    found = fragments_of(np.asarray(overlaid))
    face, column, row = (numbers[found.owner] for numbers in (parts.face, parts.column, parts.row))
    return Parts(face, column, row, found.areas, found.outlines, found.holes)
