"""Finds how the pieces of one tile lie in it: where those that may slide are put, all parted by the saw.

Pieces that cannot move are there or not. One that can is pushed against an end, a corner or a neighbour: it
is tried at every corner of the region left to it by those already down, in every order. What is found is
right; that nothing is found proves that nothing is there only if no more than two pieces can move or none
can.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.rings import sum_of_convex
from tilelayout.layout.bordering import is_sawn
from tilelayout.layout.values import Points
from tilelayout.offcuts.kinds import Freedom, Kind
from tilelayout.offcuts.parting import can_be_parted
from tilelayout.offcuts.places import Flags, Place, can_share, places_of
from tilelayout.offcuts.rules import Blank, with_kerf

_MOST_TRIES = 100
"""So often is a piece set down in the search for one tile's pieces."""

_MOST_TRIES_IN_ALL = 6000
"""So often in the searches for all tiles; a second or two. What is not found then counts as not known."""

_MOST_TRIES_IN_OFFCUTS = 200
"""So often in all offcuts on hand of one kind."""

_HAIR = 1e-7
"""A neighbour is kept off by so much less than a kerf, so that touching counts as free."""


@dataclass(frozen=True, eq=False)
class Fitting:
    """The kinds and places of one tile's pieces, and how any few of them fit in one tile.

    Places are named by number. `grown` (k,) is what a piece of each kind takes of `blank.room`, `shared`
    (p, p) which two places may be in one tile.
    """

    blank: Blank
    kinds: tuple[Kind, ...]
    places: tuple[Place, ...]
    grown: Points
    shared: Flags
    _known: dict[tuple[int, ...], Points | None] = field(default_factory=dict)
    _tries: list[int] = field(default_factory=lambda: [0, 0])

    @staticmethod
    def of(kinds: tuple[Kind, ...], blank: Blank) -> Fitting:
        """Work out the places and which two go together."""
        places = places_of(kinds, blank)
        grown = np.array([with_kerf(kind.hull, blank.saw.kerf) for kind in kinds])
        return Fitting(blank, kinds, places, grown, can_share(kinds, places, blank))

    @cached_property
    def is_distinct(self) -> Flags:
        """Which places (p,) are not the same as an earlier one of their kind."""
        seen = [(place.kind, _marks(place)) for place in self.places]
        first = {key: number for number, key in reversed(list(enumerate(seen)))}
        is_there = [not place.moves.is_empty for place in self.places]
        return np.array([first[key] == k and is_there[k] for k, key in enumerate(seen)], dtype=bool)

    def is_certain(self, chosen: Sequence[int]) -> bool:
        """Whether that no moves are found means that there are none."""
        return all(self.places[place].is_fixed for place in chosen)

    def moves(self, chosen: Sequence[int]) -> Points | None:
        """Return by how much each of the chosen places is moved (n, 2); None if none was found."""
        key = tuple(chosen)
        if len(key) == 1 and not self.blank.part:
            return np.zeros((1, 2))
        if key not in self._known:
            self._known[key] = self._found(key)
        return self._known[key]

    def _found(self, chosen: tuple[int, ...]) -> Points | None:
        places = [self.places[place] for place in chosen]
        kerf = self.blank.saw.kerf
        if all(place.is_fixed for place in places):
            is_good = len(places) <= 2 or can_be_parted([place.hull for place in places], kerf)
            return np.zeros((len(places), 2)) if is_good else None
        fixed = {k: np.zeros(2) for k, place in enumerate(places) if place.is_fixed}
        in_all = _MOST_TRIES_IN_OFFCUTS if self.blank.part else _MOST_TRIES_IN_ALL
        tries = min(_MOST_TRIES, max(0, in_all - self._tries[1]))
        self._tries[0] = 0
        for moves in self._set_down(places, fixed, tries):
            found = np.array([moves[k] for k in range(len(places))])
            if self._is_good(places, found):
                return found
        return None

    def _set_down(
        self, places: list[Place], down: dict[int, Points], tries: int
    ) -> Iterator[dict[int, Points]]:
        """Yield the moves of all places that begin with those `down`, in at most so many tries."""
        left = [k for k in range(len(places)) if k not in down]
        if not left:
            yield down
        tried: set[int] = set()
        for k in left:
            if id(places[k]) in tried or self._tries[0] >= tries:
                continue
            tried.add(id(places[k]))
            self._tries[0] += 1
            self._tries[1] += 1
            for move in self._corners_left(places, k, down):
                yield from self._set_down(places, {**down, k: move}, tries)

    def _corners_left(self, places: list[Place], k: int, down: dict[int, Points]) -> list[Points]:
        """Return the corners of the moves that keep place k clear of those that are down, in order."""
        place, kerf = places[k], self.blank.saw.kerf
        blocked = [_nearer(places[other].hull + move, place.hull, kerf) for other, move in down.items()]
        free = place.moves.difference(shapely.union_all(blocked)) if blocked else place.moves
        corners = np.concatenate([shapely.get_coordinates(free), place.ends])
        corners = np.unique(np.round(corners, 9), axis=0)
        hulls = [shapely.Polygon(places[other].hull + move) for other, move in down.items()]
        return [move for move in corners if _is_clear(shapely.Polygon(place.hull + move), hulls, kerf)]

    def _is_good(self, places: list[Place], moves: Points) -> bool:
        hulls = [place.hull + move for place, move in zip(places, moves, strict=True)]
        if not can_be_parted(hulls, self.blank.saw.kerf):
            return False
        return self.blank.is_convex or all(
            self._lies_well(place, move) for place, move in zip(places, moves, strict=True)
        )

    def _lies_well(self, place: Place, move: Points) -> bool:
        """Claim that a piece lies in a tile that bends inwards, its factory edges on the tile's."""
        kind, blank = self.kinds[place.kind], self.blank
        ring = blank.turned(kind.outline, place.degrees) + move
        if not blank.shape.buffer(SAME_PLACE, join_style="mitre").covers(shapely.Polygon(ring)):
            return False
        was_factory = ~is_sawn(kind.outline, blank.outline)
        is_anywhere = kind.freedom in (Freedom.FREE, Freedom.BY_CHIPS)
        return is_anywhere or not bool(np.any(was_factory & is_sawn(ring, blank.outline)))


def _marks(place: Place) -> bytes:
    """Return what is the same for two places that are one: the hull, wherever it lies if it may be moved."""
    ring = place.hull if place.is_fixed else place.hull - place.hull.min(axis=0)
    marks = np.round(ring, 6) + 0.0
    return np.roll(marks, -int(np.lexsort(marks.T[::-1])[0]), axis=0).tobytes()


def _nearer(down: Points, hull: Points, kerf: float) -> BaseGeometry:
    """Return the moves that bring one outline nearer than a kerf to another, at corners a little more."""
    meeting = shapely.Polygon(sum_of_convex(down, -hull))
    return meeting.buffer(kerf - _HAIR, join_style="mitre")


def _is_clear(shape: shapely.Polygon, others: list[shapely.Polygon], kerf: float) -> bool:
    return all(shape.distance(other) > kerf - SAME_PLACE for other in others)
