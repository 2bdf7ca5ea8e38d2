"""Plans of several tiles: counts by tile, cut list, comparison, search, map, what may be off, sheets."""

from __future__ import annotations

import datetime
from pathlib import Path

import pdfplumber
import pytest
from msgspec.structs import replace

from tests.rooms import PLAIN, SEVERAL, SQUARE, floor_of, layout_of, round_cutout, with_ids
from tilelayout.base.errors import LayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.cli.lay_json import as_json
from tilelayout.geometry.rings import area
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.values import Job, Surface
from tilelayout.layout.faces import tile_outline
from tilelayout.planning.alternatives import alternatives
from tilelayout.planning.compare import area_lost, compare
from tilelayout.planning.offset_map import map_key, map_steps, plan_at
from tilelayout.planning.open_job import check_job
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.seek import Wish, seek
from tilelayout.planning.sensitivity import ranges
from tilelayout.reports.to_pdf import print_job

ROOM = floor_of((0, 0), (1500, 0), (1420, 1100), (0, 1250), cutouts=(round_cutout(700, 500, 90, 3),))
EVERY = pytest.mark.parametrize("name", SEVERAL)


def job_of_several(name: str, room: Surface = ROOM) -> Job:
    tile, layout, more = SEVERAL[name]
    tiles = tuple({each.id: each for each in (tile, *more.values())}.values())
    layout = replace(with_ids(layout, more), start=(31.0, 17.0))
    return check_job(Job(title="Porch", surfaces=(room,), tiles=tiles, layouts=(layout,)))


def plan_of_several(name: str, room: Surface = ROOM) -> Plan:
    return plan(job_of_several(name, room), "A")


@EVERY
def test_counts_of_all_tiles_add_up(name: str) -> None:
    made = plan_of_several(name)
    assert [count.tile for count in made.by_tile] == list(made.tiles)
    assert sum(count.whole for count in made.by_tile) == made.whole
    assert sum(count.cut for count in made.by_tile) == made.cut
    assert sum(count.needed for count in made.by_tile) == made.tiles_needed
    assert sum(count.needed_at_least for count in made.by_tile) == made.tiles_needed_at_least
    covered = sum(piece.area for piece in made.laid.pieces())
    assert made.covered_area == pytest.approx(covered)
    opened = sum(count.needed * area(tile_outline(count.tile)) for count in made.by_tile)
    assert area_lost(made) == pytest.approx(opened - covered) and area_lost(made) >= 0


@EVERY
def test_a_row_of_the_cut_list_is_of_one_tile_and_names_it(name: str) -> None:
    made = plan_of_several(name)
    tiles = [row.pieces[0].tile.id for row in made.cut_rows]
    order = [tile.id for tile in made.tiles]
    assert tiles == sorted(tiles, key=order.index)
    for row in made.cut_rows:
        assert len({piece.tile for piece in row.pieces}) == 1
        assert row.words[0].startswith(f"{row.pieces[0].tile.title}: ")


def test_black_and_white_squares_of_one_size_are_not_one_row() -> None:
    white, black = (replace(SQUARE, id=id) for id in ("white", "black"))
    layout = replace(layout_of(white, "pinwheel", start=(31.0, 17.0)), more_tiles={"small": "black"})
    made = plan(Job(surfaces=(PLAIN,), tiles=(white, black), layouts=(layout,)), "A")
    assert {count.tile.id for count in made.by_tile} == {"white", "black"}
    assert all(len({piece.tile.id for piece in row.pieces}) == 1 for row in made.cut_rows)
    for opened in made.cut_from:
        assert len({made.laid.piece(sawn.piece).tile.id for sawn in opened.pieces}) == 1


@pytest.mark.parametrize("name", ["octagon and dot", "modular, four sizes", "drawn trominoes with a square"])
def test_it_is_written_printed_and_told(name: str, tmp_path: Path) -> None:
    job = job_of_several(name)
    assert job_to_bytes(check_job(job_from_bytes(job_to_bytes(job)))) == job_to_bytes(job)
    for _step in print_job(job, tmp_path / "sheets.pdf", "a4", date=datetime.date(2025, 1, 6)):
        pass
    with pdfplumber.open(tmp_path / "sheets.pdf") as document:
        text = "\n".join(page.extract_text() or "" for page in document.pages)
    made = plan(job, "A")
    for tile in made.tiles:
        assert f"Tile: {tile.title}, measured" in text
    assert as_json([made]).count('"by_tile"') == 1


