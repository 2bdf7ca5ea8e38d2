"""The largest circle in a convex polygon, for many polygons at once.

Its radius r is the largest for which a point lies r or more inside every side: a linear program in three
unknowns. By duality r is the least, over triples of sides whose inward normals n can be weighted by shares
w >= 0 to cancel out, of the weighted sum of the sides' distances from any fixed point. Such triples need no
check against the other sides, so all of them, of all polygons, are one array expression.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations, count

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Places = NDArray[np.intp]

_FEW_SIDES = 12
_ROUND_ABOUT = np.column_stack([np.cos(np.arange(8) * np.pi / 4), np.sin(np.arange(8) * np.pi / 4)])
"""Of many sides those that look nearest to these ways are looked at first."""

_MORE_SIDES = 2
"""So many of those overstepped are added at a time: of a gap that is too narrow, both sides."""

_MOST_SIDES = 16
"""With more sides than this those the circle does not touch are left out again, as triples are many."""

_MOST_ROUNDS = 20
"""After so many rounds, which no circle was seen to take, no side is left out any more, so that it ends."""

_PARALLEL = 1e-7
_NO_SHARE = -1e-12


@lru_cache(maxsize=64)
def triples(count: int) -> Places:
    """Return all triples i < j < k of `count` things: (3, t)."""
    i, j, k = np.meshgrid(*3 * [np.arange(count)], indexing="ij")
    rising = (i < j) & (j < k)
    return np.stack([i[rising], j[rising], k[rising]])


def inward_normals(starts: Points, ends: Points) -> tuple[Points, Numbers]:
    """Return unit normals (..., 2) to the left of the sides from `starts` to `ends`, and their lengths."""
    along = ends - starts
    lengths = np.hypot(along[..., 0], along[..., 1])
    return np.stack([-along[..., 1], along[..., 0]], axis=-1) / lengths[..., None], lengths


def triple_radii(normals: Points, offsets: Numbers, chosen: Places) -> Numbers:
    """Return, for each triple of sides, the radius of the circle they hold between them: (t, ...).

    `normals` (..., n, 2) are inward, `offsets` (..., n) their products with a point of each side. A triple
    that leaves a way out (its normals do not surround the origin) holds no circle: infinity.
    """
    x, y, offset = (
        np.ascontiguousarray(np.moveaxis(values, -1, 0))
        for values in (normals[..., 0], normals[..., 1], offsets)
    )
    (xi, xj, xk), (yi, yj, yk) = ([values[side] for side in chosen] for values in (x, y))
    first, second, third = xj * yk - yj * xk, xk * yi - yk * xi, xi * yj - yi * xj
    total = first + second + third
    with np.errstate(divide="ignore", invalid="ignore"):
        first, second, third = first / total, second / total, third / total
        radii = -(first * offset[chosen[0]] + second * offset[chosen[1]] + third * offset[chosen[2]])
        holds = (np.abs(total) > _PARALLEL) & (np.minimum(np.minimum(first, second), third) >= _NO_SHARE)
    return np.asarray(np.where(holds, radii, np.inf))


def inscribed_radii(rings: Points) -> Numbers:
    """Return the radius of the largest circle in each of m convex polygons of n sides: (m, n, 2) to (m,).

    The rings run counter-clockwise and have no repeated corners.
    """
    near_origin = rings - rings[:, :1]
    normals, _ = inward_normals(near_origin, np.roll(near_origin, -1, axis=1))
    offsets = np.sum(normals * near_origin, axis=-1)
    if rings.shape[1] > _FEW_SIDES:
        return _radii_of_many_sides(normals, offsets)
    return np.asarray(triple_radii(normals, offsets, triples(rings.shape[1])).min(axis=0))


def radii_of_rings(rings: Sequence[Points]) -> Numbers:
    """Return the radius of the largest circle in each of m convex rings of any numbers of corners: (m,)."""
    sizes = np.array([len(ring) for ring in rings], dtype=np.intp)
    radii, is_few = np.empty(len(rings)), sizes <= _FEW_SIDES
    for size in np.unique(sizes[is_few]).tolist():
        members = np.flatnonzero(sizes == size)
        radii[members] = inscribed_radii(np.stack([rings[at] for at in members.tolist()]))
    many = np.flatnonzero(~is_few)
    if len(many):
        sides = [_sides(rings[at], int(sizes[many].max())) for at in many.tolist()]
        normals, offsets = (np.stack(each) for each in zip(*sides, strict=True))
        radii[many] = _radii_of_many_sides(normals, offsets)
    return radii


def _sides(ring: Points, number: int) -> tuple[Points, Numbers]:
    """The normals and offsets of a ring's sides, the first repeated until there are so many."""
    near_origin = ring - ring[0]
    normals, _ = inward_normals(near_origin, np.roll(near_origin, -1, axis=0))
    padding = np.zeros(number - len(ring), dtype=np.intp)
    chosen = np.concatenate([np.arange(len(ring)), padding])
    return normals[chosen], np.sum(normals * near_origin, axis=1)[chosen]


