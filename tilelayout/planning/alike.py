"""Tells whether two cut pieces are the same work at the saw.

They are if some turn of the tile onto itself brings the cuts of one to those of the other, to the mark
that a person reads on the fence. Each coordinate is read from either side of the tile, since a size is
set from the factory edge that stays, and that may be the left one or the right one. A mirror image has its
cuts elsewhere after every turn, so it is never the same.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.base.units import LengthStyle, cut_size
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.tile_turns import middle_of, tile_turns
from tilelayout.layout.values import Cut, CutKind, Piece, Points

_SAME_PART = 3.0
"""So far in mm may rounding to the marks on the fence move the middle of a piece."""


@dataclass(frozen=True, eq=False)
class Sawn:
    """A cut piece, its cuts, and for each cut its sizes as set on the saw."""

    piece: Piece
    cuts: tuple[Cut, ...]
    sizes: tuple[tuple[float, ...], ...]


class SameSawing:
    """Compares pieces of one tile; called with two pieces of equal `key`.

    Where a quarter or a sixth of a turn brings the tile onto itself, a cross cut is a rip.
    """

    def __init__(self, tile: Tile, style: LengthStyle) -> None:
        self._style = style
        outline = tile_outline(tile)
        self._extent = outline.max(axis=0) - outline.min(axis=0)
        self._pivot = middle_of(outline)
        self._turns = [turning(degrees) for degrees in tile_turns(tile)]
        self._has_one_length = len(self._turns) > 2

    def key(self, sawn: Sawn) -> Hashable:
        """Return what is the same for all pieces that are the same work, turned or not: kinds and sizes."""
        cuts = zip(sawn.cuts, sawn.sizes, strict=True)
        work = sorted((self._kind(cut), _without_place(cut, sizes)) for cut, sizes in cuts)
        return tile_outline(sawn.piece.tile).tobytes(), tuple(work)

    def __call__(self, one: Sawn, other: Sawn) -> bool:
        """Claim that both are the same work."""
        return any(self._meets(one, other, turn) for turn in self._turns)

    def _meets(self, one: Sawn, other: Sawn, turn: Points) -> bool:
        return self._same_cuts(one, other, turn) and self._same_part(one.piece, other.piece, turn)

    def _same_part(self, one: Piece, other: Piece, turn: Points) -> bool:
        """Claim that two pieces lie in one place of the tile: the same cuts may part it in several."""
        here, there = (middle_of(piece.in_tile(piece.outline)) - self._pivot for piece in (one, other))
        return float(np.hypot(*(here - there @ turn))) < _SAME_PART

    def _same_cuts(self, one: Sawn, other: Sawn, turn: Points) -> bool:
        left = [(self._kind(cut), self._ends(cut, turn)) for cut in other.cuts]
        for cut in one.cuts:
            kind, ends = self._kind(cut), self._ends(cut, turning(0))
            found = [at for at, (k, e) in enumerate(left) if k is kind and self._is_at(ends, e)]
            if not found:
                return False
            del left[found[0]]
        return True

    def _kind(self, cut: Cut) -> CutKind:
        return CutKind.RIP if self._has_one_length and cut.kind is CutKind.CROSS else cut.kind

    def _ends(self, cut: Cut, turn: Points) -> Points:
        """Return where a cut starts, ends and bends, seen from the middle of the turned tile (3, 2).

        What is round stands where its centre is, since its chords may begin anywhere.
        """
        is_round = cut.kind in (CutKind.HOLE, CutKind.CURVE) and len(cut.sizes) == 3
        line = np.array([cut.sizes[:2]]) if is_round else cut.line
        line = (line - self._pivot) @ turn + self._pivot - self._extent / 2
        if cut.kind in (CutKind.HOLE, CutKind.KNIFE):
            line = np.array([line.min(axis=0), line.max(axis=0)])
        return np.array([line[0], line[-1], line[len(line) // 2]])

    def _is_at(self, ends: Points, other: Points) -> bool:
        return self._same_marks(ends, other) or self._same_marks(ends, other[[1, 0, 2]])

    def _same_marks(self, one: Points, other: Points) -> bool:
        return all(
            self._mark(half + a) == self._mark(half + b) or self._mark(half - a) == self._mark(half - b)
            for half, a, b in zip(np.tile(self._extent / 2, 3), one.ravel(), other.ravel(), strict=True)
        )

    def _mark(self, size: float) -> float:
        """Return the mark at or below a coordinate, which is on a mark if only rounding keeps it off."""
        return cut_size(size + ON_EDGE, self._style)


def _without_place(cut: Cut, sizes: tuple[float, ...]) -> tuple[float, ...]:
    """Return the sizes of a cut that stay when the tile is turned."""
    if cut.kind is CutKind.SLOT:
        return tuple(sorted(sizes[:2]))
    return tuple(sorted(sizes[2:] if cut.kind in (CutKind.HOLE, CutKind.CURVE) else sizes))
