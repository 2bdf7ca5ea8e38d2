"""Sharing of offcuts beside plain ways: one tile for each piece, and a bound over all sets, listed plainly.

Floors are out of square, so that every piece is a kind of its own, which is the hardest case. The plain way
lists every set of which any two may share a tile, and gives all of them to the solver with its own defaults;
where there are very many it has nothing to say. Ours makes the sets that the prices ask for, and must come to
the same bound. Time is the processor's, in one run.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median
from time import process_time

import highspy
import numpy as np
import pytest

from tests.benchmarks.measured import Measured
from tests.rooms import LAYINGS, floor_of
from tilelayout.job.values import Saw, Surface
from tilelayout.layout.laying import lay
from tilelayout.offcuts.fewest import at_once
from tilelayout.offcuts.generated import Generated
from tilelayout.offcuts.sets import KindSet, Sets
from tilelayout.offcuts.sharing import Sharing, TileSharing, share_steps
from tilelayout.offcuts.supplies import WHOLE

pytestmark = pytest.mark.benchmark

NAMES = ("grid", "stepped third", "diagonal", "hexagon point up", "herringbone")
SIDES = {50: 3600.0, 150: 11000.0, 400: 30000.0}
"""The side of a floor that gives about so many cut pieces."""

MOST_PLAIN_SETS = 20_000
ROUNDING = 1e-3
LEAST_PROVED, MOST_GAP = 0.9, 1
MOST_SECONDS = {"plan at once": 0.1, "plan and bound": 2.0}
LEAST_RATIO = 3.0


@dataclass(frozen=True)
class Run:
    """What came of one floor: cut pieces, the last plan, and the seconds to the first and the last plan."""

    cut: int
    last: Sharing
    at_once: float
    in_all: float


def out_of_square(side: float) -> Surface:
    """Return a floor none of whose walls run along the tiles."""
    return floor_of((0, 0), (side, side * 0.03), (side * 0.97, side * 0.83), (side * 0.02, side * 0.8))


def run(name: str, pieces: int) -> Run:
    """Share the cut pieces of a floor."""
    laid = lay(out_of_square(SIDES[pieces] * (0.8 if name == "diagonal" else 1.0)), *LAYINGS[name])
    cut, whole = laid.cut, laid.whole_tiles
    begun, times = process_time(), []
    for step in share_steps({"A": cut}, whole, Saw()):
        last = step
        times.append(process_time() - begun)
    return Run(len(cut), last, times[0], times[-1])


def bound_made(shared: TileSharing) -> tuple[float, float]:
    """Return the bound in tiles from sets made as they are asked for, and the seconds it takes."""
    begun = process_time()
    bounds = Generated(shared.supplies, at_once(shared.supplies).filled).bounds()
    return max(bound.tiles for bound in bounds), process_time() - begun


def bound_listed(sets: Sets) -> tuple[float, float] | None:
    """Return the bound in tiles from all sets, and the seconds it takes; None if there are too many."""
    begun = process_time()
    found = listed(sets)
    if found is None:
        return None
    solver = highspy.Highs.__mro__[1]()
    solver.setOptionValue("output_flag", False)
    solver.passModel(program(found, sets.counts))
    solver.run()
    return float(solver.getObjectiveValue()), process_time() - begun


def listed(sets: Sets) -> list[KindSet] | None:
    """List every set of kinds of which any two may share a tile; None if there are too many."""
    found: dict[KindSet, None] = {}
    for tried, places in enumerate(_longer(sets, (), 0.0)):
        found[sets.kinds_of(places)] = None
        if tried == MOST_PLAIN_SETS:
            return None
    return list(found)


def _longer(sets: Sets, some: tuple[int, ...], area: float) -> Iterator[tuple[int, ...]]:
    fitting = sets.fitting
    for place in range(some[-1] if some else 0, len(fitting.places)):
        if not fitting.is_distinct[place]:
            continue
        kind = sets.kind_of(place)
        if sum(sets.kind_of(each) == kind for each in some) == sets.counts[kind]:
            continue
        more = area + float(fitting.grown[kind])
        if more <= fitting.blank.room + ROUNDING and all(fitting.shared[each, place] for each in some):
            yield (*some, place)
            yield from _longer(sets, (*some, place), more)


def program(found: Sequence[KindSet], counts: Sequence[int]) -> highspy.HighsLp:
    """Return the linear program: a column for each set, a row for each kind."""
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(found), len(counts)
    lp.col_cost_, lp.col_lower_ = np.ones(len(found)), np.zeros(len(found))
    lp.col_upper_ = np.full(len(found), highspy.kHighsInf)
    lp.row_lower_, lp.row_upper_ = np.array(counts, float), np.full(len(counts), highspy.kHighsInf)
    entries = [Counter(kinds) for kinds in found]
    lp.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    lp.a_matrix_.start_ = np.cumsum([0, *map(len, entries)])
    lp.a_matrix_.index_ = np.array([kind for each in entries for kind in each])
    lp.a_matrix_.value_ = np.array([times for each in entries for times in each.values()], float)
    return lp


def measured() -> list[Measured]:
    """Share floors of three sizes in several patterns, and work out their bounds the plain way too."""
    heads = f"{'pattern':<18}{'pieces':>7}{'one each':>9}{'found':>7}{'least':>7}{'at once':>9}{'in all':>8}"
    print(f"\n{heads}   bound: made  listed")
    runs: dict[int, list[Run]] = {pieces: [run(name, pieces) for name in NAMES] for pieces in SIDES}
    ratios: list[float] = []
    for these in runs.values():
        for name, one in zip(NAMES, these, strict=True):
            shared = one.last.by_tile[0]
            made, plain = bound_made(shared), bound_listed(shared.supplies[WHOLE].sets)
            said = f"{plain[1]:>6.2f}s" if plain else "  too many"
            print(f"{_line(name, one)}{made[1]:>13.2f}s  {said}", flush=True)
            if plain is not None and shared.found.at_least < shared.cut:
                assert abs(plain[0] - made[0]) < 1e-3 * plain[0]
                ratios.append(plain[1] / made[1])
    return [
        *_rows(runs),
        Measured("sharing, bound over listing all sets: median", median(ratios), LEAST_RATIO),
    ]


def _line(name: str, one: Run) -> str:
    last = one.last
    tiles = (last.without_sharing, last.tiles_needed, last.tiles_needed_at_least)
    figures = "".join(f"{each - last.whole:>{width}}" for each, width in zip(tiles, (9, 7, 7), strict=True))
    return f"{name:<18}{one.cut:>7}{figures}{one.at_once:>8.2f}s{one.in_all:>7.2f}s"


def _rows(runs: dict[int, list[Run]]) -> Iterator[Measured]:
    for pieces, these in runs.items():
        of, few = f"sharing about {pieces} pieces", len(these)
        saved = median(
            1.0 - (one.last.tiles_needed - one.last.whole) / (one.last.without_sharing - one.last.whole)
            for one in these
        )
        yield Measured(f"{of}, tiles saved over one for each piece", 100.0 * saved, unit="%")
        proved = sum(one.last.is_fewest for one in these) / few
        yield Measured(f"{of}, floors with the fewest proved", proved, LEAST_PROVED, unit="of 1")
        gap = max(one.last.gap for one in these)
        yield Measured(f"{of}, tiles above the bound at most", gap, MOST_GAP, is_limit=True, unit="")
        if pieces == max(SIDES):
            seconds = median(one.at_once for one in these), median(one.in_all for one in these)
            for (what, most), figure in zip(MOST_SECONDS.items(), seconds, strict=True):
                yield Measured(f"{of}, {what}", figure, most, is_limit=True, unit="s")


def test_tiles_saved_and_proved() -> None:
    assert all(row.is_near for row in measured())
