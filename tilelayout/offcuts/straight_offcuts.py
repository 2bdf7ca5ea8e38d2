"""The offcuts that straight cuts really leave of a tile, each from edge to edge of the part in hand.

What surrounds a piece is often an L: a saw that cuts right through leaves it as two rectangles. So the cuts
that part the pieces are followed first; then each piece is freed side by side, every time by the cut that
leaves the largest offcut.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import NO_AREA, ON_EDGE
from tilelayout.geometry.halves import half_of
from tilelayout.geometry.overlays import polygons_of
from tilelayout.geometry.rings import counter_clockwise, following, without_straight_corners
from tilelayout.geometry.widths import narrowest
from tilelayout.layout.values import Points
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.offcuts.parting import Parting
from tilelayout.offcuts.rules import hull_of


def straight_offcuts(opened: OpenedTile, least: float) -> tuple[Points, ...]:
    """Return the outlines (n, 2), in tile coordinates, of the offcuts `least` mm wide or wider.

    The largest comes first. A notch or a curve is sawn inside its hull and leaves nothing.
    """
    hulls = [hull_of(piece.outline) for piece in opened.pieces]
    parts = _left(opened.parting or 0, hulls, opened.blank.plain_shape, opened.blank.saw.kerf)
    rings = [counter_clockwise(shapely.get_coordinates(part.exterior)[:-1]) for part in parts]
    outlines = [without_straight_corners(ring) for ring in rings]
    useful = [outline for outline in outlines if narrowest(outline) > least - ON_EDGE]
    return tuple(sorted(useful, key=lambda each: (-shapely.Polygon(each).area, *each.min(axis=0))))


def _left(
    parting: Parting | int, hulls: Sequence[Points], hand: BaseGeometry, kerf: float
) -> Iterator[shapely.Polygon]:
    """Yield what is left of a part once the pieces in it are parted and freed."""
    chosen = [shapely.Polygon(hulls[number]) for number in _numbers(parting)]
    held = []
    for part in polygons_of(hand):
        if any(part.intersection(hull).area > NO_AREA for hull in chosen):
            held.append(part)
        elif part.area > NO_AREA:
            yield part
    if not isinstance(parting, Parting):
        yield from _freed(hulls[parting], shapely.union_all(held), kerf)
        return
    for side, half in zip(parting.sides, _halves(parting, hulls, shapely.union_all(held), kerf), strict=True):
        yield from _left(side, hulls, half, kerf)


def _halves(
    parting: Parting, hulls: Sequence[Points], hand: BaseGeometry, kerf: float
) -> tuple[BaseGeometry, BaseGeometry]:
    """Return the part for either side of a cut; where there is none to make, what holds its pieces."""
    if parting.line is None:
        sides = [shapely.union_all([shapely.Polygon(hulls[n]) for n in _numbers(s)]) for s in parting.sides]
        first, second = (
            shapely.union_all([part for part in polygons_of(hand) if part.intersects(side)]) for side in sides
        )
        return first, second
    along = (parting.line[1] - parting.line[0]) / np.hypot(*(parting.line[1] - parting.line[0]))
    way = np.array([-along[1], along[0]])
    at = float(parting.line[0] @ way)
    below, above = half_of(hand, way, at - kerf / 2), half_of(hand, -way, -at - kerf / 2)
    is_below = float((hulls[_numbers(parting.sides[0])[0]] @ way).mean()) < at
    return (below, above) if is_below else (above, below)


def _freed(hull: Points, hand: BaseGeometry, kerf: float) -> Iterator[shapely.Polygon]:
    """Yield the offcuts of freeing one piece, each time by the cut that leaves most."""
    sides = following(hull) - hull
    ways = np.column_stack([sides[:, 1], -sides[:, 0]]) / np.hypot(sides[:, 0], sides[:, 1])[:, None]
    while True:
        ends = [(way, float((hull @ way).max())) for way in ways]
        beyond = [half_of(hand, -way, -at - kerf) for way, at in ends]
        best = int(np.argmax([each.area for each in beyond]))
        if beyond[best].area <= NO_AREA:
            return
        yield from polygons_of(beyond[best])
        hand = half_of(hand, *ends[best])


def _numbers(side: Parting | int) -> list[int]:
    """Return the pieces on one side of a cut."""
    if not isinstance(side, Parting):
        return [side]
    return [number for each in side.sides for number in _numbers(each)]
