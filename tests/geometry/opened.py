"""The narrowest place the slow way, with a general library's offsets: to check ours against.

The piece is shrunk by half a width and grown again, corners mitred. The first of many widths at which some
of it is lost is halved in on until the jump is found. (A much wider opening may give an arm back, as it takes
away the side that ended the neighbour; the arm is as thin as before.) The library simplifies what it offsets
by up to a hundredth of the distance, so each way goes in short steps; then what it simplifies is far smaller
than anything here.
"""

from __future__ import annotations

import numpy as np
import shapely

STEPS = (6, 5)
"""How many steps each way; the second time in case the library has slipped at the first."""

TRIED = 40
SHARPEST = 1e3
TOOTH = 1.0
"""What loses less than this many mm2 is no arm."""


def lost(piece: shapely.Polygon, width: float) -> float:
    """Return the area in mm2 that shrinking by half the width and growing again does not give back."""
    first = _lost(piece, width, STEPS[0])
    return first if first <= TOOTH else min(first, _lost(piece, width, STEPS[1]))


def _lost(piece: shapely.Polygon, width: float, steps: int) -> float:
    shape: shapely.Geometry = piece
    for way in (-1, 1):
        for _ in range(steps):
            step = way * width / 2 / steps
            shape = shapely.buffer(shape, step, join_style="mitre", mitre_limit=SHARPEST)
    return float(shapely.area(shapely.difference(piece, shape, grid_size=1e-6)))


def widest_given_back(piece: shapely.Polygon, within: float) -> float:
    """Return the largest width, to `within` mm, up to which all of the piece is given back."""
    widest = 2.02 * shapely.maximum_inscribed_circle(piece, tolerance=0.05).length
    too_wide = next(w for w in np.linspace(widest / TRIED, widest, TRIED).tolist() if lost(piece, w) > TOOTH)
    given_back = too_wide - widest / TRIED
    while too_wide - given_back > within:
        middle = (given_back + too_wide) / 2
        if lost(piece, middle) > TOOTH:
            too_wide = middle
        else:
            given_back = middle
    return float(given_back)
