"""How plates rest on a surface by their own weight, and how far they rock.

A plate comes to rest on three high points between which its weight lies: of all planes over the surface
that one is lowest under the weight. Starting from three props far out and far below, the point that stands
furthest over the plane replaces the prop or point that lets the weight stay between the three (the dual
simplex method in three unknowns, a textbook method, here for all plates at once).

The weight of a plate that balances on a ridge lies between two such threes, and it can rest on either. So
the weight is also moved by a hair towards places all around the rim: every plane that is found so is one on
which the plate can rest, and the mean of them is where it balances. Pressed at a corner it tips until that
corner touches; so the largest gap under a corner is how far it rocks.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tilelayout.flatness.mesh import Numbers, Places, Points
from tilelayout.flatness.plates import Bearings, neighbours

_HAIR = 1e-4
"""How far the weight is moved, as a share of the way to the rim."""

_ALONG_SIDE = (0.29, 0.71)
"""Towards which places of each side: not its ends or middle, where plates and grids have their symmetries."""

_FAR, _BELOW = 100.0, 1e7
"""How far out the props stand, in sizes of the plate, and how far below, mm: no floor is so steep."""

_OVER = 1e-9
_MOST_SWAPS = 1000
_AT_ONCE = 512
"""How many plates are worked on together: more do not fit the processor's own memory."""


@dataclass(frozen=True, eq=False)
class Rested:
    """Plates at rest, each a plane of `tilts` (i, 2) and `heights` (i,) at `middles` (i, 2), in mm.

    `rocks` (i,) is how far the corner at `rocks_at` (i, 2) sinks when it is pressed; `high_spots` (i, 2) is
    the point that bears most of the weight; `hollows` (i,) is the largest gap anywhere under the plate.
    """

    middles: Points
    tilts: Points
    heights: Numbers
    rocks: Numbers
    rocks_at: Points
    high_spots: Points
    hollows: Numbers

    def heights_at(self, plate: Places, points: Points) -> Numbers:
        """Return how high plates (p,) stand at points (p, 2), on or beside them."""
        away = points - self.middles[plate]
        return np.asarray(np.sum(self.tilts[plate] * away, axis=1) + self.heights[plate])


_NONE = Rested(*(np.empty(shape) for shape in ((0, 2), (0, 2), 0, 0, (0, 2), (0, 2), 0)))


def rested_steps(on: Bearings) -> Iterator[Rested]:
    """Yield the plates that have been laid down so far; the last is all of them."""
    if not len(on.kept):
        yield _NONE
    found: list[Rested] = []
    for first in range(0, len(on.kept), _AT_ONCE):
        found.append(_rested(on.of_plates(first, min(first + _AT_ONCE, len(on.kept)))))
        yield _joined(found)


def rested(on: Bearings) -> Rested:
    """Return the plates at rest."""
    *_, last = rested_steps(on)
    return last


def _joined(found: list[Rested]) -> Rested:
    names = Rested.__dataclass_fields__
    return Rested(*(np.concatenate([getattr(each, name) for each in found]) for name in names))


def _rested(on: Bearings) -> Rested:
    loads, owner = _loads(on)
    points, heights = on.padded
    planes, on_points, shares = _planes(points[owner] - on.middles[owner, None, :], heights[owner], loads)
    count, row = len(on.kept), np.arange(len(owner))
    per_plate = np.maximum(np.bincount(owner, minlength=count), 1)[:, None]
    mean = np.column_stack([np.bincount(owner, planes[:, k], count) for k in range(3)]) / per_plate
    rocks, rocks_at = _rocks(on, planes, owner)
    heaviest = on_points[row, np.argmax(shares, axis=1)]
    at = np.searchsorted(owner, np.arange(count))
    under = _over(mean, points - on.middles[:, None, :], heights)
    hollows = -np.where(np.isfinite(heights), under, np.inf).min(axis=1, initial=np.inf)
    high_spots = points[np.arange(count), heaviest[at]]
    return Rested(on.middles, mean[:, :2], mean[:, 2], rocks, rocks_at, high_spots, hollows)


def _loads(on: Bearings) -> tuple[Points, Places]:
    """Where the weight of each plate is put (l, 2), from its middle, and whose it is (l,), in order."""
    corners, owner = on.rims
    _, after = neighbours(owner)
    sides = corners[after] - corners
    loads = [(corners + share * sides - on.middles[owner]) * _HAIR for share in _ALONG_SIDE]
    order = np.argsort(np.tile(owner, len(loads)), kind="stable")
    return np.concatenate(loads)[order], np.tile(owner, len(loads))[order]


