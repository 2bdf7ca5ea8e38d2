"""Straight cuts: what a line through a tile is called, and the sizes that fix it on the tile's factory edges.

A line is fixed by the width it leaves if it runs parallel to an edge and the tile ends in one, else by where
it crosses the tile's outline: the legs of the corner it takes off, or the distances along both edges from
their corners that stay.
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
    border = "" if stretch.border is None else stretch.border.source
    corner = None if stops else _corner_taken(stretch, tile)
    if corner is not None:
        legs = np.hypot(*(corner[[0, 2]] - corner[1]).T)
        return Cut(CutKind.CORNER, (float(legs[0]), float(legs[1])), corner[[0, 2]], border)
    crossings = crossings_of(stretch, tile)
    line = np.array([stretch.points[0], stretch.points[-1]]) if stops else crossings
    kind, sizes = _kind_and_sizes(stretch, tile, crossings)
    return Cut(kind, sizes, line, border, stops)


def crossings_of(stretch: Stretch, tile: Points) -> Points:
    """Return where the line of a stretch first enters and last leaves the tile (2, 2), in its direction."""
    ends, depths = following(tile), stretch.depths(tile)
    after = following(depths)
    is_crossed = (depths >= 0.0) != (after >= 0.0)
    share = depths[is_crossed] / (depths[is_crossed] - after[is_crossed])
    crossings = tile[is_crossed] + share[:, None] * (ends[is_crossed] - tile[is_crossed])
    places = (np.concatenate([crossings, tile[depths == 0.0]]) - stretch.start) @ stretch.way
    return np.asarray(stretch.start + np.array([[places.min()], [places.max()]]) * stretch.way)


def _kind_and_sizes(stretch: Stretch, tile: Points, crossings: Points) -> tuple[CutKind, tuple[float, ...]]:
    depths = stretch.depths(tile)
    side = _parallel_side(stretch, tile)
    if side is not None and np.sum(depths > depths.max() - ON_EDGE) > 1:
        return (CutKind.RIP if abs(side[0]) > abs(side[1]) else CutKind.CROSS), (float(depths.max()),)
    first, second = (_kept_along(crossing, tile, depths) for crossing in crossings)
    return CutKind.OBLIQUE, (first, second)


def _corner_taken(stretch: Stretch, tile: Points) -> Points | None:
    """Return where the line of a stretch enters the tile, the one corner it takes off, where it leaves (3,
    2).

    None if it takes off none or more, leaves only one, or runs parallel to a side.
    """
    depths = stretch.depths(tile)
    taken = np.flatnonzero(depths < -ON_EDGE)
    if len(taken) != 1 or np.sum(depths > ON_EDGE) < 2 or _parallel_side(stretch, tile) is not None:
        return None
    at, count = int(taken[0]), len(tile)
    ends = []
    for other in ((at - 1) % count, (at + 1) % count):
        share = depths[at] / (depths[at] - depths[other])
        ends.append(tile[at] + share * (tile[other] - tile[at]))
    return np.array([ends[0], tile[at], ends[1]])


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
