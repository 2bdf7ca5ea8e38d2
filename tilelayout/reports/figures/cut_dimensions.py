"""Sets the dimensions of a piece round its tile, each on the side it is nearest to, none on another.

Sizes that follow each other share a line; what would touch moves one line out. All are written level, so that
the drawing is read without turning the page.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from tilelayout.reports.figure import Align, Mark, Place, Points, Text
from tilelayout.reports.figures.measures import Across, Measure, Span
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import dimension, line, measured
from tilelayout.reports.type_size import CAP, POINT, text_width

HEIGHT = 9 * POINT
_FIRST, _AIR = 3.4, 1.4
_STEP = HEIGHT * CAP + 2.6
_LEVEL = 0.2
"""Rise over run under which a size counts as level, run over rise under which as upright."""


@dataclass
class _Side:
    """The dimension lines along one side of the tile, which lies at `edge`; `out` leads away from the tile.

    `lines` are the stretches taken on each line, `reach` is how far out the words of each go.
    """

    edge: float
    out: float
    lines: list[list[tuple[float, float]]] = field(default_factory=list)
    reach: list[float] = field(default_factory=list)

    def line_for(self, low: float, high: float) -> int:
        """Return the number of the first line on which the stretch is free, and take it."""
        for number, taken in enumerate(self.lines):
            if all(high <= start or low >= end for start, end in taken):
                taken.append((low, high))
                return number
        self.lines.append([(low, high)])
        self.reach.append(0.0)
        return len(self.lines) - 1


class _Sides:
    """The four sides of the tile on the paper; a size goes to the nearer one, to left and below first."""

    def __init__(self, low: Points, high: Points) -> None:
        self.middle = (low + high) / 2
        self._low = tuple(_Side(float(edge), -1.0) for edge in low)
        self._high = tuple(_Side(float(edge), 1.0) for edge in high)

    def nearest(self, start: Points, end: Points, axis: int) -> _Side:
        """Return the side, 0 left or right, 1 below or above, for a size from `start` to `end`."""
        is_low = (start[axis] + end[axis]) / 2 <= self.middle[axis] + 1e-6
        return (self._low if is_low else self._high)[axis]


def dimension_marks(measures: list[Measure], extent: Points, view: View) -> tuple[Mark, ...]:
    """Return the dimensions of `measures` round a tile of `extent` (2,) mm, in the places of `view`."""
    low, high = view.on_paper(np.zeros(2)), view.on_paper(extent)
    sides = _Sides(low, high)
    marks: list[Mark] = []
    spans = [each for each in measures if isinstance(each, Span) and not np.allclose(each.start, each.end)]
    for span in sorted(spans, key=lambda span: float(np.hypot(*(span.end - span.start)))):
        marks += _span_marks(span, view, sides)
    for measure in measures:
        if isinstance(measure, Across):
            marks += _across_text(measure, view, high)
    return tuple(marks)


def _across_text(across: Across, view: View, high: Points) -> tuple[Mark, ...]:
    """Write the size of a circle right of it, or right of the tile with a line to the circle."""
    x, y = view.place((float(across.centre[0]), float(across.centre[1])))
    radius, drop = view.length(across.radius), HEIGHT * CAP / 2
    if x + radius + 1.5 + text_width(across.words, HEIGHT) < high[0]:
        return (Text((x + radius + 1.5, y - drop), across.words, HEIGHT, has_halo=True),)
    side = radius * math.sqrt(0.5)
    tip, end = (x + side, y + side), (max(float(high[0]), x + side) + 2.0, y + side + 2.0)
    return (line(tip, end), Text((end[0] + 0.8, end[1] - drop), across.words, HEIGHT))


def _span_marks(span: Span, view: View, sides: _Sides) -> tuple[Mark, ...]:
    start, end = view.on_paper(span.start), view.on_paper(span.end)
    run, rise = np.abs(end - start)
    if rise <= _LEVEL * run:
        return _level(span.words, start, end, sides.nearest(start, end, 1))
    if run <= _LEVEL * rise:
        return _upright(span.words, start, end, sides.nearest(start, end, 0))
    return _slanting(span.words, start, end, sides.middle)


def _level(words: str, start: Points, end: Points, side: _Side) -> tuple[Mark, ...]:
    (left, at_left), (right, at_right) = sorted((start.tolist(), end.tolist()))
    width = text_width(words, HEIGHT)
    beyond = 0.0 if width < right - left - 1.0 else width + 2.4
    number = side.line_for(left - 0.5, right + beyond + 0.5)
    y = side.edge + side.out * (_FIRST + number * _STEP + (HEIGHT * CAP if side.out < 0 else 0.0))
    tip = y + side.out * 0.8
    legs = (line((left, at_left), (left, tip)), line((right, at_right), (right, tip)))
    return (*legs, *dimension((left, y), (right, y), words, offset=0.0, height=HEIGHT))


def _upright(words: str, start: Points, end: Points, side: _Side) -> tuple[Mark, ...]:
    (low, at_low), (high, at_high) = sorted((start.tolist()[::-1], end.tolist()[::-1]))
    middle, half = (low + high) / 2, max((high - low) / 2, HEIGHT * CAP / 2) + 0.8
    number = side.line_for(middle - half, middle + half)
    x = side.edge + side.out * (_FIRST + sum(side.reach[:number]))
    side.reach[number] = max(side.reach[number], text_width(words, HEIGHT) + 2 * _AIR + 0.8)
    tip = x + side.out * 0.8
    legs = (line((at_low, low), (tip, low)), line((at_high, high), (tip, high)))
    align = Align.RIGHT if side.out < 0 else Align.LEFT
    text = Text((x + side.out * _AIR, middle - HEIGHT * CAP / 2), words, HEIGHT, align=align)
    return (*legs, *measured((x, low), (x, high)), text)


def _slanting(words: str, start: Points, end: Points, middle: Points) -> tuple[Mark, ...]:
    """Dimension a size along a slanting side of the tile, on its outer side."""
    along = (end - start) / np.hypot(*(end - start))
    left = np.array([-along[1], along[0]])
    outward = 1.0 if float(left @ ((start + end) / 2 - middle)) > 0 else -1.0
    first, last = _place(start), _place(end)
    return dimension(first, last, words, offset=outward * _FIRST, height=HEIGHT)


def _place(point: Points) -> Place:
    return float(point[0]), float(point[1])
