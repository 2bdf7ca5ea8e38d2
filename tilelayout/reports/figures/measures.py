"""The sizes to set for each cut, and between which places of the tile each is measured.

A size is measured on the whole tile from a factory edge, so the cuts can be marked before the first is made.
The numbers are those of the cut list; the places are where the drawing shows them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.base.units import LengthStyle, cut_size, format_length
from tilelayout.job.values import Tile
from tilelayout.layout.chips import measured_outline
from tilelayout.layout.values import Cut, CutKind, Piece, Points
from tilelayout.planning.chip_words import chips_kept, kept_words
from tilelayout.planning.plan import Plan
from tilelayout.planning.saw_sizes import saw_sizes, saw_style
from tilelayout.planning.tile_sides import corner_taken, crossings


@dataclass(frozen=True, eq=False)
class Span:
    """A size from `start` to `end`, both (2,) in tile coordinates."""

    start: Points
    end: Points
    words: str


@dataclass(frozen=True, eq=False)
class Across:
    """The size of something round: written beside the circle of `radius` round `centre`."""

    centre: Points
    radius: float
    words: str


Measure = Span | Across


def measures_of(cut: Cut, piece: Piece, plan: Plan) -> Iterator[Measure]:
    """Yield the sizes of one cut and where they are measured."""
    style = saw_style(plan.style)
    words = [format_length(size, style) for size in saw_sizes(cut, piece, style)]
    if (chips := chips_kept(cut, piece, style)) is not None:
        words = [kept_words(chips, style)]
    tile, kept = measured_outline(piece.tile), piece.in_tile(piece.outline)
    match cut.kind:
        case CutKind.RIP | CutKind.CROSS:
            yield _square_to(cut.line, kept, words[0])
        case CutKind.CORNER | CutKind.NOTCH:
            yield from _legs(cut, piece.tile, tile, words)
        case CutKind.SLOT:
            yield from _slot(cut, tile, words)
        case CutKind.OBLIQUE:
            for place, size, said in zip(
                crossings(piece.tile, cut.line[[0, -1]]), cut.sizes, words, strict=False
            ):
                yield Span(_measured_from(place, size, tile), place, said)
        case CutKind.HOLE if len(words) == 4:
            yield from _square_hole(cut, words)
        case CutKind.HOLE:
            yield from _round(cut, words, f"Ø {words[2]}", cut.sizes[2] / 2)
        case CutKind.CURVE:
            yield from _curve(cut, tile, kept, style, words)


def _square_to(line: Points, kept: Points, words: str) -> Span:
    """Measure square to the cut, from the farthest part of the tile that is kept."""
    start, end = line[0], line[-1]
    along = (end - start) / np.hypot(*(end - start))
    square = np.array([-along[1], along[0]])
    offsets = (kept - start) @ square
    depth = float(offsets[int(np.argmax(np.abs(offsets)))])
    on_cut = min(start, end, key=lambda place: float(place.sum()))
    return Span(on_cut + square * depth, on_cut, words)


def _legs(cut: Cut, shape: Tile, tile: Points, words: Sequence[str]) -> Iterator[Span]:
    """Measure both legs from the corner taken off, each with its size, whichever way round the cut runs."""
    start, end = crossings(shape, cut.line[[0, -1]]) if len(cut.line) == 2 else cut.line[[0, -1]]
    corner = corner_taken(shape, np.array([start, end]), cut.sizes)
    if cut.kind is CutKind.NOTCH:
        corner = tile[int(np.argmin(_distances(tile, start) + _distances(tile, end)))]
        inner = cut.line[len(cut.line) // 2]
        start, end = np.array([inner[0], corner[1]]), np.array([corner[0], inner[1]])
    first, last = float(np.hypot(*(start - corner))), float(np.hypot(*(end - corner)))
    if abs(first - cut.sizes[0]) > abs(last - cut.sizes[0]):
        start, end = end, start
    yield Span(corner, start, words[0])
    yield Span(corner, end, words[1])


def _slot(cut: Cut, tile: Points, words: Sequence[str]) -> Iterator[Span]:
    start, end = cut.line[0], cut.line[-1]
    near = min((start, end), key=lambda place: abs(_miss(place, cut.sizes[2], tile)))
    yield Span(start, end, words[0])
    yield Span(start, cut.line[1], words[1])
    yield Span(_measured_from(near, cut.sizes[2], tile), near, words[2])


def _square_hole(cut: Cut, words: Sequence[str]) -> Iterator[Span]:
    """Measure to the lower left corner of the hole, then its width and height."""
    x, y, width, height = cut.sizes
    left, lower = x - width / 2, y - height / 2
    yield Span(np.array([0.0, lower]), np.array([left, lower]), words[0])
    yield Span(np.array([left, 0.0]), np.array([left, lower]), words[1])
    yield Span(np.array([left, lower]), np.array([left + width, lower]), words[2])
    yield Span(np.array([left, lower]), np.array([left, lower + height]), words[3])


def _round(cut: Cut, words: Sequence[str], across: str, radius: float) -> Iterator[Measure]:
    centre = np.array(cut.sizes[:2])
    yield Span(np.array([0.0, centre[1]]), centre, words[0])
    yield Span(np.array([centre[0], 0.0]), centre, words[1])
    yield Across(centre, radius, across)


def _curve(
    cut: Cut, tile: Points, kept: Points, style: LengthStyle, words: Sequence[str]
) -> Iterator[Measure]:
    """Measure to the centre if it lies on the tile, else to where the curve leaves the tile's edges."""
    centre = np.array(cut.sizes[:2])
    if (centre >= 0).all() and (centre <= tile.max(axis=0)).all():
        yield from _round(cut, words, f"R {words[2]}", cut.sizes[2])
        return
    for place in (cut.line[0], cut.line[-1]):
        if shapely.Polygon(tile).exterior.distance(shapely.Point(place)) > ON_EDGE:
            continue
        corners = [corner for corner in _side_ends(place, tile) if _distances(kept, corner).min() < ON_EDGE]
        for corner in corners[:1]:
            size = cut_size(float(np.hypot(*(place - corner))), style)
            if size > 0:
                yield Span(corner, place, format_length(size, style))


def _distances(points: Points, place: Points) -> Points:
    return np.asarray(np.hypot(*(points - place).T))


def _side_ends(place: Points, tile: Points) -> Points:
    """Return the ends (m, 2) of the sides of the tile that a place lies on; all corners if it is on none."""
    following = np.roll(tile, -1, axis=0)
    detour = _distances(tile, place) + _distances(following, place) - np.hypot(*(following - tile).T)
    on = detour < ON_EDGE
    return np.concatenate([tile[on], following[on]]) if on.any() else tile


def _measured_from(place: Points, size: float, tile: Points) -> Points:
    """Return the end of the place's side that lies `size` away from it."""
    ends = _side_ends(place, tile)
    return np.asarray(ends[int(np.argmin(np.abs(_distances(ends, place) - size)))])


def _miss(place: Points, size: float, tile: Points) -> float:
    return float(np.abs(_distances(_side_ends(place, tile), place) - size).min())
