"""DIN 18202, table 3: gap under a straightedge by the distance of its two supports (Germany).

The standard gives limits at 0.1, 1, 4, 10 and 15 m; between them they run straight, and on site they are
rounded to whole mm. Read in the handbook of a builders' association, which prints the values between too. Two
of its 48 differ from straight lines and rounding, and are taken for misprints: row 2 at 3.5 m (11.33, printed
12) and row 7 at 0.6 m (2.56, printed 2).

The row depends on the use, not on the tile: row 3 for a floor and row 6 for a wall that is to take tiles; the
stricter rows 4 and 7 hold where the contract asks for them.
"""

from __future__ import annotations

from math import floor

import numpy as np
from numpy.typing import NDArray

from tilelayout.flatness.standards import FlatnessLimit, Grade, Source
from tilelayout.job.values import SurfaceKind

NAME = "DIN 18202, table 3"
PROFILES = frozenset({"de"})
TRAPS = (
    "The straightedge and the levelling grid are two methods and can disagree on one surface.",
    "Rows 4 and 7 hold only where raised requirements were agreed.",
    "Flatness and squareness are judged apart from each other.",
)

SUPPORTS = (100.0, 1000.0, 4000.0, 10000.0, 15000.0)
"""Distances of the supports, mm, at which the standard gives limits; beyond the ends the end values hold."""

ROWS = {
    2: (5.0, 8.0, 12.0, 15.0, 20.0),
    3: (2.0, 4.0, 10.0, 12.0, 15.0),
    4: (1.0, 3.0, 9.0, 12.0, 15.0),
    5: (5.0, 10.0, 15.0, 25.0, 30.0),
    6: (3.0, 5.0, 10.0, 20.0, 25.0),
    7: (2.0, 3.0, 8.0, 15.0, 20.0),
}
"""Limits, mm: 2 unfinished floors, 3 finished floors, 4 the same with raised requirements, 5 unfinished
walls, 6 finished walls, 7 the same with raised requirements."""

JUDGED_OVER = (1000.0, 2000.0, 4000.0)
"""Lengths that a room is judged over: those of straightedges, and the standard's own 1 and 4 m."""


def row_limit(row: int, over: float, *, is_rounded: bool = False) -> float:
    """Return the limit in mm of a row for supports `over` mm apart; rounded to whole mm, halves up, if asked.

    >>> row_limit(3, 8000), row_limit(3, 8000, is_rounded=True)
    (11.333333333333334, 11.0)
    """
    limit = float(np.interp(over, SUPPORTS, ROWS[row]))
    return float(floor(limit + 0.5 + 1e-9)) if is_rounded else limit


def limits(kind: SurfaceKind, longest_edge: float) -> tuple[FlatnessLimit, ...]:
    """Return the limits of the row for floors or walls that take tiles, and the raised ones beside them."""
    row = 6 if kind is SurfaceKind.WALL else 3
    return tuple(_limit(each, over) for each in (row, row + 1) for over in JUDGED_OVER)


def _limit(row: int, over: float) -> FlatnessLimit:
    is_raised = row in (4, 7)
    source = Source(
        f"DIN 18202, table 3, row {row}{', raised requirements' if is_raised else ''}",
        "table in a builders' association's handbook",
        Grade.QUOTED,
    )
    return FlatnessLimit(over, row_limit(row, over), source, "raised" * is_raised, advises=is_raised)


def grid_deviations(heights: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return each inner reading's height less the mean of its neighbours one step away, by the grid method.

    `heights` (k,) are levelled at equal steps along a line; the result (k - 2,) belongs to a measuring length
    of two steps. Negative is a dip.
    """
    return np.asarray(heights[1:-1] - (heights[:-2] + heights[2:]) / 2.0)


def passes_by_grid(heights: NDArray[np.float64], step: float, row: int) -> bool:
    """Claim that readings at every `step` mm along a line keep to a row by the grid method, in whole mm."""
    deviations = np.abs(grid_deviations(heights))
    return bool(deviations.max(initial=0.0) <= row_limit(row, 2.0 * step, is_rounded=True) + 1e-9)
