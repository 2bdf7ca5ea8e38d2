"""Ticks: they belong to a side of a piece, outlast another sharing, and never pass to another piece."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from tests.planning.jobs import job_of
from tests.rooms import CAST, LAYINGS, PLANK, SQUARE, floor_of, rectangle, round_cutout
from tilelayout.job.cuts_made import CutMade
from tilelayout.job.edits import jobs as job_edits
from tilelayout.job.edits.cuts import tick_cuts
from tilelayout.job.edits.layouts import move_start, replace_layout
from tilelayout.job.edits.tiles import replace_tile
from tilelayout.job.values import Job
from tilelayout.planning.cut_progress import left_over_words, progress_words
from tilelayout.planning.cut_views import CutView, cut_view
from tilelayout.planning.saw_list import saw_list_of
from tilelayout.planning.ticks import Ticks
from tilelayout.planning.to_saw import to_saw

ROOM = floor_of((0, 0), (1497, 0), (1497, 1040), (0, 1040), cutouts=(round_cutout(400, 500, 44, 3),))
JOB = job_of(ROOM, SQUARE, gap=0, start=(20.0, 35.0))


def ticks_of(job: Job, layout: str = "A") -> Ticks:
    return Ticks(saw_list_of(to_saw(job, layout)))


def all_ticked(job: Job) -> Job:
    return tick_cuts(job, [each for some in ticks_of(job).says.values() for each in some])


def done(job: Job) -> tuple[int, int]:
    ticks = ticks_of(job)
    return ticks.count(ticks.says, frozenset(job.cuts_made)), len(ticks.says)


@pytest.mark.parametrize("room", ["plain", "L-shaped", "slotted", "oblique with a bay"])
@pytest.mark.parametrize("pattern", ["half bond", "herringbone", "diagonal", "triangles"])
def test_no_two_cuts_of_a_list_say_the_same(room: str, pattern: str) -> None:
    tile, layout = LAYINGS[pattern]
    ticks = ticks_of(Job(surfaces=(CAST[room],), tiles=(tile,), layouts=(layout,)))
    said = [each for some in ticks.says.values() for each in some]
    assert said and len(said) == len(set(said))
    assert all(ticks.says.values())


def test_a_list_ticked_whole_is_done_and_so_are_all_its_pieces() -> None:
    job = all_ticked(JOB)
    ticks = ticks_of(job)
    assert done(JOB) == (0, len(ticks.says)) and done(job) == (len(ticks.says),) * 2
    assert ticks.pieces_made(frozenset(job.cuts_made)) == set(ticks.found.of.pieces)
    assert ticks.left_over(job) == ()


def test_a_piece_is_finished_only_with_its_last_cut() -> None:
    ticks = ticks_of(JOB)
    name, cuts = next((name, cuts) for name, cuts in ticks.of_piece.items() if len(cuts) > 1)
    *first, last = cuts
    made = frozenset(each for cut in first for each in ticks.says[cut])
    assert name not in ticks.pieces_made(made)
    assert name in ticks.pieces_made(made.union(ticks.says[last]))


@pytest.mark.parametrize(
    "change",
    [
        lambda job: job_edits.set_title(job, "Another"),
        lambda job: job_edits.set_kerf(job, 3.2),
        lambda job: job_edits.set_least_offcut(job, 120.0),
        lambda job: job_edits.set_dressed(job, True),
        lambda job: replace(job, tiles=(replace(SQUARE, whole_on_hand=3, price_per_box=5.0),)),
    ],
    ids=["title", "kerf", "least offcut", "dressed", "stock"],
)
def test_what_leaves_the_pieces_alone_leaves_them_finished(change: Callable[[Job], Job]) -> None:
    """Tiles may then be shared and parted otherwise; the sides of the pieces are what was sawn."""
    job = change(all_ticked(JOB))
    ticks = ticks_of(job)
    assert ticks.pieces_made(frozenset(job.cuts_made)) == set(ticks.found.of.pieces)


@pytest.mark.parametrize(
    "change",
    [
        lambda job: move_start(job, "A", (21.0, 36.0)),
        lambda job: replace_layout(job, "A", gap=1.0),
        lambda job: replace_tile(job, SQUARE.id, replace(SQUARE, length=296, width=296)),
        lambda job: replace(
            job, tiles=(replace(SQUARE, id="other"),), layouts=(replace(job.layouts[0], tile="other"),)
        ),
    ],
    ids=["start", "gap", "size", "tile"],
)
def test_what_changes_the_pieces_takes_their_ticks_away_in_words(change: Callable[[Job], Job]) -> None:
    job = change(all_ticked(JOB))
    ticks = ticks_of(job)
    over = ticks.left_over(job)
    pieces = {piece.id for piece in ticks_of(JOB).found.of.plans[0].laid.cut}
    still = {each.piece for each in job.cuts_made} - {each.piece for each in over}
    assert done(job)[0] < done(job)[1]
    assert {each.piece for each in over} | still == pieces
    assert len(over) > len(job.cuts_made) / 2
    assert "ticked for an earlier plan" in left_over_words(over, ticks.found.of)


def test_the_same_name_with_another_shape_is_not_ticked() -> None:
    """The start moved by a millimetre keeps every number, and no piece has its old size."""
    job = move_start(all_ticked(JOB), "A", (21.0, 36.0))
    before, after = ticks_of(JOB), ticks_of(job)
    same = set(before.found.of.pieces) & set(after.found.of.pieces)
    changed = {name for name in same if _size(before, name) != _size(after, name)}
    assert changed
    assert not changed & after.pieces_made(frozenset(job.cuts_made))


def _size(ticks: Ticks, name: str) -> tuple[float, float]:
    length, width = ticks.found.of.pieces[name].piece.outline.T.tolist()
    return round(max(length) - min(length), 3), round(max(width) - min(width), 3)


def test_ticks_come_back_with_what_they_ticked() -> None:
    there = all_ticked(JOB)
    back = move_start(move_start(there, "A", (90.0, 110.0)), "A", JOB.layouts[0].start)
    assert done(back) == done(there)


def test_a_mirror_image_has_no_tick() -> None:
    left = job_of(floor_of((0, 0), (597, 0), (497, 297), (0, 297)), PLANK, gap=0)
    right = job_of(floor_of((0, 0), (597, 0), (597, 297), (100, 297)), PLANK, gap=0)
    says = [{each.mark for some in ticks_of(job).says.values() for each in some} for job in (left, right)]
    assert says[0] and not says[0] & says[1]


def test_ticks_of_another_layout_wait_for_it() -> None:
    other = replace(JOB.layouts[0], id="B", start=(60.0, 80.0))
    job = all_ticked(replace(JOB, layouts=(*JOB.layouts, other)))
    turned = replace(job, layouts=(other, JOB.layouts[0]))
    assert ticks_of(turned, "B").left_over(turned) == ()
    gone = replace(job, layouts=(other,))
    assert ticks_of(gone, "B").left_over(gone) == job.cuts_made


def test_words_count_cuts_and_pieces() -> None:
    job = job_of(rectangle(1497, 440), SQUARE, gap=0)
    ticks = ticks_of(job)
    assert progress_words(ticks, ()) == "0 of 5 cuts made, 0 of 5 pieces finished"
    first = next(iter(ticks.says))
    assert progress_words(ticks, ticks.says[first]).startswith("1 of 5 cuts made")
    assert progress_words(ticks, all_ticked(job).cuts_made) == "All 5 cuts are made."
    what = ticks.found.of
    assert left_over_words((), what) == ""
    one = (CutMade(layout="A", piece="C4", mark="0a" * 5),)
    assert left_over_words(one, what).startswith(
        "C4 was ticked for an earlier plan and is not cut like that now."
    )


@pytest.mark.parametrize("view", list(CutView))
@pytest.mark.parametrize("room", ["plain", "L-shaped", "oblique with a bay"])
def test_every_view_holds_every_cut_and_every_piece(room: str, view: CutView) -> None:
    tile, layout = LAYINGS["half bond"]
    ticks = ticks_of(Job(surfaces=(CAST[room],), tiles=(tile,), layouts=(layout,)))
    groups = cut_view(ticks, view)
    assert {cut for group in groups for cut in group.cuts} == set(ticks.says)
    assert {name for group in groups for line in group.lines for name in line.pieces} == set(
        ticks.found.of.pieces
    )
    assert all(line.title and line.cuts for group in groups for line in group.lines)


def test_the_view_by_setting_is_in_the_order_of_the_saw_and_ends_with_the_work_by_hand() -> None:
    ticks = ticks_of(JOB)
    groups = cut_view(ticks, CutView.SETTING)
    assert len(groups) == len(ticks.found.settings) + 1
    assert groups[0].heading == f"Fence at {ticks.found.settings[0].distance:.0f} mm"
    assert groups[-1].heading == "By hand"
    assert any("core bit" in " ".join(line.words).lower() for line in groups[-1].lines)


def test_the_view_by_tile_says_what_stays_useful() -> None:
    lines = [line for group in cut_view(ticks_of(JOB), CutView.TILE) for line in group.lines]
    assert any(words.startswith("Stays useful: T") for line in lines for words in line.words)
    assert [line.tile.number for line in lines] == list(range(1, len(lines) + 1))
