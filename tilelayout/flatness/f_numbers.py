"""F-numbers of a line of readings, as ASTM E1155 forms them: FF for flatness, FL for levelness.

For orientation only. The standard asks for lines and areas that few rooms have, and for readings at every
12 in (300 mm). Its scope, symbols and differences were seen; the metric constants are from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]

STEP = 300.0
_STEPS_OF_LEVEL = 10

_FLATNESS = 115.8
_LEVELNESS = 317.5
"""Metric constants (mm), from memory; the second is 12.5 in."""


@dataclass(frozen=True)
class FNumbers:
    """Flatness and levelness of a line; `levelness` is None if it is shorter than 3 m."""

    flatness: float
    levelness: float | None


def curvatures(heights: Numbers) -> Numbers:
    """Return the differences (k - 2,) of the differences between successive heights (k,): q of E1155."""
    return np.diff(heights, 2)


def f_numbers(heights: Numbers) -> FNumbers | None:
    """Return the F-numbers of heights (k,) read at every 300 mm; None for fewer than five readings."""
    if len(heights) < 5:
        return None
    flatness = _number(_FLATNESS, curvatures(heights))
    rises = heights[_STEPS_OF_LEVEL:] - heights[:-_STEPS_OF_LEVEL]
    return FNumbers(flatness, _number(_LEVELNESS, rises) if len(rises) > 1 else None)


def _number(constant: float, differences: Numbers) -> float:
    spread = 3.0 * float(np.std(differences, ddof=1)) + abs(float(np.mean(differences)))
    return constant / spread if spread > 0.0 else float("inf")
