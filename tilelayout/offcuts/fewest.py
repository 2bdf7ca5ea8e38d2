"""Looks for the plan that opens the fewest tiles, and for the proof that there is none with fewer.

A plan at once, then a bound; where they meet, which is nearly always, nothing is left to do. Else only sets
of pieces matter that are worth almost a tile at the prices of the bound: those are tried at the saw, the
ones that cannot be are struck off, and whole numbers are looked for among the rest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from tilelayout.offcuts.all_sets import Listed, all_listed
from tilelayout.offcuts.first_fit import first_fit
from tilelayout.offcuts.solver import Bound, Column, Columns, bound, fewer, tight
from tilelayout.offcuts.supplies import WHOLE, Filled, Supply

_MOST_ROUNDS = 4
"""So often are sets that cannot be struck off and the bound worked out again."""

_MOST_TRIED = 2500
"""So many sets are tried at the saw in one round."""

_ROUNDING = 1e-6


@dataclass(frozen=True)
class Fewest:
    """What is opened, offcuts on hand among it, and the number of tiles that no plan goes below."""

    filled: tuple[Filled, ...]
    at_least: int

    @property
    def tiles(self) -> tuple[tuple[int, ...], ...]:
        """The places in each whole tile that is opened."""
        return tuple(each.places for each in self.filled if each.supply == WHOLE)

    @property
    def is_proved(self) -> bool:
        """Whether no plan takes fewer tiles."""
        return len(self.tiles) <= self.at_least


def at_once(supplies: Sequence[Supply]) -> Fewest:
    """Return the plan that takes no searching, with a bound by area; of two, that which takes fewer tiles."""
    plans = [first_fit(supplies), *([first_fit(supplies[:1])] if len(supplies) > 1 else [])]
    found = [Fewest(tuple(plan), by_area(supplies)) for plan in plans]
    return min(found, key=lambda each: len(each.tiles))


def by_area(supplies: Sequence[Supply]) -> int:
    """Return how many tiles the pieces with their kerfs ask for by area alone."""
    sets = supplies[WHOLE].sets
    grown = float(sets.fitting.grown @ np.array(sets.counts))
    on_hand = sum(each.sets.fitting.blank.room * (each.count or 0) for each in supplies)
    return max(0, ceil((grown - on_hand) / sets.fitting.blank.room - _ROUNDING))


def fewest(supplies: Sequence[Supply], found: Fewest) -> Iterator[Fewest]:
    """Yield ever better plans and bounds than `found`; the last is the answer and depends on no clock."""
    if found.is_proved:
        return
    counts = supplies[WHOLE].sets.counts
    known = all_listed([each.sets for each in supplies])
    for _ in range(_MOST_ROUNDS):
        columns = _columns(known, supplies)
        prices = bound(columns)
        found = replace(found, at_least=max(found.at_least, prices.whole))
        yield found
        if found.is_proved or known[WHOLE].complete < len(counts):
            return
        tried = _tried(tight(columns, prices.prices, _slack(found, prices)), known, supplies)
        if not tried.impossible:
            yield _whole(found, columns, tried)
            return
        known = _without(known, tried.impossible)


def _columns(known: Sequence[Listed], supplies: Sequence[Supply]) -> Columns:
    columns = (Column(at, kinds) for at, each in enumerate(known) for kinds in sorted(each.ways))
    on_hand = tuple(each.count or 0 for each in supplies[1:])
    return Columns(tuple(columns), supplies[WHOLE].sets.counts[: known[WHOLE].complete], on_hand)


def _without(known: Sequence[Listed], impossible: set[Column]) -> tuple[Listed, ...]:
    return tuple(
        each.without({column.kinds for column in impossible if column.supply == at})
        for at, each in enumerate(known)
    )


def _slack(found: Fewest, prices: Bound) -> float:
    """Return how far the worth of a set may fall short of a tile in a better plan than `found`."""
    return len(found.tiles) - 1 - prices.tiles


@dataclass(frozen=True)
class _Tried:
    """Sets tried at the saw: a way for each that can be, those that cannot, and whether some are in doubt."""

    good: dict[Column, tuple[int, ...]]
    impossible: set[Column]
    is_in_doubt: bool


def _tried(columns: tuple[Column, ...], known: Sequence[Listed], supplies: Sequence[Supply]) -> _Tried:
    good: dict[Column, tuple[int, ...]] = {}
    impossible: set[Column] = set()
    for column in columns[:_MOST_TRIED]:
        ways, fitting = known[column.supply].ways[column.kinds], supplies[column.supply].sets.fitting
        way = next((way for way in ways if fitting.moves(way) is not None), None)
        if way is not None:
            good[column] = way
        elif all(fitting.is_certain(way) for way in ways):
            impossible.add(column)
    return _Tried(good, impossible, len(good) + len(impossible) < len(columns))


def _whole(found: Fewest, columns: Columns, tried: _Tried) -> Fewest:
    """Look for whole numbers of the sets that can be sawn, fewer than the plan has."""
    better = fewer(replace(columns, sets=tuple(tried.good)), len(found.tiles) - 1)
    if better.sets is not None:
        filled = tuple(Filled(column.supply, tried.good[column]) for column in better.sets)
        found = replace(found, filled=filled)
    is_proof = better.is_settled and not tried.is_in_doubt
    return replace(found, at_least=len(found.tiles)) if is_proof else found
