"""From one corner of the mesh a fan of straight lines to all others within reach: the chords worth trying.

Why these are enough. Hold the share t of the chord at which the surface is looked at. As long as its two
ends and the place stay each in one triangle, the distance is linear in the ends (P, Q), and the allowed ends
form a convex body, so the largest distance is at one of its corners: four of the sides that bound P, Q and
the place are reached. Now let t go: wherever a side has to be followed, the distance is a fraction of two
linear terms of one parameter, hence monotone, and runs on until P, Q or the place comes to a corner of the
mesh. So of the three points two are corners and the third lies where their line crosses a side:

- P and Q are corners, the place is a crossing between them; or
- P and the place are corners, Q is a crossing beyond, as far as the straightedge reaches.

Only the straightedge's own length can stop this; so chords of full length are tried as well, along the same
lines, and followed from there (see `following`). The ends of a chord that is as long as the straightedge
move by at most one side of a triangle each on the way to such a corner: so the same trials with a
straightedge longer by two sides give a bound that nothing can exceed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from tilelayout.flatness.mesh import Flags, Mesh, Numbers, Places, Points

_TURN = 1e-9
"""Directions nearer than this (rad) are one: a line through a corner meets the sides that end there."""

_NEAR = 1e-7

_TOUCHES = 1e-3
"""A line that begins no further (mm) from a corner begins there."""

_MOST_KEPT = 400
"""The fans of a mesh of more corners would fill the memory; they are drawn anew each time."""


@dataclass(frozen=True, eq=False)
class Fan:
    """Where rays from `corner` meet the sides of the mesh, in order along each ray.

    `ray` (c,) numbers the ray; `far` is the distance from the corner, `share` how far along the side from its
    end `low` to its end `high` the ray meets it. Of each ray `target` (r,) is the corner it was drawn to,
    `reach` the distance of that, and `clear` how far it stays on the ground. Heights have no part in it, so a
    fan serves for every fill of the surface.
    """

    corner: int
    ray: Places
    far: Numbers
    low: Places
    high: Places
    share: Numbers
    target: Places
    reach: Numbers
    directions: Points
    clear: Numbers

    def heights(self, heights: Numbers) -> Numbers:
        """Return the surface's height (c,) at each crossing for heights (v,) of the mesh's corners."""
        return np.asarray(heights[self.low] + self.share * (heights[self.high] - heights[self.low]))


class Fans:
    """The fans of all corners of a mesh. Those of a mesh that is not too large are drawn once and kept."""

    def __init__(self, mesh: Mesh, reach: float) -> None:
        self._mesh, self._reach = mesh, reach
        self._kept: tuple[Fan, ...] | None = None

    @property
    def are_kept(self) -> bool:
        """Whether the mesh is small enough for all fans to be kept."""
        return len(self._mesh.places) <= _MOST_KEPT

    def __iter__(self) -> Iterator[Fan]:
        if self._kept is None and self.are_kept:
            self._kept = tuple(self._drawn())
        return iter(self._kept) if self._kept is not None else self._drawn()

    def of(self, corners: Iterable[int]) -> Iterator[Fan]:
        """Return the fans of some corners, drawn as they are asked for."""
        each = (fan(self._mesh, corner, self._reach) for corner in corners)
        return (drawn for drawn in each if len(drawn.far))

    def _drawn(self) -> Iterator[Fan]:
        return self.of(range(len(self._mesh.places)))


def fan(mesh: Mesh, corner: int, reach: float) -> Fan:
    """Draw rays from a corner to every other within `reach` and return what they cross."""
    rel = mesh.places - mesh.places[corner]
    distance = np.hypot(rel[:, 0], rel[:, 1])
    angle = np.arctan2(rel[:, 1], rel[:, 0])
    targets = np.flatnonzero((distance > _NEAR) & (distance <= reach))
    targets = targets[np.argsort(angle[targets], kind="stable")]
    directions = rel[targets] / distance[targets, None]
    ray, side = _seen(mesh.edges, angle, distance, targets, corner, reach + mesh.longest)
    far, share = _met(mesh.edges, side, ray, rel, directions)
    order = np.argsort(ray * (2.0 * (reach + mesh.longest)) + far)  # by ray, then along it, in one key
    low, high = mesh.edges.T.astype(np.int32)
    side = side[order]
    ray = ray[order].astype(np.int32)
    clear = _clear(mesh, mesh.places[corner], directions)
    return Fan(
        corner, ray, far[order], low[side], high[side], share[order], targets, distance[targets], directions,
        clear,
    )  # fmt: skip


def _clear(mesh: Mesh, start: Points, directions: Points) -> Numbers:
    """How far (r,) a straightedge along each ray stays on the ground before it comes to a wall."""
    if mesh.is_convex or not len(directions):
        return np.full(len(directions), np.inf)
    a, along = mesh.rim[:, 0] - start, mesh.rim[:, 1] - mesh.rim[:, 0]
    dx, dy = directions[:, :1], directions[:, 1:]
    whole = dx * along[:, 1] - dy * along[:, 0]
    whole[whole == 0.0] = np.nan  # along a wall: it leaves at the walls beside it
    share = (a[:, 0] * dy - a[:, 1] * dx) / whole
    far = (a[:, 0] * along[:, 1] - a[:, 1] * along[:, 0]) / whole
    leaves = (share >= 0.0) & (share <= 1.0) & (far > 0.0)
    return np.asarray(np.where(leaves, far, np.inf).min(axis=1))


def _seen(
    edges: Places, angle: Numbers, distance: Numbers, targets: Places, corner: int, reach: float
) -> tuple[Places, Places]:
    """Return pairs (ray, side): each ray with every side that lies across its direction."""
    one, other = edges[:, 0], edges[:, 1]
    near = (np.minimum(distance[one], distance[other]) <= reach) & (one != corner) & (other != corner)
    kept = np.flatnonzero(near)
    begin, turn = angle[one[kept]], angle[other[kept]] - angle[one[kept]]
    turn = (turn + np.pi) % (2.0 * np.pi) - np.pi
    begin = np.where(turn < 0, begin + turn, begin)
    across = (np.abs(turn) > _TURN) & (np.abs(turn) < np.pi - _TURN)
    kept, begin, turn = kept[across], begin[across], np.abs(turn[across])
    turned = np.concatenate([angle[targets] + 2.0 * np.pi * k for k in (-1, 0, 1)])
    first = np.searchsorted(turned, begin - _TURN, "left")
    counts = np.searchsorted(turned, begin + turn + _TURN, "right") - first
    side = np.repeat(kept, counts)
    within = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
    ray = (np.repeat(first, counts) + within) % max(len(targets), 1)
    return ray, side


def _met(
    edges: Places, side: Places, ray: Places, rel: Points, directions: Points
) -> tuple[Numbers, Numbers]:
    """Return how far along its ray each side (c,) is met, and where along the side.

    Each coordinate by itself: there are tens of thousands of crossings, and pairs are gathered slowly.
    """
    a, b = rel[edges[:, 0]], rel[edges[:, 1]]
    ax, ay, along_x, along_y = (np.ascontiguousarray(part)[side] for part in (*a.T, *(b - a).T))
    dx, dy = (np.ascontiguousarray(part)[ray] for part in directions.T)
    share = (ax * dy - ay * dx) / (dx * along_y - dy * along_x)
    np.clip(share, 0.0, 1.0, out=share)
    return (ax + share * along_x) * dx + (ay + share * along_y) * dy, share


@dataclass(frozen=True, eq=False)
class Trials:
    """Chords from one corner: how far off their `end` and the looked-at place `at` are, and the depth there.

    `depth` is positive where the surface lies below the chord; `on_ground` claims that all of the chord stays
    on the ground. All arrays (k,); `ray` as in the fan.
    """

    ray: Places
    end: Numbers
    at: Numbers
    depth: Numbers
    on_ground: Flags


def trials(found: Fan, heights: Numbers, overs: tuple[float, ...]) -> Trials:
    """Return every chord worth trying from the fan's corner; for each length of `overs` also the full one.

    `heights` (v,) are those of the mesh's corners.
    """
    met = found.heights(heights)
    parts = [_resting(found, heights, met), _beyond(found, heights, met)]
    parts += [part for over in overs for part in _at_length(found, heights, met, over)]
    ray, end, at, depth = (np.concatenate(column) for column in zip(*parts, strict=True))
    return Trials(ray, end, at, depth, end <= found.clear[ray] + _TOUCHES)


_Part = tuple[Places, Numbers, Numbers, Numbers]


def _resting(found: Fan, heights: Numbers, met: Numbers) -> _Part:
    """Chords to the corner that the ray was drawn to, looked at where it crosses a side before that."""
    before = found.far < found.reach[found.ray] - _NEAR
    ray, at = found.ray[before], found.far[before]
    end, here = found.reach[ray], heights[found.corner]
    depth = here + at / end * (heights[found.target[ray]] - here) - met[before]
    return ray, end, at, depth


def _beyond(found: Fan, heights: Numbers, met: Numbers) -> _Part:
    """Chords that end where the ray crosses a side beyond its corner, looked at over that corner."""
    after = found.far > found.reach[found.ray] + _NEAR
    return _over_corner(found, heights, found.ray[after], found.far[after], met[after])


def _at_length(found: Fan, heights: Numbers, met: Numbers, over: float) -> tuple[_Part, _Part]:
    """Chords of the full length: looked at over the corner the ray was drawn to, then at every crossing."""
    reached, height = _reached(found, heights, met, over)
    ray = np.flatnonzero(reached & (found.reach < over - _NEAR))
    ends = np.full(len(ray), over)
    over_corner = _over_corner(found, heights, ray, ends, height[ray])
    inside = reached[found.ray] & (found.far < over - _NEAR)
    ray, at, here = found.ray[inside], found.far[inside], heights[found.corner]
    depth = here + at / over * (height[ray] - here) - met[inside]
    return over_corner, (ray, np.full(len(ray), over), at, depth)


def _reached(found: Fan, heights: Numbers, met: Numbers, over: float) -> tuple[Flags, Numbers]:
    """Tell of each ray whether it runs on to the length, and the surface's height there."""
    rays = np.arange(len(found.target))
    begins, stops = np.searchsorted(found.ray, rays, "left"), np.searchsorted(found.ray, rays, "right")
    short = np.concatenate([[0], np.cumsum(found.far <= over)])
    after = begins + short[stops] - short[begins]
    reached = after < stops
    last = np.minimum(after, len(found.far) - 1)
    has_before = last > begins
    far_before = np.where(has_before, found.far[last - 1], 0.0)
    met_before = np.where(has_before, met[last - 1], heights[found.corner])
    share = (over - far_before) / np.maximum(found.far[last] - far_before, 1e-12)
    return reached, met_before + np.where(reached, share, 0.0) * (met[last] - met_before)


def _over_corner(found: Fan, heights: Numbers, ray: Places, end: Numbers, end_height: Numbers) -> _Part:
    at, here = found.reach[ray], heights[found.corner]
    depth = here + at / end * (end_height - here) - heights[found.target[ray]]
    return ray, end, at, depth
