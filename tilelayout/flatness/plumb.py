"""Whether a wall stands plumb: how far it leans over its height, where it leans most.

Readings out from a plumb plane tell the lean only up and down: which way the plane was turned about an
upright axis is as the person held it. So readings that stand above each other are compared; where none do,
the plane nearest to all readings is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tilelayout.flatness.mesh import Numbers, Points
from tilelayout.flatness.standards import Grade, Source

OVER, LIMIT = 96 * 25.4, 25.4 / 8.0
"""1/8 in in 8 ft, mm."""

SOURCE = Source("walls plumb to 1/8 in in 8 ft", "a handbook of renovation, fourth edition", Grade.SUMMARY)

_SAME_UPRIGHT = 25.0
"""Readings no further beside each other than this (mm) stand above each other."""

_SHORTEST = 600.0
"""A lean over less height than this (mm) is a question of flatness."""

_SAME = 1e-6


@dataclass(frozen=True)
class Lean:
    """A wall leans `out` mm at its top (in below nought) over `over` mm of height, read at `x`.

    `x` is None where it is the lean of the plane nearest to all readings.
    """

    out: float
    over: float
    x: float | None

    @property
    def rate(self) -> float:
        """The lean over the length that the limit belongs to, mm."""
        return abs(self.out) / self.over * OVER

    @property
    def ok(self) -> bool:
        """Whether it keeps to the limit."""
        return self.rate <= LIMIT + _SAME


def lean(places: Points, readings: Numbers) -> Lean | None:
    """Return the worst lean of readings (n,) out of a wall at `places` (n, 2); None if they tell none."""
    found = list(_uprights(places, readings)) or list(_of_plane(places, readings))
    return max(found, key=lambda each: each.rate, default=None)


def _uprights(places: Points, readings: Numbers) -> Iterator[Lean]:
    """The lean of each upright line of readings, from its lowest to its highest."""
    order = np.argsort(places[:, 0], kind="stable")
    parted = np.flatnonzero(np.diff(places[order, 0]) > _SAME_UPRIGHT) + 1
    for line in np.split(order, parted):
        low, high = line[np.argmin(places[line, 1])], line[np.argmax(places[line, 1])]
        over = float(places[high, 1] - places[low, 1])
        if over >= _SHORTEST:
            yield Lean(float(readings[high] - readings[low]), over, float(places[line, 0].mean()))


def _of_plane(places: Points, readings: Numbers) -> Iterator[Lean]:
    over = float(np.ptp(places[:, 1]))
    columns = np.column_stack([places - places.mean(axis=0), np.ones(len(places))])
    if over >= _SHORTEST and np.linalg.matrix_rank(columns) == columns.shape[1]:
        plane = np.linalg.lstsq(columns, readings, rcond=None)[0]
        yield Lean(float(plane[1]) * over, over, None)
