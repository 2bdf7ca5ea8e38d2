"""The whole tiles near a place, found from the runs of the lattice without looking at the others."""

from __future__ import annotations

import numpy as np

from tilelayout.layout.kernel.arrays import spread
from tilelayout.layout.laying import Laid
from tilelayout.layout.values import Points


def whole_near(laid: Laid, low: Points, high: Points) -> tuple[Points, ...]:
    """Return by how much (n, 2) the faces of the cell are moved to give the whole tiles that meet a box.

    The box reaches from `low` (2,) to `high` (2,) in surface coordinates; there is one array for each of
    `laid.placed_faces`. The time grows with the rows of tiles and with what is found.
    """
    runs, placed = laid.overlap.whole, laid.placed
    corners = np.array([(x, y) for x in (low[0], high[0]) for y in (low[1], high[1])])
    lattice = placed.in_lattice(corners)
    least, most = lattice.min(axis=0), lattice.max(axis=0)
    start, stop = placed.low[runs.face], placed.high[runs.face]
    first = np.maximum(runs.first, np.ceil(least[0] - stop[:, 0]).astype(int))
    last = np.minimum(runs.last, np.floor(most[0] - start[:, 0]).astype(int))
    is_met = (runs.row >= least[1] - stop[:, 1]) & (runs.row <= most[1] - start[:, 1]) & (last >= first)
    owner, step = spread(np.where(is_met, last - first + 1, 0))
    face = runs.face[owner]
    shifts = np.column_stack((first[owner] + step, runs.row[owner])) @ placed.vectors
    return tuple(
        _meeting(outline, shifts[face == at], low, high) for at, outline in enumerate(laid.placed_faces)
    )


def _meeting(outline: Points, shifts: Points, low: Points, high: Points) -> Points:
    is_in = (shifts + outline.min(axis=0) <= high).all(axis=1)
    is_in &= (shifts + outline.max(axis=0) >= low).all(axis=1)
    return np.asarray(shifts[is_in])
