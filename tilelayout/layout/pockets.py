"""Pockets in a piece: notches at a corner of the tile, slots in a side, and what is neither.

A notch is made by two square lines that meet in an inward corner and leave the tile over two sides, a slot
by three that leave it over one. Steps are several notches at one corner. The legs are lengthened to the edges
of the whole tile, where they are measured, as long as that does not run through the piece.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.rings import cross
from tilelayout.layout.sawn import Stretch
from tilelayout.layout.straight_cuts import crossings_of, straight_cut
from tilelayout.layout.values import Cut, CutKind, Points

_WITHIN = 0.01


def pocket_cuts(pocket: tuple[Stretch, ...], tile: Points, piece: shapely.Polygon) -> list[Cut]:
    """Return the cuts that make a pocket, in tile coordinates: notches or a slot, else line by line."""
    if all(_is_square_to(stretch, tile) for stretch in pocket):
        cuts = _slot(pocket, tile) if _is_slot(pocket) else _notches(pocket, tile)
        within = piece.buffer(-_WITHIN)
        if cuts and not any(within.intersects(shapely.LineString(cut.line)) for cut in cuts):
            return cuts
    return [_one_by_one(stretch, tile) for stretch in pocket]


def curve_cut(stretch: Stretch) -> Cut:
    """Return the cut that makes a curve; the border's centre is in tile coordinates."""
    border = stretch.border
    assert border is not None
    assert border.centre is not None
    assert border.radius is not None
    return Cut(CutKind.CURVE, (*border.centre, border.radius), stretch.points, border.source)


def _one_by_one(stretch: Stretch, tile: Points) -> Cut:
    return curve_cut(stretch) if stretch.is_curve else straight_cut(stretch, tile, stops=True)


def _is_square_to(stretch: Stretch, tile: Points) -> bool:
    """Tell whether a stretch runs along x or y in a tile that is a box."""
    is_box = len(tile) == 4 and bool(np.all(np.isclose(tile, 0.0) | np.isclose(tile, tile.max(axis=0))))
    return is_box and not stretch.is_curve and bool(np.abs(stretch.way).min() * stretch.length < ON_EDGE)


def _turns(pocket: tuple[Stretch, ...]) -> list[float]:
    return [float(cross(one.way, other.way)) for one, other in pairwise(pocket)]


def _is_slot(pocket: tuple[Stretch, ...]) -> bool:
    return len(pocket) == 3 and all(turn < 0 for turn in _turns(pocket))


def _slot(pocket: tuple[Stretch, ...], tile: Points) -> list[Cut]:
    first, bottom, last = pocket
    line = np.array(
        [crossings_of(first, tile)[0], bottom.points[0], bottom.points[-1], crossings_of(last, tile)[1]]
    )
    depth = float(np.hypot(*(line[1] - line[0])))
    axis = int(np.argmax(np.abs(bottom.way)))
    distance = float(min(line[0, axis], line[3, axis]) - tile[:, axis].min())
    sizes = (float(np.hypot(*(line[2] - line[1]))), depth, distance)
    return [Cut(CutKind.SLOT, sizes, line, _longest(pocket))]


def _notches(pocket: tuple[Stretch, ...], tile: Points) -> list[Cut]:
    """A notch for each inward corner; none if they are not all at one corner of the tile."""
    turns = _turns(pocket)
    bends_in = [at for at, turn in enumerate(turns) if turn < 0]
    ways = {tuple(np.sign(np.round(pocket[at + 1].way - pocket[at].way))) for at in bends_in}
    ends_well = bends_in and bends_in[0] == 0 and bends_in[-1] == len(pocket) - 2
    if len(ways) != 1 or not ends_well or len(bends_in) != (len(pocket) // 2) or len(pocket) % 2:
        return []
    return [_notch(pocket[at], pocket[at + 1], tile) for at in bends_in]


def _notch(first: Stretch, second: Stretch, tile: Points) -> Cut:
    line = np.array([crossings_of(first, tile)[0], second.start, crossings_of(second, tile)[1]])
    width, depth = np.abs(line[1] - line[0]) + np.abs(line[2] - line[1])
    return Cut(CutKind.NOTCH, (float(width), float(depth)), line, _longest((first, second)))


def _longest(stretches: tuple[Stretch, ...]) -> str:
    """The border of the longest stretch."""
    border = max(stretches, key=lambda stretch: stretch.length).border
    return "" if border is None else border.source
