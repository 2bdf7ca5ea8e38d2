"""Whether a few outlines, repeated by two vectors, fill the plane: no overlap and no gap.

Both follow from two things that can be measured: that no two of the outlines overlap, wherever repeated, and
that together they have the area of one cell. Outlines grown by half a joint stand for tiles with a joint.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import ceil

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.rings import area, cross
from tilelayout.layout.values import Points

GRID = SAME_PLACE / 10.0
"""Outlines are compared on a grid of this size: sides that touch but for rounding confuse a plain overlay."""

_ROUNDINGS = 10.0
"""Sides that should touch may cross by so many times `SAME_PLACE` along their whole length."""


@dataclass(frozen=True)
class Misfit:
    """How outlines fail to fill the plane: areas in mm2 for each cell, and a place of the overlap if any.

    `overlap` counts a place as often as it is covered too many times; `gap` is never covered.
    """

    overlap: float
    gap: float
    place: tuple[float, float] | None

    @property
    def is_there(self) -> bool:
        """Whether anything is wrong."""
        return self.overlap > 0.0 or self.gap > 0.0


def tiles_by_lattice(outlines: Sequence[Points], vectors: Points) -> bool:
    """Tell whether the outlines, repeated by every whole-number sum of two vectors (2, 2), fill the plane.

    It is `misfit` that stops at the first thing that is wrong.
    """
    slack = touching_slack(outlines)
    if abs(_cell_area(vectors) - sum(area(outline) for outline in outlines)) > slack:
        return False
    overlaps = accumulate(common.area / 2.0 for common in _overlaps(outlines, reduced(vectors)))
    return all(total <= slack for total in overlaps)


def misfit(outlines: Sequence[Points], vectors: Points) -> Misfit:
    """Return by how much outlines (m, 2), repeated by two vectors (2, 2), overlap and leave gaps."""
    slack = touching_slack(outlines)
    overlap, place = _overlap(outlines, reduced(vectors))
    if overlap <= slack:
        overlap, place = 0.0, None
    gap = _cell_area(vectors) - sum(area(outline) for outline in outlines) + overlap
    return Misfit(overlap, max(0.0, gap) if abs(gap) > slack else 0.0, place)


def touching_slack(outlines: Sequence[Points]) -> float:
    """Return the area (mm2) by which outlines that touch may overlap by rounding alone."""
    steps = [np.roll(outline, -1, axis=0) - outline for outline in outlines]
    return _ROUNDINGS * SAME_PLACE * sum(float(np.hypot(*step.T).sum()) for step in steps)


def reduced(vectors: Points) -> Points:
    """Return the shortest two vectors (2, 2) of the same lattice, the second on the left of the first.

    The first is the one nearer to the direction of x. Lagrange's reduction, as Gauss taught it for
    quadratic forms.
    """
    short, long = sorted(np.array(vectors, dtype=float), key=lambda v: float(v @ v))
    for _ in range(_MOST_STEPS):
        long = long - np.round(float(short @ long) / float(short @ short)) * short
        if float(long @ long) >= float(short @ short) * (1 - 1e-12):
            break
        short, long = long, short
    first, second = (short, long) if _is_nearer_to_x(short, long) else (long, short)
    first = -first if (first[0], first[1]) < (0.0, 0.0) else first
    return np.array([first, second if cross(first, second) > 0 else -second])


_MOST_STEPS = 200


def _is_nearer_to_x(one: Points, other: Points) -> bool:
    """Compare slopes; between equal ones the shorter vector, which stands first, is taken."""
    slopes = [abs(float(v[1])) / max(float(np.hypot(*v)), SAME_PLACE) for v in (one, other)]
    return slopes[0] <= slopes[1] + SAME_PLACE


def _cell_area(vectors: Points) -> float:
    return abs(float(cross(vectors[0], vectors[1])))


def _overlap(outlines: Sequence[Points], vectors: Points) -> tuple[float, tuple[float, float] | None]:
    """Return the area that is covered too often in one cell, and a place in the largest part of it."""
    commons = [common for common in _overlaps(outlines, vectors) if not common.is_empty]
    if not commons:
        return 0.0, None
    inner = max(commons, key=lambda common: common.area).representative_point()
    return sum(common.area for common in commons) / 2.0, (float(inner.x), float(inner.y))


def _overlaps(outlines: Sequence[Points], vectors: Points) -> Iterator[BaseGeometry]:
    """Yield what each outline of a cell has in common with each that is near; a pair comes up twice."""
    shapes = [shapely.Polygon(outline) for outline in outlines]
    for k, shape in enumerate(shapes):
        for other, shift in _neighbours(outlines, k, vectors):
            yield shapely.intersection(shape, shapely.Polygon(outlines[other] + shift), grid_size=GRID)


def _neighbours(outlines: Sequence[Points], k: int, vectors: Points) -> list[tuple[int, Points]]:
    """Return the other outlines whose box meets that of outline k, each with how it is moved."""
    low, high = outlines[k].min(axis=0), outlines[k].max(axis=0)
    to_lattice = np.linalg.inv(vectors)
    found = []
    for other, outline in enumerate(outlines):
        way = (low + high) / 2 - (outline.min(axis=0) + outline.max(axis=0)) / 2
        reach = (high - low + np.ptp(outline, axis=0)) / 2
        middle, wide = way @ to_lattice, reach @ np.abs(to_lattice)
        for i in range(ceil(middle[0] - wide[0]), int(np.floor(middle[0] + wide[0])) + 1):
            for j in range(ceil(middle[1] - wide[1]), int(np.floor(middle[1] + wide[1])) + 1):
                shift = np.array([i, j]) @ vectors
                is_itself = other == k and i == j == 0
                if not is_itself and bool(np.all(np.abs(shift - way) < reach)):
                    found.append((other, shift))
    return found
