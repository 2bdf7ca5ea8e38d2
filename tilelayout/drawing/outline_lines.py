"""How an outline being drawn is shown: firm edges, the rubber edge, the way back, and their sizes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.drawing.entry import show_angle
from tilelayout.drawing.placing import angle_of
from tilelayout.drawing.preview import LineRole, Measure, MeasureKind, RubberLine
from tilelayout.job.values import Point


def outline_lines(
    corners: Sequence[Point], end: Point | None, *, is_refused: bool = False
) -> tuple[RubberLine, ...]:
    """Return the lines of an outline whose next corner would be `end`."""
    lines = []
    if len(corners) >= 2:
        lines.append(RubberLine(tuple(corners), LineRole.FIXED))
    tip = end or (corners[-1] if corners else None)
    if corners and end:
        lines.append(RubberLine((corners[-1], end), LineRole.REFUSED if is_refused else LineRole.RUBBER))
    if tip and len(corners) >= 2 and math.dist(tip, corners[0]) > SAME_PLACE:
        lines.append(RubberLine((tip, corners[0]), LineRole.CLOSING))
    return tuple(lines)


def outline_measures(corners: Sequence[Point], end: Point | None, style: LengthStyle) -> tuple[Measure, ...]:
    """Return the lengths of all edges, of the way back, and the angle at the last corner."""
    path = [*corners, end] if end else list(corners)
    measures = [length_of(a, b, style) for a, b in pairwise(path)]
    if len(path) >= 3 and math.dist(path[-1], path[0]) > SAME_PLACE:
        measures.append(length_of(path[-1], path[0], style))
    if end and len(corners) >= 2:
        measures.append(angle_between(corners[-2], corners[-1], end))
    return tuple(measures)


def length_of(a: Point, b: Point, style: LengthStyle) -> Measure:
    """Return the measure of the distance between two points."""
    return Measure(MeasureKind.LENGTH, a, b, format_length(math.dist(a, b), style))


def angle_between(before: Point, corner: Point, after: Point) -> Measure:
    """Return the measure of the angle at `corner`, 0 to 180 degrees."""
    turn = abs(angle_of(corner, before) - angle_of(corner, after))
    return Measure(MeasureKind.ANGLE, corner, after, show_angle(min(turn, 360.0 - turn)))
