"""`lay --whole-job` and `lay --fit`: one stock over the surfaces, and what makes a layout fit it."""

from __future__ import annotations

import json
from pathlib import Path

from msgspec.structs import replace

from tests.cli.calls import called
from tilelayout.job.edits.tiles import add_tile
from tilelayout.job.files import read_job, write_job
from tilelayout.job.ground import Trim
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.stock_files import Stock, read_stock, write_stock
from tilelayout.job.values import Job, Layout, RectangleTile, Surface
from tilelayout.planning.stock_words import stock_summary

TILE = RectangleTile(id="t", length=297, width=297, per_box=8)
ALL_BUT_LOWER = (TileSide.LEFT, TileSide.RIGHT, TileSide.UPPER)


def written(folder: Path, **stock: object) -> str:
    """Write a floor with a base and a wall, in one tile; return the file's name."""
    floor = Surface(
        id="floor",
        outline=((0, 0), (1820, 0), (1820, 1240), (0, 1240)),
        trims=(Trim(tile="t", height=75.0),),
    )
    wall = Surface(id="wall", outline=((0, 0), (1500, 0), (1500, 700), (0, 700)))
    layouts = tuple(
        Layout(id=id, surface=surface, tile="t", start=(131.0, 77.0), settings={"row_offsets": (0.0,)})
        for id, surface in (("A", "floor"), ("B", "wall"))
    )
    job = replace(add_tile(Job(), replace(TILE, **stock)), surfaces=(floor, wall), layouts=layouts)
    write_job(job, folder / "two.tilejob")
    return str(folder / "two.tilejob")


def test_the_whole_job_is_told_last(tmp_path: Path) -> None:
    offcut = OffcutOnHand(length=297, width=150, factory=ALL_BUT_LOWER, count=3)
    done = called("lay", written(tmp_path, offcuts=(offcut,)), "--whole-job")
    assert done.status == 0
    assert done.out.count("numbered within this layout") == 2
    last = done.out[done.out.index("Whole job: ") :]
    assert "tiles for 2 surfaces and" in last and "strips of trim" in last
    assert "offcuts on hand sawn again" in last and "tiles to buy" in last


def test_the_document_holds_every_piece_of_the_whole_job(tmp_path: Path) -> None:
    offcut = OffcutOnHand(length=297, width=150, factory=ALL_BUT_LOWER, count=3)
    printed = json.loads(called("lay", written(tmp_path, offcuts=(offcut,)), "--whole-job", "--json").out)
    job = printed["job"]
    cut = [(each["id"], p["id"]) for each in printed["layouts"] for p in each["pieces"] if not p["whole"]]
    sawn = [(p["layout"], p["piece"]) for opened in job["cut_from"] for p in opened["pieces"]]
    assert len(sawn) == len(set(sawn)) == len(cut) + job["strips"]
    assert set(cut) <= set(sawn)
    whole = sum(each["whole"] for each in printed["layouts"])
    from_tiles = [opened for opened in job["cut_from"] if "on_hand" not in opened]
    assert job["tiles_needed"] == whole + len(from_tiles) >= job["tiles_needed_at_least"]
    assert job["offcuts_used"] == len(job["cut_from"]) - len(from_tiles) == 3


def test_what_would_fit_is_tried_and_told(tmp_path: Path) -> None:
    done = called("lay", written(tmp_path, whole_on_hand=20), "--layout", "A", "--fit")
    assert done.status == 0
    assert "short (20 on hand): " in done.out
    told = done.out[done.out.index("Layout A, made to fit") :]
    assert "fits with " in told or "nothing tried fits; nearest is " in told
    assert "trying another start" in done.err and "tried all" in done.err
    printed = json.loads(
        called("lay", written(tmp_path, whole_on_hand=20), "--layout", "A", "--fit", "--json").out
    )
    (tried,) = printed["fit"]
    assert tried["layout"] == "A"
    assert tried["tried"][0]["words"] == "another start"
    assert all(each["tiles_needed"] - each["short"] == 20 for each in tried["tried"] if each["short"])


def test_what_is_on_hand_is_kept_in_the_file(tmp_path: Path) -> None:
    """Written, read and written again: the same bytes."""
    offcut = OffcutOnHand(length=200, width=150, factory=(TileSide.LEFT,), lot="K7", count=3)
    path = Path(written(tmp_path, offcuts=(offcut,), lot="K7", mixed_lots=True))
    job, first = read_job(path), path.read_bytes()
    write_job(job, path)
    assert path.read_bytes() == first
    assert job.tiles[0].offcuts == (offcut,) and job.tiles[0].mixed_lots


def test_what_one_job_leaves_is_kept_and_laid_first_in_the_next(tmp_path: Path) -> None:
    left = tmp_path / "shelf.tilestock"
    done = called("lay", written(tmp_path), "--keep-left", str(left))
    assert done.status == 0
    told = done.out[done.out.index("Left when all is laid, kept in ") :]
    stock = read_stock(left)
    (tile,) = stock.tiles
    assert f"t, 297 mm × 297 mm: {stock_summary(tile)}" in told
    bare = json.loads(called("lay", written(tmp_path), "--json").out)["layouts"]
    printed = json.loads(called("lay", written(tmp_path), "--stock", str(left), "--json").out)["layouts"]
    assert sum("on_hand" in opened for each in printed for opened in each["cut_from"]) > 0
    for first, second in zip(bare, printed, strict=True):
        assert second["tiles_needed"] <= first["tiles_needed"]


def test_the_document_tells_what_is_left_as_the_file_does(tmp_path: Path) -> None:
    left = tmp_path / "shelf.tilestock"
    printed = json.loads(called("lay", written(tmp_path), "--json", "--keep-left", str(left)).out)
    assert printed["left"] == json.loads(left.read_text())["tiles"]


def test_a_stock_without_a_tile_of_the_job_is_said(tmp_path: Path) -> None:
    write_stock(Stock(tiles=(replace(TILE, length=296, whole_on_hand=5),)), tmp_path / "o.tilestock")
    done = called("lay", written(tmp_path), "--stock", str(tmp_path / "o.tilestock"))
    assert done.status == 0
    assert "holds no tile of this job, by name and measured size; there is t" in done.err


def test_a_file_that_is_no_stock_is_neither_read_nor_written_over(tmp_path: Path) -> None:
    job = written(tmp_path)
    before = Path(job).read_bytes()
    for option in ("--stock", "--keep-left"):
        done = called("lay", job, option, job)
        assert done.status == 2
        assert "format: The format is not “tilestock”." in done.err and "Choose a stock file." in done.err
    assert Path(job).read_bytes() == before
