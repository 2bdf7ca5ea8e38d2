"""Triangles: equilateral tiles in straight rows, pointing up and down by turns.

Grown by half a joint all round, a triangle of side s has the side s + sqrt(3) joints, which is the pitch
along a row; two such triangles, one turned by half, make the rhombus that repeats. Worked out from the
geometry.
"""

from __future__ import annotations

from math import sqrt

import msgspec
import numpy as np

from tilelayout.job.values import TriangleTile
from tilelayout.layout.placing import face_with_corner, face_with_origin
from tilelayout.layout.values import Cell

NAME = "Triangles"
SUMMARY = "Equilateral triangles in rows, pointing up and down by turns."
SHAPES = frozenset({"triangle"})


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Triangles have no settings of their own."""


def cell(tile: TriangleTile, joint: float, settings: Settings) -> Cell:
    """Return a triangle pointing up, its lower left corner at (0, 0), and one pointing down on its right."""
    pitch = tile.side + sqrt(3.0) * joint
    tall = pitch * sqrt(3.0) / 2
    left, low = -joint * sqrt(3.0) / 2, -joint / 2  # where the corner of the grown triangle stands
    up = face_with_corner(tile, 0.0, (0.0, 0.0))
    down = face_with_origin(tile, 180.0, (2 * left + 1.5 * pitch, 2 * low + tall))
    return Cell(np.array([(pitch, 0.0), (pitch / 2, tall)]), (up, down), joint)
