"""Making the cuts in a tile leaves exactly the piece, in any room, for any pattern."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from numpy.typing import NDArray

from tests.rooms import CAST, LAYINGS, layings, rooms, starts
from tilelayout.job.values import Layout, Point, Surface, Tile
from tilelayout.layout.cuts import cuts_of
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.laying import lay
from tilelayout.layout.values import Cut, CutKind, Piece

GRID = 1e-5


def run_out(cut: Cut) -> NDArray[np.float64]:
    """The line of a cut, a hair longer at both ends so that it parts what it should."""
    line = np.array(cut.line)
    if cut.kind is not CutKind.HOLE:
        line[0] += (line[0] - line[1]) / np.hypot(*(line[0] - line[1])) * 1e-3
        line[-1] += (line[-1] - line[-2]) / np.hypot(*(line[-1] - line[-2])) * 1e-3
    return line


def shape_in_tile(piece: Piece) -> shapely.Polygon:
    return shapely.Polygon(piece.in_tile(piece.outline), [piece.in_tile(hole) for hole in piece.holes])


def what_is_left(cuts: Sequence[Cut], tile: Tile, within: shapely.Point) -> shapely.Geometry:
    """The part of a tile around a point, once all the cuts are made."""
    edge = shapely.LinearRing(tile_outline(tile))
    lines = [shapely.LineString(run_out(cut)) for cut in cuts]
    parted = shapely.polygonize([shapely.union_all([edge, *lines], grid_size=GRID)])
    parts: list[shapely.Geometry] = list(shapely.get_parts(parted))
    return next(part for part in parts if shapely.contains(part, within))


def check(room: Surface, tile: Tile, layout: Layout) -> int:
    laid = lay(room, tile, layout)
    for piece in laid.cut:
        expected = shape_in_tile(piece)
        left = what_is_left(cuts_of(piece, laid), piece.tile, expected.representative_point())
        assert shapely.symmetric_difference(left, expected).area < 0.05, piece.id
    return len(laid.cut)


@pytest.mark.parametrize("room", CAST)
@pytest.mark.parametrize("laying", LAYINGS)
def test_in_the_cast_of_rooms(room: str, laying: str) -> None:
    tile, layout = LAYINGS[laying]
    assert check(CAST[room], tile, msgspec.structs.replace(layout, start=(137.0, 211.0))) > 0


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), starts())
def test_in_random_rooms(room: Surface, laying: tuple[Tile, Layout], start: Point) -> None:
    tile, layout = laying
    check(room, tile, msgspec.structs.replace(layout, start=start))


@settings(max_examples=30, deadline=None)
@given(rooms(), layings(), starts())
def test_what_is_kept_is_never_measured_larger_than_the_tile(
    room: Surface, laying: tuple[Tile, Layout], start: Point
) -> None:
    tile, layout = laying
    laid = lay(room, tile, msgspec.structs.replace(layout, start=start))
    diagonal = float(np.hypot(*tile_outline(tile).max(axis=0)))
    for piece in laid.cut:
        for cut in cuts_of(piece, laid):
            sizes = cut.sizes[2:] if cut.kind in (CutKind.HOLE, CutKind.CURVE) else cut.sizes
            assert cut.kind is CutKind.CURVE or 0 <= min(sizes) <= max(sizes) <= diagonal
            assert cut.border
