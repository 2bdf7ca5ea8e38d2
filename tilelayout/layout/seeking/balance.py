"""How far from equal opposite border cuts are.

Seen along the normal of two walls that face each other, a pattern is a row of tile ends that repeats. If the
row looks the same from both sides of the middle between the walls, the cuts at one wall are those at the
other; moved off by d, they differ by 2 d. The places about which a row looks the same both ways follow from
the ends of the faces alone. A pattern whose row repeats within a few millimetres has no such places: along a
wall it leaves cuts of every size.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from itertools import product

import numpy as np

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.rings import following
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.values import Points, Region

_SHORTEST_REPEAT = 5.0
_ALIKE = 0.05
"""How far, in mm, tile ends may be from where a mirror would have them."""

_OPPOSITE = 0.02
_MOST_STARTS = 64


@dataclass(frozen=True, eq=False)
class Pair:
    """Two walls that face each other: their unit normal (2,), and the middle between them along it."""

    normal: Points
    middle: float


def facing_pairs(region: Region) -> tuple[Pair, ...]:
    """Return the pair with the longest walls and the longest one askew to it; fewer if there are none."""
    starts = np.vstack(region.rings)
    steps = np.vstack([following(ring) for ring in region.rings]) - starts
    curved = np.array([border.radius is not None for ring in region.borders for border in ring])
    lengths = np.where(curved, 0.0, np.hypot(steps[:, 0], steps[:, 1]))
    inward = (
        np.column_stack([-steps[:, 1], steps[:, 0]]) / np.maximum(np.hypot(*steps.T), SAME_PLACE)[:, None]
    )
    pairs: list[Pair] = []
    for at in np.argsort(-np.round(lengths, 3), kind="stable"):
        if len(pairs) == 2 or lengths[at] == 0.0:
            break
        normal = _upwards(inward[at])
        if all(abs(normal @ pair.normal) < 0.8 for pair in pairs):
            pairs += _pair(normal, starts, steps, inward, lengths)
    return tuple(pairs)


def _pair(normal: Points, starts: Points, steps: Points, inward: Points, lengths: Points) -> list[Pair]:
    """The middle between the longest lines of wall that face along the normal and against it."""
    facing = inward @ normal
    lines: list[float] = []
    for side in (1.0, -1.0):
        chosen = np.flatnonzero((facing * side > 1.0 - _OPPOSITE) & (lengths > 0.0))
        if not len(chosen):
            return []
        places = (starts[chosen] + steps[chosen] / 2.0) @ normal
        in_line = np.abs(places[:, None] - places) < 1.0
        longest = int(np.argmax(np.round(in_line @ lengths[chosen], 3)))
        lines.append(float(places[longest]))
    return [Pair(normal, sum(lines) / 2.0)]


def _upwards(normal: Points) -> Points:
    """The normal, or its opposite, so that it looks right or up."""
    return normal if (normal[0], normal[1]) > (SAME_PLACE, -1.0) or normal[1] > 1 - SAME_PLACE else -normal


@dataclass(frozen=True, eq=False)
class Balance:
    """Where a pattern must start to leave equal cuts at opposite walls of a region."""

    pairs: tuple[Pair, ...]
    placed: Placed
    _known: dict[tuple[float, float], float] = field(default_factory=dict)

    def unequal(self, start: tuple[float, float]) -> float:
        """Return by how many mm opposite border cuts differ, summed over the pairs of walls."""
        if start not in self._known:  # the same start is asked for again and again while it is looked at
            self._known[start] = float(self.unequal_of(np.array([start]))[0])
        return self._known[start]

    def unequal_of(self, starts: Points) -> Points:
        """Return the same of many starts (n, 2): (n,)."""
        total = np.zeros(len(starts))
        for pair, (places, repeat) in zip(self.pairs, self.places, strict=True):
            if len(places):
                off = (pair.middle - starts @ pair.normal)[:, None] - places
                total += 2.0 * np.abs(off - np.round(off / repeat) * repeat).min(axis=1)
        return total

    @cached_property
    def places(self) -> tuple[tuple[Points, float], ...]:
        """For each pair, the places of symmetry along the normal, from the start, and their repeat."""
        return tuple(self._places(pair.normal) for pair in self.pairs)

    def starts(self) -> list[tuple[float, float]]:
        """Return the different starts that leave equal cuts at both pairs of walls."""
        if len(self.pairs) < 2 or not all(len(places) for places, _ in self.places):
            return []
        (first, step), (second, rise) = self.places
        normals = np.stack([pair.normal for pair in self.pairs])
        area = abs(float(np.linalg.det(self.placed.vectors))) * abs(float(np.linalg.det(normals)))
        times = max(1, round(area / (step * rise)))
        found = [
            np.linalg.solve(normals, (self.pairs[0].middle - x - m * step, self.pairs[1].middle - y))
            for x, y, m in product(first, second, range(times))
        ]
        return [(float(x), float(y)) for x, y in found[:_MOST_STARTS]]

    def _places(self, normal: Points) -> tuple[Points, float]:
        repeat = repeat_along(self.placed.vectors, normal)
        if repeat < _SHORTEST_REPEAT:
            return np.empty(0), repeat
        ends = (self.placed.corners - self.placed.start) @ normal
        low, high = ends.min(axis=1), ends.max(axis=1)
        found: list[float] = []
        for place in (low[0] + high) / 2.0:
            for middle in (place, place + repeat / 2.0):
                if _looks_the_same(2.0 * middle, low, high, repeat):
                    found.append(round(float(middle % repeat), 6))
        return np.unique(found), repeat


def _looks_the_same(doubled: float, low: Points, high: Points, repeat: float) -> bool:
    """Tell whether turning the row round half of `doubled` puts every low end on a high end."""
    off = doubled - low[:, None] - high
    return bool((np.abs(off - np.round(off / repeat) * repeat).min(axis=1) < _ALIKE).all())


def repeat_along(vectors: Points, normal: Points) -> float:
    """Return after what distance along a normal a lattice repeats, to a hair; near 0 if it never does."""
    one, other = sorted(abs(float(way)) for way in vectors @ normal)
    while one > _ALIKE:
        one, other = sorted((one, abs(other - round(other / one) * one)))
    return other
