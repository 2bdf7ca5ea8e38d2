"""Joints between neighbouring plates, and the step from one plate to the next at each.

A joint is a stretch along which straight sides of two plates face each other. Both plates are compared on
its middle line, so that a slope of the whole floor makes no step. Planes and bows are told at the two ends of
the stretch: from plane to plane the step runs evenly between them, and so it does between two tiles of
one size, since their bows differ by a straight line.

The bow is what ISO 10545-2 calls edge curvature and ASTM C485 warpage along an edge (terms from memory): how
far the middle of an edge is off the line between its ends. It is taken as a parabola, and a shorter edge of
the same tile as a piece of it. Worked out from the geometry; no measured model is known.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.flatness.mesh import Flags, Numbers, Places, Points
from tilelayout.flatness.plates import Shapes
from tilelayout.flatness.resting_plates import Rested

_STRAIGHT = 0.02
"""Sides that face each other differ by no more than this angle, in radians: about a degree."""

_LEAST_STRETCH = 5.0
"""Shorter than this (mm) a joint is a meeting of corners."""


@dataclass(frozen=True, eq=False)
class Joints:
    """j joints between the plates `pairs` (j, 2): middle lines from `ends` (j, 2, 2), point by point.

    `along` (j, 2, 2) is how far from the start of either plate's own side each end lies (joint, plate, end),
    and `lengths` (j, 2) how long the sides are.
    """

    pairs: Places
    ends: Points
    along: Numbers
    lengths: Numbers

    def only(self, chosen: Flags | Places) -> Joints:
        """Return the joints that are chosen."""
        return Joints(self.pairs[chosen], self.ends[chosen], self.along[chosen], self.lengths[chosen])


@dataclass(frozen=True, eq=False)
class Steps:
    """The step at each of j joints, where it is largest: the part that the surface makes, and the bow's."""

    joints: Joints
    floor: Numbers
    bow: Numbers
    at: Points

    @property
    def worst(self) -> Numbers:
        """Both parts the same way (j,)."""
        return self.floor + self.bow

    @property
    def likely(self) -> Numbers:
        """The root of the sum of their squares (j,): as likely one way as the other."""
        return np.hypot(self.floor, self.bow)


def joints_between(shapes: Shapes, width: float) -> Joints:
    """Return the joints between plates of these outlines (k,) that stand `width` mm apart or nearer."""
    starts, ends, owner = _sides(shapes)
    lines = np.asarray(shapely.linestrings(np.stack([starts, ends], axis=1)))
    one, other = shapely.STRtree(lines).query(lines, predicate="dwithin", distance=width)
    is_pair = owner[one] < owner[other]
    one, other = one[is_pair], other[is_pair]
    unit = (ends - starts) / np.hypot(*(ends - starts).T)[:, None]
    u, v = unit[one], unit[other]
    faces = (np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) < _STRAIGHT) & (np.sum(u * v, axis=1) < 0.0)
    return _stretches(starts, ends, owner, one[faces], other[faces])


def _sides(shapes: Shapes) -> tuple[Points, Points, Places]:
    """The sides of plates, counter-clockwise, and whose they are."""
    rings = shapely.get_exterior_ring(shapely.orient_polygons(shapes))
    points, owner = shapely.get_coordinates(rings, return_index=True)
    is_side = (owner[1:] == owner[:-1]) & np.any(points[1:] != points[:-1], axis=1)
    return points[:-1][is_side], points[1:][is_side], owner[:-1][is_side]


def _stretches(starts: Points, ends: Points, owner: Places, one: Places, other: Places) -> Joints:
    """The joints where pairs of sides stand side by side long enough."""
    begin, length = starts[one], np.hypot(*(ends[one] - starts[one]).T)
    unit = (ends[one] - begin) / length[:, None]
    first, last = (np.sum((side[other] - begin) * unit, axis=1) for side in (ends, starts))
    low, high = np.maximum(first, 0.0), np.minimum(last, length)
    is_joint = high - low > _LEAST_STRETCH
    begin, length, unit, first, last, low, high, one, other = (
        each[is_joint] for each in (begin, length, unit, first, last, low, high, one, other)
    )
    normal = np.column_stack([unit[:, 1], -unit[:, 0]])
    apart = np.sum((starts[other] - begin) * normal, axis=1)
    middle = begin + normal * (apart / 2.0)[:, None]
    spots = np.stack([middle + unit * at[:, None] for at in (low, high)], axis=1)
    along = np.stack([np.column_stack([low, high]), np.column_stack([last - low, last - high])], axis=1)
    lengths = np.column_stack([length, last - first])
    return Joints(np.column_stack([owner[one], owner[other]]), spots, along, lengths)


def steps_at(joints: Joints, plates: Rested, bows: NDArray[np.float64]) -> Steps:
    """Return the largest step at each joint; `joints` count the plates as `plates` does.

    `bows` (i,) is for each plate how far a side of 1 mm would bow, in 1 / mm: of a tile whose edge of length
    L bows by w, w / L^2.
    """
    floor = np.abs(_heights(joints, plates, 0) - _heights(joints, plates, 1))
    rise = 4.0 * joints.along * (joints.lengths[:, :, None] - joints.along) * bows[joints.pairs][:, :, None]
    bow = np.abs(rise[:, 0] - rise[:, 1])
    row, end = np.arange(len(floor)), np.argmax(floor + bow, axis=1)
    return Steps(joints, floor[row, end], bow[row, end], joints.ends[row, end])


def _heights(joints: Joints, plates: Rested, side: int) -> Numbers:
    """How high the plates on one side of the joints stand at both ends (j, 2)."""
    plate = joints.pairs[:, side]
    return np.column_stack([plates.heights_at(plate, joints.ends[:, end]) for end in (0, 1)])
