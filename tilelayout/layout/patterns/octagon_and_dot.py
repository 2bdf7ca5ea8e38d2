"""Octagon and dot: octagons side by side in a grid, with a square dot in each of the holes between four.

The octagons' straight sides face each other, so they stand one pitch (across flats and joint) apart; the dot
stands on a point, its sides along the slanted ones. With a corner leg of c = (across flats - side) / 2 the
slanted side is c * sqrt(2), and since the joints narrow towards the corner of a dot only one size of it
keeps the joint: c * sqrt(2) - joint * (2 - sqrt(2)). Worked out from the geometry: grown by half a joint,
octagon and dot have slanted sides of one length. The name is common practice.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt

import msgspec
import numpy as np

from tilelayout.job.values import OctagonTile
from tilelayout.layout.placing import face_about
from tilelayout.layout.roles import Fit, MoreTiles, Role, Size, size_of
from tilelayout.layout.values import Cell

NAME = "Octagon and dot"
SUMMARY = "Octagons in a grid, with a small square on its point between every four."
SHAPES = frozenset({"octagon"})
START = "cross in the middle of the first octagon"
MORE_TILES = (Role("dot", "dot (a square between four octagons)"),)

_NARROWS = 2.0 - sqrt(2.0)
"""How much smaller the dot is for each mm of joint."""


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Octagon and dot has no settings of its own: octagon and joint say how large the dot is."""


def cell(tile: OctagonTile, joint: float, settings: Settings, more: MoreTiles) -> Cell:
    """Return an octagon centred on (0, 0) and the dot at its upper right.

    LayoutError, naming what would do, if the dot is of another size than fits.
    """
    dot = more["dot"]
    fit = Fit(NAME, MORE_TILES, lambda joint: more_sizes(tile, joint, settings))
    fit.check(more, joint, [(_slanted(tile) - size_of(dot)[0]) / _NARROWS])
    pitch = tile.across_flats + joint
    faces = (
        face_about(tile, 0.0, (0.0, 0.0)),
        face_about(dot, 45.0, (pitch / 2, pitch / 2), course=1),
    )
    return Cell(np.array([(pitch, 0.0), (0.0, pitch)]), faces, joint)


def more_sizes(tile: OctagonTile, joint: float, settings: Settings) -> Mapping[str, Size]:
    """Return the size of the dot that keeps the joint."""
    side = _slanted(tile) - joint * _NARROWS
    return {"dot": (side, side)}


def _slanted(tile: OctagonTile) -> float:
    return (tile.across_flats - tile.side) / sqrt(2.0)
