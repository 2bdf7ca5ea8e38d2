"""The grid: round steps of the person's own units, as fine as the zoom lets one point.

A step is chosen so that its lines stand 8 to 20 pixels apart; so the nearest grid point is always within
reach of the pointer, and what is drawn by hand has round lengths.
"""

from __future__ import annotations

import math

from tilelayout.base.units import INCH, LengthStyle
from tilelayout.job.values import Point

_CLOSEST_PX = 8.0
_METRIC_STEPS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0)
_INCH_STEPS = tuple(
    float(INCH) * inches for inches in (0.0625, 0.125, 0.25, 0.5, 1, 2, 3, 6, 12, 24, 48, 120, 240)
)

_DECIMALS = 4
"""Every multiple of a sixteenth of an inch (1.5875 mm) is exact at so many decimals."""


def grid_step(style: LengthStyle, px_per_mm: float) -> float:
    """Return the grid's step in mm at a zoom: the finest whose lines do not crowd.

    >>> grid_step(LengthStyle.MM, 0.2), grid_step(LengthStyle.INCH, 0.2)
    (50.0, 50.8)
    """
    steps = _METRIC_STEPS if style.is_metric else _INCH_STEPS
    return next((step for step in steps if step * px_per_mm >= _CLOSEST_PX), steps[-1])


def nudge_step(style: LengthStyle) -> float:
    """Return how far in mm an arrow key moves things: as finely as a tape is read.

    >>> nudge_step(LengthStyle.MM), nudge_step(LengthStyle.FEET)
    (1.0, 1.5875)
    """
    return 1.0 if style.is_metric else float(INCH / 16)


def to_step(value: float, step: float) -> float:
    """Return the multiple of `step` nearest to a value, ties up."""
    return round(math.floor(value / step + 0.5) * step, _DECIMALS)


def grid_point(point: Point, step: float) -> Point:
    """Return the grid point nearest to a point."""
    return (to_step(point[0], step), to_step(point[1], step))
