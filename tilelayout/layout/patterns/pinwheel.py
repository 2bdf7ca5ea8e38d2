"""Pinwheel (also hopscotch): large squares, each with small ones at its four corners, turning one way.

With a the side of the large square and b that of the small one, a joint added to each, the pattern repeats by
(a, b) and (-b, a). It fills the plane whatever the ratio: the large square at (0, 0) and the small one on its
right at (a, 0) have together the area a * a + b * b of the cell, which is what the two vectors, at right
angles and each sqrt(a * a + b * b) long, enclose; and they overlap nothing, since along y from 0 to b the two
make a course of a + b that goes on in the next large square at (a + b, b - a), and along y from b to a the
large square meets its like at (a, b). (Two squares cut up into the one on the hypotenuse: the tiling behind
Pythagoras' theorem.) A joint of one width therefore goes with every pair of sizes. The names are common
practice.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import msgspec
import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.job.values import RectangleTile, Tile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.roles import SAME_SIZE, MoreTiles, Role, Size, size_of
from tilelayout.layout.values import Cell

NAME = "Pinwheel"
SUMMARY = "Large and small squares of any two sizes, the small ones about the large like vanes."
SHAPES = frozenset({"rectangle"})
USUAL = {"Pinwheel, turning left": {"turning": "left"}, "Pinwheel, turning right": {"turning": "right"}}
MORE_TILES = (Role("small", "small square"),)


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`turning`: which way a course steps aside at each small square, as seen going along it."""

    turning: Literal["left", "right"] = "left"


def cell(tile: RectangleTile, joint: float, settings: Settings, more: MoreTiles) -> Cell:
    """Return a large square with its corner at (0, 0) and the small one beside it.

    LayoutError if either is no square.
    """
    small = more["small"]
    for each in (tile, small):
        if not _is_square(each):
            raise LayoutError(f'{NAME} is laid with squares; "{each.title}" is none.', "Choose square tiles.")
    a, b = tile.length + joint, size_of(small)[0] + joint
    large = face_with_corner(tile, 0.0, (0.0, 0.0))
    if settings.turning == "left":
        beside = face_with_corner(small, 0.0, (a, 0.0))
        return Cell(np.array([(a, b), (-b, a)]), (large, beside), joint)
    beside = face_with_corner(small, 0.0, (a, a - b))
    return Cell(np.array([(a, -b), (b, a)]), (large, beside), joint)


def more_sizes(tile: RectangleTile, joint: float, settings: Settings) -> Mapping[str, Size]:
    """Return the usual small square: two of them and a joint are as long as the large one."""
    side = (tile.length - joint) / 2
    return {"small": (side, side)}


def suits(tile: RectangleTile, settings: Settings) -> bool:
    """Claim that the tile is a square."""
    return _is_square(tile)


def _is_square(tile: Tile) -> bool:
    long, short = size_of(tile)
    return long - short <= SAME_SIZE
