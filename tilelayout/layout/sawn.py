"""The outline of a piece in its tile, as straight stretches and curves, each factory or sawn.

Sides that run straight on are one stretch, chords of one arc are one curve. A sawn stretch is `ACROSS` if the
whole piece lies on one side of its line, so that the blade may run right across the tile; what is left are
the pockets: sawn stretches in a row that the blade must not run past.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from functools import cached_property

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.rings import following
from tilelayout.layout.bordering import sawn_sides, stretches_of
from tilelayout.layout.values import BorderEdge, Piece, Points, Region


class How(Enum):
    """How a stretch of a piece's outline came about."""

    FACTORY = 1
    ACROSS = 2
    POCKET = 3


@dataclass(frozen=True, eq=False)
class Stretch:
    """Part of a piece's outline: a straight line, or the chords of a curve; the piece lies on its left."""

    points: Points
    how: How
    border: BorderEdge | None

    @property
    def is_curve(self) -> bool:
        """Whether it is part of a circle."""
        return self.border is not None and self.border.centre is not None

    @property
    def start(self) -> Points:
        """Where it begins (2,)."""
        return np.asarray(self.points[0])

    @cached_property
    def way(self) -> Points:
        """Unit vector from start to end (2,)."""
        along = self.points[-1] - self.points[0]
        return np.asarray(along / np.hypot(*along))

    @cached_property
    def inward(self) -> Points:
        """Unit vector (2,) square to a straight stretch, into the piece."""
        x, y = self.way
        return np.array([-y, x])

    @cached_property
    def length(self) -> float:
        """Length in mm."""
        steps = np.diff(self.points, axis=0)
        return float(np.hypot(steps[:, 0], steps[:, 1]).sum())

    def depths(self, points: Points) -> Points:
        """How far points (n, 2) lie to the left of a straight stretch's line."""
        return np.asarray((points - self.start) @ self.inward)


def stretches_of_piece(piece: Piece, region: Region) -> tuple[Stretch, ...]:
    """Return the outline of a piece, in tile coordinates and in order."""
    ring, sawn = piece.outline, sawn_sides(piece, piece.outline)
    borders: list[BorderEdge | None] = [None] * len(ring)
    found = stretches_of(region).nearest(ring[sawn], following(ring)[sawn])
    for at, border in zip(np.flatnonzero(sawn), found, strict=True):
        borders[at] = border
    in_tile = piece.in_tile(ring)
    ends = following(in_tile)
    sides = [
        Stretch(np.array([start, end]), How.FACTORY if border is None else How.ACROSS, border)
        for start, end, border in zip(in_tile, ends, borders, strict=True)
    ]
    return tuple(_sorted_out(stretch, in_tile) for stretch in _joined(sides))


def pockets(stretches: tuple[Stretch, ...]) -> list[tuple[Stretch, ...]]:
    """Return the runs of neighbouring pocket stretches, around the ring."""
    count = len(stretches)
    is_pocket = [stretch.how is How.POCKET for stretch in stretches]
    if all(is_pocket):
        return [stretches]
    runs: list[tuple[Stretch, ...]] = []
    for at in range(count):
        if is_pocket[at] and not is_pocket[at - 1]:
            length = next(n for n in range(1, count) if not is_pocket[(at + n) % count])
            runs.append(tuple(stretches[(at + n) % count] for n in range(length)))
    return runs


def _joined(sides: list[Stretch]) -> list[Stretch]:
    """Join sides that run on into each other, around the ring."""
    joined = [sides[0]]
    for side in sides[1:]:
        if _runs_on(joined[-1], side):
            joined[-1] = _one(joined[-1], side)
        else:
            joined.append(side)
    while len(joined) > 1 and _runs_on(joined[-1], joined[0]):
        joined[0] = _one(joined.pop(), joined[0])
    return joined


def _runs_on(one: Stretch, other: Stretch) -> bool:
    if one.how is not other.how or one.is_curve != other.is_curve:
        return False
    if one.is_curve:
        return one.border == other.border
    return bool(np.all(np.abs(one.depths(other.points)) < ON_EDGE)) and float(one.way @ other.way) > 0


def _one(one: Stretch, other: Stretch) -> Stretch:
    """Both in one; the border is that of the longer."""
    longer = one if one.length >= other.length else other
    joint = one.points[-1:] if one.is_curve else one.points[:0]
    points = np.concatenate([one.points[:-1], joint, other.points[1:]])
    return Stretch(points, longer.how, longer.border)


def _sorted_out(stretch: Stretch, ring: Points) -> Stretch:
    """Tell a stretch right across from one in a pocket."""
    if stretch.how is How.FACTORY:
        return stretch
    lies_left = not stretch.is_curve and bool(np.all(stretch.depths(ring) > -ON_EDGE))
    return replace(stretch, how=How.ACROSS if lies_left else How.POCKET)
