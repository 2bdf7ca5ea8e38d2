"""Hexagons, with a point or with a flat side up.

Neighbours stand one pitch (across flats and joint) apart. Point up, a course is a straight row and the next
lies sqrt(3)/2 pitches above, half a pitch on. Flat up, a course zigzags: every other tile stands half a
pitch higher. The start is the centre of a face.
"""

from __future__ import annotations

from math import sqrt
from typing import Literal

import msgspec
import numpy as np

from tilelayout.job.values import HexagonTile
from tilelayout.layout.placing import face_about
from tilelayout.layout.values import Cell

NAME = "Hexagons"
SUMMARY = "Regular hexagons in a honeycomb, with a point or a flat side up."
SHAPES = frozenset({"hexagon"})
USUAL = {"Hexagons, point up": {"up": "point"}, "Hexagons, flat up": {"up": "flat"}}
START = "cross in the middle of the first tile"


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`up`: what a tile turns upwards at angle 0."""

    up: Literal["point", "flat"] = "point"


def cell(tile: HexagonTile, joint: float, settings: Settings) -> Cell:
    """Return one face (point up) or a high and a low one (flat up), the first centred on (0, 0)."""
    pitch = tile.across_flats + joint
    tall = pitch * sqrt(3) / 2
    if settings.up == "point":
        return Cell(np.array([(pitch, 0.0), (pitch / 2, tall)]), (face_about(tile, 0.0, (0.0, 0.0)),), joint)
    low, high = face_about(tile, 90.0, (0.0, 0.0)), face_about(tile, 90.0, (tall, pitch / 2))
    return Cell(np.array([(2 * tall, 0.0), (0.0, pitch)]), (low, high), joint)
