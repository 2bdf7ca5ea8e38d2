"""Sorts cut pieces into kinds: pieces that are one and the same when the tile is turned onto itself.

Equal pieces are one row of the problem with a number beside it, which keeps it small: a straight wall asks
for twenty pieces of a kind, not for twenty pieces. How a piece may lie in a tile depends on its factory
edges alone: two that are not parallel fix it, parallel ones let it slide along them, none leaves it free. A
piece of a mosaic sheet moves by whole chips: a side cut with the knife between chips is as good as the
sheet's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

import numpy as np

from tilelayout.base.tolerance import ON_EDGE, SAME_PLACE
from tilelayout.geometry.rings import cross, following
from tilelayout.geometry.turns import turning
from tilelayout.job.values import MosaicSheet
from tilelayout.layout.bordering import is_sawn
from tilelayout.layout.chips import chip_vectors
from tilelayout.layout.values import Piece, Points
from tilelayout.offcuts.rules import Blank, hull_of, with_kerf

_DECIMALS = 6
"""Corners that agree to so many decimals of a millimetre are the same."""


class Freedom(Enum):
    """How a piece may move in its tile."""

    FIXED = "fixed"
    ALONG = "along"
    FREE = "free"
    BY_CHIPS = "by chips"


@dataclass(frozen=True, eq=False)
class Member:
    """A piece of a kind, the `number`-th of all; turned, then moved by `shift` (2,), it is the outline."""

    number: int
    layout: str
    piece: Piece
    turned: int
    shift: Points


@dataclass(frozen=True, eq=False)
class Kind:
    """Pieces that are the same to the saw. `outline` (n, 2) is one place in the tile that it may have."""

    outline: Points
    freedom: Freedom
    way: Points
    members: tuple[Member, ...]
    is_narrow: bool

    @property
    def count(self) -> int:
        """How many pieces of the kind there are."""
        return len(self.members)

    @cached_property
    def hull(self) -> Points:
        """The smallest convex outline (n, 2) that holds the piece: what straight cuts must leave whole."""
        return hull_of(self.outline)


@dataclass(frozen=True, eq=False)
class _Seen:
    """A piece in its natural place, with what its factory edges allow."""

    number: int
    layout: str
    piece: Piece
    ring: Points
    freedom: Freedom
    way: Points
    is_narrow: bool


def kinds_of(pieces: Sequence[tuple[str, Piece]], blank: Blank) -> tuple[Kind, ...]:
    """Return the kinds of pieces (each with the id of its layout), those that take most of a tile first."""
    seen = [_seen(number, layout, piece, blank) for number, (layout, piece) in enumerate(pieces)]
    groups: dict[bytes, list[tuple[_Seen, int, Points]]] = {}
    for one in seen:
        key, turned, base = _normal_form(one, blank)
        groups.setdefault(key, []).append((one, turned, base))
    kinds = {key: _kind(group, blank) for key, group in groups.items()}
    size = {key: round(with_kerf(kind.hull, blank.saw.kerf), 3) for key, kind in kinds.items()}
    return tuple(kinds[key] for key in sorted(kinds, key=lambda key: (-size[key], key)))


def _seen(number: int, layout: str, piece: Piece, blank: Blank) -> _Seen:
    ring, least = piece.in_tile(piece.outline), blank.saw.least_offcut
    is_narrow = least > 0.0 and piece.is_narrower_than(least - SAME_PLACE)
    return _Seen(number, layout, piece, ring, *_freedom(piece, ring, blank.saw.dressed), is_narrow)


def _freedom(piece: Piece, ring: Points, is_dressed: bool) -> tuple[Freedom, Points]:
    """Return how a piece may move, and along which unit vector (2,) if it may slide."""
    sides = following(ring) - ring
    lengths = np.hypot(sides[:, 0], sides[:, 1])
    is_factory = ~is_sawn(piece.outline, piece.face) & (lengths > SAME_PLACE)
    if isinstance(piece.tile, MosaicSheet):
        return Freedom.BY_CHIPS, np.zeros(2)
    if is_dressed or not is_factory.any():
        return Freedom.FREE, np.zeros(2)
    ways = sides[is_factory] / lengths[is_factory, None]
    is_parallel = bool(np.all(np.abs(cross(ways, ways[0])) < SAME_PLACE))
    return (Freedom.ALONG if is_parallel else Freedom.FIXED), ways[0]


def _normal_form(one: _Seen, blank: Blank) -> tuple[bytes, int, Points]:
    """Return the least of the forms that turning the tile gives, the turn, and what its corners lost."""
    turned = [blank.turned(one.ring, degrees) for degrees in blank.own_turns]
    bases = [
        _base(ring, one.freedom, one.way @ turning(degrees), blank)
        for ring, degrees in zip(turned, blank.own_turns, strict=True)
    ]
    marks = np.round(np.array(turned) - np.array(bases)[:, None], _DECIMALS) + 0.0
    first = np.argmin(marks[..., 0] + 1j * marks[..., 1], axis=1)
    order = (first[:, None] + np.arange(len(one.ring))) % len(one.ring)
    forms = [marks[at, order[at]].astype(">f8").tobytes() for at in range(len(marks))]
    least = min(range(len(forms)), key=lambda at: forms[at])
    return (
        f"{one.freedom.value} {one.is_narrow} ".encode() + forms[least],
        blank.own_turns[least],
        bases[least],
    )


def _base(ring: Points, freedom: Freedom, way: Points, blank: Blank) -> Points:
    """Return what to take off a ring so that a slide makes no difference."""
    if freedom is Freedom.BY_CHIPS:
        along, onward = chip_vectors(blank.tile)
        by = np.floor((ring[:, 1].min() + ON_EDGE) / onward[1]) * onward
        return np.asarray(by + np.floor((ring[:, 0].min() - by[0] + ON_EDGE) / along[0]) * along)
    if freedom is Freedom.FIXED:
        return np.zeros(2)
    if freedom is Freedom.FREE:
        return np.asarray(ring.min(axis=0))
    points_back = way[0] < -SAME_PLACE or (abs(way[0]) <= SAME_PLACE and way[1] < 0.0)
    way = -way if points_back else way
    return np.asarray((ring @ way).min() * way)


def _kind(group: list[tuple[_Seen, int, Points]], blank: Blank) -> Kind:
    one, turned, base = group[0]
    members = tuple(
        Member(each.number, each.layout, each.piece, turn, base - off) for each, turn, off in group
    )
    return Kind(
        outline=blank.turned(one.ring, turned),
        freedom=one.freedom,
        way=np.asarray(one.way @ turning(turned)),
        members=members,
        is_narrow=one.is_narrow,
    )
