"""What sawing leaves: parts that the saw can part from the pieces, nothing twice, said as they are kept."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
import shapely
from msgspec.structs import replace
from shapely import Polygon

from tests.offcuts.checked import check_parting
from tests.rooms import CAST, LAYINGS, PLANK, SQUARE, layout_of, rectangle
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.values import RectangleTile, Saw
from tilelayout.layout.laying import lay
from tilelayout.offcuts.kept import as_kept, worth_keeping
from tilelayout.offcuts.on_hand import part_of
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.offcuts.parting import parted
from tilelayout.offcuts.rules import Blank, hull_of
from tilelayout.offcuts.sharing import share
from tilelayout.offcuts.straight_offcuts import straight_offcuts

SAW = Saw(kerf=2.0)
LEFT, RIGHT, LOWER, UPPER = TileSide
NEAR = 1e-5


def opened_in(room: str, laying: str) -> tuple[OpenedTile, ...]:
    tile, layout = LAYINGS[laying]
    laid = lay(CAST[room], tile, layout)
    return share({"A": laid.cut}, laid.whole_tiles, SAW).opened


@pytest.mark.parametrize("laying", ["grid", "half bond", "diagonal", "herringbone", "hexagon point up"])
@pytest.mark.parametrize("room", ["with holes", "oblique with a bay"])
def test_offcuts_can_be_parted_from_the_pieces_by_straight_cuts(room: str, laying: str) -> None:
    """Pieces and offcuts of a tile lie in it, a kerf apart, and the saw of the tests parts all of them."""
    found = 0
    for opened in opened_in(room, laying):
        offcuts = straight_offcuts(opened, 20.0)
        hulls = [hull_of(each) for each in (*[piece.outline for piece in opened.pieces], *offcuts)]
        shapes = [Polygon(hull) for hull in hulls]
        for one, other in itertools.combinations(shapes, 2):
            assert one.distance(other) >= SAW.kerf - NEAR
        assert all(opened.blank.shape.buffer(NEAR, join_style="mitre").covers(shape) for shape in shapes)
        cuts = parted(hulls, SAW.kerf, opened.blank.shape)
        check_parting(cuts, tuple(range(len(shapes))), shapes, opened.blank.shape, SAW.kerf)
        found += len(offcuts)
    assert found > 0


def one_piece(length: float, width: float, tile: RectangleTile = SQUARE) -> OpenedTile:
    """A tile from which one piece at its upper right corner is sawn."""
    room = rectangle(length, width)
    laid = lay(room, tile, layout_of(tile, gap=0, start=(length - tile.length, width - tile.width)))
    (opened,) = share({"A": laid.cut}, laid.whole_tiles, SAW).opened
    return opened


def test_what_surrounds_a_piece_is_two_rectangles_and_no_l() -> None:
    """A piece of 200 x 150 of a tile of 297: the larger part is sawn off first, a kerf of 2 mm each time."""
    areas = [Polygon(each).area for each in straight_offcuts(one_piece(200, 150), 20.0)]
    assert areas == pytest.approx([297 * (297 - 150 - 2), (297 - 200 - 2) * 150])
    (low,) = (each for each in worth_keeping(one_piece(200, 150)) if each.length == 297)
    assert (low.width, len(low.factory)) == (145, 3)


def test_nothing_narrower_than_a_sliver_is_kept() -> None:
    assert worth_keeping(one_piece(250, 297 - 40)) == ()
    assert [each.width for each in worth_keeping(one_piece(297, 297 - 60))] == [58]


def test_alike_offcuts_are_said_alike_whichever_end_they_were() -> None:
    """An end of a plank is the other end's when the plank is turned; with a face that has a direction not."""
    right = np.array([[400.0, 0], [597, 0], [597, 297], [400, 297]])
    left = np.array([[0.0, 0], [197, 0], [197, 297], [0, 297]])
    plain, directed = (Blank(tile, SAW) for tile in (PLANK, replace(PLANK, directional=True)))
    assert as_kept(right, plain) == as_kept(left, plain)
    assert as_kept(right, directed).factory == (RIGHT, LOWER, UPPER)
    assert as_kept(left, directed).factory == (LEFT, LOWER, UPPER)


@pytest.mark.parametrize("room", ["with holes", "oblique with a bay"])
@pytest.mark.parametrize("laying", ["grid", "diagonal", "hexagon point up", "drawn arrows"])
def test_what_is_kept_has_the_size_and_the_factory_edges_of_what_was_sawn(room: str, laying: str) -> None:
    tile, _ = LAYINGS[laying]
    edge = Polygon(Blank(tile, SAW).outline).exterior
    for opened in opened_in(room, laying):
        for outline in straight_offcuts(opened, 50.0):
            kept = as_kept(outline, opened.blank)
            sawn, said = Polygon(outline), Polygon(part_of(tile, kept))
            assert said.area == pytest.approx(sawn.area, rel=1e-6)
            lengths = [each.exterior.intersection(edge.buffer(NEAR)).length for each in (sawn, said)]
            assert lengths[0] == pytest.approx(lengths[1], abs=0.01)


def test_an_offcut_without_a_factory_edge_is_kept_only_if_edges_are_dressed() -> None:
    """An offcut by itself, sawn all round, of which a piece is taken: the rest has no factory edge."""
    middle = ((100.0, 80.0), (290.0, 80.0), (290.0, 240.0), (100.0, 240.0))
    for dressed, kept in ((False, 0), (True, 1)):
        blank = Blank(SQUARE, Saw(kerf=2.0, dressed=dressed), middle)
        (piece,) = one_piece(60, 60).pieces
        moved = type(piece)(piece.piece, piece.outline - piece.outline.min(axis=0) + [100.0, 80.0], 0.0)
        found = worth_keeping(OpenedTile(1, (moved,), blank))
        assert (len(found) > 0) == bool(kept)


def test_every_area_is_accounted_for() -> None:
    """Pieces, offcuts of any width and what the blade takes make up the tile."""
    for opened in opened_in("L-shaped", "half bond"):
        shapes = [Polygon(each) for each in straight_offcuts(opened, 0.0)]
        hulls = [Polygon(hull_of(each.outline)) for each in opened.pieces]
        rest = opened.blank.shape - shapely.union_all([*shapes, *hulls])
        assert rest.buffer(-SAW.kerf / 2 - 0.01).area < 1.0


def test_a_kept_offcut_stands_at_the_lower_left() -> None:
    upper = np.array([[97.0, 147], [297, 147], [297, 297], [97, 297]])
    kept = as_kept(upper, Blank(SQUARE, SAW))
    assert kept == OffcutOnHand(length=200, width=150, factory=(LEFT, LOWER))