@pytest.mark.parametrize("name", ["octagon and dot", "pinwheel", "modular, four sizes", "windmill"])
def test_tiles_that_are_off_are_still_laid(name: str) -> None:
    """Tiles that must fit each other are off together; no case fails to be laid."""
    found = ranges(plan_of_several(name, floor_of((0, 0), (900, 0), (900, 800), (0, 800))))
    assert found.not_laid == 0
    assert found.whole.greatest >= found.whole.least >= 0


def test_a_start_is_sought_and_found_better() -> None:
    job = job_of_several("octagon and dot")
    *_, last = seek(job, "floor", None, Wish(most=1))
    best = plan(replace(job, layouts=(last.found[0].layout,)), last.found[0].layout.id)
    assert best.layout.more_tiles == {"dot": "dot"}
    assert len(best.slivers) <= len(plan(job, "A").slivers)
    assert last.found[0].slivers == len(best.slivers)


def test_of_a_range_of_joints_those_are_sought_with_which_a_set_fits() -> None:
    """The joint that ties the sizes lies between those that stand for the range; 3 mm, as in `rooms`."""
    job = job_of_several("modular, three sizes")
    elsewhere = replace(job, layouts=(replace(job.layouts[0], joint=4.5),))
    for wish in (Wish(joints=(2.0, 5.1), most=3), Wish(joints=(3.0, 9.0), most=3)):
        found = list(seek(elsewhere, "floor", None, wish))[-1].found
        assert {one.layout.joint for one in found} == {3.0}
        assert all(one.why.endswith("mm only 3 mm fits") for one in found)
    *_, last = alternatives(elsewhere, "floor", None, Wish(joints=(2.0, 5.1)))
    assert all(one.layout.joint == 3.0 and "only 3 mm fits" in one.why for one in last.found)


def test_a_range_of_joints_none_of_which_fits_a_set_is_refused_with_the_joint_that_does() -> None:
    job = job_of_several("octagon and dot")
    with pytest.raises(
        LayoutError, match=r"No joint from 4 to 6 mm can be laid\. With a joint of 4 mm"
    ) as told:
        next(seek(job, "floor", None, Wish(joints=(4.0, 6.0))))
    assert told.value.mend.startswith(f"Use a joint of {job.layouts[0].joint:.2f} mm with these tiles")


@pytest.mark.parametrize("joints", [(2.0, 4.0), (3.0, 3.0)])
def test_joints_that_all_fit_need_no_words(joints: tuple[float, float]) -> None:
    job = Job(surfaces=(ROOM,), tiles=(SQUARE,), layouts=(layout_of(SQUARE, gap=6.0),))
    *_, last = seek(job, "floor", None, Wish(joints=joints, most=2))
    assert all(joints[0] <= one.layout.joint <= joints[1] for one in last.found)
    assert not any("fits" in one.why for one in last.found)


def test_the_map_of_starts_knows_its_tiles() -> None:
    made = plan_of_several("pinwheel")
    assert next(iter(map_steps(made))) is not None
    assert plan_at(made, (5.0, 5.0)).more == made.more
    other = Plan(made.surface, made.tile, made.layout, made.style, {"small": replace(SQUARE, id="small")})
    assert map_key(made) != map_key(other)


def test_sets_of_other_tiles_are_shown_and_not_judged() -> None:
    job = job_of_several("pinwheel")
    plain = replace(layout_of(SQUARE, start=(31.0, 17.0)), id="B")
    job = replace(job, layouts=(*job.layouts, plain))
    told = compare((plan(job, "A"), plan(job, "B")))
    assert any("tiles differ" in remark for remark in told.remarks)


def test_a_set_that_does_not_fit_is_refused_in_the_lengths_of_the_job() -> None:
    """A joint of 1/4 in asks for smaller dots than 3 mm; what fits is said so that it can be typed."""
    tile, layout, more = SEVERAL["octagon and dot"]
    wide = replace(with_ids(layout, more), joint=6.35)
    job = Job(surfaces=(ROOM,), tiles=(tile, *more.values()), layouts=(wide,))
    with pytest.raises(LayoutError, match=r"With a joint of 6\.35 mm .* must be 119\.32 mm square"):
        _ = plan(job, "A").laid
    with pytest.raises(LayoutError) as refused:
        _ = plan(replace(job, show_lengths=LengthStyle.INCH), "A").laid
    assert str(refused.value) == (
        'With a joint of 1/4" the dot (a square between four octagons) must be 4.698" square; '
        '"dot" is 4.775" square. Use a joint of 0.118" with these tiles, or a tile of 4.698" square.'
    )
