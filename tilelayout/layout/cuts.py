"""The cuts that make a piece out of its tile.

Each cut takes something off the whole tile and is measured on the whole tile, so the cuts can be marked
before the first of them is made and made in any order; the piece is what all of them leave. Straight cuts
that may run right across come first, then notches, slots and curves, then holes.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.job.values import OffsetSheet
from tilelayout.layout.bordering import stretches_of
from tilelayout.layout.chips import measured_outline
from tilelayout.layout.laying import Laid
from tilelayout.layout.mosaic import MosaicPiece
from tilelayout.layout.pockets import pocket_cuts
from tilelayout.layout.sawn import How, Stretch, pockets, stretches_of_piece
from tilelayout.layout.straight_cuts import straight_cut
from tilelayout.layout.values import BorderEdge, Cut, CutKind, Piece, Points

_ORDER = tuple(CutKind)


def cuts_of(piece: Piece, laid: Laid) -> tuple[Cut, ...]:
    """Return the cuts that make `piece`, every sawn side of it in one; none for a whole tile."""
    if piece.whole:
        return ()
    tile = measured_outline(piece.tile)
    stretches = tuple(_in_tile(stretch, piece) for stretch in stretches_of_piece(piece, laid.region))
    cuts = [*_zigzag(piece), *(straight_cut(stretch, tile, stops=False) for stretch in _across(stretches))]
    shape = shapely.Polygon(piece.in_tile(piece.outline))
    for pocket in pockets(stretches):
        cuts += pocket_cuts(pocket, tile, shape)
    cuts += [_hole(ring, piece, laid) for ring in piece.holes]
    return tuple(sorted(cuts, key=_place_in_order))


def _zigzag(piece: Piece) -> list[Cut]:
    """Return the line of the knife round the chips that are kept, none if all of the sheet's are."""
    if not isinstance(piece, MosaicPiece) or not isinstance(piece.tile, OffsetSheet):
        return []
    if len(piece.chips) == piece.tile.chips_across * piece.tile.chips_up:
        return []
    ring = piece.in_tile(max(piece.parted, key=len))
    return [Cut(CutKind.KNIFE, (), np.concatenate([ring, ring[:1]]), "")]


def _place_in_order(cut: Cut) -> tuple[bool, int, tuple[float, ...]]:
    return cut.stops, _ORDER.index(cut.kind), tuple(round(size, 3) for size in cut.sizes)


def _in_tile(stretch: Stretch, piece: Piece) -> Stretch:
    """Move the centre of a curve's border to tile coordinates, where the points already are."""
    border = stretch.border
    if border is None or border.centre is None:
        return stretch
    return replace(stretch, border=replace(border, centre=_centre_in_tile(border.centre, piece)))


def _centre_in_tile(centre: tuple[float, float], piece: Piece) -> tuple[float, float]:
    x, y = piece.in_tile(np.array([centre]))[0]
    return float(x), float(y)


def _across(stretches: tuple[Stretch, ...]) -> list[Stretch]:
    """The stretches right across, of those on one line only the longest."""
    kept: list[Stretch] = []
    for stretch in sorted(stretches, key=lambda s: -s.length):
        if stretch.how is How.ACROSS and not any(_is_one_line(stretch, other) for other in kept):
            kept.append(stretch)
    return kept


def _is_one_line(one: Stretch, other: Stretch) -> bool:
    return bool(np.all(np.abs(other.depths(one.points)) < ON_EDGE)) and float(one.way @ other.way) > 0


def _hole(ring: Points, piece: Piece, laid: Laid) -> Cut:
    borders = stretches_of(laid.region).nearest(ring, np.roll(ring, -1, axis=0))
    points = piece.in_tile(ring)
    line = np.concatenate([points, points[:1]])
    if len(set(borders)) == 1 and borders[0].centre is not None and borders[0].radius is not None:
        centre = _centre_in_tile(borders[0].centre, piece)
        return Cut(CutKind.HOLE, (*centre, 2.0 * borders[0].radius), line, borders[0].source)
    low, high = points.min(axis=0), points.max(axis=0)
    (x, y), (width, height) = (low + high) / 2.0, high - low
    return Cut(CutKind.HOLE, (float(x), float(y), float(width), float(height)), line, _commonest(borders))


def _commonest(borders: tuple[BorderEdge, ...]) -> str:
    sources = [border.source for border in borders]
    return max(sources, key=sources.count)
