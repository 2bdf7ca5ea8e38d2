"""Straight cuts: what a line through a tile is called, and the sizes that fix it on the tile's factory edges.

A line is fixed by the width it leaves if it runs parallel to an edge, else by where it crosses the tile's
outline: the legs of the corner it takes off, or the distances along both edges from their corners that stay.
"""

from __future__ import annotations

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.rings import following
from tilelayout.layout.sawn import Stretch
from tilelayout.layout.values import Cut, CutKind, Points


def straight_cut(stretch: Stretch, tile: Points, *, stops: bool) -> Cut:
    """Return the cut that makes a straight stretch; `tile` is the tile's outline (n, 2).

    Unless it `stops` the blade runs right across the tile.
    """
    crossings = crossings_of(stretch, tile)
    line = np.array([stretch.points[0], stretch.points[-1]]) if stops else crossings
    kind, sizes = _kind_and_sizes(stretch, tile, crossings, stops=stops)
    return Cut(kind, sizes, line, "" if stretch.border is None else stretch.border.source, stops)


def crossings_of(stretch: Stretch, tile: Points) -> Points:
    """Return where the line of a stretch enters and leaves the tile (2, 2), in the stretch's direction."""
    ends = following(tile)
    along = ends - tile
    inward = np.column_stack([-along[:, 1], along[:, 0]]) / np.hypot(along[:, 0], along[:, 1])[:, None]
    speed = inward @ stretch.way
    depth = np.sum((stretch.start - tile) * inward, axis=1)
    enters, leaves = speed > 1e-9, speed < -1e-9
    first = float(np.max(-depth[enters] / speed[enters]))
    last = float(np.min(-depth[leaves] / speed[leaves]))
    return np.array([stretch.start + first * stretch.way, stretch.start + last * stretch.way])


def _kind_and_sizes(
    stretch: Stretch, tile: Points, crossings: Points, *, stops: bool
) -> tuple[CutKind, tuple[float, ...]]:
    depths = stretch.depths(tile)
    side = _parallel_side(stretch, tile)
    if side is not None:
        return (CutKind.RIP if abs(side[0]) > abs(side[1]) else CutKind.CROSS), (float(depths.max()),)
    taken = np.flatnonzero(depths < -ON_EDGE)
    if len(taken) == 1 and not stops and np.sum(depths > ON_EDGE) > 1:
        legs = np.hypot(*(crossings - tile[taken[0]]).T)
        return CutKind.CORNER, (float(legs[0]), float(legs[1]))
    first, second = (_kept_along(crossing, tile, depths) for crossing in crossings)
    return CutKind.OBLIQUE, (first, second)


def _parallel_side(stretch: Stretch, tile: Points) -> Points | None:
    """Return the way along a side of the tile that a stretch runs parallel to, None if there is none.

    A rectangle's length counts as the way of a rip even if it is the shorter side.
    """
    along = following(tile) - tile
    along = along / np.hypot(along[:, 0], along[:, 1])[:, None]
    drift = np.abs(along[:, 0] * stretch.way[1] - along[:, 1] * stretch.way[0]) * stretch.length
    at = int(np.argmin(drift))
    return np.asarray(along[at]) if drift[at] < ON_EDGE else None


def _kept_along(crossing: Points, tile: Points, depths: Points) -> float:
    """Return how much a line leaves of the side of the tile that it crosses, from the corner that stays."""
    ends = following(tile)
    along = ends - tile
    lengths = np.hypot(along[:, 0], along[:, 1])
    place = np.sum((crossing - tile) * along, axis=1) / lengths
    off = np.abs(along[:, 0] * (crossing - tile)[:, 1] - along[:, 1] * (crossing - tile)[:, 0]) / lengths
    after = np.roll(depths, -1)
    misses = off + np.maximum(-place, 0.0) + np.maximum(place - lengths, 0.0)
    keeps_one = (depths > ON_EDGE) != (after > ON_EDGE)
    at = int(np.argmin(np.where(keeps_one, misses, np.inf)))
    return float(place[at] if depths[at] > after[at] else lengths[at] - place[at])
