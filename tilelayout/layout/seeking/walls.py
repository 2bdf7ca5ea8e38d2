"""The walls of a region that lie along the tiles, seen in the directions of the pattern.

Upright walls cut tiles across x, level walls across y. In a room that has no other walls, every width of
every cut piece is the distance between a tile's edge and a wall, which depends on one coordinate of the start
alone, or between two walls or two edges of the tile, which does not depend on it at all.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.rings import following
from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import Visibility
from tilelayout.layout.values import Points, Region

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Walls:
    """Walls square to one axis, (n,) each.

    `at` is where they stand on it, `low` to `high` where they reach along the other; `inward` is +1 if the
    region lies beyond `at`, -1 if before it. `joins` (n,) are sizes of necks that the wall helps to make.
    """

    at: Points
    low: Points
    high: Points
    inward: Whole
    seen: Flags
    necks: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, eq=False)
class StraightWalls:
    """The upright and level walls of a region turned back by the layout's angle.

    `are_all` claims that the region has no other; `narrowest` is its narrowest place.
    """

    upright: Walls
    level: Walls
    are_all: bool
    narrowest: float


def straight_walls(region: Region, angle: float, size: tuple[float, float]) -> StraightWalls:
    """Return the walls along a pattern turned by `angle` whose tiles measure `size` along x and y."""
    turn = turning(-angle)
    rings = [ring @ turn for ring in region.rings]
    starts, ends = np.vstack(rings), np.vstack([following(ring) for ring in rings])
    seen = np.array([border.seen is not Visibility.HIDDEN for ring in region.borders for border in ring])
    steps = ends - starts
    is_upright, is_level = np.abs(steps[:, 0]) < SAME_PLACE, np.abs(steps[:, 1]) < SAME_PLACE
    necks = _necks(rings, size)
    upright = _walls(0, starts, ends, -np.sign(steps[:, 1]), seen, is_upright, necks)
    level = _walls(1, starts, ends, np.sign(steps[:, 0]), seen, is_level, necks)
    are_all = bool((is_upright | is_level).all())
    return StraightWalls(upright, level, are_all, _narrowest(region) if are_all else 0.0)


def _walls(
    axis: int,
    starts: Points,
    ends: Points,
    inward: Points,
    seen: Flags,
    chosen: Flags,
    necks: dict[tuple[float, float], set[float]],
) -> Walls:
    """The chosen edges as walls; the region lies on their left."""
    starts, ends = starts[chosen], ends[chosen]
    across = np.stack([starts[:, 1 - axis], ends[:, 1 - axis]])
    sizes = tuple(
        tuple(sorted(necks.get(_key(one), set()) | necks.get(_key(other), set())))
        for one, other in zip(starts, ends, strict=True)
    )
    return Walls(
        starts[:, axis],
        across.min(axis=0),
        across.max(axis=0),
        inward[chosen].astype(int),
        seen[chosen],
        sizes,
    )


def _necks(rings: list[Points], size: tuple[float, float]) -> dict[tuple[float, float], set[float]]:
    """For each inward corner, the sizes of necks between it and others that lie askew within one tile.

    A piece may squeeze through between two such corners, and is then as narrow as the greater of a size of
    the neck and the distance of a wall from a joint: what is greater changes where they are equal.
    """
    corners = np.vstack([ring[_bends_in(ring)] for ring in rings])
    away = np.abs(corners[:, None] - corners)
    askew = (away > SAME_PLACE).all(axis=2) & (away < size).all(axis=2)
    found: dict[tuple[float, float], set[float]] = {}
    for one, other in np.argwhere(askew):
        found.setdefault(_key(corners[one]), set()).update(away[one, other].tolist())
    return found


def _bends_in(ring: Points) -> Flags:
    before, after = ring - np.roll(ring, 1, axis=0), following(ring) - ring
    return np.asarray(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0] < 0.0)


def _key(point: Points) -> tuple[float, float]:
    return round(float(point[0]), 6), round(float(point[1]), 6)


def _narrowest(region: Region) -> float:
    shapes = region.shape.geoms if region.shape.geom_type == "MultiPolygon" else (region.shape,)
    return min(
        narrowest(
            np.array(shape.exterior.coords)[:-1], [np.array(hole.coords)[:-1] for hole in shape.interiors]
        )
        for shape in shapes
    )
