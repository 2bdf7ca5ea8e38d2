"""Finds the curves in polygons: runs of chords that stand for one arc.

A corner at which two sides would be chords of one circle that stray no further from it than chords do is no
corner that anyone would see, but a joint. A run of joints with one and the same circle is one curve; the
circle tells where the curve would run if it went on. A last chord may have been cut short, so it is the
longer of two chords whose length tells, with the turn between them, the radius.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import CHORD
from tilelayout.geometry.rings import cross
from tilelayout.geometry.sides import Sides

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Places = NDArray[np.intp]
Flags = NDArray[np.bool_]

_STRAYS = 1.25 * CHORD
"""How far a chord may stray from its circle; a quarter more than it should, for circles of equal area."""

_SAME_CIRCLE = 0.25 * CHORD
"""Circles from which a chord strays by amounts that differ by less are one circle."""

_SHALLOW = float(np.sin(np.radians(31.0)))


@dataclass(frozen=True, eq=False)
class Curves:
    """The c curves of polygons of n sides.

    `owner` (n,) is the curve that a side belongs to, -1 if to none; `joins` tells of the corner at a side's
    end whether it joins two chords of one curve.
    """

    owner: Places
    joins: Flags
    centres: Points
    radii: Numbers

    def run_on_to(self, curves: Places, targets: Places, sides: Sides) -> Flags:
        """Tell whether each of `curves` (p,), run on, crosses the line or curve of a side of `targets`."""
        centres, radii = self.centres[curves], self.radii[curves]
        depths = np.sum(centres * sides.normals[targets], axis=1) - sides.offsets[targets]
        others = self.owner[targets]
        between = centres - self.centres[others]
        apart = np.hypot(between[:, 0], between[:, 1])
        least, most = np.abs(radii - self.radii[others]), radii + self.radii[others]
        return np.asarray(np.where(others >= 0, (least < apart) & (apart < most), np.abs(depths) < radii))


def curves_of(sides: Sides) -> Curves:
    """Find the curves of polygons."""
    turns = cross(sides.along, sides.along[sides.next])
    longer = np.maximum(sides.lengths, sides.lengths[sides.next])
    curvatures = np.abs(turns) / longer
    strays = longer**2 / 8.0
    onward = np.sum(sides.along * sides.along[sides.next], axis=1) > 0
    joins = (strays * curvatures <= _STRAYS) & (np.abs(turns) < _SHALLOW) & onward & (turns != 0.0)
    owner = np.full(len(joins), -1)
    if not joins.any():
        return Curves(owner, joins, np.empty((0, 2)), np.empty(0))
    after = sides.next
    differ = np.abs(curvatures - curvatures[after]) * np.maximum(strays, strays[after])
    is_linked = joins & joins[after] & (sides.bends_in == sides.bends_in[after]) & (differ <= _SAME_CIRCLE)
    joints = np.flatnonzero(joins)
    run = _runs(joints, is_linked[sides.before[joints]], sides.ring[joints])
    owner[joints] = owner[after[joints]] = run
    fullest = joints[_largest_of_each(run, np.minimum(sides.lengths, sides.lengths[after])[joints])]
    centres = _centres(fullest, sides)
    radii = np.hypot(*(sides.ends[fullest] - centres).T)
    return Curves(owner, joins, centres, radii)


def _runs(joints: Places, follows: Flags, ring: Places) -> Places:
    """Number the runs of joints: each joint that does not follow one of its run begins another.

    A ring that is a curve all round has no beginning, so its first joint is taken for one. Joints before the
    first beginning in their ring go on from its last.
    """
    begins = ~follows
    opens = np.flatnonzero(np.diff(ring, prepend=-1))
    begins[opens[np.add.reduceat(begins.astype(int), opens) == 0]] = True
    number = np.cumsum(begins) - 1
    sizes = np.diff(np.append(opens, len(joints)))
    before = np.repeat(number[opens] - begins[opens], sizes)
    last = np.repeat(number[opens + sizes - 1], sizes)
    return np.asarray(np.where(number == before, last, number))


def _largest_of_each(run: Places, sizes: Numbers) -> Places:
    """Return, for each run, the place of its largest joint: the one that tells the circle best."""
    order = np.lexsort((sizes, run))
    return np.asarray(order[np.flatnonzero(np.diff(run[order], append=-1))])


def _centres(joints: Places, sides: Sides) -> Points:
    """Return the centre of the circle through both ends of the sides that meet at each joint."""
    corner = sides.ends[joints]
    a, b = sides.starts[joints] - corner, sides.ends[sides.next[joints]] - corner
    a_square, b_square = np.sum(a * a, axis=1), np.sum(b * b, axis=1)
    x = b[:, 1] * a_square - a[:, 1] * b_square
    y = a[:, 0] * b_square - b[:, 0] * a_square
    return np.asarray(corner + np.column_stack([x, y]) / (2.0 * cross(a, b))[:, None])
