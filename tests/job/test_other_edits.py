"""Edits of tiles, layouts and the job as a whole."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.job.cast import BAY, POTTING_SHED, job_of
from tilelayout.base.errors import EditError
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits import jobs, layouts, surfaces, tiles
from tilelayout.job.edits.ids import free_id
from tilelayout.job.values import HexagonTile, Job, Layout, RectangleTile

SHED = job_of(POTTING_SHED)
TWO = job_of(BAY)
BRICK = RectangleTile(id="brick", length=200.0, width=100.0)


def test_a_tile_is_added_last() -> None:
    assert tiles.add_tile(SHED, BRICK).tiles == (*SHED.tiles, BRICK)


def test_a_tile_is_replaced_by_one_of_another_shape_under_the_same_id() -> None:
    job = tiles.replace_tile(TWO, "comb", BRICK)
    assert job.tiles == (replace(BRICK, id="comb"),)
    assert job.layouts is TWO.layouts


def test_a_tile_that_no_layout_lays_is_removed() -> None:
    assert tiles.remove_tile(tiles.add_tile(SHED, BRICK), "brick") == SHED


def test_a_tile_still_laid_stays_and_its_layouts_are_named() -> None:
    with pytest.raises(EditError, match=r"“comb” is still laid by layout A, B\."):
        tiles.remove_tile(TWO, "comb")


def test_a_layout_is_added_changed_and_removed() -> None:
    added = layouts.add_layout(SHED, Layout(id="B", surface="floor", tile="slate-look"))
    changed = layouts.replace_layout(added, "B", joint=5.0, settings={"row_offsets": [0, 0.5]})
    assert changed.layout("B").joint == 5
    assert changed.layout("B").settings == {"row_offsets": (0, 0.5)}
    assert changed.layout("A") is SHED.layout("A")
    assert layouts.remove_layout(changed, "B") == SHED


def test_a_start_is_moved_and_nothing_else() -> None:
    job = layouts.move_start(TWO, "A", (12.5, -3.0))
    assert job == replace(TWO, layouts=(replace(TWO.layout("A"), start=(12.5, -3.0)), TWO.layout("B")))
    assert job.surfaces is TWO.surfaces


def test_a_layout_is_renamed_and_keeps_its_id() -> None:
    job = layouts.rename_layout(TWO, "B", "  half tiles   at the door ")
    assert job.layout("B") == replace(TWO.layout("B"), name="half tiles at the door")
    assert job.layout("A") is TWO.layout("A")
    assert layouts.rename_layout(job, "B", "") == TWO
    assert (job.layout("B").title, TWO.layout("B").title) == ("B, half tiles at the door", "Layout B")


def test_the_layout_to_be_laid_comes_first_of_its_surface_and_the_others_keep_their_order() -> None:
    job = SHED
    for id, surface in (("X", "attic"), ("B", "floor"), ("Y", "attic"), ("C", "floor")):
        if surface not in [each.id for each in job.surfaces]:
            job = surfaces.add_surface(job, replace(SHED.surfaces[0], id=surface))
        job = layouts.add_layout(job, Layout(id=id, surface=surface, tile="slate-look"))
    laid = layouts.lay_layout(job, "C")
    assert [layout.id for layout in laid.layouts] == ["C", "A", "X", "B", "Y"]
    assert layouts.lay_layout(laid, "C") == laid
    assert {layout.id: layout for layout in laid.layouts} == {each.id: each for each in job.layouts}
    assert [layout.id for layout in layouts.lay_layout(laid, "Y").layouts] == ["C", "A", "Y", "X", "B"]


def test_title_lengths_and_kerf_are_set() -> None:
    job = jobs.set_kerf(jobs.set_show_lengths(jobs.set_title(SHED, "New"), LengthStyle.FEET), 2.4)
    assert (job.title, job.show_lengths, job.saw.kerf) == ("New", LengthStyle.FEET, 2.4)
    assert job.surfaces is SHED.surfaces


def test_how_offcuts_may_be_used_is_set() -> None:
    job = jobs.set_least_offcut(jobs.set_dressed(SHED, True), 60.0)
    assert job.saw == replace(SHED.saw, dressed=True, least_offcut=60.0)
    assert jobs.set_least_offcut(jobs.set_dressed(job, False), 0.0).saw == SHED.saw


@pytest.mark.parametrize("style", LengthStyle)
def test_showing_lengths_otherwise_changes_no_stored_length(style: LengthStyle) -> None:
    job = jobs.set_show_lengths(SHED, style)
    assert jobs.set_show_lengths(job, SHED.show_lengths) == SHED
    assert (job.surfaces, job.tiles, job.layouts) == (SHED.surfaces, SHED.tiles, SHED.layouts)


IMPOSSIBLE: list[tuple[str, Callable[[], Job], str]] = [
    ("tile id taken", lambda: tiles.add_tile(TWO, replace(BRICK, id="comb")), "“comb” is used"),
    ("no width", lambda: tiles.add_tile(SHED, replace(BRICK, width=0.0)), "size of the tile is 0 mm"),
    ("giant", lambda: tiles.replace_tile(TWO, "comb", HexagonTile(id="", across_flats=9000)), "9000 mm"),
    ("unknown tile", lambda: tiles.replace_tile(SHED, "brick", BRICK), "no tile “brick”"),
    ("unknown tile gone", lambda: tiles.remove_tile(SHED, "brick"), "no tile “brick”"),
    ("layout id taken", lambda: layouts.add_layout(TWO, TWO.layout("A")), "“A” is used"),
    ("no such tile", lambda: layouts.replace_layout(TWO, "A", tile="brick"), "no tile “brick”"),
    ("no such surface", lambda: layouts.replace_layout(TWO, "A", surface="attic"), "no surface “attic”"),
    ("wide joint", lambda: layouts.replace_layout(TWO, "A", joint=200.0), "joint is 200 mm"),
    ("no angle", lambda: layouts.replace_layout(TWO, "A", angle=float("nan")), "angle is nan"),
    ("no start", lambda: layouts.move_start(TWO, "A", (float("inf"), 0)), "coordinate is inf"),
    ("unknown layout", lambda: layouts.move_start(TWO, "Z", (0, 0)), "no layout “Z”"),
    ("unknown layout renamed", lambda: layouts.rename_layout(TWO, "Z", "z"), "no layout “Z”"),
    ("unknown layout laid", lambda: layouts.lay_layout(TWO, "Z"), "no layout “Z”"),
    ("unknown layout gone", lambda: layouts.remove_layout(TWO, "Z"), "no layout “Z”"),
    ("thick blade", lambda: jobs.set_kerf(TWO, 25.0), "kerf of the saw is 25 mm"),
    ("wide least offcut", lambda: jobs.set_least_offcut(TWO, -1.0), "least offcut is -1 mm"),
]


@pytest.mark.parametrize(("edit", "words"), [case[1:] for case in IMPOSSIBLE], ids=[c[0] for c in IMPOSSIBLE])
def test_an_impossible_edit_says_why_and_what_to_do(edit: Callable[[], Job], words: str) -> None:
    with pytest.raises(EditError, match=words) as caught:
        edit()
    assert caught.value.mend.endswith(".")


@pytest.mark.parametrize(
    ("taken", "base", "free"),
    [
        ([], "floor", "floor"),
        (["floor"], "floor", "floor-2"),
        (["floor", "floor-2", "floor-3"], "floor", "floor-4"),
        (["A", "B"], "A", "C"),
        (["A"], "C", "C"),
        (["Z"], "Z", "Z-2"),
        (["a"], "a", "a-2"),
    ],
)
def test_a_free_id_is_the_next_a_person_would_take(taken: list[str], base: str, free: str) -> None:
    assert free_id(taken, base) == free


@settings(max_examples=60, deadline=None)
@given(st.lists(st.text("AYZ-12", max_size=4)), st.text("AYZ", max_size=2))
def test_a_free_id_is_never_taken(taken: list[str], base: str) -> None:
    assert free_id(taken, base) not in taken
