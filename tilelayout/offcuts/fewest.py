"""Looks for the plan that opens the fewest tiles, and for the proof that there is none with fewer.

A plan at once, then a bound; where they meet, which is nearly always, nothing is left to do. Else only sets
of pieces matter that are worth almost a tile at the prices of the bound: those are tried at the saw, the
ones that cannot be are struck off, and whole numbers are looked for among the rest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from math import ceil

import numpy as np

from tilelayout.offcuts.first_fit import first_fit
from tilelayout.offcuts.generated import Generated
from tilelayout.offcuts.sets import Way
from tilelayout.offcuts.solver import Bound, Column, Columns, fewer
from tilelayout.offcuts.supplies import WHOLE, Filled, Supply

_MOST_ROUNDS = 4
"""So often are sets that cannot be struck off and the bound worked out again."""

_MOST_TRIED = 2500
"""So many sets are tried at the saw in one round."""

_MOST_WAYS = 64
"""So many ways of turning the pieces of a set are tried; where they fit in none, the set is left in doubt."""

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
    known = Generated(supplies, found.filled)
    for _ in range(_MOST_ROUNDS):
        best: Bound | None = None
        for prices in known.bounds():
            best = prices if best is None or prices.tiles > best.tiles else best
            found = replace(found, at_least=max(found.at_least, prices.whole))
            yield found
            if found.is_proved:
                return
        assert best is not None
        tried = _tried(*known.tight(best, len(found.tiles) - 1 - best.tiles), supplies)
        if not tried.impossible:
            yield _whole(found, known.columns, tried)
            return
        known.strike(tried.impossible)


@dataclass(frozen=True)
class _Tried:
    """Sets tried at the saw: a way for each that can be, those that cannot, and whether some are in doubt."""

    good: dict[Column, Way]
    impossible: set[Column]
    is_in_doubt: bool


def _tried(columns: Sequence[Column], are_all: bool, supplies: Sequence[Supply]) -> _Tried:
    """Try sets at the saw; of one that is left in doubt its parts too, which may do without it."""
    good: dict[Column, Way] = {}
    impossible: set[Column] = set()
    wanted, known = list(columns), set(columns)
    for column in islice(wanted, _MOST_TRIED):
        sets = supplies[column.supply].sets
        ways = list(islice(sets.ways(column.kinds), _MOST_WAYS))
        way = next((way for way in ways if sets.fitting.moves(way) is not None), None)
        if way is not None:
            good[column] = way
        elif len(ways) < _MOST_WAYS and all(sets.fitting.is_certain(way) for way in ways):
            impossible.add(column)
        else:
            parts = [part for part in _parts(column) if part not in known]
            wanted += parts
            known.update(parts)
    return _Tried(good, impossible, not are_all or len(good) + len(impossible) < len(wanted))


def _parts(column: Column) -> Iterator[Column]:
    """Yield the sets of all its pieces but one."""
    for gone in range(len(column.kinds) if len(column.kinds) > 1 else 0):
        yield Column(column.supply, column.kinds[:gone] + column.kinds[gone + 1 :])


def _whole(found: Fewest, columns: Columns, tried: _Tried) -> Fewest:
    """Look for whole numbers of the sets that can be sawn, fewer than the plan has."""
    better = fewer(replace(columns, sets=tuple(tried.good)), len(found.tiles) - 1)
    if better.sets is not None:
        filled = tuple(Filled(column.supply, tried.good[column]) for column in better.sets)
        found = replace(found, filled=filled)
    is_proof = better.is_settled and not tried.is_in_doubt
    return replace(found, at_least=len(found.tiles)) if is_proof else found
