"""What is missing where the tiles on hand are too few, piece by piece.

Tiles on hand go first to what is laid whole, then to the tiles that give most pieces: what stays without a
tile is then as little of the room as can be.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from tilelayout.base.counts import so_many
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.same_tile import has_stock
from tilelayout.job.values import Tile
from tilelayout.offcuts.opened import OpenedTile, SawnPiece
from tilelayout.offcuts.sharing import Sharing
from tilelayout.offcuts.tile_counts import TileCount
from tilelayout.planning.plan import Plan

_MOST_SIZES = 3
_MOST_IDS = 4
"""So many sizes, and pieces of a size, are named before the rest is only counted."""


@dataclass(frozen=True, eq=False)
class Shortage:
    """A tile of which `short` are missing: for `whole` laid whole and for `pieces` to be sawn."""

    tile: Tile
    short: int
    whole: int
    pieces: tuple[SawnPiece, ...]

    def words(self, style: LengthStyle) -> str:
        """One sentence without a full stop: "3 tiles of Slate short (12 on hand): 2 pieces of ..."."""
        parts = [*_piece_words(self.pieces, style), *([f"{self.whole} laid whole"] if self.whole else [])]
        listed = " and ".join(filter(None, (", ".join(parts[:-1]), *parts[-1:])))
        return f"{self.brief}: {listed}"

    @property
    def brief(self) -> str:
        """How many there are too few: "3 tiles of Slate short (12 on hand)"."""
        return f"{so_many(self.short, 'tile')} of {self.tile.title} short ({self.tile.whole_on_hand} on hand)"


def shortages(plan: Plan) -> tuple[Shortage, ...]:
    """Return what is missing of each tile of a plan of which something is on hand; none if it fits."""
    return shortages_of(plan.by_tile, plan.sharing)


def shortages_of(counts: Iterable[TileCount], sharing: Sharing) -> tuple[Shortage, ...]:
    """Return what is missing of each tile that is counted and of which something is on hand."""
    short = ((count, count.needed - count.tile.whole_on_hand) for count in counts if has_stock(count.tile))
    return tuple(_shortage(count, number, sharing.opened) for count, number in short if number > 0)


def _shortage(count: TileCount, short: int, opened: Sequence[OpenedTile]) -> Shortage:
    own = [tile for tile in opened if tile.tile.id == count.tile.id and not tile.is_on_hand]
    own.sort(key=lambda tile: (-len(tile.pieces), tile.number))
    missing = own[max(0, len(own) - short) :]
    pieces = tuple(piece for tile in missing for piece in tile.pieces)
    return Shortage(count.tile, short, short - len(missing), pieces)


def _piece_words(pieces: Iterable[SawnPiece], style: LengthStyle) -> list[str]:
    sizes: dict[str, list[str]] = {}
    for piece in pieces:
        long, short = sorted(np.ptp(piece.outline, axis=0).tolist(), reverse=True)
        size = f"{format_length(long, style)} × {format_length(short, style)}"
        sizes.setdefault(size, []).append(piece.piece)
    counted = Counter({size: len(ids) for size, ids in sizes.items()})
    rest = counted.total() - sum(count for _, count in counted.most_common(_MOST_SIZES))
    words = [
        f"{so_many(count, 'piece')} of {size} ({_named(sizes[size])})"
        for size, count in counted.most_common(_MOST_SIZES)
    ]
    return [*words, so_many(rest, "other piece")] if rest else words


def _named(ids: list[str]) -> str:
    more = len(ids) - _MOST_IDS
    return ", ".join(ids[:_MOST_IDS]) + (f" and {more} more" if more > 0 else "")
