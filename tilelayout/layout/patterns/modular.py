"""Modular sets of two, three and four sizes, measured in modules of half a large square and its joint.

Four sizes: the classic set of 1 x 1, 2 x 1, 2 x 2 and 3 x 2 modules. A cell of 18 modules holds two small
squares, one half, two large squares and one oblong, the numbers in which such sets are sold (8, 8 x 16, 16
and 16 x 24 inches, joints counted in; from memory). Three sizes: one tile each of all but the oblong, in a
cell of seven modules. Two sizes: courses of squares with low courses of halves between, each shifted by half
a square; or squares and oblongs by turns in every course, each course shifted by a module.

The sets are common practice. The arrangements were found by trying all there are on a raster: in none do four
corners meet, and of all those no other has shorter straight joints (four modules for the set of four sizes,
five for that of three).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import msgspec

from tilelayout.job.values import RectangleTile
from tilelayout.layout.modular import OWN, ModularSet, Part, is_square
from tilelayout.layout.roles import MoreTiles, Role, Size
from tilelayout.layout.values import Cell

NAME = "Modular set"
SUMMARY = "Squares and oblongs of two, three or four sizes that are whole numbers of one module."
SHAPES = frozenset({"rectangle"})
USUAL = {
    "Modular, four sizes": {"sizes": "four"},
    "Modular, three sizes": {"sizes": "three"},
    "Squares and halves": {"sizes": "two"},
    "Squares and oblongs": {"sizes": "two-oblong"},
}
START = "run along two edges of the first large square and cross at its corner"

_SETS = {
    "two": ModularSet((Part(OWN, (0, 0)), Part("half", (1, 2))), ((2, 0), (0, 3))),
    "two-oblong": ModularSet((Part(OWN, (0, 0)), Part("oblong", (2, 0))), ((5, 0), (1, 2))),
    "three": ModularSet(
        (Part(OWN, (0, 0)), Part("small", (3, 0)), Part("half", (4, 0), is_upright=True)), ((7, 0), (2, 1))
    ),
    "four": ModularSet(
        (
            Part(OWN, (0, 0)),
            Part("small", (2, 0)),
            Part(OWN, (2, 1)),
            Part("half", (4, 1)),
            Part("oblong", (-2, 2)),
            Part("small", (1, 2)),
        ),
        ((6, 0), (1, 3)),
    ),
}


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`sizes`: which set; "two" has halves beside the squares, "two-oblong" has oblongs."""

    sizes: Literal["two", "two-oblong", "three", "four"] = "four"


def roles(settings: Settings) -> tuple[Role, ...]:
    """Return the roles of the tiles beside the large square."""
    return _SETS[settings.sizes].roles


def cell(tile: RectangleTile, joint: float, settings: Settings, more: MoreTiles) -> Cell:
    """Return the cell, a large square at (0, 0). LayoutError, naming what would do, if one does not fit."""
    return _SETS[settings.sizes].cell(tile, joint, more)


def more_sizes(tile: RectangleTile, joint: float, settings: Settings) -> Mapping[str, Size]:
    """Return the sizes that are modular with the large square."""
    return _SETS[settings.sizes].sizes(tile, joint)


def suits(tile: RectangleTile, settings: Settings) -> bool:
    """Claim that the tile is a square."""
    return is_square(tile)
