"""Looks for the sets of pieces that are worth most at given prices, without listing all that there are.

Places are put in order of their price, the dearest first, and sets grown in that order. Of places no two of
which share a tile a set takes one at most, so the open places are sorted into such groups: a set gains no
more than the dearest of each, and if those of the first few groups cannot do, it needs one of the others.
(Branch and bound after A. H. Land, A. G. Doig, Econometrica 28 (1960); bounding by groups is known from the
search for cliques: E. Tomita, T. Seki, Lecture Notes in Computer Science 2731 (2003).)
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import accumulate
from operator import or_
from typing import NamedTuple

import numpy as np

from tilelayout.layout.values import Points
from tilelayout.offcuts.sets import ROUNDING, KindSet, Sets, bits_where

_NOTHING = 1e-9


@dataclass(frozen=True)
class Dearest:
    """For each piece the best set in which none is dearer, if worth it, and a worth no set goes beyond."""

    sets: tuple[KindSet, ...]
    at_most: float
    is_sure: bool
    """Whether no set is worth more than `least` but for these."""


class _Some(NamedTuple):
    """Chosen places, their worth and the area left, and as bits the places that may still be added."""

    chosen: tuple[int, ...]
    worth: float
    left: float
    open: int


class Pricing:
    """Sets of pieces at `prices` (k,) of their kinds, but for those that are `impossible`.

    Places are numbered from the dearest here; those of no price are left out unless all are asked for.
    """

    def __init__(
        self, sets: Sets, prices: Points, impossible: Collection[KindSet], *, are_all: bool = False
    ) -> None:
        self._sets, self._impossible = sets, impossible
        kind = np.arange(len(sets.fitting.places)) // sets.turns
        worth = np.asarray(prices, dtype=float)[kind]
        chosen = np.flatnonzero(sets.fitting.is_distinct & ((worth > _NOTHING) | are_all))
        places = chosen[np.argsort(-worth[chosen], kind="stable")]
        kinds, areas = kind[places], sets.fitting.grown[kind[places]]
        self._places, self._kinds = places.tolist(), kinds.tolist()
        self._worth, self._areas = worth[places].tolist(), areas.tolist()
        shared = sets.fitting.shared[np.ix_(places, places)]
        shared &= (kinds[:, None] != kinds) | (np.array(sets.counts)[kinds] > 1)
        self._shared = [bits_where(row) for row in shared]
        self._apart = [bits_where(row) for row in ~shared]
        self._twice = np.diag(shared).tolist()
        by_size = np.argsort(areas, kind="stable").tolist()
        self._sizes = [self._areas[at] for at in by_size]
        self._up_to_size = list(accumulate((1 << at for at in by_size), or_, initial=0))
        self._best: tuple[int, ...] = ()
        self._least = self._missed = 0.0
        self._steps = 0

    def dearest(self, least: float, each: int, in_all: int) -> Dearest:
        """Return the sets worth more than `least`, each sought in at most so many steps, all in so many."""
        found: dict[KindSet, None] = {}
        at_most, self._missed = least, 0.0
        for first in self._firsts():
            self._least, self._steps = least, min(each, in_all)
            in_all -= self._steps
            if best := self._best_of(first):
                found[self._kinds_of(best)] = None
            in_all += self._steps
            at_most = max(at_most, self._least)
        return Dearest(tuple(found), max(at_most, self._missed), self._missed <= at_most)

    def all_worth(self, least: float, steps: int) -> tuple[list[KindSet], bool]:
        """Return the sets worth `least` that no piece can be added to, and whether the steps did for all."""
        self._least, self._steps = least - _NOTHING, steps
        found = {self._kinds_of(some): None for first in self._firsts() for some in self._full(first)}
        return list(found), self._steps > 0

    def _firsts(self) -> Iterator[_Some]:
        """Yield the sets of one place, of those that are one but for a turn of the tile only the first."""
        nothing = _Some((), 0.0, self._sets.fitting.blank.room, -1)
        for at, (place, kind) in enumerate(zip(self._places, self._kinds, strict=True)):
            if place in self._sets.first_places(kind) and (kind,) not in self._impossible:
                yield self._with(nothing, at, -1 << at)

    def _best_of(self, first: _Some) -> tuple[int, ...]:
        """Return the best that a set grows to; nothing if that is not worth enough."""
        self._best = ()
        self._improve(first)
        return self._best

    def _improve(self, some: _Some) -> None:
        """Keep the best of a set and all that it grows to."""
        if some.worth > self._least:
            self._least, self._best = some.worth, some.chosen
        for grown in self._grown(some):
            self._improve(grown)

    def _full(self, some: _Some) -> Iterator[tuple[int, ...]]:
        """Yield what a set grows to, as far as it is worth enough."""
        has_grown = False
        for grown in self._grown(some):
            has_grown = True
            yield from self._full(grown)
        if not has_grown and some.worth > self._least:
            yield some.chosen

    def _grown(self, some: _Some) -> Iterator[_Some]:
        """Yield the sets with a place more that may become worth enough."""
        needed, left_open = self._needed(some, self._least - some.worth), some.open
        while needed:
            if not self._steps:
                self._missed = max(self._missed, some.worth + self._gain(some))
                return
            lowest = needed & -needed
            needed, left_open = needed ^ lowest, left_open ^ lowest
            at = lowest.bit_length() - 1
            if self._can_have(some, at):
                self._steps -= 1
                yield self._with(some, at, left_open | lowest)

    def _with(self, some: _Some, at: int, open: int) -> _Some:
        """Return a set with one more of the open places."""
        left = some.left - self._areas[at]
        fits = self._up_to_size[bisect_right(self._sizes, left + ROUNDING)]
        return _Some((*some.chosen, at), some.worth + self._worth[at], left, open & self._shared[at] & fits)

    def _can_have(self, some: _Some, at: int) -> bool:
        """Tell whether there is another piece of that kind, and what it makes may be possible."""
        kind = self._kinds[at]
        is_left = sum(self._kinds[each] == kind for each in some.chosen) < self._sets.counts[kind]
        return is_left and not (self._impossible and self._kinds_of((*some.chosen, at)) in self._impossible)

    def _kinds_of(self, chosen: tuple[int, ...]) -> KindSet:
        return tuple(sorted(self._kinds[at] for at in chosen))

    def _needed(self, some: _Some, gain: float) -> int:
        """Return those of the open places one of which a set needs to gain more than that."""
        total, open = 0.0, some.open
        for dearest, rest in self._groups(some):
            total += dearest
            if total > gain:
                return open
            open = rest
        return 0

    def _gain(self, some: _Some) -> float:
        """Return what the open places can add at most."""
        return sum(dearest for dearest, _ in self._groups(some))

    def _groups(self, some: _Some) -> Iterator[tuple[float, int]]:
        """Sort the open places into groups from which a set takes no two, no more than it has room for.

        Yields what each can add at most, and what is open after it. A place that a set may take twice is a
        group of its own.
        """
        open = some.open
        for _ in range(int((some.left + ROUNDING) / self._sizes[0])):
            if not open:
                return
            lowest = open & -open
            at = lowest.bit_length() - 1
            if self._twice[at]:
                times = min(self._sets.counts[self._kinds[at]], int((some.left + ROUNDING) / self._areas[at]))
                open ^= lowest
                yield self._worth[at] * times, open
            else:
                open ^= self._group(open)
                yield self._worth[at], open

    def _group(self, open: int) -> int:
        """Return the first open place and others of which no two share a tile, nor one with itself."""
        found = 0
        while open:
            lowest = open & -open
            at = lowest.bit_length() - 1
            open ^= lowest
            if not self._twice[at]:
                found |= lowest
                open &= self._apart[at]
        return found
