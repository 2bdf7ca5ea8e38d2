"""The best place on one axis: where the least of many saw-toothed depths is greatest, exactly.

A wall at c cuts tiles to a depth d that grows or shrinks with the start s by as much as s moves, until the
tile is whole: d = (s - z) mod m on the one side of a wall, (z - s) mod m on the other, with m the
coordinating size. The wall cuts where least <= d < size. From `size` to m it lies in a joint, and the tile
beside it is whole; below `least` the strip is left to the joint. Between two neighbouring breakpoints every
depth is a straight line, so the least of them is greatest where the lowest rising line meets the lowest
falling one. The breakpoints themselves are stretches of no length: there walls lie exactly on joints.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from tilelayout.layout.values import Points

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]

INSIDE = 1e-5
"""How far inside a stretch its best place is kept, in mm: where the kernel surely sees the strip."""

_SAME = 1e-7
"""Depths that differ by less are equal: a wall on a joint, whatever the rounding."""


@dataclass(frozen=True, eq=False)
class Teeth:
    """Depths (n,): `zero` is z above, `inward` +1 or -1 the slope.

    `counts` tells which are widths of pieces for sure, and matter. `necks` are further depths at which
    something changes.
    """

    zero: Points
    inward: Whole
    counts: Flags
    necks: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, eq=False)
class Axis:
    """Tiles along one axis: a size and a coordinating size, and the least width of a piece."""

    size: float
    module: float
    least: float


@dataclass(frozen=True, eq=False)
class Stretches:
    """Stretches of starts (k,): their `middle`, how far they reach either way, and the depths over them.

    `rising` and `falling` (k,) are the least of the depths of either slope at the middle, infinite if there
    is none.
    """

    middle: Points
    half: Points
    rising: Points
    falling: Points

    @cached_property
    def best(self) -> tuple[Points, Points]:
        """The best start (k,) of each stretch and the least depth there, infinite if nothing is cut."""
        return peak(self.rising, self.falling, self.middle, self.half)

    def moved(self, by: float) -> Stretches:
        """Return the same stretches further on, where every depth is what it was."""
        return replace(self, middle=self.middle + by)


def peak(rising: Points, falling: Points, middle: Points, half: Points) -> tuple[Points, Points]:
    """Return where the lower of a rising and a falling line is highest, and how high; (k,) each.

    The lines are given by their heights at the middle of stretches that reach `half` either way.
    """
    reach = np.where(half > 2.0 * INSIDE, half - INSIDE, 0.0)
    with np.errstate(invalid="ignore"):
        by = np.where(np.isinf(rising) & np.isinf(falling), 0.0, (falling - rising) / 2.0)
    by = np.clip(by, -reach, reach)
    return middle + by, np.minimum(rising + by, falling - by)


def stretches_of(teeth: Teeth, axis: Axis) -> Stretches:
    """Return the stretches of one coordinating size of starts, from 0 on."""
    points = _breakpoints(teeth, axis)
    onward = np.append(points[1:], points[0] + axis.module)
    wide = onward - points > 4.0 * INSIDE
    middle = np.concatenate([points, (points + onward)[wide] / 2.0])
    half = np.concatenate([np.zeros(len(points)), (onward - points)[wide] / 2.0])
    order = np.lexsort((half, middle))
    middle, half = middle[order], half[order]
    depths = (teeth.inward * (middle[:, None] - teeth.zero)) % axis.module
    cuts = (depths >= max(axis.least - _SAME, _SAME)) & (depths < axis.size - _SAME) & teeth.counts
    depths = np.where(cuts, depths, np.inf)
    rising = depths[:, teeth.inward > 0].min(axis=1, initial=np.inf)
    falling = depths[:, teeth.inward < 0].min(axis=1, initial=np.inf)
    return Stretches(middle, half, rising, falling)


def _breakpoints(teeth: Teeth, axis: Axis) -> Points:
    """The starts at which a depth or what is left of the tile behind the wall becomes something else."""
    if not len(teeth.zero):
        return np.zeros(1)
    usual = (0.0, axis.least, axis.size - axis.least, axis.size)
    found = [teeth.zero + teeth.inward * depth for depth in usual]
    for k, sizes in enumerate(teeth.necks):
        depths = [size for size in sizes if axis.least < size < axis.size]
        found.append(teeth.zero[k] + teeth.inward[k] * np.array(depths))
    points = np.sort(np.concatenate(found) % axis.module)
    return np.asarray(points[np.concatenate([[True], np.diff(points) > _SAME])])
