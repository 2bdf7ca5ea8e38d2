"""Finds the piece under the pointer with a tree of boxes, made when it is first asked for."""

from __future__ import annotations

from functools import cached_property, lru_cache

import shapely

from tilelayout.job.values import Point
from tilelayout.layout.laying import Laid
from tilelayout.layout.values import Piece

_MOST = 6000
"""On floors of more tiles only the cut pieces are found: listing the whole ones would be felt."""


class PieceFinder:
    """The pieces of one laid layout as shapes in a tree."""

    def __init__(self, laid: Laid) -> None:
        self._laid = laid

    @cached_property
    def _pieces(self) -> tuple[Piece, ...]:
        is_small = self._laid.whole_count <= _MOST
        return tuple(self._laid.pieces()) if is_small else self._laid.cut

    @cached_property
    def _tree(self) -> shapely.STRtree:
        return shapely.STRtree([shapely.Polygon(piece.outline, piece.holes) for piece in self._pieces])

    def at(self, point: Point) -> str | None:
        """Return the id of the piece at a surface point; None between pieces and outside."""
        found = self._tree.query(shapely.Point(point), predicate="intersects")
        return self._pieces[int(found[0])].id if len(found) else None


@lru_cache(maxsize=4)
def finder_of(laid: Laid) -> PieceFinder:
    """Return the finder of a laid layout."""
    return PieceFinder(laid)
