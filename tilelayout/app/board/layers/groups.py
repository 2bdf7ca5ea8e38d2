"""Tiles as painter paths of about ten each.

One path for a whole floor is painted ten to fifty times slower than the same tiles in small paths, since
each scan line must sort every edge in it. Small paths also let those out of sight be left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QPainterPath

from tilelayout.app.board.view import Bounds
from tilelayout.app.paint.paths import Rings, polygons_path, rings_path
from tilelayout.layout.kernel.arrays import Flags
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.values import Piece

Points = NDArray[np.float64]

GROUP = 10


def face_paths(faces: Points) -> list[QPainterPath]:
    """Return equal faces (n, m, 2) as paths of neighbours."""
    return [polygons_path(faces[at : at + GROUP]) for at in range(0, len(faces), GROUP)]


class PieceGroups:
    """The cut pieces chosen among all, in groups of neighbours; a path is made when it is first in sight."""

    def __init__(self, parts: Parts, chosen: Flags) -> None:
        holed = [at for at in sorted(parts.holes) if chosen[at]]
        rings = [ring for at in holed for ring in (parts.outlines[at], *parts.holes[at])]
        is_plain = chosen.copy()
        is_plain[holed] = False
        plain = parts.outlines.only(is_plain)
        points = np.concatenate([plain.points, *rings])
        self._rings = Rings(points, np.append(plain.sizes, [len(ring) for ring in rings]).astype(np.int64))
        counts = np.append(np.ones(len(plain), dtype=int), [1 + len(parts.holes[at]) for at in holed])
        ends = np.cumsum(counts).astype(int).tolist()
        self._cuts = [0, *ends[GROUP - 1 : -1 : GROUP], *ends[-1:]]
        firsts = self._cuts[:-1]
        self._low = np.minimum.reduceat(self._rings.low, firsts, axis=0) if firsts else self._rings.low
        self._high = np.maximum.reduceat(self._rings.high, firsts, axis=0) if firsts else self._rings.high
        self._paths: dict[int, QPainterPath] = {}

    def paths_within(self, bounds: Bounds) -> Iterator[QPainterPath]:
        """Return the paths of the groups in sight."""
        is_in = (self._low <= (bounds.right, bounds.top)).all(axis=1)
        is_in &= (self._high >= (bounds.left, bounds.bottom)).all(axis=1)
        for at in map(int, np.flatnonzero(is_in)):
            if at not in self._paths:
                self._paths[at] = self._rings.path(self._cuts[at], self._cuts[at + 1])
            yield self._paths[at]


def pieces_path(pieces: Sequence[Piece]) -> QPainterPath:
    """Return the outlines of pieces, their holes left open."""
    return rings_path([ring for piece in pieces for ring in (piece.outline, *piece.holes)])
