"""Modular sets: tiles of several sizes that are whole numbers of modules, a joint counted to each side.

With a module m, a side of n modules is n * m - joint long; so n short sides and the n - 1 joints between them
make a long one (system modularity, ANSI A137.1), and any arrangement that fills a raster of modules keeps one
joint. The layout's own tile is the square of two modules, from which the module follows.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.job.values import RectangleTile, Tile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.roles import SAME_SIZE, Fit, MoreTiles, Role, Size, is_of_size, size_of
from tilelayout.layout.values import Cell, Face

OWN = ""
"""Stands for the layout's own tile where a role is named."""

OWN_MODULES = (2, 2)

_MODULES = {OWN: OWN_MODULES, "small": (1, 1), "half": (2, 1), "oblong": (3, 2)}
_ROLES = {
    "small": Role("small", "small square (1 × 1 module)"),
    "half": Role("half", "half (2 × 1 modules)"),
    "oblong": Role("oblong", "oblong (3 × 2 modules)"),
}


@dataclass(frozen=True)
class Part:
    """One tile of an arrangement, by its role; `at` is its lower left corner in modules."""

    role: str
    at: tuple[int, int]
    is_upright: bool = False


@dataclass(frozen=True)
class ModularSet:
    """An arrangement of tiles that repeats by two `vectors`, in modules; the first part is the own tile."""

    parts: tuple[Part, ...]
    vectors: tuple[tuple[int, int], tuple[int, int]]

    @property
    def roles(self) -> tuple[Role, ...]:
        """The roles beside the own tile, the largest first."""
        named = dict.fromkeys(part.role for part in self.parts if part.role != OWN)
        return tuple(
            _ROLES[name] for name in sorted(named, key=lambda name: np.prod(_MODULES[name]), reverse=True)
        )

    def cell(self, tile: RectangleTile, joint: float, more: MoreTiles) -> Cell:
        """Return the cell, the own tile's corner at (0, 0). LayoutError if a tile is not modular."""
        self._check(tile, joint, more)
        module = _module(tile, joint)
        heights = sorted({part.at[1] for part in self.parts})
        by_role = {OWN: tile, **more}
        faces = tuple(
            _face(part, by_role[part.role], module, heights.index(part.at[1])) for part in self.parts
        )
        return Cell(np.array(self.vectors) * module, faces, joint)

    def _check(self, tile: RectangleTile, joint: float, more: MoreTiles) -> None:
        if not is_square(tile):
            what = f'A modular set is laid by its large square, and "{tile.title}" is no square.'
            raise LayoutError(what, "Choose the square tile as the layout's own.")
        joints = [each for role in self.roles for each in _joints(tile, more[role.name], role)]
        Fit("the modular set", self.roles, lambda joint: self.sizes(tile, joint)).check(more, joint, joints)

    def sizes(self, tile: RectangleTile, joint: float) -> Mapping[str, Size]:
        """Return the size of each role that is modular with the own tile."""
        module = _module(tile, joint)
        return {
            role.name: (_MODULES[role.name][0] * module - joint, _MODULES[role.name][1] * module - joint)
            for role in self.roles
        }


def is_square(tile: Tile) -> bool:
    """Claim that the tile is a square."""
    long, _ = size_of(tile)
    return is_of_size(tile, (long, long))


def _module(tile: RectangleTile, joint: float) -> float:
    return (tile.length + joint) / OWN_MODULES[0]


def _joints(tile: RectangleTile, other: Tile, role: Role) -> list[float]:
    """Return the joints with which a side of the other tile is modular with the own one."""
    sides = zip(_MODULES[role.name], size_of(other), strict=True)
    own = OWN_MODULES[0]
    return [(own * side - n * tile.length) / (n - own) for n, side in sides if n != own]


def _face(part: Part, tile: Tile, module: float, course: int) -> Face:
    """Set a tile down, its longer side along x, or along y if it stands upright."""
    stands = isinstance(tile, RectangleTile) and tile.length < tile.width - SAME_SIZE
    turn = 90.0 if part.is_upright != stands else 0.0
    x, y = part.at
    return face_with_corner(tile, turn, (x * module, y * module), course)
