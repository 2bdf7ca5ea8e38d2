"""The further tiles of a pattern whose cell holds tiles of several sizes or shapes: the dot of an octagon.

The layout's own tile gives the measure; each role beside it is filled by a tile of its own. A role is tied
to the tile and the joint by a size (system modularity, ANSI A137.1: a long side is n short sides and the
n - 1 joints between them), and a tile of any other size would need joints of two widths.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import get_args

import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.limits import JOINT, TILE_SIZE
from tilelayout.job.values import RectangleTile, Tile
from tilelayout.layout.faces import tile_outline

MoreTiles = Mapping[str, Tile]
"""The tile that fills each role, by the role's name."""

Size = tuple[float, float]
"""Length and width in mm, the longer first."""

NO_MORE: MoreTiles = MappingProxyType({})
RECTANGLES = frozenset({"rectangle"})
ANY_SHAPE = frozenset(str(kind.__struct_config__.tag) for kind in get_args(Tile))

SAME_SIZE = 0.02
"""So many mm a size may be out: less than the second decimal of the joint that an error names makes."""


@dataclass(frozen=True)
class Role:
    """A further tile of a pattern: its `name` in the job file, `words` for people, the `shapes` it takes."""

    name: str
    words: str
    shapes: frozenset[str] = RECTANGLES


def size_of(tile: Tile) -> Size:
    """Return the length and width of the tile's box in mm, the longer first."""
    long, short = sorted(np.ptp(tile_outline(tile), axis=0).tolist(), reverse=True)
    return long, short


def is_of_size(tile: Tile, size: Size) -> bool:
    """Claim that no side is out by more than `SAME_SIZE`."""
    return all(
        abs(own - wanted) <= SAME_SIZE + SAME_PLACE for own, wanted in zip(size_of(tile), size, strict=True)
    )


def size_words(size: Size) -> str:
    """Return a size as an error names it.

    >>> size_words((147.5, 147.5)), size_words((300.0, 97.0))
    ('147.5 mm square', '300 × 97 mm')
    """
    long, short = size
    is_square = abs(long - short) < SAME_SIZE
    return f"{long:.5g} mm square" if is_square else f"{long:.5g} × {short:.5g} mm"


def tile_of_size(id: str, size: Size) -> RectangleTile:
    """Return a rectangle of this size."""
    return RectangleTile(id=id, length=size[0], width=size[1])


def can_be_made(size: Size) -> bool:
    """Claim that a tile may be of this size."""
    return all(TILE_SIZE.least <= side <= TILE_SIZE.most for side in size)


def missing(pattern: str, role: Role, size: Size | None, joint: float) -> LayoutError:
    """Return the error for a role that nothing fills; `size` is what would fit, None if nothing is known."""
    what = f"{pattern} needs a further tile, the {role.words}."
    if size is None:
        return LayoutError(what, f'Name a tile for it: "more_tiles": {{"{role.name}": "..."}}.')
    if not can_be_made(size):
        return no_room(role, joint)
    return LayoutError(what, f"Add one of {size_words(size)}; it fits with a joint of {joint:.4g} mm.")


def no_room(role: Role, joint: float) -> LayoutError:
    """Return the error for a role that no tile can fill with this tile and joint."""
    what = f"There is no room for the {role.words} with this tile and a joint of {joint:.4g} mm."
    return LayoutError(what, "Use a narrower joint or a larger tile.")


SizesBy = Callable[[float], Mapping[str, Size]]
"""The size that each role must have, by the joint."""


@dataclass(frozen=True)
class Fit:
    """How the roles of a pattern are tied to its tile: `sizes` follow from the joint."""

    pattern: str
    roles: tuple[Role, ...]
    sizes: SizesBy

    def check(self, more: MoreTiles, joint: float, joints: Iterable[float]) -> None:
        """Raise LayoutError, naming the joint and the size that would do, unless every tile has its size.

        `joints` are those with which one of the tiles fits; one with which all do is named.
        """
        wanted = self.sizes(joint)
        for role in self.roles:
            if not can_be_made(wanted[role.name]):
                raise no_room(role, joint)
            if not is_of_size(more[role.name], wanted[role.name]):
                raise self._misfit(role, more, joint, self._common(more, joints))

    def _common(self, more: MoreTiles, joints: Iterable[float]) -> float | None:
        """Return the first joint with which all tiles fit, as an error writes it; None if there is none."""
        for joint in (round(each, 2) for each in joints):
            wanted = self.sizes(joint)
            if 0.0 <= joint <= JOINT.most and all(is_of_size(more[name], wanted[name]) for name in wanted):
                return joint
        return None

    def _misfit(self, role: Role, more: MoreTiles, joint: float, common: float | None) -> LayoutError:
        tile, size = more[role.name], size_words(self.sizes(joint)[role.name])
        what = (
            f"With a joint of {joint:.4g} mm the {role.words} must be {size}; "
            f'"{tile.title}" is {size_words(size_of(tile))}.'
        )
        if common is None:
            return LayoutError(what, f"No joint makes these tiles fit {self.pattern}: use one of {size}.")
        return LayoutError(what, f"Use a joint of {common:.2f} mm with these tiles, or a tile of {size}.")
