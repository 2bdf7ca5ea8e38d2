"""The hard pieces of a layout as plates: what each is called, its outline, how its edges bow.

A piece is called by its id. Of a mosaic the hard pieces are its chips, which go by the id of their sheet.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.flatness.mesh import Numbers
from tilelayout.flatness.plates import Shapes
from tilelayout.geometry.rings import following
from tilelayout.job.values import MosaicSheet, Tile
from tilelayout.layout.chips import hard_outline
from tilelayout.layout.values import Piece
from tilelayout.planning.plan import Plan


@dataclass(frozen=True, eq=False)
class PlatesLaid:
    """k plates: `ids` of the pieces, `shapes` (k,), the `tiles` they are of, and `bows` (k,), 1 / mm.

    A side of length l bows by bow x l^2; 0 where nobody measured it.
    """

    ids: tuple[str, ...]
    shapes: Shapes
    tiles: tuple[Tile, ...]
    bows: Numbers


def plates_laid(plan: Plan) -> PlatesLaid:
    """Return the plates of a layout. LayoutError if it cannot be laid."""
    called = list(_hard_pieces(plan))
    shapes = np.array([shapely.Polygon(piece.outline, piece.holes) for _, piece in called], dtype=object)
    tiles = tuple(piece.tile for _, piece in called)
    by_tile = {id(tile): bow_of(tile) for tile in tiles}
    bows = np.array([by_tile[id(tile)] for tile in tiles], dtype=float)
    return PlatesLaid(tuple(id for id, _ in called), shapes, tiles, bows)


def bow_of(tile: Tile) -> float:
    """Return how far an edge of 1 mm would bow, 1 / mm, from the tile's measured warpage; 0 if unknown."""
    if tile.warpage is None or isinstance(tile, MosaicSheet):
        return 0.0
    return tile.warpage / longest_side(tile) ** 2


def longest_side(tile: Tile) -> float:
    """Return the longest side of a tile as measured, or of a chip of a mosaic sheet, mm."""
    outline = hard_outline(tile)
    return float(np.hypot(*(following(outline) - outline).T).max())


def _hard_pieces(plan: Plan) -> Iterator[tuple[str, Piece]]:
    pieces = list(plan.laid.pieces())
    sheets = [piece for piece in pieces if isinstance(piece.tile, MosaicSheet)]
    yield from ((piece.id, piece) for piece in pieces if not isinstance(piece.tile, MosaicSheet))
    if plan.chips is not None and sheets:
        yield from _chips(list(plan.chips.pieces()), sheets)


def _chips(chips: list[Piece], sheets: list[Piece]) -> Iterator[tuple[str, Piece]]:
    """Each chip with the id of the sheet that it is part of."""
    tree = shapely.STRtree([shapely.Polygon(sheet.outline) for sheet in sheets])
    middles = [shapely.Polygon(chip.outline).representative_point() for chip in chips]
    for chip, sheet in zip(chips, tree.nearest(middles).tolist(), strict=True):
        yield sheets[sheet].id, chip
