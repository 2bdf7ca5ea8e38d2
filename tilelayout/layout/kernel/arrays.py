"""The array idioms that the kernel's steps share: uneven repetition, and many outlines in one array."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.layout.values import Points

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]


def spread(counts: Whole) -> tuple[Whole, Whole]:
    """Return, for every repetition of every owner, the owner's number and the repetition's, from 0.

    >>> [array.tolist() for array in spread(np.array([2, 0, 3]))]
    [[0, 0, 2, 2, 2], [0, 1, 0, 1, 2]]
    """
    owners = np.repeat(np.arange(len(counts)), counts)
    before = np.cumsum(counts) - counts
    return owners, np.arange(len(owners)) - before[owners]


def ceiling(values: Points) -> Whole:
    """Return the values rounded up, as whole numbers."""
    return np.ceil(values).astype(np.int64)


def floor(values: Points) -> Whole:
    """Return the values rounded down, as whole numbers."""
    return np.floor(values).astype(np.int64)


@dataclass(frozen=True, eq=False)
class Outlines:
    """Many rings in one array: ring k is `points[starts[k]:starts[k + 1]]`."""

    points: Points
    starts: Whole

    def __len__(self) -> int:
        return len(self.starts) - 1

    def __getitem__(self, k: int) -> Points:
        return self.points[self.starts[k] : self.starts[k + 1]]

    @property
    def sizes(self) -> Whole:
        """How many corners each ring has."""
        return np.diff(self.starts)

    def areas(self) -> Points:
        """Return each ring's area in mm2, positive if it turns counter-clockwise."""
        if not len(self):
            return np.empty(0)
        x, y = (self.points - self.points.take(np.repeat(self.starts[:-1], self.sizes), axis=0)).T
        doubled = x[:-1] * y[1:] - y[:-1] * x[1:]
        doubled[self.starts[1:-1] - 1] = 0.0  # the corner at which a ring closes is its first, at (0, 0)
        return np.asarray(np.add.reduceat(np.append(doubled, 0.0), self.starts[:-1]) / 2)

    def perimeters(self) -> Points:
        """Return the length of each ring."""
        if not len(self):
            return np.empty(0)
        step = self.following() - self.points
        return np.asarray(np.add.reduceat(np.hypot(step[:, 0], step[:, 1]), self.starts[:-1]))

    def following(self) -> Points:
        """Return the corner that follows each corner in its ring."""
        following = np.arange(1, len(self.points) + 1)
        following[self.starts[1:] - 1] = self.starts[:-1]
        return self.points.take(following, axis=0)

    def without_repeats(self) -> Outlines:
        """Return the rings without the corners that coincide with the next one."""
        x, y = np.abs(self.following() - self.points).T
        stays = np.maximum(x, y) > 2 * SAME_PLACE
        if stays.all():
            return self
        ring = np.repeat(np.arange(len(self)), self.sizes)
        return outlines_of(
            self.points.take(np.flatnonzero(stays), axis=0), np.bincount(ring[stays], minlength=len(self))
        )

    def only(self, kept: Flags) -> Outlines:
        """Return the rings that are kept, in order."""
        if kept.all():
            return self
        points = self.points.take(np.flatnonzero(np.repeat(kept, self.sizes)), axis=0)
        return outlines_of(points, self.sizes[kept])


def outlines_of(points: Points, sizes: Whole) -> Outlines:
    """Return the rings that follow one another in `points`, of `sizes` corners each."""
    return Outlines(points, np.concatenate(([0], np.cumsum(sizes))))


def joined(first: Outlines, second: Outlines) -> Outlines:
    """Return the rings of both."""
    points = np.concatenate((first.points, second.points))
    return Outlines(points, np.concatenate((first.starts, second.starts[1:] + first.starts[-1])))