def held_radius(normals: Points, depths: Numbers) -> float:
    """Return the radius of the largest circle that lines hold between them; infinity if they leave a way out.

    `normals` (n, 2) are inward, `depths` (n,) how far one point, any point, lies inside each line.
    """
    if len(normals) > _FEW_SIDES:
        return float(_radii_of_many_sides(normals[None], -depths[None])[0])
    return float(triple_radii(normals, -depths, triples(len(normals))).min(initial=np.inf))


def _radii_of_many_sides(normals: Points, offsets: Numbers) -> Numbers:
    """Radii for m polygons of many sides, given by their normals (m, n, 2) and offsets (m, n)."""
    radii = _radii_from(normals, offsets, (normals @ _ROUND_ABOUT.T).argmax(axis=1))
    for at in np.flatnonzero(np.isinf(radii)):
        around = _surrounding(normals[at])
        if around:
            radii[at] = _radii_from(normals[None, at], offsets[None, at], np.array([around]))[0]
    return radii


def _radii_from(normals: Points, offsets: Numbers, sides: Places) -> Numbers:
    """Radii between some `sides` (m, k) first, then with those, too, that the circle oversteps most.

    The three sides that a circle touches hold it alone, so with others beside them it never grows.
    """
    radii, left = np.empty(len(sides)), np.arange(len(sides))
    for rounds in count():
        held, touched = _held_by(normals[left[:, None], sides], offsets[left[:, None], sides])
        radii[left] = held
        bounded = np.flatnonzero(np.isfinite(held))
        left, held, sides = left[bounded], held[bounded], sides[bounded]
        touched = np.take_along_axis(sides, touched[bounded], axis=1)
        room = _room_about(normals[left], offsets[left], touched, held)
        np.put_along_axis(room, sides, np.inf, axis=1)
        is_open = room.min(axis=1, initial=np.inf) < -1e-9 * (1.0 + held)
        if not is_open.any():
            break
        tightest = room.argsort(axis=1)[:, :_MORE_SIDES]
        are_too_many = sides.shape[1] + _MORE_SIDES > _MOST_SIDES and rounds < _MOST_ROUNDS
        kept = touched if are_too_many else sides
        left, sides = left[is_open], np.column_stack([kept, tightest])[is_open]
    return radii


def _surrounding(normals: Points) -> list[int]:
    """Return a few sides of one polygon whose normals leave no way out; none if all of them leave one.

    Each is the farthest round from the one before by less than half a turn.
    """
    turns = np.arctan2(normals[:, 1], normals[:, 0])
    found, gone = [0], 0.0
    while gone < 2.0 * np.pi:
        ahead = (turns - turns[found[-1]]) % (2.0 * np.pi)
        ahead[ahead > np.pi - _PARALLEL] = 0.0
        found.append(int(ahead.argmax()))
        if ahead[found[-1]] == 0.0:
            return []
        gone += float(ahead[found[-1]])
    return found


def _held_by(normals: Points, offsets: Numbers) -> tuple[Numbers, Places]:
    """Return the radius of the largest circle between the sides of each polygon, and the three it touches."""
    chosen = triples(normals.shape[1])
    radii = triple_radii(normals, offsets, chosen)
    best = radii.argmin(axis=0)
    return radii[best, np.arange(len(normals))], chosen[:, best].T


def _room_about(normals: Points, offsets: Numbers, touched: Places, held: Numbers) -> Numbers:
    """Return how far the circle that touches three sides stays inside each side: (m, n).

    Between two parallel sides it may slide: it is where the others leave most room.
    """
    own = np.take_along_axis(normals, touched[..., None], axis=1)
    equations = np.concatenate([own, np.full((*own.shape[:2], 1), -1.0)], axis=2)
    solved = np.linalg.solve(equations, np.take_along_axis(offsets, touched, axis=1)[..., None])
    room = (normals @ solved[:, :2])[..., 0] - offsets - held[:, None]
    for first, second in combinations(range(3), 2):
        parallel = np.flatnonzero(np.abs(own[:, first] + own[:, second]).max(axis=1) < _PARALLEL)
        along = own[parallel, first] @ np.array([(0.0, 1.0), (-1.0, 0.0)])
        gain = (normals[parallel] @ along[..., None])[..., 0]
        room[parallel] += gain * _best_slide(room[parallel], gain)[:, None]
    return np.asarray(room)


def _best_slide(room: Numbers, gain: Numbers) -> Numbers:
    """Return how far to slide (m,) so that the sides that close in on either side leave as much room."""
    with np.errstate(divide="ignore", invalid="ignore"):
        at = -room / gain
    least = np.where(gain > _PARALLEL, at, -np.inf).max(axis=1)
    most = np.where(gain < -_PARALLEL, at, np.inf).min(axis=1)
    is_closed = np.isfinite(least) & np.isfinite(most)
    return np.where(is_closed, (least + most) / 2.0, 0.0)
