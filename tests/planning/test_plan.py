"""The plan: its figures agree with each other, and nothing is worked out twice for the same parts."""

from __future__ import annotations

import gc
from functools import partial

import msgspec
import pytest
from msgspec.structs import replace

from tests.planning.jobs import job_of, plan_of
from tests.rooms import CAST, LAYINGS, PLAIN, PLANK, SQUARE, rectangle
from tilelayout.base.errors import LayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Job, Layout, Surface, Tile
from tilelayout.planning.kept import Kept
from tilelayout.planning.plan import plan


@pytest.mark.parametrize("room", CAST.values(), ids=CAST.keys())
@pytest.mark.parametrize("laying", LAYINGS.values(), ids=LAYINGS.keys())
def test_the_figures_of_a_plan_agree_with_its_pieces(room: Surface, laying: tuple[Tile, Layout]) -> None:
    tile, layout = laying
    job = Job(surfaces=(room,), tiles=(tile,), layouts=(replace(layout, start=(131.7, -42.3)),))
    made = plan(job, "A")
    pieces = list(made.laid.pieces())
    assert sum(piece.whole for piece in pieces) == made.whole
    assert len(pieces) == made.whole + made.cut
    assert made.covered_area == pytest.approx(sum(piece.area for piece in pieces))
    assert made.covered_area <= made.region_area
    assert made.narrowest == pytest.approx(min((piece.narrowest for piece in pieces), default=None))
    assert {piece.id for piece in made.slivers} <= {piece.id for piece in pieces if not piece.whole}
    assert all(piece.narrowest < made.sliver_limit for piece in made.slivers)
    assert made.tiles_needed_at_least <= made.tiles_needed == made.whole + len(made.cut_from)
    assert made.tiles_needed <= made.whole + made.cut == made.sharing.without_sharing
    assert set(made.cuts_by_piece) == {piece.id for piece in pieces if not piece.whole}


def test_the_narrowest_place_of_a_room_without_cuts_is_that_of_the_tile() -> None:
    assert plan_of(rectangle(597, 297), gap=0).narrowest == 297


def test_a_room_too_small_for_any_piece_has_no_narrowest_place() -> None:
    made = plan_of(rectangle(16, 16), gap=6)
    assert (made.narrowest, made.left_to_joint, made.cut_rows) == (None, 1, ())


def test_a_new_title_costs_no_laying() -> None:
    job = job_of(PLAIN)
    before = plan(job, "A")
    assert plan(replace(job, title="Another title"), "A") is before


def test_another_way_of_showing_lengths_keeps_the_pieces() -> None:
    job = job_of(PLAIN)
    before, after = plan(job, "A"), plan(replace(job, show_lengths=LengthStyle.INCH), "A")
    assert after is not before
    assert after.laid is before.laid
    assert after.cut_rows[0].size != before.cut_rows[0].size


def test_a_moved_start_is_laid_anew_on_the_same_region() -> None:
    job = job_of(PLAIN)
    moved = replace(job, layouts=(replace(job.layouts[0], start=(50.0, 0.0)),))
    before, after = plan(job, "A"), plan(moved, "A")
    assert after.laid is not before.laid
    assert after.region is before.region


def test_another_gap_gives_another_region() -> None:
    job = job_of(PLAIN)
    wider = replace(job, layouts=(replace(job.layouts[0], gap=10.0),))
    assert plan(wider, "A").region_area == pytest.approx((3000 - 20) * (2400 - 20))
    assert plan(job, "A").region_area == pytest.approx((3000 - 12) * (2400 - 12))


def test_changing_another_surface_keeps_the_plan() -> None:
    job = job_of(PLAIN)
    other = replace(PLAIN, id="other")
    grown = replace(job, surfaces=(*job.surfaces, other))
    assert plan(grown, "A") is plan(job, "A")


def test_a_layout_that_is_not_there_is_refused_by_naming_those_that_are() -> None:
    job = job_of(PLAIN)
    job = replace(job, layouts=(*job.layouts, replace(job.layouts[0], id="B")))
    with pytest.raises(LayoutError, match=r'no layout "C".*"A", "B"'):
        plan(job, "C")
    with pytest.raises(LayoutError, match="has no layout"):
        plan(replace(job, layouts=()), "A")


def test_a_tile_that_does_not_suit_the_pattern_is_refused_when_the_pieces_are_asked_for() -> None:
    made = plan_of(PLAIN, PLANK, pattern="hexagon")
    with pytest.raises(LayoutError):
        _ = made.laid


def test_only_the_latest_results_are_kept_and_each_for_its_own_parts() -> None:
    kept: Kept[str] = Kept(2)
    first, second, third = (msgspec.structs.replace(SQUARE, name=name) for name in "abc")
    made: list[str] = []

    def make(name: str) -> str:
        made.append(name)
        return name

    for tile in (first, second, first, third, first, second):
        assert kept.get((tile,), partial(make, tile.name)) == tile.name
    assert made == ["a", "b", "c", "b"]


def test_kept_parts_live_on_so_that_an_identity_is_never_used_again() -> None:
    kept: Kept[int] = Kept(100)
    for number in range(100):
        assert kept.get((replace(SQUARE, length=number + 1.0),), partial(int, number)) == number
        gc.collect(0)
