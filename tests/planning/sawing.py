"""Saws a tile on paper, cut by cut, to see what the cuts of a cut list leave."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tilelayout.offcuts.opened import OpenedTile
from tilelayout.planning.saw_list import SawList, SawStep


def split(part: BaseGeometry, step: SawStep, kerf: float) -> Iterator[BaseGeometry]:
    """Yield what a blade leaves of a part on either side of its run."""
    start, end = step.cut.line
    along = (end - start) / np.hypot(*(end - start))
    square = np.array([-along[1], along[0]])
    for side in (1, -1):
        edge = start + side * square * kerf / 2
        corners = [edge - 9e3 * along, edge + 9e3 * along]
        far = [corner + side * 9e3 * square for corner in reversed(corners)]
        yield part.intersection(shapely.Polygon([*corners, *far]))


def sawn(tile: OpenedTile, steps: tuple[SawStep, ...]) -> dict[str, BaseGeometry]:
    """Saw a tile and return the part in which each piece then is."""
    parts: dict[str, BaseGeometry] = {each.piece: shapely.Polygon(tile.blank.outline) for each in tile.pieces}
    shapes = {each.piece: shapely.Polygon(each.outline) for each in tile.pieces}
    for step in steps:
        for piece in step.cut.pieces:
            halves = split(parts[piece], step, tile.blank.saw.kerf)
            loose = [part for half in halves for part in shapely.get_parts(half)]
            shared = [float(shapely.area(part & shapes[piece])) for part in loose]
            parts[piece] = loose[int(np.argmax(shared))]
    return parts


def every_piece_comes_out(found: SawList, tile: OpenedTile) -> bool:
    """Tell whether each piece of a tile is whole in its part; if nothing is left by hand, it is that part."""
    by_hand = {work.name for work in found.by_hand}
    parts = sawn(tile, found.steps_of.get(tile.number, ()))
    for each in tile.pieces:
        shape, part = shapely.Polygon(each.outline), parts[each.piece]
        is_exact = each.piece in by_hand or abs(part.area - shape.area) <= 1e-4 * shape.area
        if not is_exact or shape.difference(part.buffer(1e-3)).area >= 1e-3:
            return False
    return True
