"""Gap and rise along one line of readings, exactly.

Along a line the surface is a chain of straight pieces. For a given chord the distance to it is linear
between readings, so its largest is at a reading. The ends of the chord can be slid until each is at a
reading too, unless the length of the straightedge stops it: then both ends move together, the distance is
a quadratic in the place of the straightedge on each pair of pieces, and its peak is taken.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.flatness.values import Chord, Variation

Numbers = NDArray[np.float64]
_Found = tuple[float, float, float, float]


@dataclass(frozen=True, eq=False)
class Profile:
    """Readings along a line: distances `along` (k,) rising from its first point, and heights (k,)."""

    along: Numbers
    heights: Numbers
    origin: tuple[float, float] = (0.0, 0.0)
    direction: tuple[float, float] = (1.0, 0.0)

    def variation(self, over: float) -> Variation:
        """Return gap and rise over a length."""
        gap = _deepest(self.along, self.heights, over)
        rise = _deepest(self.along, -self.heights, over)
        return Variation(over, gap[0], rise[0], self._chord(gap), self._chord(rise), gap[0], rise[0])

    def on_readings(self, over: float) -> float:
        """Return the gap below a straightedge that rests on readings only, as a floor tester lays it."""
        return _between_readings(self.along, self.heights, over)[0]

    def _chord(self, found: _Found) -> Chord | None:
        start, end, at = (
            (self.origin[0] + s * self.direction[0], self.origin[1] + s * self.direction[1])
            for s in found[1:]
        )
        return Chord(start, end, at, found[0]) if found[0] > 0.0 else None


def profile_of(places: NDArray[np.float64], heights: Numbers) -> Profile:
    """Return readings that lie in one line (k, 2), k >= 2, as a profile."""
    far = places[np.argmax(np.hypot(*(places - places[0]).T))]
    direction = (far - places[0]) / max(float(np.hypot(*(far - places[0]))), 1e-9)
    along = (places - places[0]) @ direction
    order = np.argsort(along, kind="stable")
    origin, toward = places[0].tolist(), direction.tolist()
    return Profile(along[order], heights[order], (origin[0], origin[1]), (toward[0], toward[1]))


def _deepest(along: Numbers, heights: Numbers, over: float) -> _Found:
    """Return the largest distance below a chord, with the chord's ends and the place, along the line."""
    return max(_between_readings(along, heights, over), _at_full_length(along, heights, over))


def _between_readings(along: Numbers, heights: Numbers, over: float) -> _Found:
    best = (0.0, 0.0, 0.0, 0.0)
    for first in range(len(along) - 2):
        ends = np.flatnonzero(along[first + 2 :] - along[first] <= over + 1e-9) + first + 2
        for end in ends:
            between = slice(first + 1, end)
            share = (along[between] - along[first]) / (along[end] - along[first])
            below = heights[first] + share * (heights[end] - heights[first]) - heights[between]
            at = int(np.argmax(below))
            found = (float(below[at]), float(along[first]), float(along[end]), float(along[first + 1 + at]))
            best = max(best, found)
    return best


def _at_full_length(along: Numbers, heights: Numbers, over: float) -> _Found:
    """The deepest with the straightedge's own length as the chord, over each reading."""
    best = (0.0, 0.0, 0.0, 0.0)
    if along[-1] - along[0] < over:
        return best
    for at, height in zip(along[1:-1], heights[1:-1], strict=True):
        low, high = max(along[0], at - over), min(at, along[-1] - over)
        starts = np.concatenate([along, along - over])
        stops = np.unique(np.clip(starts, low, high)) if low < high else np.array([])
        tried = np.concatenate([stops, _peaks(stops, along, heights, at, over)])
        if len(tried):
            below = _below(tried, along, heights, at, over) - height
            best = max(best, _found(tried, below, at, over))
    return best


def _found(starts: Numbers, below: Numbers, at: float, over: float) -> _Found:
    k = int(np.argmax(below))
    return float(below[k]), float(starts[k]), float(starts[k] + over), float(at)


def _below(starts: Numbers, along: Numbers, heights: Numbers, at: float, over: float) -> Numbers:
    """The height of the chord at `at`, for straightedges that begin at `starts`."""
    share = (at - starts) / over
    first = np.interp(starts, along, heights)
    return np.asarray(first + share * (np.interp(starts + over, along, heights) - first))


def _peaks(stops: Numbers, along: Numbers, heights: Numbers, at: float, over: float) -> Numbers:
    """Where each quadratic between two stops has its peak, if it has one there."""
    if len(stops) < 2:
        return np.array([])
    left, right = stops[:-1], stops[1:]
    middle = (left + right) / 2.0
    a, b, c = (_below(each, along, heights, at, over) for each in (left, middle, right))
    bend = a - 2.0 * b + c
    shift = np.divide(a - c, 4.0 * bend, out=np.ones_like(bend), where=bend < -1e-15)
    inside = (bend < -1e-15) & (np.abs(shift) < 0.5)
    return np.asarray((middle + shift * (right - left))[inside])
