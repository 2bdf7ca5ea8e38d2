"""The reference lines of a layout on the board: where they stand, how they are kept, what a dragged start
snaps to for them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from tilelayout.drawing.features import cutout_centre
from tilelayout.drawing.hitting import edge_points
from tilelayout.drawing.wish import Wish
from tilelayout.job.kinds import LineKind
from tilelayout.job.values import Cutout, Point, ReferenceLine, Surface
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.lines_in_place import Fixed, LinesInPlace
from tilelayout.layout.values import Points
from tilelayout.planning.plan import Plan
from tilelayout.planning.reference_lines import line_words


@dataclass(frozen=True)
class LinePlace:
    """Where a line stands: along `path`, its number written at `at`; `cutout` is what joints keep off."""

    path: tuple[Point, ...]
    at: Point
    cutout: Cutout | None = None


@lru_cache(maxsize=64)
def place_of(line: ReferenceLine, surface: Surface) -> LinePlace:
    """Return where a reference line stands on its surface."""
    if line.line is not None:
        return LinePlace(line.line, _between(*line.line))
    if line.edge is not None:
        path = edge_points(surface, line.edge)
        middle = _between(path[0], path[-1]) if len(path) == 2 else path[len(path) // 2]
        return LinePlace(tuple(path), middle)
    cutout = next((each for each in surface.cutouts if each.name == line.cutout), None)
    at = line.point or (cutout_centre(cutout) if cutout is not None else surface.outline[0])
    return LinePlace((), at, cutout if line.kind is LineKind.NO_JOINT else None)


def wishes_of(plan: Plan) -> tuple[Wish, ...]:
    """Return what moves the start to where the layout keeps to each of its lines."""
    layout = plan.layout
    if not layout.lines:
        return ()
    lines = LinesInPlace(plan.surface, layout, placed(plan.joint_cell, layout.angle, (0.0, 0.0))).lines
    found: list[Wish] = []
    for line, kept in zip(layout.lines, lines, strict=True):
        words = line_words(line, plan.surface, plan)
        for one in kept:
            if isinstance(one, Fixed):
                found += _wishes(one, words, plan.surface)
    return tuple(found)


def _wishes(fixed: Fixed, words: str, surface: Surface) -> Iterator[Wish]:
    x, y = map(float, fixed.normal)
    guide = _across(fixed, np.array(surface.outline, dtype=float))
    for target in fixed.targets:
        yield Wish((x, y), fixed.place - float(target), fixed.repeat, words, guide)


def _across(fixed: Fixed, outline: Points) -> tuple[Point, Point]:
    """The line where it is kept, as long as the surface."""
    along = np.array([-fixed.normal[1], fixed.normal[0]])
    reach = outline @ along
    ends = [fixed.normal * fixed.place + along * t for t in (reach.min(), reach.max())]
    (ax, ay), (bx, by) = (map(float, end) for end in ends)
    return (ax, ay), (bx, by)


def _between(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0
