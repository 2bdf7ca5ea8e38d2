"""How far apart contours stand, in round figures of the job's lengths."""

from __future__ import annotations

from tilelayout.base.units import INCH, LengthStyle

_MOST_LEVELS = 9
_INCH_STEPS = (1 / 128, 1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 4.0)
_METRIC_STEPS = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)


def contour_step(low: float, high: float, style: LengthStyle) -> float:
    """Return the smallest round step (mm) that makes few enough contours between two heights.

    >>> contour_step(0.0, 6.0, LengthStyle.MM), contour_step(0.0, 25.4, LengthStyle.FEET)
    (1.0, 3.175)
    """
    steps = _METRIC_STEPS if style.is_metric else tuple(part * float(INCH) for part in _INCH_STEPS)
    return next((step for step in steps if (high - low) / step <= _MOST_LEVELS), steps[-1])
