"""The tiles that are opened to be sawn: which pieces come from each, where they lie and what parts them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from tilelayout.job.values import Tile
from tilelayout.layout.values import Points
from tilelayout.offcuts.fitting import Fitting
from tilelayout.offcuts.kinds import Member
from tilelayout.offcuts.leavings import Offcut, leavings
from tilelayout.offcuts.parting import Parting, parted
from tilelayout.offcuts.rules import Blank, hull_of
from tilelayout.offcuts.supplies import WHOLE, Filled


@dataclass(frozen=True, eq=False)
class SawnPiece:
    """Where a cut piece lies in its tile.

    `outline` (n, 2) is in the coordinates of the tile (lower left corner 0, 0, length along x, face up);
    `turned` is by how many degrees it is turned there from the place it has when laid. `layout` is the id of
    the layout in which it is laid.
    """

    piece: str
    outline: Points
    turned: float
    layout: str = ""


@dataclass(frozen=True, eq=False)
class OpenedTile:
    """A tile taken from the box to be sawn, or an offcut on hand, and what comes from it. Numbered from 1."""

    number: int
    pieces: tuple[SawnPiece, ...]
    blank: Blank

    @property
    def tile(self) -> Tile:
        """The tile that is opened."""
        return self.blank.tile

    @property
    def is_on_hand(self) -> bool:
        """Whether it is an offcut on hand, `blank.part` of its tile: then no tile is opened for it."""
        return bool(self.blank.part)

    @cached_property
    def parting(self) -> Parting | None:
        """The straight cuts that part the pieces, the first at the root; None for a piece by itself.

        A number in it is the place of a piece in `pieces`.
        """
        hulls = [hull_of(each.outline) for each in self.pieces]
        found = parted(hulls, self.blank.saw.kerf, self.blank.shape)
        return found if isinstance(found, Parting) else None

    @cached_property
    def offcuts(self) -> tuple[Offcut, ...]:
        """What the tile leaves that is wide enough to hold."""
        outlines = [each.outline for each in self.pieces]
        blank = self.blank
        return leavings(blank.plain_outline, outlines, blank.saw.kerf, part=blank.plain_shape)


def opened_tiles(fittings: Sequence[Fitting], filled: Iterable[Filled]) -> tuple[OpenedTile, ...]:
    """Return the tiles of a plan, numbered from 1; what each is filled with names one of `fittings`.

    A plan may give more pieces of a kind than there are; the last are then left out. The tiles stand in the
    order of their first pieces, each turned so that its first piece lies as it is laid; then the offcuts.
    """
    left = [list(kind.members) for kind in fittings[0].kinds]
    chosen = sorted((one.supply == WHOLE, one.supply, tuple(sorted(one.places))) for one in filled)
    given = [(supply, _given(fittings[supply], places, left)) for _, supply, places in chosen]
    there = [(fittings[supply].blank, pieces) for supply, pieces in given if pieces]
    there.sort(key=lambda one: (bool(one[0].part), one[1][0].member.number))
    return tuple(
        OpenedTile(number, _sawn(pieces, blank), blank)
        for number, (blank, pieces) in enumerate(there, start=1)
    )


@dataclass(frozen=True, eq=False)
class _Given:
    """A piece that a tile gives: how it is turned there from its kind's outline, and how far it is moved."""

    member: Member
    degrees: int
    move: Points


def _given(fitting: Fitting, chosen: tuple[int, ...], left: list[list[Member]]) -> list[_Given]:
    moves = fitting.moves(chosen)
    if moves is None:
        raise ValueError(f"the places {chosen} do not fit in one tile")
    places = [fitting.places[number] for number in chosen]
    given = [
        _Given(left[place.kind].pop(0), place.degrees, move)
        for place, move in zip(places, moves, strict=True)
        if left[place.kind]
    ]
    return sorted(given, key=lambda one: one.member.number)


def _sawn(given: list[_Given], blank: Blank) -> tuple[SawnPiece, ...]:
    first = given[0]
    if len(given) == 1 and not blank.part:
        return (SawnPiece(first.member.piece.id, _natural(first.member), 0.0, first.member.layout),)
    back = -(first.member.turned + first.degrees) % 360
    return tuple(_in_blank(one, back if back in blank.own_turns else 0, blank) for one in given)


def _natural(member: Member) -> Points:
    return member.piece.in_tile(member.piece.outline)


def _in_blank(one: _Given, back: int, blank: Blank) -> SawnPiece:
    """Return a piece in its tile when the tile is turned by `back`."""
    member = one.member
    ring = blank.turned(_natural(member), member.turned) + member.shift
    outline = blank.turned(blank.turned(ring, one.degrees) + one.move, back)
    turned = (member.turned + one.degrees + back) % 360
    return SawnPiece(member.piece.id, outline, float(turned), member.layout)
