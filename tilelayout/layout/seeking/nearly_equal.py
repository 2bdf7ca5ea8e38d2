"""Starts over one cell, those first that leave opposite borders nearest to equal.

With equal borders there may be slivers somewhere, at a bay or a drain. Then the best start is the nearest one
without: how far from equal a start is costs nothing to tell, so a raster is tried in that order, until none
that is left can be better.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tilelayout.layout.seeking.balance import Balance
from tilelayout.layout.values import Points

_SIDE = 40
"""The cell is looked at in so many places along each of its vectors."""


def from_equal_on(balance: Balance, at_once: int) -> Iterator[tuple[float, Points]]:
    """Yield some starts (n, 2) at a time and how far from equal (mm) the first is, the nearest first."""
    if not any(len(places) for places, _ in balance.places):
        return
    shares = (np.arange(_SIDE) + 0.5) / _SIDE
    starts = np.stack(np.meshgrid(shares, shares), axis=-1).reshape(-1, 2) @ balance.placed.vectors
    unequal = balance.unequal_of(starts)
    order = np.argsort(np.round(unequal, 6), kind="stable")
    for at in range(0, len(order), at_once):
        some = order[at : at + at_once]
        yield float(unequal[some[0]]), starts[some]
