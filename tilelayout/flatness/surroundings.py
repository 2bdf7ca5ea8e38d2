"""How much a value at scattered places differs at most within reach of each, by squares: a quick answer.

The ground is divided into squares; of each the least and the largest value is kept, then of all squares in
reach. The squares stick out over the reach, so the answer is the difference itself or a little more.
"""

from __future__ import annotations

from functools import reduce

import numpy as np
from numpy.typing import NDArray

from tilelayout.flatness.mesh import Numbers, Places, Points

_SQUARES = 6
"""Squares to the reach."""


class Surroundings:
    """Places (v, 2), each with what lies within `reach` mm of it."""

    def __init__(self, places: Points, reach: float) -> None:
        square = np.floor((places - places.min(axis=0)) / (reach / _SQUARES)).astype(np.intp)
        self._shape = tuple((square.max(axis=0) + 1).tolist())
        self._at: tuple[Places, Places] = (square[:, 0], square[:, 1])

    def spread(self, values: Numbers) -> Numbers:
        """Return (v,): the largest less the least of `values` (v,) in the surroundings of each place."""
        return self._most(values) + self._most(-values)

    def _most(self, values: Numbers) -> Numbers:
        squares = np.full(self._shape, -np.inf)
        np.maximum.at(squares, self._at, values)
        return np.asarray(_widened(_widened(squares).T).T[self._at])


def _widened(squares: NDArray[np.float64]) -> NDArray[np.float64]:
    """Each square with the most of those up to the reach before and behind it."""
    margin = _SQUARES + 1
    padded = np.pad(squares, ((margin, margin), (0, 0)), constant_values=-np.inf)
    moved = (padded[k : k + len(squares)] for k in range(2 * margin + 1))
    return np.asarray(reduce(np.maximum, moved))
