"""A scale bar in round steps of the job's lengths: a plan copied at another size can still be read."""

from __future__ import annotations

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.reports.figure import Mark, Place
from tilelayout.reports.marks import scale_bar
from tilelayout.reports.type_size import POINT

_METRIC_STEPS = (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10_000.0, 50_000.0)
_INCH_STEPS = tuple(
    304.8 * feet for feet in (1 / 12, 1 / 4, 1 / 2, 1.0, 2.0, 4.0, 5.0, 10.0, 20.0, 50.0, 100.0)
)
_SHORTEST = 12.0
_STEPS = 3


def scale_bar_marks(one_to: float, style: LengthStyle, at: Place) -> tuple[Mark, ...]:
    """Return a bar of three round steps, its lower left corner at `at`."""
    steps = _METRIC_STEPS if style.is_metric else _INCH_STEPS
    step = next((length for length in steps if length / one_to >= _SHORTEST), steps[-1])
    lengths = [step * n for n in range(_STEPS + 1)]
    words = ["0", *(format_length(length, style) for length in lengths[1:])]
    return scale_bar(at, [length / one_to for length in lengths], words, 7 * POINT)
