"""The cut list of the whole job: floor, wall and trim from one stock of tiles, every piece sawn once."""

from __future__ import annotations

from collections import Counter

import pytest
from msgspec.structs import replace

from tests.planning.sawing import every_piece_comes_out
from tests.rooms import SQUARE, layout_of, rectangle
from tilelayout.job.cuts_made import CutMade
from tilelayout.job.edits.cuts import tick_cuts
from tilelayout.job.ground import Trim
from tilelayout.job.values import Job, RectangleTile, Surface
from tilelayout.planning.job_plan import job_plan
from tilelayout.planning.plan import plan
from tilelayout.planning.saw_list import SawList, saw_list, saw_list_of, saw_list_steps
from tilelayout.planning.to_saw import to_saw


def surface(id: str, length: float, width: float, *trims: Trim) -> Surface:
    made: Surface = replace(rectangle(length, width), id=id, name=id.title(), trims=trims)
    return made


def two_surfaces(*trims: Trim) -> Job:
    """A floor and a wall in one tile, and a second layout on the floor that is not to be laid."""
    floor, wall = surface("floor", 1403, 1207, *trims), surface("wall", 1121, 903)
    layouts = [("A", "floor", (131.0, 77.0)), ("B", "floor", (20.0, 30.0)), ("W", "wall", (61.0, 90.0))]
    return Job(
        surfaces=(floor, wall),
        tiles=(SQUARE,),
        layouts=tuple(
            replace(layout_of(SQUARE, start=start), id=id, surface=of) for id, of, start in layouts
        ),
    )


JOB = two_surfaces(Trim(tile=SQUARE.id, height=75.0))


@pytest.fixture(scope="module")
def whole() -> SawList:
    return saw_list_of(to_saw(JOB, "A"))


def test_every_piece_of_every_surface_and_every_strip_is_listed_once(whole: SawList) -> None:
    made = job_plan(JOB)
    wanted = Counter((one.layout.id, piece.id) for one in made.plans for piece in one.laid.cut)
    wanted += Counter((layout, piece.id) for layout, strips in made.strips.items() for piece in strips)
    listed = Counter((each.layout, each.piece.id) for each in whole.of.pieces.values())
    assert listed == wanted and set(wanted.values()) == {1}
    opened = [each.piece for tile in whole.opened for each in tile.pieces]
    assert sorted(opened) == sorted(whole.of.pieces)


def test_the_cuts_bring_out_every_piece_and_every_strip(whole: SawList) -> None:
    assert all(every_piece_comes_out(whole, tile) for tile in whole.opened)
    strips = sum(not whole.of.pieces[each.piece].is_laid for tile in whole.opened for each in tile.pieces)
    assert strips == job_plan(JOB).strip_count > 0


def test_it_takes_the_tiles_that_the_whole_job_is_said_to_take(whole: SawList) -> None:
    made = job_plan(JOB)
    laid_whole = sum(one.whole for one in made.plans)
    assert len(whole.opened) + laid_whole == made.tiles_needed == whole.of.sharing.tiles_needed
    assert len(whole.opened) < sum(len(saw_list(one).opened) for one in made.plans) + made.strip_count


def test_a_piece_bears_the_number_of_its_surface_where_there_are_several(whole: SawList) -> None:
    assert {name.split("-")[0] for name in whole.of.pieces} == {"1", "2"}
    assert all(name.split("-", 1)[1] == each.piece.id for name, each in whole.of.pieces.items())
    alone = replace(JOB, surfaces=JOB.surfaces[1:], layouts=JOB.layouts[2:])
    assert all(name == each.piece.id for name, each in to_saw(alone, "W").pieces.items())


def test_the_list_is_the_same_from_whichever_surface_one_comes() -> None:
    one, other = to_saw(JOB, "A"), to_saw(JOB, "W")
    assert one.is_whole_job and one.sharing is other.sharing


def test_a_layout_that_is_not_to_be_laid_has_a_list_of_its_own() -> None:
    alone = to_saw(JOB, "B")
    assert [made.layout.id for made in alone.plans] == ["B"] and not alone.is_whole_job
    assert not alone.strips, "its surface's trim is sawn with the layout that is laid"


def test_a_surface_that_cannot_be_laid_leaves_the_other_its_list() -> None:
    odd = RectangleTile(id="odd", length=290, width=131)
    mixed = replace(JOB.layouts[2], tile="odd", pattern="basketweave", settings={})
    job = replace(JOB, tiles=(SQUARE, odd), layouts=(*JOB.layouts[:2], mixed))
    alone = to_saw(job, "A")
    assert [made.layout.id for made in alone.plans] == ["A"]
    assert alone.trouble and not alone.is_whole_job


def test_the_steps_end_with_the_list_of_the_whole_job() -> None:
    steps = list(saw_list_steps(JOB, "W"))
    counts = [each.of.sharing.tiles_needed for each in steps]
    assert counts == sorted(counts, reverse=True)
    assert counts[-1] == job_plan(JOB).tiles_needed


def test_ticking_makes_no_plan_anew() -> None:
    ticked = tick_cuts(JOB, (CutMade(layout="A", piece="A1", mark="0a" * 5),))
    assert job_plan(ticked) is job_plan(JOB)
    assert plan(ticked, "A") is plan(JOB, "A")
