"""The linear program of least preparation: how much to add at each reading, and how much to take off.

One row holds the surface to a limit under one chord: a sum of heights, since the surface between readings is
linear in them. There are far more chords than matter, so rows are added as they are found broken, and the
program is solved again from where it stood. One thread and a fixed seed: the same answer on every run.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from tilelayout.flatness.grids import Rows
from tilelayout.flatness.mesh import Mesh, Numbers, Places, SurveyError
from tilelayout.flatness.values import Chord

SLACK = 2e-6
"""Rows ask for so much (mm) more than the limit, so that what is measured afterwards keeps to it."""

_TOLERANCE = 1e-9


@dataclass(frozen=True, eq=False)
class Sums:
    """Rows `sum of share x height <= limit`: `reading` and `share` (k,) of all rows, `first` (r,) of each."""

    first: Places
    reading: Places
    share: Numbers
    limit: Numbers


class Preparation:
    """A program that grows: fill and, if allowed, grinding at n readings, at least cost under its rows.

    `costs` (n,) is what a mm of fill costs at each reading, `grind_costs` (n,) what a mm taken off does, and
    no more than `most_ground` mm may be taken off.
    """

    def __init__(
        self,
        readings: Numbers,
        costs: Numbers,
        grind_costs: Numbers | None = None,
        most_ground: float = 0.0,
    ) -> None:
        self._readings = readings
        self._grinds = grind_costs is not None
        self._solver = silent_solver()
        self._add_columns(costs, np.inf)
        if grind_costs is not None:
            self._add_columns(grind_costs, most_ground)
        self._slack = SLACK
        self._upper: list[Numbers] = []

    def _add_columns(self, costs: Numbers, most: float) -> None:
        count = len(costs)
        nothing = np.zeros(count)
        self._solver.addCols(
            count, costs, nothing, np.full(count, most), 0, np.zeros(count, dtype=np.int32),
            np.empty(0, dtype=np.int32), np.empty(0),
        )  # fmt: skip

    def add(self, sums: Sums) -> None:
        """Add rows."""
        now = np.add.reduceat(sums.share * self._readings[sums.reading], sums.first)
        upper = sums.limit - self._slack - now
        first, reading, share = sums.first, sums.reading, sums.share
        if self._grinds:
            first, reading, share = _twice(sums, len(self._readings))
        self._solver.addRows(
            len(first), np.full(len(first), -np.inf), upper, len(reading),
            first.astype(np.int32), reading.astype(np.int32), share,
        )  # fmt: skip
        self._upper.append(upper)

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return sum(map(len, self._upper))

    def tighten(self, by: float) -> None:
        """Ask for `by` mm more of every row, those to come included."""
        self._slack += by
        self._upper = [upper - by for upper in self._upper]
        upper = np.concatenate(self._upper)
        for row, most in enumerate(upper.tolist()):
            self._solver.changeRowBounds(row, -np.inf, most)

    def solved(self) -> tuple[Numbers, Numbers]:
        """Return fill and grinding (n,) of least cost. SurveyError if no preparation keeps to the rows."""
        self._solver.run()
        if self._solver.getModelStatus().name != "kOptimal":
            self._solver.clearSolver()  # from where it was before it can lose its way: begin anew once
            self._solver.run()
        if self._solver.getModelStatus().name != "kOptimal":
            mend = "Allow more to be taken off, or fill as well."
            raise SurveyError(
                "No preparation within these bounds brings the surface within the limits.", mend
            )
        found = np.maximum(np.array(self._solver.getSolution().col_value), 0.0)
        count = len(self._readings)
        return found[:count], found[count:] if self._grinds else np.zeros(count)


def silent_solver() -> Any:
    """Return a solver of the library's base class, since its wrapper prints a line on standard output."""
    from highspy import Highs  # noqa: PLC0415 - at first use: the command line starts without it

    solver = Highs.__mro__[1]()
    for option, value in _OPTIONS.items():
        solver.setOptionValue(option, value)
    return solver


_OPTIONS: dict[str, object] = {
    "output_flag": False,
    "threads": 1,
    "random_seed": 0,
    "parallel": "off",
    "primal_feasibility_tolerance": _TOLERANCE,
    "dual_feasibility_tolerance": _TOLERANCE,
}


def _twice(sums: Sums, count: int) -> tuple[Places, Places, Numbers]:
    """The rows with every share again, for what is taken off, with the other sign."""
    ends = np.append(sums.first[1:], len(sums.reading))
    row = np.repeat(np.arange(len(sums.first)), ends - sums.first)
    order = np.argsort(np.concatenate([row, row]), kind="stable")
    reading = np.concatenate([sums.reading, sums.reading + count])[order]
    share = np.concatenate([sums.share, -sums.share])[order]
    return 2 * sums.first, reading, share


def sums_of_rows(rows: Rows, limit: float) -> Sums:
    """Return chords between readings as rows of the program."""
    reading = np.column_stack([rows.start, rows.end, rows.at]).ravel()
    share = np.column_stack([1.0 - rows.share, rows.share, -np.ones(len(rows.share))])
    count = len(rows.share)
    return Sums(np.arange(count) * 3, reading, (share * rows.sign[:, None]).ravel(), np.full(count, limit))


def sums_of_chords(mesh: Mesh, chords: list[tuple[Chord, float, float]]) -> Sums:
    """Return chords anywhere on the surface as rows: each with its sign (1 below, -1 above) and its limit."""
    points = np.array([(chord.start, chord.end, chord.at) for chord, _, _ in chords])
    weights = np.array([(sign * (1.0 - c.share), sign * c.share, -sign) for c, sign, _ in chords])
    return sums_over(mesh, *corner_rows(mesh, points, weights), np.array([limit for _, _, limit in chords]))


def corner_rows(mesh: Mesh, points: Numbers, weights: Numbers) -> tuple[Places, Numbers]:
    """Return sums of the heights at points (k, 3, 2) of the surface as sums over its corners (k, 9)."""
    flat = points.reshape(-1, 2)
    triangle = mesh.triangle_at(flat)
    shares = weights.reshape(-1, 1) * mesh.corner_shares(flat, triangle)
    return mesh.triangles[triangle].reshape(-1, 9), shares.reshape(-1, 9)


def sums_over(mesh: Mesh, corners: Places, shares: Numbers, limits: Numbers) -> Sums:
    """Return sums over corners (k, c) of the mesh as rows of the program, over its readings."""
    share = shares[:, :, None] * mesh.shares[corners]
    return _gathered(mesh.parents[corners].reshape(len(corners), -1), share.reshape(len(corners), -1), limits)


def _gathered(reading: Places, share: Numbers, limit: Numbers) -> Sums:
    """The rows with each reading once, and those left out that do not count."""
    row = np.repeat(np.arange(len(reading)), reading.shape[1])
    key = row * (int(reading.max()) + 1) + reading.ravel()
    unique, place = np.unique(key, return_inverse=True)
    total = np.zeros(len(unique))
    np.add.at(total, place, share.ravel())
    kept = np.abs(total) > 1e-12
    rows = unique[kept] // (int(reading.max()) + 1)
    first = np.searchsorted(rows, np.arange(len(reading)))
    return Sums(first, unique[kept] % (int(reading.max()) + 1), total[kept], limit)
