"""Which pieces are slivers, and which are under half a tile."""

from __future__ import annotations

import numpy as np
import pytest

from tests.rooms import LAYINGS, floor_of, layout_of, round_cutout
from tilelayout.job.values import Edge, HexagonTile, Layout, RectangleTile, Visibility
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.slivers import are_slivers, is_sliver, is_under_half, sliver_limit

TILE = RectangleTile(id="tile", length=300, width=300)
HIDDEN_TOP = (Edge(at=2, seen=Visibility.HIDDEN),)


def laid_in(width: float, depth: float, edges: tuple[Edge, ...] = ()) -> Laid:
    """Laid from the lower left corner, without gap or joint, so that what is over is the cut piece."""
    room = floor_of((0, 0), (width, 0), (width, depth), (0, depth), edges=edges)
    layout = Layout(id="A", surface="floor", tile="tile", joint=0.0, gap=0.0, least_piece=1.0)
    return lay(room, TILE, layout)


@pytest.mark.parametrize(
    ("tile", "limit"),
    [
        (RectangleTile(id="small", length=150, width=60), 20),
        (RectangleTile(id="plank", length=60, width=1200), 20),
        (RectangleTile(id="large", length=600, width=600), 50),
        (HexagonTile(id="hexagon", across_flats=120), 40),
    ],
)
def test_the_limit_is_a_third_of_the_width_or_50_whichever_is_less(
    tile: RectangleTile | HexagonTile, limit: float
) -> None:
    assert sliver_limit(tile) == pytest.approx(limit)


def test_a_piece_narrower_than_the_limit_is_a_sliver_and_one_as_wide_is_none() -> None:
    (narrow,), (wide,) = laid_in(300, 349).cut, laid_in(300, 350).cut
    assert is_sliver(narrow, laid_in(300, 349))
    assert not is_sliver(wide, laid_in(300, 350))


def test_a_whole_tile_is_never_a_sliver() -> None:
    tile = RectangleTile(id="strip", length=300, width=10)
    laid = lay(floor_of((0, 0), (300, 0), (300, 10), (0, 10)), tile, layout_of(tile, gap=0.0))
    assert not any(is_sliver(piece, laid) for piece in laid.pieces())


def test_a_piece_cut_only_where_nobody_looks_is_no_sliver() -> None:
    laid = laid_in(300, 320, HIDDEN_TOP)
    (piece,) = laid.cut
    assert piece.narrowest == pytest.approx(20)
    assert not is_sliver(piece, laid)


def test_a_piece_cut_at_a_hidden_edge_and_at_another_is_a_sliver() -> None:
    laid = laid_in(400, 320, HIDDEN_TOP)
    slivers = {tuple(piece.outline.max(axis=0)) for piece in laid.cut if is_sliver(piece, laid)}
    assert slivers == {(400.0, 320.0)}


def test_a_piece_under_half_its_tile_is_told_apart_from_a_sliver() -> None:
    laid = laid_in(300, 440)
    (piece,) = laid.cut
    assert not is_sliver(piece, laid)
    assert is_under_half(piece, laid)
    assert not is_under_half(laid_in(300, 450).cut[0], laid_in(300, 450))


@pytest.mark.parametrize("edges", [(), HIDDEN_TOP])
@pytest.mark.parametrize("name", ["grid", "alternating third", "diagonal", "hexagon flat up"])
def test_all_at_once_are_the_same_slivers_as_one_by_one(name: str, edges: tuple[Edge, ...]) -> None:
    tile, layout = LAYINGS[name]
    room = floor_of(
        (0, 0), (2630, 0), (2530, 1350), (0, 1210), edges=edges, cutouts=(round_cutout(700, 640, 110),)
    )
    laid = lay(room, tile, layout)
    together = are_slivers(laid)
    assert 0 < together.sum() < len(together)
    assert [piece.id for piece in laid.cut_pieces(together)] == [
        piece.id for piece in laid.cut if is_sliver(piece, laid)
    ]


def test_the_narrowest_cut_is_found_without_measuring_all() -> None:
    for tile, layout in LAYINGS.values():
        laid = lay(floor_of((0, 0), (3010, 0), (3010, 1330), (1200, 2330), (0, 1330)), tile, layout)
        assert laid.narrowest_cut == min(piece.narrowest for piece in laid.cut)


def test_a_piece_asked_for_by_its_part_is_the_one_among_all() -> None:
    tile, layout = LAYINGS["alternating third"]
    laid = lay(floor_of((0, 0), (2610, 0), (2610, 1330), (0, 1330)), tile, layout)
    pieces = [laid.cut_piece(part) for part in range(len(laid.cut_parts))]
    assert {piece.id for piece in pieces} == {piece.id for piece in laid.cut}
    assert all(laid.piece(piece.id) is piece for piece in pieces)
    np.testing.assert_allclose([piece.area for piece in pieces], laid.cut_parts.areas)
