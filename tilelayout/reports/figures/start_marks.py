"""Draws the start lines as they are snapped, and the distances from fixed walls that find their ends.

Both ends of a line carry their distances, since a line is found by two points; the dimension stands
outside the surface where it can, so that the lines inside stay clear.
"""

from __future__ import annotations

import math

import numpy as np
import shapely

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.planning.joints import LineMark, StartLine
from tilelayout.reports.figure import Align, Mark, Path, Pen, Points, Role, Text
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import dimension, footprint, readable
from tilelayout.reports.type_size import POINT

CHALK = Pen(Role.CHALK, 0.5, (7.0, 1.2, 1.0, 1.2))
_BEYOND = 4.0
_OFFSET, _STEP = 8.4, 4.2
_SQUARE = 0.9


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


def distance_marks(
    lines: tuple[StartLine, ...], view: View, style: LengthStyle, outline: Points
) -> tuple[Mark, ...]:
    """Return the distances of both ends of each line from the fixed walls.

    `outline` (n, 2) is that of the surface on the paper: a distance is written outside it where it can be.
    """
    inside = shapely.Polygon(outline)
    marks: list[Mark] = []
    for line in lines:
        for end, other, found in ((line.start, line.end, line.at_start), (line.end, line.start, line.at_end)):
            for mark in found:
                marks += _distance(mark, (end, other), view, style, (inside, marks))
    return tuple(marks)


def _distance(
    mark: LineMark,
    ends: tuple[tuple[float, float], tuple[float, float]],
    view: View,
    style: LengthStyle,
    drawn: tuple[shapely.Polygon, list[Mark]],
) -> tuple[Mark, ...]:
    """Draw one distance, one step farther out where another already stands."""
    foot, tip, other = (np.array(view.place(point)) for point in (mark.foot, *ends))
    if np.hypot(*(tip - foot)) < 0.5:
        return ()
    side = _side(foot, tip, other, drawn[0])
    words = format_length(mark.distance, style, decimals=0)
    places = (float(foot[0]), float(foot[1])), (float(tip[0]), float(tip[1]))
    near, far = (
        dimension(*places, words, offset=side * offset, role=Role.CHALK)
        for offset in (_OFFSET, _OFFSET + _STEP)
    )
    return far if side and _meets(near, drawn[1]) else near


def _side(foot: Points, tip: Points, other: Points, inside: shapely.Polygon) -> float:
    """Return on which side of the way to the tip a distance is drawn: 1 left, -1 right, 0 on the way."""
    along = (tip - foot) / np.hypot(*(tip - foot))
    left = np.array([-along[1], along[0]])
    is_out = {side: not inside.covers(shapely.Point(tip + left * side * 2.0)) for side in (1.0, -1.0)}
    if is_out[1.0] != is_out[-1.0]:
        return 1.0 if is_out[1.0] else -1.0
    lean = float(left @ (tip - other) / np.hypot(*(tip - other)))
    return float(np.sign(lean)) if abs(lean) > _SQUARE else 0.0


def _meets(marks: tuple[Mark, ...], others: list[Mark]) -> bool:
    (words,) = (footprint(mark) for mark in marks if isinstance(mark, Text))
    written = [footprint(mark) for mark in others if isinstance(mark, Text)]
    drawn = [shapely.LineString(line) for mark in others if isinstance(mark, Path) for line in mark.lines]
    return any(words.intersects(other) for other in (*written, *drawn))
