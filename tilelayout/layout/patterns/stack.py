"""Vertical stack: tiles that stand, in columns; each column straight, or shifted up beside the last.

Column k stands k coordinating widths (width and joint) to the right of column 0 and is shifted up by
`column_offsets[k mod n]` of a coordinating length. A course runs across the columns, up and down with them.
The names are common practice.
"""

from __future__ import annotations

from math import isfinite
from typing import Annotated

import msgspec
import numpy as np

from tilelayout.job.values import RectangleTile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.values import Cell

NAME = "Vertical stack"
SUMMARY = "Standing tiles in columns, straight up or each column shifted up beside the last."
SHAPES = frozenset({"rectangle"})

THIRD = 1 / 3
USUAL = {
    "Vertical stack": {"column_offsets": (0.0,)},
    "Vertical half bond": {"column_offsets": (0.0, 0.5)},
    "Vertical third": {"column_offsets": (0.0, THIRD, 2 * THIRD)},
}


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`column_offsets`: how far up each column is shifted, in coordinating lengths, repeating to the
    right."""

    column_offsets: Annotated[tuple[float, ...], msgspec.Meta(min_length=1, max_length=60)] = (0.0,)

    def __post_init__(self) -> None:
        if not all(isfinite(offset) for offset in self.column_offsets):
            raise ValueError("a column offset must be a finite number")


def cell(tile: RectangleTile, joint: float, settings: Settings) -> Cell:
    """Return one tile of each column; the one in column 0 stands at (0, 0) moved up by its offset."""
    across, up = tile.width + joint, tile.length + joint
    offsets = np.array(settings.column_offsets) % 1.0  # by whole lengths a column is shifted onto itself
    if np.ptp(offsets) < 1e-12:
        offsets = offsets[:1]
    faces = tuple(
        face_with_corner(tile, 90.0, (column * across, float(offset) * up))
        for column, offset in enumerate(offsets)
    )
    return Cell(np.array([(across * len(offsets), 0.0), (0.0, up)]), faces, joint)
