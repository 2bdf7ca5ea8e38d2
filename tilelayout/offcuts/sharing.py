"""Which piece is sawn from which tile: the fewest tiles, and the proof.

Every tile of a job is shared by itself, since no piece of one can be sawn from another; a left one and a
right one are two. The pieces may come from any number of layouts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from tilelayout.job.values import Saw, Tile
from tilelayout.layout.values import Piece
from tilelayout.offcuts.fewest import Fewest, at_once, fewest
from tilelayout.offcuts.fitting import Fitting
from tilelayout.offcuts.kinds import kinds_of
from tilelayout.offcuts.on_hand import parts_on_hand
from tilelayout.offcuts.opened import OpenedTile, opened_tiles
from tilelayout.offcuts.rules import Blank
from tilelayout.offcuts.sets import Sets
from tilelayout.offcuts.supplies import WHOLE, Supply


@dataclass(frozen=True, eq=False)
class TileSharing:
    """How one tile is shared: `whole` are laid whole, `cut` pieces are sawn.

    `supplies` are the whole tiles, then each kind of offcut on hand.
    """

    supplies: tuple[Supply, ...]
    whole: int
    cut: int
    found: Fewest

    @property
    def tile(self) -> Tile:
        """The tile."""
        return self.supplies[WHOLE].sets.fitting.blank.tile

    @property
    def needed(self) -> int:
        """How many are opened, whole or to be sawn."""
        return self.whole + len(self.found.tiles)

    @property
    def needed_at_least(self) -> int:
        """A number that no plan goes below under the same rules."""
        return self.whole + self.found.at_least

    @cached_property
    def opened(self) -> tuple[OpenedTile, ...]:
        """The tiles to saw and then the offcuts on hand, numbered from 1."""
        return opened_tiles([each.sets.fitting for each in self.supplies], self.found.filled)


@dataclass(frozen=True, eq=False)
class Sharing:
    """How the tiles of one or more layouts are shared between their cut pieces."""

    by_tile: tuple[TileSharing, ...]
    whole: int

    @property
    def tiles_needed(self) -> int:
        """Every tile opened, whole or to be sawn."""
        return self.whole + sum(len(each.found.tiles) for each in self.by_tile)

    @property
    def tiles_needed_at_least(self) -> int:
        """A number that no plan goes below under the same rules."""
        return self.whole + sum(each.found.at_least for each in self.by_tile)

    @property
    def without_sharing(self) -> int:
        """How many tiles there would be with one for each cut piece."""
        return self.whole + sum(each.cut for each in self.by_tile)

    @property
    def is_saving(self) -> bool:
        """Whether any tile gives more than one piece."""
        return self.tiles_needed < self.without_sharing

    @property
    def gap(self) -> int:
        """By how many tiles the plan may be above the fewest."""
        return self.tiles_needed - self.tiles_needed_at_least

    @property
    def is_fewest(self) -> bool:
        """Whether it is proved that no plan takes fewer tiles."""
        return self.gap == 0

    @cached_property
    def opened(self) -> tuple[OpenedTile, ...]:
        """The tiles to saw, those of the first tile first, then the offcuts on hand; numbered on from 1."""
        tiles = sorted((tile for each in self.by_tile for tile in each.opened), key=lambda t: t.is_on_hand)
        return tuple(
            OpenedTile(number, tile.pieces, tile.blank) for number, tile in enumerate(tiles, start=1)
        )

    @property
    def offcuts_used(self) -> int:
        """How many offcuts on hand are sawn again."""
        return sum(len(each.found.filled) - len(each.found.tiles) for each in self.by_tile)

    def needed_of(self, tile: Tile) -> int:
        """Return how many of one tile are opened to be sawn."""
        return sum(len(each.found.tiles) for each in self.by_tile if each.tile == tile)


def share(pieces: Mapping[str, Sequence[Piece]], whole: Mapping[Tile, int], saw: Saw) -> Sharing:
    """Return the plan with the fewest tiles that was found, and how few there can be.

    `pieces` are the cut pieces of each layout by its id, `whole` how many of each tile are laid whole.
    """
    return list(share_steps(pieces, whole, saw))[-1]


def share_at_once(pieces: Mapping[str, Sequence[Piece]], whole: Mapping[Tile, int], saw: Saw) -> Sharing:
    """Return a plan that takes no searching, and a weaker bound."""
    return next(share_steps(pieces, whole, saw))


def share_steps(
    pieces: Mapping[str, Sequence[Piece]], whole: Mapping[Tile, int], saw: Saw
) -> Iterator[Sharing]:
    """Yield ever better plans and bounds, the first at once; the last is the answer.

    Whoever has waited long enough may stop: every plan yielded is whole, and its bound holds.
    """
    problems = _by_tile(pieces, saw)
    found = [at_once(supplies) for _, supplies in problems]
    laid_whole = sum(whole.values())

    def so_far() -> Sharing:
        parts = [
            TileSharing(supplies, whole.get(supplies[WHOLE].sets.fitting.blank.tile, 0), cut, best)
            for (cut, supplies), best in zip(problems, found, strict=True)
        ]
        return Sharing(tuple(parts), laid_whole)

    yield so_far()
    for at, (_, supplies) in enumerate(problems):
        for better in fewest(supplies, found[at]):
            found[at] = better
            yield so_far()


def _by_tile(pieces: Mapping[str, Sequence[Piece]], saw: Saw) -> list[tuple[int, tuple[Supply, ...]]]:
    """Return the number of cut pieces of each tile and what they may be sawn from, in the order of pieces."""
    of_tile: dict[Tile, list[tuple[str, Piece]]] = {}
    for layout, cut in pieces.items():
        for piece in cut:
            of_tile.setdefault(piece.tile, []).append((layout, piece))
    return [(len(cut), _supplies(cut, Blank(tile, saw))) for tile, cut in of_tile.items()]


def _supplies(cut: Sequence[tuple[str, Piece]], blank: Blank) -> tuple[Supply, ...]:
    kinds = kinds_of(cut, blank)
    on_hand = [
        Supply(Sets(Fitting.of(kinds, replace(blank, part=part))), count)
        for part, count in parts_on_hand(blank.tile).items()
    ]
    return (Supply(Sets(Fitting.of(kinds, blank))), *on_hand)
