"""Finds the whole tiles by scan line, as stretches of neighbours in a row of the lattice.

A line through the centres of a row of tiles crosses the region's boundary an even number of times, and
the centres between the first and second crossing, the third and fourth, ... are inside. Crossings are
counted half-open (an edge owns its lower end but not its upper), so a line through a corner counts it
once. What is cut is then taken out of the stretches tile by tile, so it never matters on which side of a
wall through its centre a cut tile was counted.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.layout.kernel.arrays import Flags, Whole, ceiling, spread
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.kernel.walk import Edges
from tilelayout.layout.values import Points


@dataclass(frozen=True, eq=False)
class Runs:
    """Tiles (`face`, `first` .. `last`, `row`) side by side; arrays of one length, in order."""

    face: Whole
    row: Whole
    first: Whole
    last: Whole

    def only(self, kept: Flags) -> Runs:
        """Return the chosen runs."""
        return Runs(self.face[kept], self.row[kept], self.first[kept], self.last[kept])

    @property
    def lengths(self) -> Whole:
        """How many tiles each run has."""
        return self.last - self.first + 1

    @property
    def count(self) -> int:
        """How many tiles all runs have."""
        return int(self.lengths.sum())


def runs_inside(edges: Edges, placed: Placed) -> Runs:
    """Return the runs of all tiles whose centre lies in the region."""
    face, row, at = _row_crossings(edges, placed)
    order = np.lexsort((at, row, face))
    face, row, at = face[order], row[order], at[order]
    nearest = ceiling(at - placed.centres[face, 0])
    first, last = nearest[0::2], nearest[1::2] - 1
    there = last >= first
    return Runs(face[0::2][there], row[0::2][there], first[there], last[there])


def _row_crossings(edges: Edges, placed: Placed) -> tuple[Whole, Whole, Points]:
    """Return face, row and u of every crossing of an edge with a line of centres."""
    u, v = edges.uv_starts.T
    end_u, end_v = edges.uv_stops.T
    height = placed.centres[:, 1, None]
    first = ceiling(np.minimum(v, end_v) - height)
    beyond = ceiling(np.maximum(v, end_v) - height)
    owner, step = spread((beyond - first).ravel())
    face, edge = np.divmod(owner, len(u))
    row = first.ravel()[owner] + step
    share = (row + placed.centres[face, 1] - v[edge]) / (end_v - v)[edge]
    return face, row, u[edge] + share * (end_u - u)[edge]


def without(runs: Runs, face: Whole, column: Whole, row: Whole) -> Runs:
    """Return the runs less some different tiles, whether or not these lie in a run."""
    number = _Numbering(runs, column, row)
    starts, ends = number(runs.face, runs.first, runs.row), number(runs.face, runs.last, runs.row)
    taken = np.sort(number(face, column, row))
    owner = np.searchsorted(starts, taken, side="right") - 1
    taken = taken[(owner >= 0) & (taken <= ends[owner])] if len(ends) else taken[:0]
    starts = np.sort(np.concatenate((starts, taken + 1)))
    ends = np.sort(np.concatenate((taken - 1, ends)))
    there = ends >= starts
    return number.runs(starts[there], ends[there])


class _Numbering:
    """Numbers tiles so that neighbours in a row follow one another and no row touches the next."""

    def __init__(self, runs: Runs, column: Whole, row: Whole) -> None:
        columns = np.concatenate((runs.first, runs.last, column, [0]))
        rows = np.concatenate((runs.row, row, [0]))
        self._column, self._row = columns.min() - 1, rows.min()
        self._columns, self._rows = columns.max() - self._column + 2, rows.max() - self._row + 1

    def __call__(self, face: Whole, column: Whole, row: Whole) -> Whole:
        line = face * self._rows + (row - self._row)
        return np.asarray(line * self._columns + (column - self._column))

    def runs(self, starts: Whole, ends: Whole) -> Runs:
        line, first = np.divmod(starts, self._columns)
        face, row = np.divmod(line, self._rows)
        return Runs(face, row + self._row, first + self._column, ends - line * self._columns + self._column)
