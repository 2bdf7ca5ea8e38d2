"""Windmill: four oblong tiles about a small square, like vanes, and the blocks so made side by side.

With a the length and b the width of the oblong tile, a joint added to each, a block is a square of a + b, and
the middle is one of a - b: the small square must measure length - width - joint. The name is common practice.
"""

from __future__ import annotations

from collections.abc import Mapping

import msgspec
import numpy as np

from tilelayout.job.values import RectangleTile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.roles import Fit, MoreTiles, Role, Size, size_of
from tilelayout.layout.values import Cell

NAME = "Windmill"
SUMMARY = "Four oblong tiles about a small square, in blocks."
SHAPES = frozenset({"rectangle"})
MORE_TILES = (Role("centre", "small square in the centre of four"),)


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A windmill has no settings of its own."""


def cell(tile: RectangleTile, joint: float, settings: Settings, more: MoreTiles) -> Cell:
    """Return a block with the corner of its lower tile at (0, 0).

    LayoutError, naming what would do, if the small square is of another size than fits.
    """
    centre = more["centre"]
    fit = Fit(NAME, MORE_TILES, lambda joint: more_sizes(tile, joint, settings))
    fit.check(more, joint, [tile.length - tile.width - side for side in size_of(centre)])
    a, b = tile.length + joint, tile.width + joint
    faces = (
        face_with_corner(tile, 0.0, (0.0, 0.0)),
        face_with_corner(tile, 90.0, (a, 0.0)),
        face_with_corner(tile, 90.0, (0.0, b), course=1),
        face_with_corner(centre, 0.0, (b, b), course=1),
        face_with_corner(tile, 0.0, (b, a), course=2),
    )
    return Cell(np.array([(a + b, 0.0), (0.0, a + b)]), faces, joint)


def more_sizes(tile: RectangleTile, joint: float, settings: Settings) -> Mapping[str, Size]:
    """Return the size of the small square that keeps the joint."""
    side = tile.length - tile.width - joint
    return {"centre": (side, side)}


def suits(tile: RectangleTile, settings: Settings) -> bool:
    """Claim that the tile is oblong enough for a hole between four to be worth a tile."""
    return tile.length - tile.width >= tile.width / 4
