"""Tumbling blocks: three rhombi of 60 degrees, each turned a third on, make the picture of a cube.

The three meet at their wide corners and together are a regular hexagon, which repeats as hexagons do. Only an
angle of 60 (or 120) degrees closes the ring. Worked out from the geometry; the name is common practice.
"""

from __future__ import annotations

from math import radians, sin, sqrt

import msgspec
import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.geometry.turns import turning
from tilelayout.job.values import RhombusTile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.placing import face_with_point
from tilelayout.layout.values import Cell

NAME = "Tumbling blocks"
SUMMARY = "Rhombi of 60 degrees in threes, which look like cubes."
SHAPES = frozenset({"rhombus"})
START = "cross where the first three tiles meet"

_SAME_ANGLE = 1e-9
_WIDE_CORNER = {60.0: 1, 120.0: 0}


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Tumbling blocks have no settings of their own."""


def cell(tile: RhombusTile, joint: float, settings: Settings) -> Cell:
    """Return three rhombi about (0, 0). LayoutError if the tile has another angle than 60 degrees."""
    if not suits(tile, settings):
        raise LayoutError(
            f'{NAME} need a rhombus of 60 degrees; "{tile.title}" has {tile.angle:g}.',
            "Choose such a tile, or lay this one as diamonds.",
        )
    wide = _WIDE_CORNER[round(tile.angle)]
    corner = tile_outline(tile)[wide]
    to_middle = tile_outline(tile).mean(axis=0) - corner
    reach = joint / 2 / sin(radians(60.0))  # from the crossing of three joints to the corner of a tile
    lead = -float(np.degrees(np.arctan2(to_middle[1], to_middle[0])))
    faces = []
    for third in (90.0, 210.0, 330.0):
        x, y = (np.array([(reach, 0.0)]) @ turning(third))[0]
        faces.append(face_with_point(tile, lead + third, corner, (float(x), float(y))))
    pitch = (tile.side + joint / sin(radians(60.0))) * sqrt(3.0)
    return Cell(np.array([(pitch, 0.0), (pitch / 2, pitch * sqrt(3.0) / 2)]), tuple(faces), joint)


def suits(tile: RhombusTile, settings: Settings) -> bool:
    """Claim that the tile's angle closes the ring."""
    return min(abs(tile.angle - 60.0), abs(tile.angle - 120.0)) < _SAME_ANGLE
