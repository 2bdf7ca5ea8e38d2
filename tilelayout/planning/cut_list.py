"""The cut list: one row for each distinct piece to saw, in the order that moves the fence least.

Two pieces share a row if the same cuts at the same sizes, as they are set on the saw, make both. They are
compared in the coordinates of their tiles. A tile without a direction may be turned onto itself before
sawing, so pieces that differ only by such a turn are one; a mirror image never is, since a tile has a face.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Mapping
from dataclasses import dataclass

from tilelayout.base.units import LengthStyle
from tilelayout.layout.faces import hand_of
from tilelayout.layout.laying import Laid
from tilelayout.layout.values import Cut, CutKind, Piece
from tilelayout.planning.alike import SameSawing, Sawn
from tilelayout.planning.saw_sizes import saw_sizes
from tilelayout.planning.words import cut_words, part_words, piece_size, walls_met

_ORDER = tuple(CutKind)


@dataclass(frozen=True, eq=False)
class CutRow:
    """One row of the cut list.

    `pieces` are those it makes, in the order of the pieces; `cuts` those of the first, which is the one to
    draw. `words` say each cut and `size` what the piece measures, both in the job's lengths; `walls`
    are all the walls its pieces meet. `is_sliver` claims that one of the pieces is a sliver.
    """

    number: int
    pieces: tuple[Piece, ...]
    cuts: tuple[Cut, ...]
    words: tuple[str, ...]
    size: str
    walls: tuple[str, ...]
    is_sliver: bool

    @property
    def count(self) -> int:
        """How many pieces the row makes."""
        return len(self.pieces)


def rows_of(
    laid: Laid, cuts_by_piece: Mapping[str, tuple[Cut, ...]], sliver_ids: frozenset[str], style: LengthStyle
) -> tuple[CutRow, ...]:
    """Return the rows of the cut list, numbered from 1: by tile, by kind of cut, the largest size first."""
    is_same = {tile.id: SameSawing(tile, style) for tile in laid.tiles}
    alike: dict[Hashable, list[list[Sawn]]] = defaultdict(list)
    for piece in laid.cut:
        sawn, own = _sawn(piece, cuts_by_piece[piece.id], style), piece.tile.id
        _put(alike[own, is_same[own].key(sawn)], sawn, is_same[own])
    place = {tile.id: at for at, tile in enumerate(laid.tiles)}
    groups = [group for groups in alike.values() for group in groups]
    groups.sort(key=lambda group: (place[group[0].piece.tile.id], _saw_order(group)))
    return tuple(_row(number, group, laid, sliver_ids, style) for number, group in enumerate(groups, start=1))


def _sawn(piece: Piece, cuts: tuple[Cut, ...], style: LengthStyle) -> Sawn:
    return Sawn(piece, cuts, tuple(saw_sizes(cut, piece, style) for cut in cuts))


def _put(groups: list[list[Sawn]], sawn: Sawn, is_same: SameSawing) -> None:
    for group in groups:
        if is_same(group[0], sawn):
            group.append(sawn)
            return
    groups.append([sawn])


def _saw_order(group: list[Sawn]) -> tuple[object, ...]:
    first = group[0]
    kinds = tuple(_ORDER.index(cut.kind) for cut in first.cuts)
    sizes = tuple(tuple(-size for size in sizes) for sizes in first.sizes)
    return len(kinds), kinds, sizes


def _row(
    number: int, group: list[Sawn], laid: Laid, sliver_ids: frozenset[str], style: LengthStyle
) -> CutRow:
    first = group[0]
    pieces = tuple(sawn.piece for sawn in group)
    words = [cut_words(cut, first.piece, style) for cut in first.cuts]
    lead, part = _tile_words(first.piece, laid), part_words(first.piece, first.cuts)
    return CutRow(
        number=number,
        pieces=pieces,
        cuts=first.cuts,
        words=tuple([f"{lead}: {words[0]}", *words[1:]] if lead else words),
        size=", ".join(filter(None, (piece_size(first.piece, style), part))),
        walls=walls_met(tuple(cut for sawn in group for cut in sawn.cuts), laid.surface),
        is_sliver=any(piece.id in sliver_ids for piece in pieces),
    )


def _tile_words(piece: Piece, laid: Laid) -> str:
    """Return which tile to take: its name if there are several, its hand if it has one."""
    tile = next(tile for tile in laid.tiles if tile.id == piece.tile.id)
    hand = hand_of(piece.tile, tile)
    name = tile.title if len(laid.tiles) > 1 else ""
    return ", ".join(filter(None, (name, f"{hand} tile" if hand else "")))
