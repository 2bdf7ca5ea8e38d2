"""Two plain starts that a person would try first: a tile, or a crossing of joints, in the middle of the
region.

Centring makes the border cuts of opposite straight walls equal; which of the two leaves the wider cut
depends on the room (the trade's rule "centre and balance" names both).
"""

from __future__ import annotations

from enum import StrEnum
from math import cos, radians, sin, sqrt

import numpy as np

from tilelayout.job.values import HexagonTile, Layout, Point, Tile
from tilelayout.planning.plan import Plan


class Centre(StrEnum):
    """What stands in the middle."""

    TILE = "tile"
    JOINT = "joint"


def centred_start(plan: Plan, centre: Centre) -> Point:
    """Return the start that puts a tile's middle, or a crossing of joints, in the middle of the region."""
    ring = np.vstack(plan.region.rings)
    middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
    across, up = _from_start(plan.tile, plan.layout, centre)
    turn = radians(plan.layout.angle)
    return (
        float(middle[0]) - across * cos(turn) + up * sin(turn),
        float(middle[1]) - across * sin(turn) - up * cos(turn),
    )


def _from_start(tile: Tile, layout: Layout, centre: Centre) -> tuple[float, float]:
    """Return where the thing to centre lies from the start, in the pattern's own directions."""
    if isinstance(tile, HexagonTile):
        side = tile.across_flats / sqrt(3)
        return (0.0, 0.0) if centre is Centre.TILE else _hexagon_crossing(layout, side)
    if centre is Centre.TILE:
        return tile.length / 2, tile.width / 2
    return -layout.joint / 2, -layout.joint / 2


def _hexagon_crossing(layout: Layout, side: float) -> tuple[float, float]:
    """Return the point between three hexagons: beyond a corner by the radius of the joint's triangle."""
    reach = side + layout.joint / sqrt(3)
    return (0.0, reach) if layout.settings.get("up", "point") == "point" else (reach, 0.0)
