"""Every set of pieces that one tile may give, listed for the solver.

They are listed by their smallest kind, largest kinds first. Should they become too many, what is listed is
still every set of the kinds so far, and a bound for these pieces is a bound for all of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tilelayout.offcuts.sets import PieceSet, Sets, bits_of

MOST_SETS = 60_000
"""So many sets are listed; about half a second's work."""


@dataclass(frozen=True, eq=False)
class Listed:
    """Sets by their kinds (a kind may stand there twice), each with the ways its pieces may be turned.

    Of the kinds before `complete` none is missing.
    """

    ways: dict[tuple[int, ...], list[tuple[int, ...]]]
    complete: int

    def without(self, impossible: set[tuple[int, ...]]) -> Listed:
        """Return the sets without those that no tile gives; their parts take their place."""
        ways = {kinds: ways for kinds, ways in self.ways.items() if kinds not in impossible}
        for kinds in impossible:
            for gone in range(len(kinds)):
                part = kinds[:gone] + kinds[gone + 1 :]
                for way in self.ways[kinds]:
                    known = ways.setdefault(part, [])
                    less = way[:gone] + way[gone + 1 :]
                    if less not in known:
                        known.append(less)
        return Listed(ways, self.complete)


def all_listed(each: Sequence[Sets]) -> tuple[Listed, ...]:
    """List the sets of whole tiles and of offcuts on hand, each complete for the same kinds."""
    found = [listed(sets) for sets in each]
    complete = min(one.complete for one in found)
    return tuple(
        one if one.complete == complete else listed(sets, kinds=complete)
        for one, sets in zip(found, each, strict=True)
    )


def listed(sets: Sets, most: int = MOST_SETS, kinds: int | None = None) -> Listed:
    """List the sets of the first `kinds` (None for all), at most about `most` of them."""
    ways: dict[tuple[int, ...], list[tuple[int, ...]]] = {}
    seen, last = 0, len(sets.counts) if kinds is None else kinds
    for kind in range(last):
        for place in sets.first_places(kind):
            for some in _grown(sets, sets.begun(place)):
                seen += 1
                if seen > most:
                    return Listed({k: w for k, w in ways.items() if k[-1] < kind}, kind)
                places = tuple(sorted(some.places))
                ways.setdefault(tuple(sets.kind_of(p) for p in places), []).append(places)
    return Listed(ways, last)


def _grown(sets: Sets, some: PieceSet) -> Iterator[PieceSet]:
    """Yield the sets that a set grows to with places before its last, when no other can be added."""
    has_grown = False
    last = some.places[-1]
    for place in bits_of(some.shared & ((1 << (last + sets.turns)) - 1)):
        if place > last and sets.kind_of(place) != sets.kind_of(last):
            continue
        if _is_used_up(sets, some, place):
            continue
        has_grown = True
        yield from _grown(sets, sets.extended(some, place))
    if not has_grown:
        yield some


def _is_used_up(sets: Sets, some: PieceSet, place: int) -> bool:
    kind = sets.kind_of(place)
    return sum(sets.kind_of(each) == kind for each in some.places) >= sets.counts[kind]
