"""Counts tiles when every cut piece is sawn from a tile of its own.

Nothing is shared between tiles, so the count is one anybody can lay by, and each piece keeps its natural
place in its tile: the edges that face a joint are then factory edges without any further thought. Beside
it stands a bound that no sharing whatever could beat, since tile cannot be stretched.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from tilelayout.geometry.rings import area
from tilelayout.job.values import Tile
from tilelayout.layout.faces import hand_of, tile_outline
from tilelayout.layout.laying import Laid
from tilelayout.layout.values import Points

_ROUNDING = 1e-9
"""How far, in tiles, a sum of areas may pass a whole number by rounding alone."""


@dataclass(frozen=True, eq=False)
class SawnPiece:
    """Where a cut piece lies in its tile.

    `outline` (n, 2) is in the coordinates of the tile (lower left corner 0, 0, length along x, face up);
    `turned` is by how many degrees it is turned there from the place it has when laid.
    """

    piece: str
    outline: Points
    turned: float


@dataclass(frozen=True, eq=False)
class OpenedTile:
    """A tile taken from the box to be sawn, and what is sawn from it. Numbered from 1."""

    number: int
    pieces: tuple[SawnPiece, ...]


def cut_from(laid: Laid) -> tuple[OpenedTile, ...]:
    """Return the tiles to saw, one for each cut piece, in the order of the pieces."""
    return tuple(
        OpenedTile(number, (SawnPiece(piece.id, piece.in_tile(piece.outline), 0.0),))
        for number, piece in enumerate(laid.cut, start=1)
    )


def tiles_needed(laid: Laid) -> int:
    """Return how many tiles are opened, whole or to be cut."""
    return laid.whole_count + len(laid.cut)


def tiles_needed_at_least(laid: Laid) -> int:
    """Return a number that no sharing of offcuts can go below: the whole tiles and the area of the rest.

    A left tile gives no piece of a right one, so each hand has its own bound.
    """
    tile_area = area(tile_outline(laid.tile))
    cut_areas: dict[Tile, float] = defaultdict(float)
    for piece in laid.cut:
        cut_areas[piece.tile] += piece.area
    opened = (math.ceil(cut_area / tile_area - _ROUNDING) for cut_area in cut_areas.values())
    return laid.whole_count + sum(opened)


def hands_needed(laid: Laid) -> tuple[int, int] | None:
    """Return how many left and how many right tiles are opened; None if the tile has no hands."""
    if not hand_of(laid.tile, laid.tile):
        return None
    whole = laid.overlap.whole
    is_left = np.array([hand_of(face.tile, laid.tile) == "left" for face in laid.cell.faces])
    left = int(whole.lengths[is_left[whole.face]].sum())
    left += sum(hand_of(piece.tile, laid.tile) == "left" for piece in laid.cut)
    return left, tiles_needed(laid) - left


def boxes_needed(laid: Laid) -> int | None:
    """Return how many boxes hold the tiles opened; None if it is not known how many are in one.

    A box of left and right tiles holds as many of each.
    """
    if not laid.tile.per_box:
        return None
    hands = hands_needed(laid)
    tiles = tiles_needed(laid) if hands is None else 2 * max(hands)
    return math.ceil(tiles / laid.tile.per_box)
