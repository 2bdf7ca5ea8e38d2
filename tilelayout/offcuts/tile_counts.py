"""How many of each tile are opened, and in how many boxes they come."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tilelayout.job.values import Tile
from tilelayout.layout.faces import hand_of
from tilelayout.offcuts.sharing import Sharing


@dataclass(frozen=True, eq=False)
class TileCount:
    """What is needed of one of the tiles of a layout, which is bought by itself.

    `needed` are opened, whole or to be sawn, and no plan can do with fewer than `needed_at_least`. `hands`
    are the left and the right ones of `needed`; None if the tile has no hands.
    """

    tile: Tile
    whole: int
    cut: int
    needed: int
    needed_at_least: int
    hands: tuple[int, int] | None

    @property
    def boxes(self) -> int | None:
        """How many boxes hold the tiles opened; None if it is not known how many are in one.

        A box of left and right tiles holds as many of each.
        """
        if not self.tile.per_box:
            return None
        tiles = self.needed if self.hands is None else 2 * max(self.hands)
        return math.ceil(tiles / self.tile.per_box)


def by_tile(tiles: Iterable[Tile], whole: Mapping[Tile, int], sharing: Sharing) -> tuple[TileCount, ...]:
    """Return what is needed of each of `tiles`; `whole` tells of each hand how many are laid whole."""
    return tuple(_count(tile, whole, sharing) for tile in tiles)


def boxes_needed(counts: Iterable[TileCount]) -> int | None:
    """Return how many boxes hold the tiles opened; None if of one it is not known how many are in a box."""
    boxes = [count.boxes for count in counts]
    return None if None in boxes else sum(filter(None, boxes))


def _count(tile: Tile, whole: Mapping[Tile, int], sharing: Sharing) -> TileCount:
    """Left and right tiles bear the id of the tile; each hand is shared by itself."""
    shared = [each for each in sharing.by_tile if each.tile.id == tile.id]
    laid = Counter({each: count for each, count in whole.items() if each.id == tile.id})
    opened = laid + Counter({each.tile: len(each.found.tiles) for each in shared})
    least = laid.total() + sum(each.found.at_least for each in shared)
    cut = sum(each.cut for each in shared)
    return TileCount(tile, laid.total(), cut, opened.total(), least, _hands(tile, opened))


def _hands(tile: Tile, opened: Counter[Tile]) -> tuple[int, int] | None:
    if not hand_of(tile, tile):
        return None
    left = opened[tile]
    return left, opened.total() - left
