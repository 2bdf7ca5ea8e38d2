"""The whole job as one stock: floor, wall and trim share tiles; what is missing, and what makes it fit."""

from __future__ import annotations

import itertools
from math import ceil

import pytest
from msgspec.structs import replace
from shapely import Polygon

from tests.offcuts.checked import check_tile
from tests.rooms import SQUARE, layout_of, rectangle
from tilelayout.job.ground import Trim
from tilelayout.job.kinds import TrimCorners
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.values import Job, Layout, RectangleTile, Saw, Surface, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.trim import strips_of, strips_of_a_tile, tiles_for
from tilelayout.layout.trim_pieces import strip_pieces
from tilelayout.layout.values import Piece
from tilelayout.offcuts.sharing import share
from tilelayout.planning.job_plan import JobPlan, job_plan, layouts_to_lay
from tilelayout.planning.make_it_fit import changes_to_try, make_it_fit
from tilelayout.planning.plan import plan
from tilelayout.planning.shortage import shortages

BASE = Trim(tile=SQUARE.id, height=75.0)


def surface(id: str, length: float, width: float, *trims: Trim) -> Surface:
    made: Surface = replace(rectangle(length, width), id=id, trims=trims)
    return made


def job_of(*surfaces: Surface, tile: Tile = SQUARE, start: tuple[float, float] = (131.0, 77.0)) -> Job:
    layouts = tuple(
        replace(layout_of(tile, start=start), id=letter, surface=each.id)
        for letter, each in zip("ABCD", surfaces, strict=False)
    )
    return Job(surfaces=surfaces, tiles=(tile,), layouts=layouts)


def every_piece(made: JobPlan) -> dict[tuple[str, str], Piece]:
    pieces: list[tuple[str, Piece]] = [
        (one.layout.id, piece) for one in made.plans for piece in (*one.laid.cut, *made.strips[one.layout.id])
    ]
    found = {(layout, piece.id): piece for layout, piece in pieces}
    assert len(found) == len(pieces)
    return found


def check_job(made: JobPlan) -> None:
    """Every piece of every surface and every strip once, by the rules of sharing, judged from outside."""
    pieces = every_piece(made)
    sawn = [(one.layout, one.piece) for tile in made.sharing.opened for one in tile.pieces]
    assert sorted(sawn) == sorted(pieces)
    for tile in made.sharing.opened:
        own = {one.piece: pieces[one.layout, one.piece] for one in tile.pieces}
        if len(own) == len(tile.pieces):
            check_tile(tile, own, made.job.saw)
    opened = [tile for tile in made.sharing.opened if not tile.is_on_hand]
    assert made.tiles_needed == sum(one.whole for one in made.plans) + len(opened)
    assert made.tiles_needed_at_least <= made.tiles_needed <= made.apart


def test_floor_wall_and_trim_are_one_stock() -> None:
    made = job_plan(job_of(surface("floor", 1500, 1240, BASE), surface("wall", 1500, 700)))
    check_job(made)
    assert made.tiles_needed < made.apart
    assert made.sharing.is_fewest
    assert [one.needed for one in made.by_tile] == [made.tiles_needed]
    mixed = [{one.layout for one in tile.pieces} for tile in made.sharing.opened]
    assert {"A", "B"} in mixed
    assert f"each surface by itself would take {made.apart}" in made.words


def test_of_each_surface_the_first_layout_counts() -> None:
    job = job_of(surface("floor", 1500, 1240), surface("wall", 1500, 700))
    other: Layout = replace(job.layouts[0], id="Z", start=(0.0, 0.0))
    job = replace(job, layouts=(*job.layouts[1:], other, job.layouts[0]))
    assert [layout.id for layout in layouts_to_lay(job)] == ["Z", "B"]


def test_no_surface_gains_by_another_being_laid_by_itself() -> None:
    """The law of one stock: together never takes more than the sum, and never less than the larger bound."""
    for sizes in itertools.combinations([(900, 1240), (1500, 640), (777, 777)], 2):
        made = job_plan(job_of(*(surface(f"s{at}", *size) for at, size in enumerate(sizes))))
        each = [one.tiles_needed_at_least for one in made.plans]
        assert max(each) <= made.tiles_needed <= sum(one.tiles_needed for one in made.plans)


@pytest.mark.parametrize(("height", "is_up"), [(75.0, True), (140.0, True), (140.0, False), (200.0, False)])
@pytest.mark.parametrize("corners", list(TrimCorners))
def test_strips_alone_take_no_more_tiles_than_counted_row_by_row(
    height: float, is_up: bool, corners: TrimCorners
) -> None:
    trim = replace(BASE, height=height, factory_edge_up=is_up, corners=corners)
    room, saw = surface("floor", 2300, 1240, trim), Saw(kerf=2.5)
    strips = strips_of(room, trim, SQUARE, 3.0)
    pieces = {piece.id: piece for piece in strip_pieces(strips, SQUARE, "base")}
    found = share({"A": tuple(pieces.values())}, {}, saw)
    for tile in found.opened:
        check_tile(tile, pieces, saw)
    assert found.tiles_needed_at_least <= tiles_for(strips, SQUARE, trim, saw.kerf)
    full = sum(strip.length > SQUARE.length - 1 for strip in strips)
    assert found.tiles_needed >= ceil(full / strips_of_a_tile(SQUARE, trim, saw.kerf).if_all_sawn)


