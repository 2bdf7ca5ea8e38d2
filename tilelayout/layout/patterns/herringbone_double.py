"""Double herringbone: two tiles side by side take the place of one in a herringbone.

With a = length and joint, b = width and joint, a lying pair takes a x 2b and a standing pair 2b x a, so
this is the herringbone of a tile twice as wide and fills the plane for the same reason, whatever the sizes.
The lying pair stands at (0, 0), the standing one at (0, 2b), and both repeat by (2b, 2b) and (-a, a). The
name is common practice.
"""

from __future__ import annotations

import msgspec
import numpy as np

from tilelayout.job.values import RectangleTile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.values import Cell

NAME = "Double herringbone"
SUMMARY = "Lying and standing pairs of tiles by turns."
SHAPES = frozenset({"rectangle"})


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Double herringbone has no settings of its own; the layout's angle turns it to 45 degrees."""


def cell(tile: RectangleTile, joint: float, settings: Settings) -> Cell:
    """Return both pairs and the two vectors; the lower left corner of the lower lying tile is (0, 0)."""
    a, b = tile.length + joint, tile.width + joint
    lying = (face_with_corner(tile, 0.0, (0.0, row * b)) for row in (0, 1))
    standing = (face_with_corner(tile, 90.0, (column * b, 2 * b)) for column in (0, 1))
    return Cell(np.array([(2 * b, 2 * b), (-a, a)]), (*lying, *standing), joint)
