"""The sets of pieces that the bound is worked out from, made as its prices ask for them.

Of the sets that a tile may give there are millions where every piece is a kind of its own. The linear program
begins with a few; at its prices the sets worth more than a tile are looked for and put into it, until there
are none. (Column generation: P. C. Gilmore, R. E. Gomory, Operations Research 9 (1961).) On the way no set is
worth more than the search says, so with the prices less in that measure every round has a bound that holds
(A. A. Farley, Operations Research 38 (1990)).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tilelayout.offcuts.pricing import Dearest, Pricing
from tilelayout.offcuts.sets import KindSet, Sets
from tilelayout.offcuts.solver import Bound, Column, Columns, Prices, bound_at, prices_of
from tilelayout.offcuts.supplies import WHOLE, Filled, Supply

_MOST_ROUNDS = 100
_A_FEW, _MANY = 300, 20_000
_MOST_STEPS = 150_000
"""So many steps the search for one set takes, a few while any are found, many to be sure that there is none;
and so many that for all sets, a third of a second."""

_FEWER = 0.75
_LEAST_KINDS = 8
"""Where that does not do, pieces are small and free and sets are without number. Then the smallest kinds are
left aside, until it does: a bound for the larger pieces holds for all."""

_MOST_LISTED = 60_000
"""So many steps it takes to list the sets that matter; about half a second."""

_WORTH_IT = 1e-6


class Generated:
    """The sets made so far for some supplies; `filled` is a plan to begin with."""

    def __init__(self, supplies: Sequence[Supply], filled: Sequence[Filled]) -> None:
        self.supplies = supplies
        self.counts = supplies[WHOLE].sets.counts
        self.on_hand = tuple(each.count or 0 for each in supplies[1:])
        self._impossible: list[set[KindSet]] = [set() for _ in supplies]
        single = [Column(WHOLE, (kind,)) for kind in range(len(self.counts))]
        begun = [Column(each.supply, self._sets(each.supply).kinds_of(each.places)) for each in filled]
        self._made = dict.fromkeys([*single, *begun])

    @property
    def columns(self) -> Columns:
        """The sets, in a fixed order."""
        return Columns(tuple(sorted(self._made)), self.counts, self.on_hand)

    def bounds(self) -> Iterator[Bound]:
        """Yield the bound of each round; the last is that of all sets unless pieces had to be left aside."""
        steps, kinds = _A_FEW, len(self.counts)
        for _ in range(_MOST_ROUNDS):
            asked = self._asked(kinds)
            prices = prices_of(asked)
            dearest = [self._dearest(at, prices, steps) for at in range(len(self.supplies))]
            yield bound_at(prices, [each.at_most for each in dearest], asked)
            new = [Column(at, some) for at, each in enumerate(dearest) for some in each.sets]
            self._made.update(dict.fromkeys(new))
            if new or steps < _MANY:
                steps = _A_FEW if new else _MANY
            elif all(each.is_sure for each in dearest) or kinds <= _LEAST_KINDS:
                return
            else:
                steps, kinds = _A_FEW, int(kinds * _FEWER)

    def _asked(self, kinds: int) -> Columns:
        """Return the columns with no piece asked for but those of the first, larger kinds."""
        asked = (*self.counts[:kinds], *[0] * (len(self.counts) - kinds))
        return replace(self.columns, counts=asked)

    def strike(self, impossible: set[Column]) -> None:
        """Leave out sets that no tile gives, for good; what they held is left to other sets."""
        for column in impossible:
            self._impossible[column.supply].add(column.kinds)
            self._made.pop(column, None)

    def tight(self, at: Bound, slack: float) -> tuple[list[Column], bool]:
        """Return the sets that a plan may use which takes at most `slack` tiles more than a bound.

        The flag tells whether these are all; else those that were made so far come first.
        """
        found: list[Column] = []
        are_all = True
        for supply, cost in enumerate(at.at_most):
            least = cost - slack - _WORTH_IT
            pricing = Pricing(self._sets(supply), at.prices, self._impossible[supply], are_all=True)
            listed, is_complete = pricing.all_worth(least, _MOST_LISTED)
            are_all &= is_complete
            found += sorted(Column(supply, kinds) for kinds in listed)
        return (found, True) if are_all else (list(dict.fromkeys([*sorted(self._made), *found])), False)

    def _dearest(self, supply: int, prices: Prices, steps: int) -> Dearest:
        pricing = Pricing(self._sets(supply), prices.of_kinds, self._impossible[supply])
        return pricing.dearest(prices.of_supplies[supply] + _WORTH_IT, steps, _MOST_STEPS)

    def _sets(self, supply: int) -> Sets:
        return self.supplies[supply].sets