@pytest.mark.parametrize("size", [(600.0, 300.0), (300.0, 600.0)])
def test_a_strip_lies_at_the_factory_edges_that_it_shows(size: tuple[float, float]) -> None:
    tile = RectangleTile(id=SQUARE.id, length=size[0], width=size[1])
    outline = Polygon(tile_outline(tile))
    strips = strips_of(surface("floor", 2300, 1240, BASE), BASE, tile, 3.0)
    for strip, piece in zip(strips, strip_pieces(strips, tile, "base"), strict=True):
        ring = Polygon(piece.outline)
        assert outline.buffer(1e-6).covers(ring) and ring.exterior.is_ccw
        assert ring.area == pytest.approx(strip.length * 75.0)
        on_edge = ring.boundary.intersection(outline.boundary.buffer(1e-6)).length
        ends = 2 if strip.length > 599.9 else len(strip.factory_sides) - 1
        assert on_edge == pytest.approx(strip.length + 75.0 * ends, abs=0.01)


def with_stock(job: Job, **stock: object) -> Job:
    return replace(job, tiles=tuple(replace(tile, **stock) for tile in job.tiles))


def test_what_is_missing_is_named_piece_by_piece() -> None:
    job = job_of(surface("floor", 1500, 1240))
    needed = plan(job, "A").tiles_needed
    short = with_stock(job, whole_on_hand=needed - 2)
    (missing,) = shortages(plan(short, "A"))
    assert (missing.short, missing.whole, len(missing.pieces)) == (2, 0, 2)
    words = missing.words(job.show_lengths)
    assert words.startswith(f"2 tiles of {SQUARE.title} short ({needed - 2} on hand): ")
    assert all(piece.piece in words for piece in missing.pieces)
    assert shortages(plan(with_stock(job, whole_on_hand=needed), "A")) == ()
    assert shortages(plan(job, "A")) == ()


def test_with_nothing_whole_on_hand_all_that_is_opened_and_laid_is_missing() -> None:
    job = job_of(surface("floor", 1500, 1240))
    offcut = OffcutOnHand(length=20, width=20)
    (missing,) = shortages(plan(with_stock(job, offcuts=(offcut,)), "A"))
    made = plan(job, "A")
    assert missing.short == made.tiles_needed
    assert missing.whole == made.whole


def test_offcuts_on_hand_serve_the_whole_job() -> None:
    job = job_of(surface("floor", 1500, 1240, BASE), surface("wall", 1500, 700))
    strip = OffcutOnHand(
        length=297, width=76, factory=(TileSide.LEFT, TileSide.RIGHT, TileSide.UPPER), count=6
    )
    made = job_plan(with_stock(job, offcuts=(strip,)))
    check_job(made)
    assert made.sharing.offcuts_used == 6
    assert made.tiles_needed < job_plan(job).tiles_needed


def test_what_makes_it_fit_was_tried() -> None:
    """Every change that is said to fit is planned again here, by itself, and does."""
    job = job_of(surface("floor", 1820, 1840), start=(161.0, 150.0))
    short = with_stock(job, whole_on_hand=plan(job, "A").tiles_needed - 1)
    steps = list(make_it_fit(short, "A"))
    done = [step.done for step in steps]
    assert done == sorted(done) and done[-1] == 1.0
    last = steps[-1]
    assert last.fits
    for fit in last.tried:
        planned = plan(replace(short, layouts=(fit.layout,)), "A")
        assert planned.tiles_needed == fit.tiles_needed
        assert sum(each.short for each in shortages(planned)) == fit.short
        assert fit.layout.id == "A" and fit.layout != short.layout("A")


def test_where_nothing_fits_the_nearest_is_known() -> None:
    job = with_stock(job_of(surface("floor", 700, 640)), whole_on_hand=1)
    last = list(make_it_fit(job, "A"))[-1]
    assert not last.fits
    assert last.nearest is not None and last.nearest.short == min(fit.short for fit in last.tried)


def test_the_changes_go_from_the_least_on() -> None:
    job = job_of(surface("floor", 700, 640))
    other = RectangleTile(id="band", length=200, width=100, whole_on_hand=40)
    job = replace(job, tiles=(*job.tiles, other))
    words = [change.words for change in changes_to_try(job, job.layout("A"))]
    assert words[0] == "another start"
    assert words[1:4] == ["a joint of 4 mm", "a joint of 2 mm", "a joint of 5 mm"]
    assert words[-1] == "a border of band"
    assert len(set(words)) == len(words)


def test_in_the_whole_job_a_change_fits_only_with_all_that_is_laid() -> None:
    """Enough for the floor alone is too little with the wall: what is said to fit is counted over both."""
    job = job_of(surface("floor", 1820, 1840), surface("wall", 1500, 700), start=(161.0, 150.0))
    short = with_stock(job, whole_on_hand=job_plan(job).tiles_needed - 1)
    assert shortages(plan(short, "A")) == () and job_plan(short).shortages
    last = list(make_it_fit(short, "A", in_whole_job=True))[-1]
    assert last.tried
    for fit in last.tried:
        whole = job_plan(replace(short, layouts=(fit.layout, short.layout("B"))))
        missing = sum(each.short for each in whole.shortages)
        assert (whole.tiles_needed, missing) == (fit.tiles_needed, fit.short)
    assert last.nearest is not None
    assert last.nearest.sentence.startswith(("Fits with ", "1 tile short with "))
