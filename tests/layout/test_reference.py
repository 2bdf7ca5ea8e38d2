"""Laying agrees with a plain loop of one overlay for each tile: counts, areas, every pattern."""

from __future__ import annotations

from math import cos, radians, sin

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.layout.plain import lay_plainly
from tests.rooms import (
    CAST,
    LAYINGS,
    PLAIN,
    PLANK,
    SQUARE,
    angles,
    floor_of,
    layings,
    layout_of,
    rooms,
    square_cutout,
    starts,
)
from tilelayout.job.values import Cutout, Layout, Point, Surface, Tile
from tilelayout.layout.laying import lay
from tilelayout.layout.region import region_of


def check_agrees(surface: Surface, tile: Tile, layout: Layout) -> None:
    layout = msgspec.structs.replace(layout, least_piece=0.0)
    region = region_of(surface, layout.gap)
    laid, plain = lay(surface, tile, layout, region), lay_plainly(region.shape, tile, layout)
    assert laid.whole_count == plain.whole
    areas = sorted(piece.area for piece in laid.cut)
    assert len(areas) == len(plain.cut_areas)
    np.testing.assert_allclose(areas, plain.cut_areas, rtol=1e-6, atol=NEARLY)
    assert sum(len(faces) for faces in laid.whole_faces) == laid.whole_count


NEARLY = 0.02
"""A hair of a whole wall's length (1e-6 mm times some metres), in mm2."""


@pytest.mark.parametrize("room", CAST.values(), ids=CAST.keys())
@pytest.mark.parametrize("laying", LAYINGS.values(), ids=LAYINGS.keys())
def test_the_cast_of_rooms_is_laid_like_tile_by_tile(room: Surface, laying: tuple[Tile, Layout]) -> None:
    tile, layout = laying
    check_agrees(room, tile, layout)
    check_agrees(room, tile, msgspec.structs.replace(layout, start=(217.3, -88.1), angle=layout.angle + 17))


@settings(max_examples=100, deadline=None)
@given(rooms(), layings(), starts(), angles(), st.sampled_from((0.0, 3.0, 5.0)))
def test_random_rooms_are_laid_like_tile_by_tile(
    room: Surface, laying: tuple[Tile, Layout], start: Point, angle: float, gap: float
) -> None:
    tile, layout = laying
    check_agrees(room, tile, msgspec.structs.replace(layout, start=start, angle=angle, gap=gap))


FLUSH = {
    "a joint along the lower and left wall": (0.0, 0.0),
    "a joint along every wall": (-3.0, -3.0),
    "the far side of a joint along the wall": (-1.5, -1.5),
    "walls through the centres of tiles": (-148.5, -148.5),
    "corners of the room on corners of tiles": (-297.0, 0.0),
    "one wall through centres, one along a joint": (-148.5, -300.0),
}


@pytest.mark.parametrize("start", [(0.0, 0.0), (-150.0, 0.0), (-3.0, -3.0), (-147.0, -150.0), (-450.0, 3.0)])
@pytest.mark.parametrize("turn", [0.0, 30.0, 90.0, 137.0, 270.0])
@pytest.mark.parametrize("gap", [0.0, 3.0])
def test_walls_flush_with_a_tile_that_bends_inwards(start: Point, turn: float, gap: float) -> None:
    """Walls along outer and inner sides of an L, square to the axes and turned together with the room."""
    tile, layout = LAYINGS["drawn trominoes"]
    corners = [(0, 0), (3000, 0), (3000, 1350), (1650, 1350), (1650, 2400), (0, 2400)]
    post = square_cutout(900, 600, 150)
    assert post.polygon is not None
    c, s = cos(radians(turn)), sin(radians(turn))
    room, there = (tuple((x * c - y * s, x * s + y * c) for x, y in ring) for ring in (corners, post.polygon))
    surface = floor_of(*room, cutouts=(Cutout(polygon=there),))
    at = (start[0] * c - start[1] * s, start[0] * s + start[1] * c)
    check_agrees(surface, tile, msgspec.structs.replace(layout, start=at, angle=turn, gap=gap))


@pytest.mark.parametrize("start", FLUSH.values(), ids=FLUSH.keys())
@pytest.mark.parametrize("turn", [0.0, 90.0, 180.0, 270.0])
@pytest.mark.parametrize("tile", [SQUARE, PLANK], ids=["square", "plank"])
@pytest.mark.parametrize("offsets", [(0.0,), (0.0, 0.5), (0.0, 0.25)], ids=str)
def test_flush_walls_are_laid_like_tile_by_tile(
    start: Point, turn: float, tile: Tile, offsets: tuple[float, ...]
) -> None:
    layout = layout_of(tile, start=start, angle=turn, gap=0, row_offsets=offsets)
    check_agrees(PLAIN, tile, layout)
