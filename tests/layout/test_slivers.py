"""Which pieces are slivers, and which are under half a tile."""

from __future__ import annotations

import pytest

from tests.rooms import floor_of, layout_of
from tilelayout.job.values import Edge, HexagonTile, Layout, RectangleTile, Visibility
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.slivers import is_sliver, is_under_half, sliver_limit

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
