"""The linear and the whole-number program behind the fewest tiles, given to HiGHS.

A column is a set of kinds that one tile gives, a row asks for the pieces of one kind. Of the linear program
only the prices are used: what a piece of each kind is worth in tiles. Any prices at which no set is worth
more than a tile prove that no plan can do with fewer tiles than all pieces together are worth, so the bound
is worked out from them here, with every rounding on the safe side, and the solver need not be trusted.

An offcut on hand costs nothing, but there are so many of it and no more: the bound is less by the best set
that each of them can give.

One thread and a fixed seed make a run repeat itself; the work is limited in nodes, never in time.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from tilelayout.layout.values import Points
from tilelayout.offcuts.supplies import WHOLE

MOST_NODES = 500
"""So many nodes of the search for whole numbers are looked at."""

_ROUNDING = 1e-6
"""So much in tiles may a sum of prices seem too large by rounding."""


class Column(NamedTuple):
    """A set of kinds that one tile or offcut of a supply gives."""

    supply: int
    kinds: tuple[int, ...]


@dataclass(frozen=True, eq=False)
class Columns:
    """Sets of kinds, how many pieces there are of each kind, and how many offcuts of each further supply."""

    sets: tuple[Column, ...]
    counts: tuple[int, ...]
    on_hand: tuple[int, ...] = ()

    @property
    def supplies(self) -> NDArray[np.intp]:
        """The supply of each set."""
        return np.array([each.supply for each in self.sets], dtype=np.intp)


@dataclass(frozen=True, eq=False)
class Prices:
    """What a piece of each kind is worth in tiles, and what one tile or offcut of each supply is worth."""

    of_kinds: Points
    of_supplies: Points


@dataclass(frozen=True, eq=False)
class Bound:
    """A proven bound: at `prices` (k,) all pieces are worth `tiles` more than what the offcuts can give.

    No set of a supply is worth more than `at_most` (s,): a tile, or what an offcut on hand gives at best.
    """

    tiles: float
    prices: Points
    at_most: Points

    @property
    def whole(self) -> int:
        """The bound in whole tiles."""
        return ceil(self.tiles - _ROUNDING)


@dataclass(frozen=True)
class Found:
    """What the search for whole numbers found: a plan with fewer tiles, or that there is none, or neither."""

    sets: tuple[Column, ...] | None
    is_settled: bool


def prices_of(columns: Columns) -> Prices:
    """Return the prices of the linear program of some sets. Every kind asked for must stand in one."""
    highs = _solver()
    highs.passModel(_model(columns))
    highs.run()
    duals = np.array(highs.getSolution().row_dual)
    kinds = len(columns.counts)
    return Prices(np.maximum(duals[:kinds], 0.0), np.append(1.0, np.maximum(-duals[kinds:], 0.0)))


def bound_at(prices: Prices, at_most: Sequence[float], columns: Columns) -> Bound:
    """Return the bound that prices give if no set of each supply is worth more than `at_most` at them."""
    scale = max(1.0, at_most[WHOLE])
    of_kinds, best = prices.of_kinds / scale, np.array(at_most) / scale
    best[WHOLE] = 1.0
    given = best[1:] @ np.array(columns.on_hand, dtype=float)
    return Bound(float(of_kinds @ np.array(columns.counts) - given), of_kinds, best)


def fewer(columns: Columns, most: int, nodes: int = MOST_NODES) -> Found:
    """Look for a plan with the fewest tiles, at most `most` of them."""
    if not columns.sets:
        return Found(None, True)
    from highspy import HighsModelStatus

    highs = _solver()
    highs.setOptionValue("mip_max_nodes", nodes)
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.passModel(_model(columns, most))
    highs.run()
    status = highs.getModelStatus()
    if status == HighsModelStatus.kInfeasible:
        return Found(None, True)
    taken = np.round(np.array(highs.getSolution().col_value)).astype(int)
    if not _is_plan(columns, taken, most):
        return Found(None, False)
    sets = tuple(each for each, times in zip(columns.sets, taken, strict=True) for _ in range(times))
    return Found(sets, status == HighsModelStatus.kOptimal)


def _is_plan(columns: Columns, taken: Any, most: int) -> bool:
    """Check what the solver says: enough pieces of every kind, no more tiles and offcuts than there are."""
    if len(taken) != len(columns.sets) or taken.min(initial=0) < 0:
        return False
    opened = np.bincount(columns.supplies, weights=taken, minlength=1 + len(columns.on_hand))
    if np.any(opened > (most, *columns.on_hand)):
        return False
    given: Counter[int] = Counter()
    for each, times in zip(columns.sets, taken.tolist(), strict=True):
        for kind in each.kinds:
            given[kind] += times
    return all(given[kind] >= count for kind, count in enumerate(columns.counts))


def _solver() -> Any:
    """Return a silent solver: the base class, since the wrapper prints a line on standard output."""
    from highspy import Highs

    highs = Highs.__mro__[1]()
    for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 0), ("parallel", "off")):
        highs.setOptionValue(option, value)
    return highs


def _model(columns: Columns, most: int | None = None) -> Any:
    """Return the program; with `most` in whole numbers, with one row more for the number of tiles.

    Its rows are the kinds, then the offcuts on hand, then that.
    """
    from highspy import HighsLp, HighsVarType, MatrixFormat, kHighsInf

    no_more = [*columns.on_hand, *([] if most is None else [most])]
    entries = [_entries(each, len(columns.counts), len(columns.on_hand), most) for each in columns.sets]
    width, kinds = len(entries), len(columns.counts)
    lp = HighsLp()
    lp.num_col_, lp.num_row_ = width, kinds + len(no_more)
    lp.col_cost_ = (columns.supplies == WHOLE).astype(float)
    lp.col_lower_, lp.col_upper_ = np.zeros(width), np.full(width, kHighsInf)
    lp.row_lower_ = np.array([*columns.counts, *[-kHighsInf] * len(no_more)], dtype=float)
    lp.row_upper_ = np.array([*[kHighsInf] * kinds, *no_more], dtype=float)
    lp.a_matrix_.format_ = MatrixFormat.kColwise
    lp.a_matrix_.start_ = np.cumsum([0, *(len(each) for each in entries)])
    lp.a_matrix_.index_ = np.array([row for each in entries for row, _ in each])
    lp.a_matrix_.value_ = np.array([number for each in entries for _, number in each], dtype=float)
    if most is not None:
        lp.integrality_ = [HighsVarType.kInteger] * width
    return lp


def _entries(column: Column, kinds: int, offcuts: int, most: int | None) -> list[tuple[int, int]]:
    """Return the rows that a column stands in, with how much of each it takes or gives."""
    counted = sorted(Counter(column.kinds).items())
    if column.supply != WHOLE:
        return [*counted, (kinds + column.supply - 1, 1)]
    return counted if most is None else [*counted, (kinds + offcuts, 1)]
