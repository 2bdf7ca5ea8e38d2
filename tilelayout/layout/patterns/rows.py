"""Rows: plain grid, half bond, stepped and alternating thirds, any row offsets.

Row k is shifted by `row_offsets[k mod n]` of a coordinating length (length and joint). Where every row is
shifted from the one below by the same amount, and the last leads back to the first, one tile repeats over
a leaning lattice; otherwise the n rows together are the cell.
"""

from __future__ import annotations

from math import isfinite
from typing import Annotated

import msgspec
import numpy as np

from tilelayout.job.values import RectangleTile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.values import Cell, Points

NAME = "Rows"
SUMMARY = "Straight rows: a plain grid, or each row shifted along the one below (running bond)."
SHAPES = frozenset({"rectangle"})

_SAME_STEP = 1e-12
"""Offsets that differ by less are one offset; thirds written as floats differ by 1e-16."""


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`row_offsets`: the shift of each row in coordinating lengths, repeating from the bottom up."""

    row_offsets: Annotated[tuple[float, ...], msgspec.Meta(min_length=1, max_length=60)] = (0.0,)

    def __post_init__(self) -> None:
        if not all(isfinite(offset) for offset in self.row_offsets):
            raise ValueError("a row offset must be a finite number")


def cell(tile: RectangleTile, joint: float, settings: Settings) -> Cell:
    """Return the cell of these rows; the tile in row 0 stands at (0, 0) moved by its row's offset."""
    along, up = tile.length + joint, tile.width + joint
    offsets = np.array(settings.row_offsets) % 1.0  # by whole lengths a row is shifted onto itself
    step = _common_step(offsets)
    if step is not None:
        offsets, leading = offsets[:1], (step * along, up)
    else:
        leading = (0.0, up * len(offsets))
    faces = tuple(
        face_with_corner(tile, 0.0, (float(offset) * along, row * up), course=row)
        for row, offset in enumerate(offsets)
    )
    return Cell(np.array([(along, 0.0), leading]), faces, joint)


def _common_step(offsets: Points) -> float | None:
    """Return the shift (-1/2 .. 1/2) from every row to the next if it is always the same, else None."""
    steps = np.roll(offsets, -1) - offsets
    step = float(steps[0] - np.round(steps[0]))
    strays = (steps - step) - np.round(steps - step)
    return step if bool(np.all(np.abs(strays) < _SAME_STEP)) else None
