"""Rows: plain grid, half bond, stepped and alternating thirds, any row offsets; of leaning tiles too.

Row k is shifted by `row_offsets[k mod n]` of a coordinating length (length and joint, measured along the
row), and where the tile leans each row begins where the ends of the one below lead. Where every row is
shifted from the one below by the same amount, and the last leads back to the first, one tile repeats over a
leaning lattice; otherwise the n rows together are the cell.
"""

from __future__ import annotations

from math import cos, isfinite, radians, sin
from typing import Annotated

import msgspec
import numpy as np

from tilelayout.job.values import ParallelogramTile, RectangleTile, RhombusTile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.placing import face_with_point
from tilelayout.layout.values import Cell, Points

NAME = "Rows"
SUMMARY = "Straight rows: a plain grid, or each row shifted along the one below (running bond)."
SHAPES = frozenset({"rectangle", "parallelogram", "rhombus"})

THIRD = 1 / 3
USUAL = {
    "Plain grid": {"row_offsets": (0.0,)},
    "Half bond": {"row_offsets": (0.0, 0.5)},
    "Stepped third": {"row_offsets": (0.0, THIRD, 2 * THIRD)},
    "Alternating third": {"row_offsets": (0.0, THIRD)},
}

RowTile = RectangleTile | ParallelogramTile | RhombusTile

_SAME_STEP = 1e-12
"""Offsets that differ by less are one offset; thirds written as floats differ by 1e-16."""


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`row_offsets`: the shift of each row in coordinating lengths, repeating from the bottom up."""

    row_offsets: Annotated[tuple[float, ...], msgspec.Meta(min_length=1, max_length=60)] = (0.0,)

    def __post_init__(self) -> None:
        if not all(isfinite(offset) for offset in self.row_offsets):
            raise ValueError("a row offset must be a finite number")


def cell(tile: RowTile, joint: float, settings: Settings) -> Cell:
    """Return the cell of these rows; the tile in row 0 stands at (0, 0) moved by its row's offset."""
    along, up, lean = _pitches(tile, joint)
    offsets = np.array(settings.row_offsets) % 1.0  # by whole lengths a row is shifted onto itself
    step = _common_step(offsets)
    if step is not None:
        offsets, leading = offsets[:1], (step * along + lean, up)
    else:
        leading = (lean * len(offsets), up * len(offsets))
    foot = tile_outline(tile)[0]
    faces = tuple(
        face_with_point(tile, 0.0, foot, (float(offset) * along + row * lean, row * up), course=row)
        for row, offset in enumerate(offsets)
    )
    return Cell(np.array([(along, 0.0), leading]), faces, joint)


def _pitches(tile: RowTile, joint: float) -> tuple[float, float, float]:
    """Return the coordinating length along a row, the height of a row, and by how much it leans."""
    if isinstance(tile, RectangleTile):
        return tile.length + joint, tile.width + joint, 0.0
    angle = radians(tile.angle)
    length, width = (
        (tile.side, tile.side * sin(angle)) if isinstance(tile, RhombusTile) else (tile.length, tile.width)
    )
    up = width + joint
    return length + joint / sin(angle), up, up * cos(angle) / sin(angle)


def _common_step(offsets: Points) -> float | None:
    """Return the shift (-1/2 .. 1/2) from every row to the next if it is always the same, else None."""
    steps = np.roll(offsets, -1) - offsets
    step = float(steps[0] - np.round(steps[0]))
    strays = (steps - step) - np.round(steps - step)
    return step if bool(np.all(np.abs(strays) < _SAME_STEP)) else None
