"""The tile in words: its measured size, whatever its shape, and how many of each hand are needed."""

from __future__ import annotations

import numpy as np

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.values import (
    HexagonTile,
    ParallelogramTile,
    PicketTile,
    PolygonTile,
    RectangleTile,
    RhombusTile,
    Tile,
    TriangleTile,
)
from tilelayout.layout.faces import tile_outline
from tilelayout.offcuts.one_each import hands_needed
from tilelayout.planning.plan import Plan


def tile_size(tile: Tile, style: LengthStyle) -> str:
    """Return the measured size of a tile ("597 mm × 297 mm"), after the name of any shape but a rectangle."""

    def said(size: float) -> str:
        return format_length(size, style)

    match tile:
        case RectangleTile():
            words = f"{said(tile.length)} × {said(tile.width)}"
        case HexagonTile():
            words = f"hexagon, {said(tile.across_flats)} across flats"
        case ParallelogramTile():
            hands = ", left and right" if tile.left_and_right else ""
            words = f"parallelogram, {said(tile.length)} × {said(tile.width)}, {tile.angle:g}°{hands}"
        case RhombusTile():
            words = f"rhombus, side {said(tile.side)}, {tile.angle:g}°"
        case TriangleTile():
            words = f"triangle, side {said(tile.side)}"
        case PicketTile():
            words = f"picket, {said(tile.length)} × {said(tile.width)}, points of {said(tile.point)}"
        case PolygonTile():
            length, width = np.ptp(tile_outline(tile), axis=0).tolist()
            words = f"drawn, {said(length)} × {said(width)} over all"
    return words


def hand_words(plan: Plan) -> str:
    """Return a sentence on how many of the tiles are left and right ones; "" if the tile has no hands."""
    hands = hands_needed(plan.laid)
    return "" if hands is None else f"{hands[0]} of the tiles are left and {hands[1]} right ones."