def _rocks(on: Bearings, planes: Points, owner: Places) -> tuple[Numbers, Points]:
    """How far a corner of each plate sinks at most when pressed, and which corner that is."""
    corners, whose = on.rims
    count, per_plate = len(on.kept), np.bincount(owner, minlength=len(on.kept))
    first = np.searchsorted(owner, np.arange(count))
    heights = _rim_heights(on)
    gaps = np.zeros(len(corners))
    for k in range(int(per_plate.max(initial=0))):
        plane = planes[first[whose] + np.minimum(k, per_plate[whose] - 1)]
        at = corners - on.middles[whose]
        gaps = np.maximum(gaps, np.sum(plane[:, :2] * at, axis=1) + plane[:, 2] - heights)
    order = np.lexsort((-gaps, whose))
    worst = order[np.searchsorted(whose[order], np.arange(count))]
    return gaps[worst], corners[worst]


def _rim_heights(on: Bearings) -> Numbers:
    """The height of the surface at each corner of the rims (c,)."""
    corners, whose = on.rims
    points, heights = on.padded
    off = np.abs(points[whose] - corners[:, None, :]).sum(axis=2)
    off[~np.isfinite(heights[whose])] = np.inf
    return np.asarray(heights[whose, np.argmin(off, axis=1)])


def _planes(points: Points, heights: Numbers, loads: Points) -> tuple[Points, Places, Numbers]:
    """Planes (l, 3) that are lowest at the loads (l, 2), the 3 points each rests on, their shares in it.

    Points (l, m, 2) with heights (l, m); a plane (a, b, c) is a x + b y + c.
    """
    size = np.abs(points).max(axis=(1, 2), initial=1.0)
    turn = np.deg2rad([90.0, 210.0, 330.0])
    corners = np.stack([np.cos(turn), np.sin(turn)], axis=1) * _FAR * size[:, None, None]
    levels = np.full((len(points), 3), -_BELOW)
    on = np.full((len(points), 3), -1)
    shares = _shares(corners, loads)
    left = np.arange(len(points))
    for _ in range(_MOST_SWAPS):
        over = _over(_through(corners[left], levels[left]), points[left], heights[left])
        highest = np.argmax(over, axis=1)
        stands = over[np.arange(len(left)), highest] > _OVER * np.maximum(1.0, np.abs(levels[left]).max(1))
        left, highest = left[stands], highest[stands]
        if not len(left):
            break
        new = points[left, highest]
        shares[left], out = _swapped(shares[left], _shares(corners[left], new))
        corners[left, out], levels[left, out], on[left, out] = new, heights[left, highest], highest
    return _through(corners, levels), on, shares


def _swapped(shares: Numbers, of_new: Numbers) -> tuple[Numbers, Places]:
    """The shares in the load once a new point, itself a sum of the three, has replaced one; and which one."""
    row = np.arange(len(shares))
    ratios = np.where(of_new > 1e-12, np.maximum(shares, 0.0) / np.maximum(of_new, 1e-12), np.inf)
    out = np.argmin(ratios, axis=1)
    part = ratios[row, out]
    shares = shares - part[:, None] * of_new
    shares[row, out] = part
    return shares, out


def _shares(corners: Points, at: Points) -> Numbers:
    """The shares (l, 3) of the corners (l, 3, 2) of triangles in places (l, 2)."""
    to = corners - at[:, None, :]
    parts = np.stack([_cross(to[:, k - 2], to[:, k - 1]) for k in range(3)], axis=1)
    return np.asarray(parts / parts.sum(axis=1, keepdims=True))


def _through(corners: Points, levels: Numbers) -> Points:
    """The planes (l, 3) through three points each."""
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    p, q = levels[:, 1] - levels[:, 0], levels[:, 2] - levels[:, 0]
    whole = _cross(u, v)
    a, b = (p * v[:, 1] - q * u[:, 1]) / whole, (q * u[:, 0] - p * v[:, 0]) / whole
    c = levels[:, 0] - a * corners[:, 0, 0] - b * corners[:, 0, 1]
    return np.column_stack([a, b, c])


def _over(planes: Points, points: Points, heights: Numbers) -> Numbers:
    """How far points (l, m, 2) stand over planes (l, 3)."""
    level = planes[:, :1] * points[..., 0] + planes[:, 1:2] * points[..., 1] + planes[:, 2:]
    return np.asarray(heights - level)


def _cross(u: Points, v: Points) -> Numbers:
    return np.asarray(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
