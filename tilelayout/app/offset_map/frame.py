"""Which starts the picture shows: an upright rectangle of the surface that holds every start once at least.

Up on the picture is up on the board. A rectangle as wide as the pattern repeats straight across, if it does
so soon, holds each start exactly once; otherwise the box round one cell is taken, where some stand twice.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np

from tilelayout.geometry.rings import cross
from tilelayout.job.values import Point
from tilelayout.layout.values import Points

_ON_AXIS = 1e-3
_FARTHEST = 12
_LONGEST = 3.0
"""No picture is longer than so many times its other side."""


@dataclass(frozen=True, eq=False)
class Frame:
    """A rectangle of starts from `low` (2,), of `size` (2,) mm, of a layout that repeats by two `vectors`."""

    low: Points
    size: Points
    vectors: Points

    @property
    def shape(self) -> float:
        """Its height as a share of its width."""
        return float(self.size[1] / self.size[0])

    def inside(self, start: Point) -> Point:
        """Return the start of the same laying that lies in the frame, nearest to its low corner."""
        found = self._alike(start)
        away = np.round(found - self.low, 6)
        fits = ((away >= 0.0) & (away <= np.round(self.size, 6))).all(axis=1)
        nearest = found[fits][np.argmin(away[fits].sum(axis=1))]
        return float(nearest[0]), float(nearest[1])

    def start_at(self, share: Point) -> Point:
        """Return the start at a place given as shares of the frame from its low corner."""
        x, y = (self.low + np.array(share) * self.size).tolist()
        return x, y

    def share_of(self, start: Point) -> Point:
        """Return the place of a start in the frame, as shares of it."""
        x, y = ((np.array(self.inside(start)) - self.low) / self.size).tolist()
        return x, y

    def shares_near(self, start: Point, margin: float) -> list[Point]:
        """Return where a start stands in the frame and where it stands again just outside, as shares."""
        shares = (self._alike(start) - self.low) / self.size
        is_near = ((shares > -margin) & (shares < 1.0 + margin)).all(axis=1)
        is_outside = ((shares < 0.0) | (shares > 1.0)).any(axis=1)
        return [self.share_of(start), *map(tuple, shares[is_near & is_outside].tolist())]

    def _alike(self, start: Point) -> Points:
        """The starts (n, 2) of the same laying in and around the frame."""
        return np.asarray(start) + _sums(self.vectors, np.asarray(start), self.low, self.size)


def frame_of(vectors: Points, low: Points) -> Frame:
    """Return the frame from `low` (2,) for a layout that repeats by two vectors."""
    area = abs(float(cross(vectors[0], vectors[1])))
    box = np.abs(vectors).sum(axis=0)
    sizes = [box]
    for axis in (0, 1):
        straight = _straight_repeat(vectors, axis)
        if straight is not None:
            sizes.append(np.array([straight, area / straight][:: 1 if axis == 0 else -1]))
    fits = [size for size in sizes if size.max() / size.min() <= _LONGEST]
    size = min(fits, key=lambda size: round(float(size.prod()), 3)) if fits else sizes[0]
    return Frame(low, np.maximum(size, size.max() / _LONGEST), vectors)


def _straight_repeat(vectors: Points, axis: int) -> float | None:
    """Return the least distance straight along an axis after which the pattern repeats; None if far away."""
    steps = np.array(list(product(range(_FARTHEST + 1), range(-_FARTHEST, _FARTHEST + 1)))[1:])
    ways = np.abs(steps @ vectors)
    straight = ways[ways[:, 1 - axis] < _ON_AXIS][:, axis]
    straight = straight[straight > _ON_AXIS]
    return float(straight.min()) if len(straight) else None


def _sums(vectors: Points, start: Points, low: Points, size: Points) -> Points:
    """Return the repeats (n, 2) that may lead a start into the frame."""
    corners = np.array(list(product((0.0, 1.0), repeat=2))) * size + low - start
    cells = corners @ np.linalg.inv(vectors)
    first, last = np.floor(cells.min(axis=0)) - 1, np.ceil(cells.max(axis=0)) + 1
    steps = np.array(list(product(*(np.arange(a, b + 1) for a, b in zip(first, last, strict=True)))))
    return np.asarray(steps @ vectors)
