"""One tile for each cut piece: honest counts, every piece in its own tile, and a bound that holds."""

from __future__ import annotations

import msgspec
import numpy as np
import shapely
from hypothesis import given, settings

from tests.rooms import PLAIN, SQUARE, layings, layout_of, rectangle, rooms, starts
from tilelayout.geometry.rings import signed_area
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Layout, Point, Surface, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.laying import Laid, lay
from tilelayout.offcuts.one_each import cut_from, tiles_needed, tiles_needed_at_least


def test_a_room_of_one_and_a_half_tiles_takes_two() -> None:
    laid = lay(rectangle(297 + 3 + 148.5, 297), SQUARE, layout_of(SQUARE, gap=0))
    assert (laid.whole_count, len(laid.cut)) == (1, 1)
    assert (tiles_needed(laid), tiles_needed_at_least(laid)) == (2, 2)


def test_four_quarters_could_come_from_one_tile_but_are_counted_as_four() -> None:
    laid = lay(rectangle(297 + 3, 297 + 3), SQUARE, layout_of(SQUARE, gap=0, start=(-148.5, -148.5)))
    assert [piece.area for piece in laid.cut] == [148.5**2] * 4
    assert (tiles_needed(laid), tiles_needed_at_least(laid)) == (4, 1)


def test_a_room_of_whole_tiles_opens_nothing_to_saw() -> None:
    laid = lay(rectangle(597, 297), SQUARE, layout_of(SQUARE, gap=0))
    assert cut_from(laid) == ()
    assert tiles_needed(laid) == tiles_needed_at_least(laid) == 2


def check_sawn(laid: Laid) -> None:
    """Each cut piece once, inside its tile, and where it is laid when set down as its face lies."""
    opened = cut_from(laid)
    assert [tile.number for tile in opened] == list(range(1, len(laid.cut) + 1))
    assert [[sawn.piece for sawn in tile.pieces] for tile in opened] == [[piece.id] for piece in laid.cut]
    for piece, sawn in zip(laid.cut, (tile.pieces[0] for tile in opened), strict=True):
        tile = shapely.Polygon(tile_outline(piece.tile)).buffer(1e-6)
        assert tile.covers(shapely.Polygon(sawn.outline))
        assert np.isclose(signed_area(sawn.outline), signed_area(piece.outline))
        set_down = sawn.outline @ turning(piece.turn) + piece.corner
        np.testing.assert_allclose(set_down, piece.outline, atol=1e-6)


def test_pieces_of_a_plain_room_lie_in_their_tiles_as_laid() -> None:
    check_sawn(lay(PLAIN, SQUARE, layout_of(SQUARE, start=(40, 70))))


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), starts())
def test_random_pieces_lie_in_their_tiles_unmirrored_and_the_bound_holds(
    room: Surface, laying: tuple[Tile, Layout], start: Point
) -> None:
    tile, layout = laying
    laid = lay(room, tile, msgspec.structs.replace(layout, start=start))
    check_sawn(laid)
    tile_area = abs(signed_area(tile_outline(tile)))
    covered = laid.whole_count * tile_area + sum(piece.area for piece in laid.cut)
    hands = len({face.tile for face in laid.cell.faces})
    assert covered - 1e-3 <= tiles_needed_at_least(laid) * tile_area < covered + hands * tile_area
    assert tiles_needed_at_least(laid) <= tiles_needed(laid)
