"""The whole tiles near a place, found from the runs of the lattice without looking at the others."""

from __future__ import annotations

import numpy as np

from tilelayout.layout.kernel.arrays import Flags, Whole, spread
from tilelayout.layout.laying import Laid
from tilelayout.layout.values import Points

_LEVEL = 1e-9
"""An edge of a box that rises by fewer rows than this runs along them; its ends belong to its neighbours."""


def whole_near(laid: Laid, low: Points, high: Points) -> tuple[Points, ...]:
    """Return by how much (n, 2) the faces of the cell are moved to give the whole tiles that meet a box.

    The box reaches from `low` (2,) to `high` (2,) in surface coordinates; there is one array for each of
    `laid.placed_faces`. The time grows with the rows of tiles and with what is found.
    """
    return tuple(moves for _, moves in whole_near_boxes(laid, low[None], high[None]))


def whole_near_boxes(laid: Laid, low: Points, high: Points) -> tuple[tuple[Whole, Points], ...]:
    """Return the same for many boxes, from `low` to `high` (b, 2): which box (n,), and by how much (n, 2).

    What is found grows with the length of a long thin box, also where the rows run askew to it.
    """
    runs, placed = laid.overlap.whole, laid.placed
    rings = np.stack(
        [low, np.stack([high[:, 0], low[:, 1]], 1), high, np.stack([low[:, 0], high[:, 1]], 1)], 1
    )
    start, stop = placed.low[runs.face], placed.high[runs.face]
    least, most = _reach(placed.in_lattice(rings), runs.row + start[:, 1], runs.row + stop[:, 1])
    box, run = np.nonzero(least <= most)
    first = np.maximum(runs.first[run], np.ceil(least[box, run] - stop[run, 0]).astype(int))
    last = np.minimum(runs.last[run], np.floor(most[box, run] - start[run, 0]).astype(int))
    owner, step = spread(np.maximum(last - first + 1, 0))
    box, run = box[owner], run[owner]
    shifts = np.column_stack((first[owner] + step, runs.row[run])) @ placed.vectors
    face = runs.face[run]
    return tuple(
        _meeting(outline, box[face == at], shifts[face == at], low, high)
        for at, outline in enumerate(laid.placed_faces)
    )


def _reach(rings: Points, bottom: Points, top: Points) -> tuple[Points, Points]:
    """Return the least and the most u that rings (b, m, 2) have between v = `bottom` and `top` (n,).

    Both are (b, n), in lattice coordinates; where a ring has no place there the least is the greater.
    """
    least = np.full((len(rings), len(bottom)), np.inf)
    most = -least
    for begin, end in zip(rings.swapaxes(0, 1), np.roll(rings, -1, axis=1).swapaxes(0, 1), strict=True):
        u, v, rise = begin[:, :1], begin[:, 1:], (end - begin)[:, 1:]
        is_level = np.abs(rise) <= _LEVEL
        slope = np.where(is_level, 0.0, (end - begin)[:, :1] / np.where(is_level, 1.0, rise))
        low, high = np.maximum(bottom, np.minimum(v, v + rise)), np.minimum(top, np.maximum(v, v + rise))
        is_there = low <= high
        at_low, at_high = u + (low - v) * slope, u + (high - v) * slope
        least = np.where(is_there, np.minimum(least, np.minimum(at_low, at_high)), least)
        most = np.where(is_there, np.maximum(most, np.maximum(at_low, at_high)), most)
    return least, most


def _meeting(outline: Points, box: Whole, shifts: Points, low: Points, high: Points) -> tuple[Whole, Points]:
    is_in: Flags = (shifts + outline.min(axis=0) <= high[box]).all(axis=1)
    is_in &= (shifts + outline.max(axis=0) >= low[box]).all(axis=1)
    return box[is_in], np.asarray(shifts[is_in])
