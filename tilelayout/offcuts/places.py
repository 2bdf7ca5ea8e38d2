"""Where pieces may lie in a tile, and which two may lie in one.

A place is a kind and a turn; a piece that may slide has in it a region of moves, of which only the ends count
for two pieces. For the moves that bring two convex outlines nearer than a kerf are a convex set, so if a pair
has any room at all, it has it with both pushed against an end (after the inner-fit and no-fit polygons of the
cutting trade's literature). Two pieces can be parted by a straight cut if their hulls are a kerf apart: the
widest strip between two convex outlines is as wide as their distance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.turns import turning
from tilelayout.layout.chips import chip_vectors
from tilelayout.layout.values import Points
from tilelayout.offcuts.kinds import Freedom, Kind
from tilelayout.offcuts.rules import Blank
from tilelayout.offcuts.strips import Outlines, gaps

Flags = NDArray[np.bool_]

_SNUG = 1e-7
"""So much wider is a tile taken when it is asked where a piece fits that just fits."""


_NO_MOVE = shapely.Point(0.0, 0.0)
_NOWHERE = shapely.Point()


@dataclass(frozen=True, eq=False)
class Place:
    """A kind turned by `degrees`; every point of `moves` is a vector (2,) by which it may be moved there.

    `hull` (n, 2) runs counter-clockwise. `moves` is empty if the piece does not fit at that turn.
    """

    kind: int
    degrees: int
    hull: Points
    moves: BaseGeometry
    is_fixed: bool

    @cached_property
    def ends(self) -> Points:
        """The outermost moves (m, 2)."""
        if self.is_fixed:
            return np.zeros((1, 2))
        return np.unique(shapely.get_coordinates(self.moves.convex_hull), axis=0)


def places_of(kinds: Sequence[Kind], blank: Blank) -> tuple[Place, ...]:
    """Return the places of each kind, in the order of the kinds and then of the turns."""
    return tuple(
        _place(number, kind, degrees, blank) for number, kind in enumerate(kinds) for degrees in blank.turns
    )


def _place(number: int, kind: Kind, degrees: int, blank: Blank) -> Place:
    hull = blank.turned(kind.hull, degrees)
    if kind.freedom is Freedom.FIXED:
        is_held = not blank.part or _holds(blank, blank.turned(kind.outline, degrees))
        return Place(number, degrees, hull, _NO_MOVE if is_held else _NOWHERE, True)
    way = kind.way @ turning(degrees)
    return Place(number, degrees, hull, _moves(hull, kind.freedom, way, blank), False)


def _holds(blank: Blank, ring: Points) -> bool:
    return bool(blank.shape.buffer(SAME_PLACE, join_style="mitre").covers(shapely.Polygon(ring)))


def _moves(hull: Points, freedom: Freedom, way: Points, blank: Blank) -> BaseGeometry:
    """Return the moves that keep every corner in the tile, or in its hull if it bends inwards."""
    tile = shapely.get_coordinates(shapely.Polygon(blank.hull).buffer(_SNUG, join_style="mitre"))
    inside: BaseGeometry = shapely.intersection_all([shapely.Polygon(tile - corner) for corner in hull])
    if freedom is Freedom.FREE:
        return inside
    if freedom is Freedom.BY_CHIPS:
        return _by_whole_chips(inside, blank)
    reach = float(np.hypot(*np.ptp(blank.outline, axis=0)))
    return shapely.LineString(np.outer((-reach, reach), way)).intersection(inside)


def _by_whole_chips(inside: BaseGeometry, blank: Blank) -> BaseGeometry:
    """Return those of the moves that bring every chip to where another was: a whole number of chips."""
    if inside.is_empty:
        return _NOWHERE
    vectors = chip_vectors(blank.tile)
    left, low, right, high = inside.bounds
    box = np.array([(left, low), (left, high), (right, low), (right, high)]) @ np.linalg.inv(vectors)
    across, up = (
        np.arange(np.ceil(least - _SNUG), np.floor(most + _SNUG) + 1.0)
        for least, most in zip(box.min(axis=0), box.max(axis=0), strict=True)
    )
    steps = np.stack(np.meshgrid(across, up), axis=-1).reshape(-1, 2) @ vectors
    near = inside.buffer(SAME_PLACE, join_style="mitre")
    return shapely.MultiPoint(steps[shapely.covers(near, shapely.points(steps))])


def can_share(kinds: Sequence[Kind], places: Sequence[Place], blank: Blank) -> Flags:
    """Return which places (p, p) may be those of two pieces of one tile; certain for a convex tile."""
    count, turns = len(kinds), len(blank.turns)
    first = [place for place in places if place.degrees in blank.first_turns]
    found = _parted(first, places, blank.saw.kerf).reshape(count, len(blank.first_turns), count, turns)
    shared = np.empty((count, turns, count, turns), dtype=bool)
    for at, degrees in enumerate(blank.turns):
        row, columns = _as_first(degrees, blank)
        shared[:, at] = found[:, row][:, :, columns]
    narrow = np.array([kind.is_narrow for kind in kinds], dtype=bool)
    shared &= ~(narrow[:, None] & narrow)[:, None, :, None]
    return shared.reshape(count * turns, count * turns)


def _as_first(degrees: int, blank: Blank) -> tuple[int, list[int]]:
    """Return which of the first turns gives this turn when the tile is turned onto itself.

    And for each turn of another piece, which one turning the tile back makes of it.
    """
    row = next(k for k, first in enumerate(blank.first_turns) if (degrees - first) % 360 in blank.own_turns)
    back = degrees - blank.first_turns[row]
    return row, [blank.turns.index((other - back) % 360) for other in blank.turns]


def _parted(rows: Sequence[Place], columns: Sequence[Place], kerf: float) -> Flags:
    """Return which places of `rows` and `columns` (r, c) have ends that are a kerf apart."""
    row_outlines, row_starts, row_is_empty = _at_ends(rows)
    column_outlines, column_starts, column_is_empty = _at_ends(columns)
    are_apart = gaps(row_outlines, column_outlines, kerf) > kerf - SAME_PLACE
    by_row = np.logical_or.reduceat(are_apart, row_starts, axis=0)
    parted = np.logical_or.reduceat(by_row, column_starts, axis=1)
    return np.asarray(parted & ~row_is_empty[:, None] & ~column_is_empty)


def _at_ends(places: Sequence[Place]) -> tuple[Outlines, NDArray[np.intp], Flags]:
    """Return the hulls at every end of every place, where those of each place begin, and which have none."""
    ends = [place.ends if len(place.ends) else np.zeros((1, 2)) for place in places]
    rings = [place.hull + move for place, moves in zip(places, ends, strict=True) for move in moves]
    starts = np.cumsum([0, *(len(moves) for moves in ends)])[:-1]
    return Outlines(tuple(rings)), starts, np.array([place.moves.is_empty for place in places], dtype=bool)
