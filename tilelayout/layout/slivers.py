"""Which pieces are too narrow to look well or to hold.

The limit is common practice, not a published one: a third of the tile's width or 50 mm, whichever is less.
That no cut should be under half a tile the trade's rule says "usually" (ANSI A108.02, 4.3.2), so it is an
advice.
A piece cut only where nobody looks is no sliver.
"""

from __future__ import annotations

import numpy as np

from tilelayout.job.values import Tile, Visibility
from tilelayout.layout.bordering import sawn_borders
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags
from tilelayout.layout.laid import Laid
from tilelayout.layout.mosaic import LaidMosaic
from tilelayout.layout.values import Piece

_WIDEST_SLIVER = 50.0
_ROUNDING = 1e-6


def sliver_limit(tile: Tile) -> float:
    """Return the narrowest place under which a piece of this tile is a sliver, in mm."""
    return min(tile_width(tile) / 3.0, _WIDEST_SLIVER)


def are_slivers(laid: Laid) -> Flags:
    """Tell of each of the laid `cut_parts` whether it is a sliver where it can be seen."""
    return np.concatenate([_are_slivers(one) for one in laid.components])


def _are_slivers(laid: Laid) -> Flags:
    """Tell it of one lattice; a part of a mosaic sheet is a sliver if one of its chips is."""
    if isinstance(laid, LaidMosaic):
        return laid.with_any(_are_slivers(laid.chips))
    widths, are_exact = laid.cut_widths
    limits = np.array([sliver_limit(face.tile) for face in laid.cell.faces])
    found = are_exact & (widths < limits[laid.cut_parts.face] - _ROUNDING)
    if any(edge.seen is Visibility.HIDDEN for edge in laid.surface.edges):
        for part in np.flatnonzero(found).tolist():
            found[part] = is_sliver(laid.cut_piece(part), laid)
    return found


def is_sliver(piece: Piece, laid: Laid) -> bool:
    """Tell whether a piece is a sliver where it can be seen."""
    return _is_seen_under(sliver_limit(piece.tile), piece, laid)


def is_under_half(piece: Piece, laid: Laid) -> bool:
    """Tell whether a piece that can be seen is narrower than half its tile."""
    return _is_seen_under(tile_width(piece.tile) / 2.0, piece, laid)


def _is_seen_under(limit: float, piece: Piece, laid: Laid) -> bool:
    if piece.whole or not piece.is_narrower_than(limit - _ROUNDING):
        return False
    if not any(edge.seen is Visibility.HIDDEN for edge in laid.surface.edges):
        return True
    return any(border.seen is not Visibility.HIDDEN for border in sawn_borders(piece, laid.region))
