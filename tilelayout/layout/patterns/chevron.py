"""Chevron: columns of leaning tiles, rising and falling by turns, whose ends meet in straight spines.

The ends stand upright, so a column is as wide as length times sin(angle) and a tile takes (width + joint) /
sin(angle) of its height. The falling column is the rising one seen in a looking-glass. A tile cannot be
turned into its mirror image, so a parallelogram must come in left and right tiles; only a rhombus, which is
its own mirror image, does with one kind. A plain rectangle would have sawn ends at every joint and is not
taken. The name is common practice.
"""

from __future__ import annotations

from math import radians, sin

import msgspec
import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.job.values import ParallelogramTile, RhombusTile
from tilelayout.layout.faces import mirror_image, tile_outline
from tilelayout.layout.placing import face_with_point
from tilelayout.layout.values import Cell, Face, Points

NAME = "Chevron"
SUMMARY = "Leaning tiles in columns, rising and falling by turns, their ends in straight lines."
SHAPES = frozenset({"parallelogram", "rhombus"})
START = "cross at the foot of the first rising tile, one of them along its end"


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Chevron has no settings of its own: the tile's angle is that of the chevron."""


def cell(tile: ParallelogramTile | RhombusTile, joint: float, settings: Settings) -> Cell:
    """Return a tile whose left end stands on (0, 0) and its mirror image on the right of it.

    LayoutError if the tile comes in one hand only.
    """
    if not suits(tile, settings):
        raise LayoutError(
            f'{NAME} needs left and right tiles, and "{tile.title}" comes in one hand only.',
            "Choose a tile that is sold left and right (left_and_right), or lay this one in rows.",
        )
    lean, length = 90.0 - tile.angle, _long_side(tile)
    column = length * sin(radians(tile.angle))
    up = (_width(tile) + joint) / sin(radians(tile.angle))
    rising = face_with_point(tile, lean, _foot(tile), (0.0, 0.0))
    return Cell(
        np.array([(2 * (column + joint), 0.0), (0.0, up)]),
        (rising, _falling(tile, lean, 2 * column + joint)),
        joint,
    )


def suits(tile: ParallelogramTile | RhombusTile, settings: Settings) -> bool:
    """Claim that the tile is its own mirror image or comes with it."""
    return isinstance(tile, RhombusTile) or tile.left_and_right


def _falling(tile: ParallelogramTile | RhombusTile, lean: float, right: float) -> Face:
    """Return the mirror image of the rising tile: its right end stands on (`right`, 0)."""
    if isinstance(tile, RhombusTile):
        return face_with_point(tile, 90.0, _foot(tile), (right, 0.0))
    other = mirror_image(tile)
    foot = _foot(other) + np.array([tile.length, 0.0])
    return face_with_point(other, -lean, foot, (right, 0.0))


def _foot(tile: ParallelogramTile | RhombusTile) -> Points:
    """Return the lower left corner of the tile in its own coordinates (2,)."""
    return np.asarray(tile_outline(tile)[0])


def _long_side(tile: ParallelogramTile | RhombusTile) -> float:
    return tile.side if isinstance(tile, RhombusTile) else tile.length


def _width(tile: ParallelogramTile | RhombusTile) -> float:
    return tile.side * sin(radians(tile.angle)) if isinstance(tile, RhombusTile) else tile.width
