"""What a job leaves, and the law of the round trip: kept in a file, taken into the next job, sawn there."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.offcuts.checked import check_tile
from tests.planning.jobs import job_of
from tests.rooms import LEANING, PLANK, SQUARE, rectangle
from tilelayout.job.edits.stock import take_stock, use_stock
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.stock_files import Stock, read_stock, write_stock
from tilelayout.job.values import Job, RectangleTile, Tile
from tilelayout.layout.faces import hand_of
from tilelayout.planning.job_plan import job_plan
from tilelayout.planning.plan import plan
from tilelayout.planning.what_is_left import what_is_left, with_the_rest

LEFT, RIGHT, LOWER, UPPER = TileSide


def room(tile: Tile = SQUARE, **stock: object) -> Job:
    """A room of 1500 by 1240 mm in 297 mm tiles, its start off every joint."""
    return job_of(rectangle(1500, 1240), replace(tile, **stock), start=(131.0, 77.0))


def left_of(job: Job) -> Tile:
    (tile,) = what_is_left(job_plan(job)).tiles
    return tile


def test_whole_tiles_left_are_those_of_the_last_box_that_are_not_allowed_for() -> None:
    """Sum: boxes of ten, less tiles opened, less breakage, less three spare ones (the usual number)."""
    job = room(per_box=10)
    made = job_plan(job)
    ((_, bought),) = made.to_buy
    boxes = -(-(made.tiles_needed + bought.breakage.tiles + 3) // 10)
    assert left_of(job).whole_on_hand == 10 * boxes - made.tiles_needed - bought.breakage.tiles - 3


def test_whole_tiles_on_hand_beyond_what_is_needed_are_left() -> None:
    assert left_of(room(whole_on_hand=500)).whole_on_hand == 500 - (job_plan(room()).to_buy[0][1].needed)


def test_a_tile_that_is_not_laid_is_left_as_it_is() -> None:
    shelf = RectangleTile(id="shelf", length=200, width=100, whole_on_hand=7, lot="Q4")
    job = replace(room(), tiles=(*room().tiles, shelf, RectangleTile(id="none", length=90, width=90)))
    found = {tile.id: tile for tile in what_is_left(job_plan(job)).tiles}
    assert found["shelf"] == shelf
    assert "none" not in found


def test_offcuts_on_hand_that_are_not_used_are_still_there() -> None:
    """Sixty ends are more than the room takes: what is used and what is left add up, lot by lot."""
    end = OffcutOnHand(length=297, width=200, factory=(LEFT, RIGHT, LOWER), count=60, lot="K7")
    other = OffcutOnHand(length=150, width=150, factory=(LEFT, LOWER), count=4, lot="B2")
    job = room(offcuts=(end, other), lot="K7")
    used = job_plan(job).sharing.offcuts_used
    left = left_of(job)
    assert 0 < used < 60
    assert replace(end, count=60 - used) in left.offcuts
    assert other in left.offcuts
    assert {each.lot for each in left.offcuts} == {"K7", "B2"}


def test_of_a_tile_in_two_hands_the_offcuts_of_the_left_one_are_told() -> None:
    wide = replace(LEANING, width=260)
    job = job_of(rectangle(2600, 900), wide, pattern="chevron", start=(90.0, 40.0))
    hands = [hand_of(tile.tile, wide) for tile in job_plan(job).sharing.opened]
    left = left_of(job)
    assert {"left", "right"} == set(hands)
    assert sum(each.count for each in left.offcuts) > 0
    next_job = take_stock(job_of(rectangle(2600, 900), wide, pattern="chevron", start=(70.0, 10.0)), (left,))
    made = plan(next_job, "A")
    pieces = {piece.id: piece for piece in made.laid.cut}
    for each in made.sharing.opened:
        check_tile(each, pieces, next_job.saw)
        assert not each.is_on_hand or hand_of(each.tile, next_job.tiles[0]) == "left"


@pytest.mark.parametrize(
    ("tile", "width", "start"), [(SQUARE, 1295.0, (199.0, 209.0)), (PLANK, 1415.0, (409.0, 209.0))]
)
def test_what_one_job_leaves_the_next_one_lays(
    tile: Tile, width: float, start: tuple[float, float], tmp_path: Path
) -> None:
    """Kept in a file and opened again it is the same; the next room takes its offcuts first, by the rules.

    All borders of the first room are wider than half a tile, so no tile gives two of them.
    """
    first = job_of(rectangle(width, 1015), replace(tile, lot="K7", per_box=8), start=start)
    left = what_is_left(job_plan(first))
    write_stock(left, tmp_path / "left.tilestock")
    opened = read_stock(tmp_path / "left.tilestock")
    assert opened == left
    assert sum(_laid_next(tile, opened, at) for at in ((90.0, 60.0), (150.0, 210.0), (200.0, 130.0))) > 0


def _laid_next(tile: Tile, stock: Stock, start: tuple[float, float]) -> int:
    """Lay a room with this stock, check every rule, and return how many of its offcuts it takes."""
    bare = job_of(rectangle(1500, 1240), tile, start=start)
    job = take_stock(bare, stock.tiles)
    made, without = plan(job, "A"), plan(bare, "A")
    pieces = {piece.id: piece for piece in made.laid.cut}
    for each in made.sharing.opened:
        check_tile(each, pieces, job.saw)
    assert made.tiles_needed <= without.tiles_needed or not made.sharing.is_fewest
    assert made.sharing.offcuts_used <= sum(offcut.count for offcut in stock.tiles[0].offcuts)
    assert job.tile(tile.id).lot == "K7"
    return made.sharing.offcuts_used


def test_the_half_that_one_room_leaves_is_the_half_that_the_next_one_takes() -> None:
    """One row of five 150 mm high leaves five of 297 - 150 - 2 mm; a row 140 mm high is sawn from these."""
    first = job_of(rectangle(1497, 150), SQUARE, gap=0, start=(0.0, -147.0))
    (left,) = what_is_left(job_plan(first)).tiles
    half = OffcutOnHand(length=297, width=145, factory=(LEFT, RIGHT, LOWER), count=5)
    assert left.offcuts == (half,)
    job = take_stock(job_of(rectangle(1497, 140), SQUARE, gap=0, start=(0.0, -157.0)), (left,))
    assert (plan(job, "A").tiles_needed, plan(job, "A").sharing.offcuts_used) == (0, 5)


def test_nothing_is_made_of_nothing() -> None:
    """Over three jobs on one stock, pieces and what is left never cover more than the tiles there were."""
    stock, area = Stock(tiles=(replace(SQUARE, whole_on_hand=60),)), 60 * 297.0**2
    for start in ((131.0, 77.0), (40.0, 113.0), (222.0, 201.0)):
        job = use_stock(job_of(rectangle(700, 900), SQUARE, start=start), stock.tiles)
        made = plan(job, "A")
        assert made.covered_area + _area(job.tile("square")) >= area - 1e-6
        stock = what_is_left(job_plan(replace(job, tiles=(replace(job.tile("square"), spare=0),))))
        left = _area(stock.tiles[0])
        assert left + made.covered_area < area
        area = left


def _area(tile: Tile) -> float:
    assert isinstance(tile, RectangleTile)
    offcuts = sum((each.length or 0.0) * (each.width or 0.0) * each.count for each in tile.offcuts)
    return tile.whole_on_hand * tile.length * tile.width + offcuts


def test_an_older_stock_keeps_what_the_job_did_not_take() -> None:
    shelf, other_lot = (
        RectangleTile(id="shelf", length=200, width=100, whole_on_hand=7),
        replace(SQUARE, whole_on_hand=5, lot="B2"),
    )
    job = room(lot="K7", whole_on_hand=200)
    before = Stock(tiles=(shelf, other_lot, replace(SQUARE, lot="K7", whole_on_hand=200)))
    after = with_the_rest(what_is_left(job_plan(job)), job, before)
    found = [(tile.title, tile.lot, tile.whole_on_hand) for tile in after.tiles]
    assert found[1:] == [("shelf", "", 7), ("square", "B2", 5)]
    assert len({tile.id for tile in after.tiles}) == 3
