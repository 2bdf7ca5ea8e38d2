"""Finds the curves in a polygon: runs of chords that stand for one arc.

A corner at which the ring strays no further from straight than neighbouring chords of an arc do is no
corner that anyone would see. A run of sides joined by such corners, all bending the same way, is one curve;
the circle through its start, middle and end tells where it would run if it went on.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import CHORD
from tilelayout.geometry.arcs import circle_centre, lies_straight
from tilelayout.geometry.rings import cross
from tilelayout.geometry.sides import Sides

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]

_STRAYS = 5.0 * CHORD
"""Two chords that stray at most CHORD from their arc meet at most 4 CHORD off the line across both."""

_SHALLOW = float(np.sin(np.radians(31.0)))


@dataclass(frozen=True, eq=False)
class Curves:
    """The c curves of a polygon of n sides.

    `owner` (n,) is the curve that a side belongs to, -1 if to none; `joins` tells of the corner at a side's
    end whether it joins two chords of one curve.
    """

    owner: NDArray[np.intp]
    joins: Flags
    centres: Points
    radii: Numbers

    def run_on_to(self, sides: Sides) -> Flags:
        """Tell whether each curve, run on, crosses the line or the curve of each side: (c, n)."""
        crosses_line = np.abs(sides.depths(self.centres)) < self.radii[:, None]
        between = self.centres[:, None] - self.centres[None, :]
        apart = np.hypot(between[..., 0], between[..., 1])
        least = np.abs(self.radii[:, None] - self.radii)
        crosses_curve = (least < apart) & (apart < self.radii[:, None] + self.radii)
        return np.asarray(np.where(self.owner >= 0, crosses_curve[:, self.owner], crosses_line))


def curves_of(sides: Sides) -> Curves:
    """Find the curves of a polygon."""
    smooth = smooth_corners(sides)
    owner = np.full(len(smooth), -1)
    joins = np.zeros(len(smooth), dtype=bool)
    found: list[tuple[Points, float]] = []
    for at in np.flatnonzero(smooth).tolist():
        if joins[at]:
            continue
        run = _run_through(at, sides, smooth)
        circle = _circle_of(run, sides)
        if circle is not None:
            joins[[side for side in run if smooth[side] and sides.bends_in[side] == sides.bends_in[at]]] = (
                True
            )
            owner[run] = len(found)
            found.append(circle)
    centres = np.array([centre for centre, _ in found]).reshape(-1, 2)
    return Curves(owner, joins, centres, np.array([radius for _, radius in found]))


def smooth_corners(sides: Sides) -> Flags:
    """Tell of the corner at each side's end whether it may only be a joint between two chords: (n,)."""
    turn = cross(sides.along, sides.along[sides.next])
    span = sides.ends[sides.next] - sides.starts
    across = np.maximum(np.hypot(span[:, 0], span[:, 1]), 1e-12)
    strays = np.abs(turn) * sides.lengths * sides.lengths[sides.next] / across
    onward = np.sum(sides.along * sides.along[sides.next], axis=1) > 0
    return np.asarray((strays <= _STRAYS) & (np.abs(turn) < _SHALLOW) & onward)


def _run_through(at: int, sides: Sides, smooth: Flags) -> list[int]:
    """The sides joined to side `at` by smooth corners that bend like the one at its end, in order."""
    joined = smooth & (sides.bends_in == sides.bends_in[at])
    first = at
    while joined[sides.before[first]] and sides.before[first] != at:
        first = int(sides.before[first])
    run = [first]
    while joined[run[-1]] and sides.next[run[-1]] != first:
        run.append(int(sides.next[run[-1]]))
    return run


def _circle_of(run: list[int], sides: Sides) -> tuple[Points, float] | None:
    """Centre and radius of the circle through start, middle and end of a run; None if it runs straight."""
    start, middle = sides.starts[run[0]], sides.starts[run[(len(run) + 1) // 2]]
    end = sides.ends[run[-1]] if sides.next[run[-1]] != run[0] else sides.starts[run[-1]]
    if lies_straight(start, middle, end):
        return None
    centre = circle_centre(start, middle, end)
    return centre, float(np.hypot(*(start - centre)))
