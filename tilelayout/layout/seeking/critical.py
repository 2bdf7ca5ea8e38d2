"""Starts worth laying: those at which a joint comes to meet a corner, a wall or a cutout, and those between.

What a start leaves changes its kind only where the edge or corner of a tile passes a wall or a corner of the
region. So along the normals of the walls, and along those of the tiles, the places of all corners of the
region less those of all corners of the tiles are where something happens; the best starts lie there (a joint
on a wall) or between two of them (cuts on both sides alike).
"""

from __future__ import annotations

from itertools import product

import numpy as np

from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.seeking.balance import Pair, repeat_along
from tilelayout.layout.seeking.rows_in_room import RowsInRoom
from tilelayout.layout.seeking.sawteeth import Stretches
from tilelayout.layout.values import Points, Region

_SHORTEST_REPEAT = 5.0
_SAFELY = 0.05
_SAME = 0.5
"""Starts nearer than this, in mm, are one to begin with; refining finds its way from there."""


def critical_starts(region: Region, placed: Placed, pairs: tuple[Pair, ...], most: int, along: int) -> Points:
    """Return about `most` starts (n, 2), in a fixed order, spread over one cell of the lattice.

    Along oblique walls a pattern repeats so often that there are thousands; these are thinned to `along`.
    """
    walls = (
        [pair.normal for pair in pairs] if len(pairs) == 2 else [np.array([1.0, 0.0]), np.array([0.0, 1.0])]
    )
    side = placed.normals[0, 0]
    tiles = [side, np.array([-side[1], side[0]])]
    found = [_along(np.stack(tiles), region, placed, most, along)]
    if abs(float(np.linalg.det(np.stack([walls[0], side])))) > 1e-6 < abs(float(walls[0] @ side)):
        ways = (np.stack(walls), np.stack(tiles))
        found = [_along(normals, region, placed, most // 2, along // 2) for normals in ways]
    return np.vstack(found)


def starts_on_walls(rows: RowsInRoom, most: int) -> Points:
    """Return about `most` starts (n, 2) for rows along straight walls: the best of stretches of x and y."""
    side = int(np.sqrt(most / rows.repeat))
    xs, ys = (_thinned(_safe_places(stretches), side) for stretches in (rows.any_upright, rows.level))
    up = [float(y) + row * rows.y.module for y in ys for row in range(rows.repeat)]
    return np.array([rows.on_surface(float(x), y) for x, y in product(xs, up)])


def _safe_places(stretches: Stretches) -> Points:
    """The best place of each stretch, not so near to its ends that parts may hang together by threads."""
    reach = np.maximum(stretches.half - _SAFELY, 0.0)
    return np.sort(np.clip(stretches.best[0], stretches.middle - reach, stretches.middle + reach))


def _along(normals: Points, region: Region, placed: Placed, most: int, in_all: int) -> Points:
    """Starts at which something happens along both of two normals (2, 2)."""
    area = abs(float(np.linalg.det(placed.vectors)) * float(np.linalg.det(normals)))
    repeats = [repeat_along(placed.vectors, normal) for normal in normals]
    if min(repeats) < _SHORTEST_REPEAT:
        repeats = [float(np.sqrt(area))] * 2
    times = max(1, round(area / (repeats[0] * repeats[1])))
    side = max(2, int(np.sqrt(most / times)))
    corners, ends = _corners(region, normals), (placed.corners - placed.start).reshape(-1, 2) @ normals.T
    places = []
    for axis, repeat in enumerate(repeats):
        at = np.sort((corners[axis][:, None] - ends[:, axis]).ravel() % repeat)
        at = at[np.concatenate([[True], np.diff(at) > _SAME])]
        between = (at + np.append(at[1:], at[0] + repeat)) / 2.0
        places.append(_thinned(np.sort(np.concatenate([at, between])), side))
    first = (places[0][:, None] + np.arange(times) * repeats[0]).ravel()
    first = _thinned(np.sort(first), max(2, in_all // len(places[1])))
    grid = np.array(list(product(first, places[1])))
    return np.asarray(np.linalg.solve(normals, grid.T).T)


def _corners(region: Region, normals: Points) -> list[Points]:
    """Where the corners of the region lie along each normal; of a curve, its middle and its ends."""
    corners = [np.empty((0, 2))]
    for ring, borders in zip(region.rings, region.borders, strict=True):
        sharp = [
            at for at, border in enumerate(borders) if border.radius is None or borders[at - 1] != border
        ]
        corners.append(ring[sharp])
    curves = {(border.centre, border.radius) for borders in region.borders for border in borders}
    rounds = [(centre, radius) for centre, radius in sorted(curves, key=repr) if centre and radius]
    middles = np.array([centre for centre, _ in rounds]).reshape(-1, 2)
    reach = np.array([radius for _, radius in rounds])
    return [
        np.unique(
            np.round(
                np.concatenate(
                    [np.vstack(corners) @ normal, *(middles @ normal + side * reach for side in (-1, 0, 1))]
                ),
                6,
            )
        )
        for normal in normals
    ]


def _thinned(places: Points, most: int) -> Points:
    """At most so many of the places, evenly picked."""
    if len(places) <= most:
        return places
    return np.asarray(places[np.unique(np.linspace(0, len(places) - 1, most).round().astype(int))])
