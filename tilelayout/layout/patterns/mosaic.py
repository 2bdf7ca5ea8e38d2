"""Mosaic sheets in a plain grid, so that the chips of one sheet run on in the next.

They do only if the sheets are laid with the joint that the chips have between them.
"""

from __future__ import annotations

import msgspec
import numpy as np
from msgspec.structs import replace

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.values import MosaicTile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.values import Cell

NAME = "Mosaic sheets"
SUMMARY = "Mosaic sheets in a plain grid, their chips running through from sheet to sheet."
SHAPES = frozenset({"mosaic"})
START = "run along two edges of the first sheet and cross at its corner"

_SAME_JOINT = 0.005
"""Joints that differ by less are one: half of the last decimal that the error below names."""


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Sheets have no settings of their own."""


def cell(tile: MosaicTile, joint: float, settings: Settings) -> Cell:
    """Return one sheet. LayoutError, naming the joint that works, if the joint is not that of the chips."""
    if abs(joint - tile.chip_joint) > _SAME_JOINT + SAME_PLACE:
        raise LayoutError(
            f'A joint of {joint:.4g} mm would show where the sheets of "{tile.title}" meet.',
            f"Use a joint of {tile.chip_joint:.4g} mm, which its chips have, so that they run through.",
        )
    across, up = tile.sheet_length + tile.chip_joint, tile.sheet_width + tile.chip_joint
    face = face_with_corner(tile, 0.0, (0.0, 0.0))
    return Cell(np.array([(across, 0.0), (0.0, up)]), (face,), tile.chip_joint)


def likest(tile: MosaicTile, joint: float, settings: Settings) -> MosaicTile:
    """Return the sheet with another joint between its chips."""
    return replace(tile, chip_joint=joint)
