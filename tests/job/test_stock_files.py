"""Stock files: read as strictly as job files, taken into a job without losing or mixing anything."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from tilelayout.base.errors import EditError, JobFileError
from tilelayout.job.edits.stock import add_offcut, remove_offcut, replace_offcut, take_stock, use_stock
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.stock_files import Stock, read_stock, stock_from_bytes, stock_to_bytes, write_stock
from tilelayout.job.values import Job, RectangleTile

SLATE = RectangleTile(id="slate", name="Slate", length=597, width=297)
END = OffcutOnHand(length=200, width=297, factory=(TileSide.LEFT, TileSide.LOWER, TileSide.UPPER), count=2)
LEFT = replace(SLATE, id="t1", whole_on_hand=4, lot="K7", offcuts=(replace(END, lot="K7"),))


def test_a_stock_comes_back_as_it_was(tmp_path: Path) -> None:
    stock = Stock(title="Shed", tiles=(LEFT,))
    write_stock(stock, tmp_path / "s.tilestock")
    assert read_stock(tmp_path / "s.tilestock") == stock
    assert stock_to_bytes(stock) == (tmp_path / "s.tilestock").read_bytes()


def test_lengths_are_written_as_in_a_job() -> None:
    content = """{"format": "tilestock", "version": 1, "tiles": [{"id": "t", "shape": "rectangle",
      "length": "24 in", "width": "1' 0\\"", "offcuts": [{"length": "6 in", "width": "4 in"}]}]}"""
    (tile,) = stock_from_bytes(content.encode()).tiles
    assert isinstance(tile, RectangleTile)
    assert (tile.length, tile.width, tile.offcuts[0].length) == pytest.approx((609.6, 304.8, 152.4))


@pytest.mark.parametrize(
    ("content", "place", "says"),
    [
        ("[]", "", "no stock"),
        ("{}", "format", '"tilestock"'),
        ('{"format": "tilejob", "version": 1}', "format", "Choose a stock file."),
        ('{"format": "tilestock", "version": 2}', "version", "newer program"),
        ('{"format": "tilestock"}', "version", "missing"),
        ('{"format": "tilestock", "version": 1, "tiless": []}', "tiless", "Did you mean tiles?"),
        (
            '{"format": "tilestock", "version": 1, "tiles": [{"id": "t", "shape": "rectangle", "length": 97, '
            '"width": 97, "offcuts": [{"length": 700, "width": 90}]}]}',
            "tiles[0].offcuts[0].length",
            "larger than its tile",
        ),
        (
            '{"format": "tilestock", "version": 1, "tiles": [{"id": "t", "shape": "triangle", "side": 90}, '
            '{"id": "t", "shape": "triangle", "side": 90}]}',
            "tiles[1].id",
            "is used by",
        ),
    ],
)
def test_what_is_wrong_is_said_with_its_place(content: str, place: str, says: str) -> None:
    with pytest.raises(JobFileError) as caught:
        stock_from_bytes(content.encode(), "s.tilestock")
    assert caught.value.place == place
    assert says in str(caught.value) and str(caught.value).startswith("s.tilestock: ")


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(JobFileError, match="no such file"):
        read_stock(tmp_path / "none.tilestock")


def test_stock_is_added_to_the_tile_that_is_the_same() -> None:
    job = take_stock(Job(tiles=(SLATE,)), (LEFT,))
    assert [(tile.id, tile.whole_on_hand, tile.lot) for tile in job.tiles] == [("slate", 4, "K7")]
    again = take_stock(job, (LEFT,))
    assert again.tiles[0].whole_on_hand == 8
    assert again.tiles[0].offcuts == (replace(END, lot="K7", count=4),)


@pytest.mark.parametrize(
    "own",
    [replace(SLATE, length=596.5), replace(SLATE, name="Oak"), replace(SLATE, directional=True)],
    ids=["measured again", "called otherwise", "with a direction"],
)
def test_another_tile_gets_none_of_it(own: RectangleTile) -> None:
    job = take_stock(Job(tiles=(own,)), (LEFT,))
    assert job.tiles[0] == own
    assert len(job.tiles) == 2 and job.tiles[1].whole_on_hand == 4
    assert use_stock(Job(tiles=(own,)), (LEFT,)).tiles == (own,)


def test_lots_are_not_mixed_unless_that_is_allowed() -> None:
    own = replace(SLATE, lot="B2", whole_on_hand=3)
    apart = take_stock(Job(tiles=(own,)), (LEFT,))
    assert [(tile.title, tile.lot, tile.whole_on_hand) for tile in apart.tiles] == [
        ("Slate", "B2", 3),
        ("Slate, lot K7", "K7", 4),
    ]
    together = take_stock(Job(tiles=(replace(own, mixed_lots=True),)), (LEFT,))
    assert [(tile.whole_on_hand, tile.offcuts[0].lot) for tile in together.tiles] == [(7, "K7")]


def test_offcuts_are_added_changed_and_removed() -> None:
    job = add_offcut(Job(tiles=(SLATE,)), "slate", END)
    job = add_offcut(job, "slate", replace(END, count=3))
    assert job.tiles[0].offcuts == (END, replace(END, count=3))
    job = remove_offcut(job, "slate", 1)
    job = replace_offcut(job, "slate", 0, replace(END, length=180, count=1))
    assert [each.length for each in job.tiles[0].offcuts] == [180]
    assert remove_offcut(job, "slate", 0) == Job(tiles=(SLATE,))
    with pytest.raises(EditError):
        remove_offcut(job, "slate", 1)
    with pytest.raises(EditError):
        add_offcut(job, "none", END)
