"""Round measures for scales and grids: whole millimetres times 1, 2 or 5, or inches, halves and feet."""

from __future__ import annotations

from tilelayout.base.units import INCH, LengthStyle

_INCH = float(INCH)
_FOOT = 12 * _INCH

_METRIC = tuple(digit * 10.0**power for power in range(7) for digit in (1, 2, 5))
_IMPERIAL = (
    *(_INCH / part for part in (16, 8, 4, 2, 1)),
    *(_INCH * count for count in (3, 6)),
    *(_FOOT * count for count in (1, 2, 4, 10, 20, 50, 100, 200, 500, 1000, 3000)),
)


def round_step(style: LengthStyle, least: float) -> float:
    """Return the smallest round measure (mm) that is at least `least`.

    >>> round_step(LengthStyle.MM, 30.0)
    50.0
    >>> round_step(LengthStyle.INCH, 30.0)
    76.19999999999999
    """
    steps = _METRIC if style.is_metric else _IMPERIAL
    return next((step for step in steps if step >= least), steps[-1])


def whole_times(fine: float, least: float, style: LengthStyle) -> float:
    """Return the smallest round measure from `least` up that is a whole number of `fine` steps.

    >>> whole_times(20.0, 50.0, LengthStyle.MM)
    100.0
    """
    coarse = max(round_step(style, least), fine)
    while abs(coarse / fine - round(coarse / fine)) > 1e-6:
        coarse = round_step(style, coarse * 1.0001)
    return coarse
