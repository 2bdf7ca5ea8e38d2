"""Diamonds: rhombi standing on a point, in straight rows, each row half a diamond on.

Grown by half a joint all round, a rhombus of side s and angle A has the side s + joint / sin A; the lattice
is that of its two sides. Worked out from the geometry; the name is common practice.
"""

from __future__ import annotations

from math import cos, radians, sin

import msgspec
import numpy as np

from tilelayout.job.values import RhombusTile
from tilelayout.layout.placing import face_about
from tilelayout.layout.values import Cell

NAME = "Diamonds"
SUMMARY = "Rhombi standing on a point, side by side."
SHAPES = frozenset({"rhombus"})
START = "cross in the middle of the first tile"


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Diamonds have no settings of their own; the layout's angle lays them on their side."""


def cell(tile: RhombusTile, joint: float, settings: Settings) -> Cell:
    """Return one rhombus centred on (0, 0), the corner that the tile is measured at below."""
    angle = radians(tile.angle)
    side = tile.side + joint / sin(angle)
    across, up = side * sin(angle / 2), side * cos(angle / 2)
    face = face_about(tile, 90.0 - tile.angle / 2, (0.0, 0.0))
    return Cell(np.array([(2 * across, 0.0), (across, up)]), (face,), joint)
