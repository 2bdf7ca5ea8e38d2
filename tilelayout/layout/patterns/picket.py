"""Pickets: strips with a point at either end, standing side by side, one row's points in the next.

The sides of neighbouring points run parallel, a joint apart. With a the length, p the height of a point, w
the width and j the joint, a row stands a - p and a rise for the joint above the last, and half a pitch (w +
j) on. The rise is such that a joint's width is left square to the sides of the points: (2 j d - j p) / w,
where d is half the length of such a side's run, hypot(p, w / 2). Worked out from the geometry; the name is
common practice.
"""

from __future__ import annotations

from math import hypot

import msgspec
import numpy as np

from tilelayout.job.values import PicketTile
from tilelayout.layout.placing import face_about
from tilelayout.layout.values import Cell

NAME = "Pickets"
SUMMARY = "Standing pickets side by side, the points of one row between those of the next."
SHAPES = frozenset({"picket"})
START = "cross in the middle of the first tile"


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Pickets have no settings of their own; the layout's angle lays them down."""


def cell(tile: PicketTile, joint: float, settings: Settings) -> Cell:
    """Return one picket centred on (0, 0)."""
    pitch = tile.width + joint
    slope = hypot(tile.point, tile.width / 2)
    rise = tile.length - tile.point + joint * (2 * slope - tile.point) / tile.width
    face = face_about(tile, 90.0, (0.0, 0.0))
    return Cell(np.array([(pitch, 0.0), (pitch / 2, rise)]), (face,), joint)
