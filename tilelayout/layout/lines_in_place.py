"""How well a start keeps to the reference lines of a layout, and the nearest start that keeps to them.

Most lines fix the start along one direction: seen along it, the middles or the sides of the tiles are a row
of places that repeats, and one of them is to stand at a given place. So such a line leaves the start one
freedom, and two of them none. A cutout that no joint may come near only bounds the start.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np

from tilelayout.geometry.rings import signed_area
from tilelayout.geometry.turns import turning
from tilelayout.job.kinds import Centred, LineKind
from tilelayout.job.values import Cutout, EdgeRole, Layout, Point, ReferenceLine, Surface
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.seeking.balance import repeat_along
from tilelayout.layout.values import Points

_SHORTEST_REPEAT = 5.0
_IN_LINE = 1e-3
"""Corners of a tile nearer than this, in mm along a direction, are the ends of a side square to it."""

_ASKEW = 0.05


@dataclass(frozen=True, eq=False)
class Fixed:
    """One of `targets`, measured along `normal` (2,) from the start and repeated, is to stand at `place`."""

    normal: Points
    place: float
    targets: Points
    repeat: float

    def off(self, starts: Points) -> Points:
        """Return how far starts (n, 2) must move along the normal for the line to be kept: (n,)."""
        if not len(self.targets):
            return np.zeros(len(starts))
        away = self.place - (starts @ self.normal)[:, None] - self.targets
        away -= np.round(away / self.repeat) * self.repeat
        return np.asarray(away[np.arange(len(starts)), np.abs(np.round(away, 9)).argmin(axis=1)])

    def miss(self, start: Point) -> float | None:
        """Return by how many mm a start misses the line; None if no start can keep it."""
        return float(abs(self.off(np.array([start]))[0])) if len(self.targets) else None


@dataclass(frozen=True, eq=False)
class KeptAway:
    """Joints are to stay `within` mm away from these points (k, 2), each with `radius` round it."""

    points: Points
    radius: float
    within: float
    placed: Placed

    def miss(self, start: Point) -> float | None:
        """Return by how many mm a joint comes too near; more than `within` if it runs through."""
        cell = np.floor(self.placed.in_lattice(self.points.mean(axis=0) - np.array(start)))
        most = -np.inf
        for column, row in product((-2, -1, 0, 1, 2), repeat=2):
            away = self.points - np.array(start) - (cell + np.array([column, row])) @ self.placed.vectors
            depths = np.einsum("fmd,kd->fmk", self.placed.normals, away) - self.placed.reach[:, :, None]
            most = max(most, float(depths.min(axis=(1, 2)).max()))
        return max(0.0, self.within - most + self.radius)


Kept = Fixed | KeptAway


class LinesInPlace:
    """The reference lines of a layout; `placed` is its pattern with the start at (0, 0)."""

    def __init__(self, surface: Surface, layout: Layout, placed: Placed) -> None:
        reading = _Reading(surface, layout, placed)
        self.lines = tuple(tuple(reading.kept(line)) for line in layout.lines)
        self._fixed = _independent([kept for line in self.lines for kept in line if isinstance(kept, Fixed)])

    def misses(self, start: Point) -> tuple[float | None, ...]:
        """Return by how many mm a start misses each line; None where no start can keep it."""
        return tuple(_together([kept.miss(start) for kept in line]) for line in self.lines)

    def off(self, start: Point) -> float:
        """Return by how many mm a start misses all the lines that can be kept, summed."""
        return sum(miss or 0.0 for miss in self.misses(start)) if self.lines else 0.0

    def nearest(self, starts: Points) -> Points:
        """Return the starts (n, 2) moved to where they keep to the lines that fix them, the first ones first.

        Later lines that ask for the same coordinate are left as they are.
        """
        moved = starts
        for at, fixed in enumerate(self._fixed):
            way = fixed.normal if not at else _square_to(self._fixed[0].normal)
            moved = moved + (fixed.off(moved) / float(way @ fixed.normal))[:, None] * way
        return moved


class _Reading:
    """Reads what lines ask for in terms of the pattern's tiles."""

    def __init__(self, surface: Surface, layout: Layout, placed: Placed) -> None:
        self.surface, self.layout, self.placed = surface, layout, placed
        self.outline = np.array(surface.outline, dtype=float)

    def kept(self, line: ReferenceLine) -> Iterator[Kept]:
        """Yield what a line asks for; two of them for a point, one along each way of the tiles."""
        if line.kind is LineKind.NO_JOINT:
            yield self._kept_away(line)
        elif line.kind is LineKind.JOINT and line.line is not None:
            start, end = np.array(line.line)
            normal = _square_to((end - start) / np.hypot(*(end - start)))
            yield self._fixed(normal, float(start @ normal), self._joints(normal))
        elif line.edge is not None:
            yield self._at_edge(line, line.edge)
        else:
            for normal in turning(self.layout.angle):
                yield self._fixed(normal, float(self._feature(line) @ normal), self._centred(line, normal))

    def _at_edge(self, line: ReferenceLine, edge: int) -> Fixed:
        start, end = self.outline[edge], self.outline[(edge + 1) % len(self.outline)]
        along = (end - start) / np.hypot(*(end - start))
        if line.kind is LineKind.CENTRE:
            return self._fixed(along, float((start + end) @ along) / 2.0, self._centred(line, along))
        inward = _square_to(along) * np.sign(signed_area(self.outline))
        gap = self.layout.gap if self.surface.edge(edge).role is EdgeRole.WALL else 0.0
        is_straight = self.surface.edge(edge).through is None
        sides = self._sides(inward)[0] if is_straight else np.empty(0)
        return self._fixed(inward, float(start @ inward) + gap, sides)

    def _fixed(self, normal: Points, place: float, targets: Points) -> Fixed:
        repeat = repeat_along(self.placed.vectors, normal)
        if repeat < _SHORTEST_REPEAT:
            return Fixed(normal, place, np.empty(0), 1.0)
        return Fixed(normal, place, np.unique(np.round(targets % repeat, 6)), repeat)

    def _centred(self, line: ReferenceLine, normal: Points) -> Points:
        ends = self.placed.corners @ normal
        middles = (ends.min(axis=1) + ends.max(axis=1)) / 2.0
        if line.put is Centred.TILE:
            return np.asarray(middles)
        joints = self._joints(normal)
        return joints if line.put is Centred.JOINT else np.concatenate([middles, joints])

    def _joints(self, normal: Points) -> Points:
        """Where the middles of joints run square to the normal."""
        low, high = self._sides(normal)
        return np.concatenate([low - self.layout.joint / 2.0, high + self.layout.joint / 2.0])

    def _sides(self, normal: Points) -> tuple[Points, Points]:
        """Where the tiles have a side square to the normal: at their near end, and at their far end."""
        ends = self.placed.corners @ normal
        found = []
        for extreme in (ends.min(axis=1), ends.max(axis=1)):
            at = np.abs(ends - extreme[:, None]) < _IN_LINE
            across = self.placed.corners @ _square_to(normal)
            spread = np.where(at, across, -np.inf).max(axis=1) - np.where(at, across, np.inf).min(axis=1)
            found.append(extreme[spread > _IN_LINE])
        return found[0], found[1]

    def _feature(self, line: ReferenceLine) -> Points:
        if line.point is not None:
            return np.array(line.point)
        points, _ = _outline_of(self._cutout(line))
        return np.asarray((points.min(axis=0) + points.max(axis=0)) / 2.0)

    def _kept_away(self, line: ReferenceLine) -> KeptAway:
        points, radius = _outline_of(self._cutout(line))
        return KeptAway(points, radius, line.within, self.placed)

    def _cutout(self, line: ReferenceLine) -> Cutout:
        return next(cutout for cutout in self.surface.cutouts if cutout.name == line.cutout)


def _outline_of(cutout: Cutout) -> tuple[Points, float]:
    """The corners of a cutout, or the centre and the radius of a round one."""
    if cutout.circle is not None:
        return np.array([cutout.circle.centre]), cutout.circle.diameter / 2.0
    return np.array(cutout.polygon), 0.0


def _independent(fixed: list[Fixed]) -> list[Fixed]:
    """The first of them that fixes something, and the first after it that fixes another coordinate."""
    chosen: list[Fixed] = []
    for one in (one for one in fixed if len(one.targets)):
        if not chosen or (len(chosen) == 1 and abs(one.normal @ _square_to(chosen[0].normal)) > _ASKEW):
            chosen.append(one)
    return chosen


def _square_to(way: Points) -> Points:
    """The way turned to its left."""
    return np.array([-way[1], way[0]])


def _together(misses: list[float | None]) -> float | None:
    """How far off two coordinates are together; None if one cannot be kept."""
    known = [miss for miss in misses if miss is not None]
    return float(np.hypot.reduce(known)) if known and len(known) == len(misses) else None
