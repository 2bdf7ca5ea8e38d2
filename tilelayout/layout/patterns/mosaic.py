"""Mosaic sheets side by side and row over row, so that the chips of one sheet run on in the next.

Sheets of hexagons or round chips interlock: their zigzag edges lie in one another. The chips run on only if
the sheets are laid with the joint that the chips have between them.
"""

from __future__ import annotations

import msgspec
import numpy as np
from msgspec.structs import replace

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.values import MosaicSheet, MosaicTile, OffsetSheet
from tilelayout.layout.offset_sheets import chips_of_sheet, outlines_of_chips, sheet_vectors
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.values import Cell

NAME = "Mosaic sheets"
SUMMARY = "Mosaic sheets in a plain grid, their chips running through from sheet to sheet."
SHAPES = frozenset({"mosaic", "hexagon-mosaic", "round-mosaic"})
START = "run along two edges of the first sheet and cross at its corner"
STARTS = dict.fromkeys(
    ("hexagon-mosaic", "round-mosaic"), "cross in the middle of the first chip of the first sheet"
)

_SAME_JOINT = 0.005
"""Joints that differ by less are one: half of the last decimal that the error below names."""


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Sheets have no settings of their own."""


def cell(tile: MosaicTile | OffsetSheet, joint: float, settings: Settings) -> Cell:
    """Return one sheet. LayoutError, naming the joint that works, if the joint is not that of the chips."""
    if abs(joint - tile.chip_joint) > _SAME_JOINT + SAME_PLACE:
        raise LayoutError(
            f'A joint of {joint:.4g} mm would show where the sheets of "{tile.title}" meet.',
            f"Use a joint of {tile.chip_joint:.4g} mm, which its chips have, so that they run through.",
        )
    if isinstance(tile, OffsetSheet):
        return _interlocking(tile)
    across, up = tile.sheet_length + tile.chip_joint, tile.sheet_width + tile.chip_joint
    face = face_with_corner(tile, 0.0, (0.0, 0.0))
    return Cell(np.array([(across, 0.0), (0.0, up)]), (face,), tile.chip_joint)


def _interlocking(tile: OffsetSheet) -> Cell:
    """Return a sheet whose first chip has its centre at (0, 0)."""
    (outline,) = outlines_of_chips(tile, chips_of_sheet(tile))
    left, low = outline.min(axis=0).tolist()
    return Cell(sheet_vectors(tile), (face_with_corner(tile, 0.0, (left, low)),), tile.chip_joint)


def likest(tile: MosaicSheet, joint: float, settings: Settings) -> MosaicSheet:
    """Return the sheet with another joint between its chips."""
    return replace(tile, chip_joint=joint)
