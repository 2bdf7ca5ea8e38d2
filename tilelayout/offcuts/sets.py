"""The sets of pieces that one tile may give, looked up by bits: bit p of a number stands for place p.

Kinds are numbered from the largest, so that those which still fit by area are all from some number on.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from tilelayout.offcuts.fitting import Fitting

ROUNDING = 1e-3
"""So much in mm2 may areas seem to pass a whole tile by rounding."""


KindSet = tuple[int, ...]
"""The kinds of the pieces in one tile, in rising order; a kind may stand there twice."""

Way = tuple[int, ...]
"""The places of the pieces in one tile, in rising order."""


@dataclass(frozen=True)
class PieceSet:
    """Places in one tile, the area left in it, and the places any of which goes with each of them."""

    places: tuple[int, ...]
    left: float
    shared: int


@dataclass(frozen=True, eq=False)
class Sets:
    """All sets of places of which any two may share a tile and that are not too much in area.

    They hold every set that a tile can really give, and sets of three or more that none can.
    """

    fitting: Fitting

    @cached_property
    def turns(self) -> int:
        """How many turns each kind has."""
        return len(self.fitting.blank.turns)

    @cached_property
    def counts(self) -> tuple[int, ...]:
        """How many pieces of each kind there are."""
        return tuple(kind.count for kind in self.fitting.kinds)

    @cached_property
    def _rows(self) -> list[int]:
        return [bits_where(row) for row in self.fitting.shared]

    @cached_property
    def _all(self) -> int:
        return bits_where(self.fitting.is_distinct)

    @cached_property
    def _smaller(self) -> list[float]:
        return [-float(area) for area in self.fitting.grown]

    def kind_of(self, place: int) -> int:
        """Return the kind whose place it is."""
        return place // self.turns

    def kinds_of(self, places: Way) -> KindSet:
        """Return the kinds whose places these are."""
        return tuple(sorted(self.kind_of(place) for place in places))

    def of_kind(self, kind: int) -> int:
        """Return the bits of a kind's places."""
        return ((1 << self.turns) - 1) << (kind * self.turns)

    def from_kind(self, kind: int) -> int:
        """Return the bits of the places of this kind and those after it."""
        return self._all >> (kind * self.turns) << (kind * self.turns)

    def begun(self, place: int) -> PieceSet:
        """Return the set of one place."""
        return self._with(self.nothing(), place)

    def nothing(self) -> PieceSet:
        """Return the set of no place."""
        return PieceSet((), self.fitting.blank.room, self._all)

    def extended(self, some: PieceSet, place: int) -> PieceSet:
        """Return the set with a place more, one of those in its `shared`."""
        return self._with(some, place)

    def _with(self, some: PieceSet, place: int) -> PieceSet:
        left = some.left - float(self.fitting.grown[self.kind_of(place)])
        fits = self.from_kind(bisect_left(self._smaller, -(left + ROUNDING)))
        return PieceSet((*some.places, place), left, some.shared & self._rows[place] & fits)

    def ways(self, kinds: KindSet) -> Iterator[Way]:
        """Yield the ways in which pieces of these kinds may be turned in one tile, a turn of all left out."""
        for place in self.first_places(kinds[0]):
            for some in self._further(self.begun(place), kinds[1:]):
                yield tuple(sorted(some.places))

    def _further(self, some: PieceSet, kinds: KindSet) -> Iterator[PieceSet]:
        """Yield the sets that further kinds make of a set."""
        if not kinds:
            yield some
            return
        for place in bits_of(some.shared & self.of_kind(kinds[0])):
            yield from self._further(self.extended(some, place), kinds[1:])

    def first_places(self, kind: int) -> Iterator[int]:
        """Yield the places of a kind of which turning the tile onto itself makes all the others."""
        turns = self.fitting.blank.turns
        for degrees in self.fitting.blank.first_turns:
            place = kind * self.turns + turns.index(degrees)
            if self.fitting.is_distinct[place]:
                yield place


def bits_where(flags: NDArray[np.bool_]) -> int:
    """Return a number with the bits set that the flags tell of."""
    return int.from_bytes(np.packbits(flags, bitorder="little").tobytes(), "little")


def bits_of(number: int) -> Iterator[int]:
    """Yield the places of the bits that are set, from the lowest.

    >>> list(bits_of(0b10110))
    [1, 2, 4]
    """
    while number:
        lowest = number & -number
        yield lowest.bit_length() - 1
        number ^= lowest
