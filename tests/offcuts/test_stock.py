"""Offcuts on hand used first: every rule, the fewest tiles against a constraint solver, laws of the stock."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from shapely import Polygon

from tests.offcuts.checked import check_tile, sides
from tests.rooms import CAST, LAYINGS, PLAIN, SQUARE, layout_of, rectangle, starts, straight_rooms
from tilelayout.base.errors import EditError
from tilelayout.job.edits.tiles import add_tile
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.values import Job, Layout, Point, RectangleTile, Saw, Surface, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.laying import Laid, lay
from tilelayout.offcuts.on_hand import part_of
from tilelayout.offcuts.sharing import Sharing, share, share_steps

SAW = Saw(kerf=2.0)
LEFT, RIGHT, LOWER, UPPER = TileSide
NEAR = 1e-5


def shared(laid: Laid, saw: Saw = SAW) -> Sharing:
    return share({"A": laid.cut}, laid.whole_tiles, saw)


def with_offcuts(tile: Tile, *offcuts: OffcutOnHand) -> Tile:
    changed: Tile = replace(tile, offcuts=offcuts)
    return changed


def check_with_stock(found: Sharing, laid: Laid, saw: Saw = SAW) -> None:
    """Every piece once, the rules of sharing in each tile, no offcut used more often than there are."""
    sawn = [one.piece for tile in found.opened for one in tile.pieces]
    assert sorted(sawn) == sorted(piece.id for piece in laid.cut)
    whole_opened = [tile for tile in found.opened if not tile.is_on_hand]
    assert found.tiles_needed == laid.whole_count + len(whole_opened)
    assert found.tiles_needed_at_least <= found.tiles_needed
    pieces = {piece.id: piece for piece in laid.cut}
    used: dict[tuple[Point, ...], int] = {}
    for tile in found.opened:
        check_tile(tile, pieces, saw)
        if tile.is_on_hand:
            used[tile.blank.part] = used.get(tile.blank.part, 0) + 1
            part = Polygon(tile.blank.part).buffer(NEAR, join_style="mitre")
            assert all(part.covers(Polygon(one.outline)) for one in tile.pieces)
    for part_used, times in used.items():
        there = sum(each.count for each in laid.tile.offcuts if part_of(laid.tile, each) == part_used)
        assert times <= there


def halves(count: int, *factory: TileSide) -> OffcutOnHand:
    return OffcutOnHand(length=297, width=147, factory=factory, count=count)


@pytest.mark.parametrize(
    "offcut",
    [
        halves(6, LEFT, RIGHT, UPPER),
        OffcutOnHand(length=180, width=200, factory=(LOWER, LEFT), count=4),
        OffcutOnHand(length=120, width=297, factory=(RIGHT, LOWER, UPPER), count=3),
        OffcutOnHand(length=150, width=150, count=5),
        OffcutOnHand(outline=((0, 0), (297, 0), (297, 100), (100, 100), (100, 297), (0, 297)), count=3),
    ],
    ids=["halves", "corners", "ends", "no factory edge", "an L"],
)
@pytest.mark.parametrize("dressed", [False, True])
def test_every_plan_with_stock_keeps_every_rule(offcut: OffcutOnHand, dressed: bool) -> None:
    tile, saw = with_offcuts(SQUARE, offcut), Saw(kerf=2.0, dressed=dressed)
    laid = lay(CAST["L-shaped"], tile, layout_of(tile, row_offsets=(0.0, 0.4), start=(131.0, 77.0)))
    found = shared(laid, saw)
    check_with_stock(found, laid, saw)
    has_factory_edge = bool(offcut.factory or offcut.outline)
    assert (found.offcuts_used > 0) == (has_factory_edge or dressed)


@settings(max_examples=10, deadline=None)
@given(straight_rooms(), starts(), st.integers(1, 4), st.integers(60, 250))
def test_random_plans_with_stock_keep_every_rule(room: Surface, start: Point, count: int, size: int) -> None:
    tile = with_offcuts(
        SQUARE, OffcutOnHand(length=size, width=297, factory=(LEFT, LOWER, UPPER), count=count)
    )
    laid = lay(room, tile, layout_of(tile, start=start))
    check_with_stock(shared(laid), laid)


@settings(max_examples=12, deadline=None)
@given(straight_rooms(), starts(), st.integers(0, 3), st.integers(1, 3))
def test_more_stock_never_needs_more_tiles(room: Surface, start: Point, count: int, more: int) -> None:
    found = []
    for there in (count, count + more):
        offcuts = [halves(there, LEFT, RIGHT, LOWER)] if there else []
        tile = with_offcuts(SQUARE, *offcuts)
        found.append(shared(lay(room, tile, layout_of(tile, row_offsets=(0.0, 0.4), start=start))))
    less_stock, more_stock = found
    assert more_stock.tiles_needed_at_least <= less_stock.tiles_needed
    assert more_stock.tiles_needed <= less_stock.tiles_needed or not more_stock.is_fewest
    assert (
        more_stock.tiles_needed_at_least >= less_stock.tiles_needed_at_least - more
        or not less_stock.is_fewest
    )


def strip_room(tile: Tile, columns: int) -> Laid:
    """One row of `columns` pieces 147 mm high, each with its lower edge sawn."""
    return lay(rectangle(columns * 300 - 3, 147), tile, layout_of(tile, gap=0, start=(0.0, -150.0)))


@pytest.mark.parametrize(("count", "tiles"), [(0, 4), (1, 3), (2, 3), (7, 0), (9, 0)])
def test_halves_on_hand_are_counted_off(count: int, tiles: int) -> None:
    """Seven halves come two to a 297 mm tile with a kerf of 3: four tiles, less one for two (sums)."""
    tile = with_offcuts(SQUARE, *([halves(count, LEFT, RIGHT, UPPER)] if count else []))
    found = shared(strip_room(tile, 7), Saw(kerf=3.0))
    assert (found.tiles_needed, found.tiles_needed_at_least) == (tiles, tiles)
    assert found.offcuts_used <= count


def test_an_offcut_without_the_factory_edge_that_a_piece_shows_is_of_no_use() -> None:
    plain = shared(strip_room(SQUARE, 5))
    smaller = OffcutOnHand(length=290, width=250, factory=(LOWER,), count=9)
    found = shared(strip_room(with_offcuts(SQUARE, smaller), 5))
    assert found.tiles_needed == plain.tiles_needed
    assert found.offcuts_used == 0


def test_lots_are_not_mixed_unless_that_is_allowed() -> None:
    offcut = replace(halves(2, LEFT, RIGHT, UPPER), lot="K7")
    for lot, mixed, used in (("K7", False, 2), ("B2", False, 0), ("", False, 0), ("B2", True, 2)):
        tile = replace(with_offcuts(SQUARE, offcut), lot=lot, mixed_lots=mixed)
        assert shared(strip_room(tile, 6), Saw(kerf=3.0)).offcuts_used == used


def test_steps_with_stock_only_get_better() -> None:
    tile = with_offcuts(SQUARE, halves(3, LEFT, RIGHT, UPPER), OffcutOnHand(length=90, width=200, count=4))
    laid = lay(PLAIN, tile, layout_of(tile, angle=45, start=(70.0, 31.0)))
    steps = list(share_steps({"A": laid.cut}, laid.whole_tiles, SAW))
    needed = [step.tiles_needed for step in steps]
    assert needed == sorted(needed, reverse=True)
    for step in (steps[0], steps[-1]):
        check_with_stock(step, laid)


def test_an_offcut_of_another_shape_is_a_part_of_its_tile() -> None:
    tile, layout = LAYINGS["hexagon point up"]
    low = tile_outline(tile)
    half = tuple((float(x), float(y)) for x, y in low[low[:, 0] >= low[:, 0].mean() - 1.0])
    kept = with_offcuts(tile, OffcutOnHand(outline=half, count=8))
    laid = lay(CAST["L-shaped"], kept, layout)
    found = shared(laid)
    check_with_stock(found, laid)
    assert found.offcuts_used > 0


def test_a_size_stands_at_the_factory_edges_that_it_names() -> None:
    tile = RectangleTile(id="t", length=600, width=300)
    at_right = OffcutOnHand(length=200, width=300, factory=(RIGHT, LOWER, UPPER))
    np.testing.assert_allclose(part_of(tile, at_right), [(400, 0), (600, 0), (600, 300), (400, 300)])
    free = OffcutOnHand(length=200, width=100)
    outline = Polygon(part_of(tile, free))
    assert all(
        not Polygon(tile_outline(tile)).exterior.covers(side)
        for side in sides(np.array(outline.exterior.coords[:-1]))
    )


@pytest.mark.parametrize(
    "offcut",
    [
        OffcutOnHand(length=700, width=100),
        OffcutOnHand(length=600, width=100, factory=(LEFT,)),
        OffcutOnHand(length=500, width=100, factory=(LEFT, RIGHT)),
        OffcutOnHand(length=500),
        OffcutOnHand(length=500, width=100, outline=((0, 0), (9, 0), (9, 90))),
        OffcutOnHand(length=500, width=100, count=0),
        OffcutOnHand(outline=((0, 0), (90, 90), (90, 0), (0, 90))),
    ],
)
def test_an_offcut_that_cannot_be_is_refused(offcut: OffcutOnHand) -> None:
    with pytest.raises(EditError):
        add_tile(Job(), RectangleTile(id="t", length=600, width=300, offcuts=(offcut,)))


def test_a_layout_of_a_room_takes_the_stock_of_its_tile_alone() -> None:
    """The stock of a tile is a supply of that tile: another tile of the same size has none of it."""
    tile = with_offcuts(SQUARE, halves(4, LEFT, RIGHT, UPPER))
    other: Layout = layout_of(SQUARE, gap=0, start=(0.0, -150.0))
    assert shared(lay(rectangle(1197, 147), SQUARE, other)).offcuts_used == 0
    assert shared(lay(rectangle(1197, 147), tile, other)).offcuts_used == 4
