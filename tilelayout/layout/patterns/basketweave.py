"""Basketweave: squares of two or three tiles side by side, lying and standing by turns.

A square of n tiles is closed on all sides only if the tile is as long as n widths and the joints between them
(system modularity); then every joint has one width. Otherwise the tile is refused with the joint or the size
that would do. The names are common practice.
"""

from __future__ import annotations

from typing import Literal

import msgspec
import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.job.limits import JOINT
from tilelayout.job.values import RectangleTile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.values import Cell

NAME = "Basketweave"
SUMMARY = "Squares of two or three tiles side by side, lying and standing by turns."
SHAPES = frozenset({"rectangle"})
USUAL = {"Basketweave of pairs": {"tiles": 2}, "Basketweave of threes": {"tiles": 3}}

_SAME = 0.02
"""So many mm the length may be out: less than the second decimal of the joint that an error names makes."""

_WORDS = {2: "two widths and a joint", 3: "three widths and two joints"}


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`tiles`: how many lie side by side in a square."""

    tiles: Literal[2, 3] = 2


def cell(tile: RectangleTile, joint: float, settings: Settings) -> Cell:
    """Return a lying square at (0, 0) and the standing one on its right.

    LayoutError, naming what would do, if the tile is not as long as its square is wide.
    """
    count = settings.tiles
    if abs(tile.length - _length(tile.width, joint, count)) > _SAME:
        raise _misfit(tile, joint, count)
    side = tile.length + joint
    step = (tile.length - tile.width) / (count - 1)
    lying = (face_with_corner(tile, 0.0, (0.0, k * step)) for k in range(count))
    standing = (face_with_corner(tile, 90.0, (side + k * step, 0.0)) for k in range(count))
    return Cell(np.array([(2 * side, 0.0), (side, side)]), (*lying, *standing), joint)


def suits(tile: RectangleTile, settings: Settings) -> bool:
    """Claim that some joint makes the tile fit."""
    return 0.0 < _joint(tile, settings.tiles) <= JOINT.most


def likest(tile: RectangleTile, joint: float, settings: Settings) -> RectangleTile:
    """Return the tile of the same width that fits with this joint."""
    return msgspec.structs.replace(tile, length=_length(tile.width, joint, settings.tiles))


def _length(width: float, joint: float, count: int) -> float:
    return count * width + (count - 1) * joint


def _joint(tile: RectangleTile, count: int) -> float:
    return (tile.length - count * tile.width) / (count - 1)


def _misfit(tile: RectangleTile, joint: float, count: int) -> LayoutError:
    needed = _length(tile.width, joint, count)
    width = (tile.length - (count - 1) * joint) / count
    what = (
        f"{NAME} needs a tile as long as {_WORDS[count]}, {needed:.6g} mm with a joint of {joint:.4g} mm; "
        f'"{tile.title}" is {tile.length:.6g} mm long.'
    )
    sizes = f"a tile {needed:.6g} mm long"
    if width >= 1.0:
        sizes += f" or {width:.6g} mm wide"
    fitting = _joint(tile, count)
    if 0.0 <= fitting <= JOINT.most:
        return LayoutError(
            what, f"Use a joint of {fitting:.2f} mm with this tile, or {sizes} with this joint."
        )
    return LayoutError(what, f"No joint makes this tile fit: use {sizes}.")
