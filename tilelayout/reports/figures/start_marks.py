"""Draws the start lines as they are snapped, and the distances from fixed walls that find their ends.

Both ends of a line carry their distances, since a line is found by two points; the dimension stands
outside the surface where it can, so that the lines inside stay clear.
"""

from __future__ import annotations

import math

import numpy as np

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.planning.joints import LineMark, StartLine
from tilelayout.reports.figure import Align, Mark, Path, Pen, Points, Role, Text
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import dimension, readable
from tilelayout.reports.type_size import POINT

CHALK = Pen(Role.CHALK, 0.5, (7.0, 1.2, 1.0, 1.2))
_BEYOND = 4.0
_OFFSET = 9.0


def chalk_marks(lines: tuple[StartLine, ...], view: View) -> tuple[Mark, ...]:
    """Return the start lines, each running a little beyond the surface at both ends."""
    drawn = []
    for line in lines:
        start, end = np.array(view.place(line.start)), np.array(view.place(line.end))
        along = (end - start) / np.hypot(*(end - start)) * _BEYOND
        drawn.append(np.array([start - along, end + along]))
    numbers = (_number(count, line) for count, line in enumerate(drawn, start=1))
    return (Path(tuple(drawn), CHALK), *numbers) if drawn else ()


def _number(count: int, line: Points) -> Text:
    """Write which line it is along it, a little inside its end."""
    along = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    angle = readable(math.degrees(math.atan2(along[1], along[0])))
    turn = math.radians(angle)
    place = line[1] - along * 14.0 + np.array([-math.sin(turn), math.cos(turn)]) * 1.3
    at = (float(place[0]), float(place[1]))
    return Text(at, f"Line {count}", 8 * POINT, Role.CHALK, True, Align.CENTRE, angle, has_halo=True)


def distance_marks(lines: tuple[StartLine, ...], view: View, style: LengthStyle) -> tuple[Mark, ...]:
    """Return the distances of both ends of each line from the fixed walls."""
    marks: list[Mark] = []
    for line in lines:
        for end, other, found in ((line.start, line.end, line.at_start), (line.end, line.start, line.at_end)):
            for mark in found:
                marks += _distance(mark, end, other, view, style)
    return tuple(marks)


def _distance(
    mark: LineMark, end: tuple[float, float], other: tuple[float, float], view: View, style: LengthStyle
) -> tuple[Mark, ...]:
    foot, tip = np.array(view.place(mark.foot)), np.array(view.place(end))
    if np.hypot(*(tip - foot)) < 0.5:
        return ()
    along = (tip - foot) / np.hypot(*(tip - foot))
    left = np.array([-along[1], along[0]])
    outward = np.subtract(end, other) / np.hypot(*np.subtract(end, other))
    lean = float(left @ outward)
    offset = float(np.sign(lean)) * _OFFSET if abs(lean) > 0.9 else 0.0
    words = format_length(mark.distance, style, decimals=0)
    return dimension(tuple(foot.tolist()), tuple(tip.tolist()), words, offset=offset, role=Role.CHALK)
