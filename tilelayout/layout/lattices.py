"""Finds two vectors by which a tile, or a tile and its half-turned copy, fills the plane.

Neighbours in such a tiling lie side against side, and a pair of sides that lie on each other can be slid
until two of their ends meet or another pair stops them; so the ways from a tile to its neighbours are looked
for among those that bring an end of one side to an end of another that runs the opposite way. Any two of them
whose cell has the right area are tried. That a shape is found no lattice does not prove that there is none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.growing import gains, grown
from tilelayout.geometry.rings import area, cross, following
from tilelayout.layout.kernel.arrays import Flags
from tilelayout.layout.tiling import GRID, reduced, tiles_by_lattice, touching_slack
from tilelayout.layout.values import Points

_OPPOSITE = 1e-9
_WIDEST_JOINT = 20.0
_MOST_JOINTS = 8


@dataclass(frozen=True, eq=False)
class Repeat:
    """How a tile repeats: by `vectors` (2, 2), with a half-turned copy about `pivot` (2,) if there is one."""

    vectors: Points
    pivot: Points | None


def repeat_of(tile: Points, joint: float) -> Repeat | None:
    """Return how a tile of this outline fills the plane with this joint; None if no way is found."""
    ring = grown(tile, joint / 2)
    if not shapely.Polygon(ring).is_valid:
        return None
    found = lattice_of([ring])
    if found is not None:
        return Repeat(found, None)
    for pivot in _pivots(ring):
        found = lattice_of([ring, 2 * pivot - ring])
        if found is not None:
            return Repeat(found, pivot)
    return None


def fitting_joint(tile: Points, joint: float) -> float | None:
    """Return the joint nearest to `joint` with which the tile is found to fill the plane; None if none is.

    Where opposite sides are to lie on each other they must be of one length, so only the joints that make two
    of them so are tried.
    """
    lengths, gain = np.hypot(*(following(tile) - tile).T), gains(tile)
    first, second = np.nonzero(_run_opposite(tile, tile) | _run_opposite(tile, -tile))
    more = gain[first] - gain[second]
    differs = np.abs(more) > ON_EDGE
    short_of = lengths[second[differs]] - lengths[first[differs]]
    joints = np.unique((2 * short_of / more[differs]).round(6))
    joints = joints[(joints >= 0.0) & (joints <= _WIDEST_JOINT) & (np.abs(joints - joint) > ON_EDGE)]
    nearest = joints[np.argsort(np.abs(joints - joint))][:_MOST_JOINTS]
    return next((float(each) for each in nearest if repeat_of(tile, float(each)) is not None), None)


def lattice_of(outlines: Sequence[Points]) -> Points | None:
    """Return the vectors of the most compact cell in which outlines fill the plane; None if none is found."""
    wanted, slack = sum(area(outline) for outline in outlines), touching_slack(outlines)
    ways = free_ways(outlines, slack)
    cells = [
        reduced(np.array(pair)) for pair in combinations(ways, 2) if abs(abs(cross(*pair)) - wanted) < slack
    ]
    for vectors in sorted(cells, key=_how_plain):
        if tiles_by_lattice(outlines, vectors):
            return vectors
    return None


def _how_plain(vectors: Points) -> tuple[bool, float, float]:
    """Order cells: straight rows first, then the least leaning, then those of short vectors."""
    first, second = vectors
    leaning = round(abs(float(first @ second)), 3)
    return abs(float(first[1])) > ON_EDGE, leaning, round(float(np.hypot(*vectors.T).sum()), 3)


def free_ways(outlines: Sequence[Points], slack: float) -> Points:
    """Return the ways (n, 2) to neighbours that overlap no outline, one of each two opposite ones."""
    ways = np.concatenate([way for one in outlines for other in outlines for way in _ways(one, other)])
    ways = ways[(ways[:, 0] > ON_EDGE) | ((np.abs(ways[:, 0]) <= ON_EDGE) & (ways[:, 1] > ON_EDGE))]
    _, kept = np.unique(ways.round(4), axis=0, return_index=True)
    ways = ways[np.sort(kept)]
    for one in outlines:
        shape = shapely.Polygon(one)
        for other in outlines:
            moved = shapely.polygons(other + ways[:, None])
            ways = ways[shapely.area(shapely.intersection(shape, moved, grid_size=GRID)) < slack]
    return np.asarray(ways)


def _ways(one: Points, other: Points) -> Iterator[Points]:
    """Yield the ways that bring an end of a side of `other` to the end of an opposite side of `one`."""
    at, side = np.nonzero(_run_opposite(one, other))
    for way in (one[at] - following(other)[side], following(one)[at] - other[side]):
        yield way
        yield -way


def _run_opposite(one: Points, other: Points) -> Flags:
    """Tell which sides of two rings run opposite ways: (n, m)."""
    along, along_too = (following(ring) - ring for ring in (one, other))
    along, along_too = (steps / np.hypot(*steps.T)[:, None] for steps in (along, along_too))
    turn = along[:, 0, None] * along_too[:, 1] - along[:, 1, None] * along_too[:, 0]
    return np.asarray((np.abs(turn) < _OPPOSITE) & (along @ along_too.T < 0), dtype=bool)


def _pivots(ring: Points) -> Iterator[Points]:
    """Yield the middles of sides about which a half-turned copy lies beside the ring, longest side first."""
    lengths, slack = np.hypot(*(following(ring) - ring).T), touching_slack([ring])
    shape = shapely.Polygon(ring)
    for side in np.argsort(-lengths.round(6), kind="stable"):
        pivot = (ring[side] + following(ring)[side]) / 2
        turned = shapely.Polygon(2 * pivot - ring)
        if shapely.intersection(shape, turned, grid_size=GRID).area < slack:
            yield pivot
