"""Herringbone: a lying and a standing tile by turns, in courses that climb at 45 degrees.

With a = length and joint, b = width and joint, the lying face stands at (0, 0), the standing one at (0,
b), and the pair repeats by (b, b) and (-a, a). Grown by half a joint the two are the rectangles a x b and
b x a, and these fill the plane whatever a and b are: at height y the rectangles of one course cover
without a gap from x = b * floor((y - a) / b) to x = b * floor(y / b) + a, and the next course, moved by
(a, -a), begins just there. So one joint width can be kept with every size of tile, and none is refused;
where a is a multiple of b (system modularity) the joints line up from course to course as well.
"""

from __future__ import annotations

import msgspec
import numpy as np

from tilelayout.job.values import RectangleTile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.values import Cell

NAME = "Herringbone"
SUMMARY = "Lying and standing tiles by turns, each one's end against the next one's side."
SHAPES = frozenset({"rectangle"})


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Herringbone has no settings of its own; the layout's angle turns it to 45 degrees."""


def cell(tile: RectangleTile, joint: float, settings: Settings) -> Cell:
    """Return the pair of faces and its two vectors; the lying tile's lower left corner is (0, 0)."""
    a, b = tile.length + joint, tile.width + joint
    lying = face_with_corner(tile, 0.0, (0.0, 0.0))
    standing = face_with_corner(tile, 90.0, (0.0, b))
    return Cell(np.array([(b, b), (-a, a)]), (lying, standing), joint)
