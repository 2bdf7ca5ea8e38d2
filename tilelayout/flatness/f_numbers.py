"""F-numbers of lines of readings, as ASTM E1155 forms them: FF for flatness, FL for levelness.

For orientation only. The standard asks for lines and areas that few rooms have (a section at least 2.4 m wide
and of 12 m2, by an equipment maker's summary), and for readings at every 12 in (300 mm). Its scope, symbols
and differences were seen; the metric constants are from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tilelayout.flatness.mesh import Numbers, Points

SOURCE = "ASTM E1155 (scope and differences as quoted, constants from memory); indicative only"

STEP = 300.0
"""How far apart readings have to stand, mm; 12 in is as good."""

_OFF_STEP = 0.03
"""Steps may be so much (a share) longer or shorter."""

_SAME_LINE = 5.0
"""Readings no further than this (mm) beside a line are on it."""

_LEAST_READINGS = 5
_STEPS_OF_LEVEL = 10

_FLATNESS = 115.8
_LEVELNESS = 317.5
"""Metric constants (mm), from memory; the second is 12.5 in."""


@dataclass(frozen=True)
class FNumbers:
    """Flatness and levelness of `lines` lines; `levelness` is None if none is longer than 3 m."""

    flatness: float
    levelness: float | None
    lines: int = 1


def curvatures(heights: Numbers) -> Numbers:
    """Return the differences (k - 2,) of the differences between successive heights (k,): q of E1155."""
    return np.diff(heights, 2)


def f_numbers(*lines: Numbers) -> FNumbers | None:
    """Return the F-numbers of lines of heights (k,) read at every 300 mm; None for fewer than five readings.

    The differences of all lines are taken together.
    """
    lines = tuple(line for line in lines if len(line) >= _LEAST_READINGS)
    if not lines:
        return None
    bends = np.concatenate([curvatures(line) for line in lines])
    rises = np.concatenate([line[_STEPS_OF_LEVEL:] - line[:-_STEPS_OF_LEVEL] for line in lines])
    levelness = _number(_LEVELNESS, rises) if len(rises) > 1 else None
    return FNumbers(_number(_FLATNESS, bends), levelness, len(lines))


def lines_of(places: Points, heights: Numbers) -> Iterator[Numbers]:
    """Yield the heights of every straight line of readings at every 300 mm, along x and along y.

    `places` (n, 2), `heights` (n,). A line ends where the step is another.
    """
    for along, beside in ((0, 1), (1, 0)):
        order = np.lexsort((places[:, along], np.round(places[:, beside] / _SAME_LINE)))
        here, next_one = places[order[:-1]], places[order[1:]]
        step = next_one[:, along] - here[:, along]
        goes_on = np.abs(step / STEP - 1.0) <= _OFF_STEP
        goes_on &= np.abs(next_one[:, beside] - here[:, beside]) <= _SAME_LINE
        for run in np.split(order, np.flatnonzero(~goes_on) + 1):
            if len(run) >= _LEAST_READINGS:
                yield heights[run]


def _number(constant: float, differences: Numbers) -> float:
    spread = 3.0 * float(np.std(differences, ddof=1)) + abs(float(np.mean(differences)))
    return constant / spread if spread > 0.0 else float("inf")
