"""Plans with a border of tiles and plans of random planks, through everything that a plan is asked for."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from msgspec import structs

from tests.rooms import L_SHAPED, PLAIN, SQUARE, layout_of, rectangle
from tilelayout.base.errors import LayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.cli.lay_json import as_json
from tilelayout.cli.lay_text import as_text
from tilelayout.job.edits.layouts import move_start
from tilelayout.job.files import write_job
from tilelayout.job.values import Border, Edge, EdgeRole, Job, Layout, RectangleTile, Surface
from tilelayout.layout.bordered import Bordered
from tilelayout.layout.row_ends import DrawnRows
from tilelayout.planning.alternatives import alternatives
from tilelayout.planning.draw_planks import (
    are_planks,
    drawn_again,
    drawn_for_its_room,
    drawn_words,
    for_the_room,
)
from tilelayout.planning.from_the_door import narrowest_from_the_door
from tilelayout.planning.offset_map import map_key, plan_at, worst_border
from tilelayout.planning.open_job import open_job
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.seek import Wish, seek
from tilelayout.planning.sensitivity import with_wall_moved

BAND = RectangleTile(id="band", length=297, width=97)
LONG = RectangleTile(id="long", length=1197, width=197)


def bordered_job(surface: Surface = PLAIN, **changes: object) -> Job:
    layout = structs.replace(layout_of(SQUARE), border=structs.replace(Border(tile="band"), **changes))
    return Job(surfaces=(surface,), tiles=(SQUARE, BAND), layouts=(layout,))


def planks_plan(**settings: object) -> Plan:
    layout = layout_of(LONG, "random_planks", **settings)
    return plan(Job(surfaces=(PLAIN,), tiles=(LONG,), layouts=(layout,)), "A")


def test_counts_of_field_and_border_add_up() -> None:
    made = plan(bordered_job(L_SHAPED), "A")
    pieces = list(made.laid.pieces())
    assert (made.whole, made.cut) == (sum(p.whole for p in pieces), sum(not p.whole for p in pieces))
    assert made.covered_area == pytest.approx(sum(piece.area for piece in pieces))
    field, border = made.by_tile
    assert (field.tile, border.tile) == (SQUARE, BAND)
    of_band = [piece for piece in pieces if piece.tile == BAND]
    assert (border.whole, border.cut) == (sum(p.whole for p in of_band), sum(not p.whole for p in of_band))
    assert border.needed_at_least >= sum(p.area for p in of_band) / (297 * 97) - 1e-6


def test_the_cut_list_has_every_cut_piece_once_with_its_tile_and_the_border_it_meets() -> None:
    made = plan(bordered_job(), "A")
    listed = sorted(piece.id for row in made.cut_rows for piece in row.pieces)
    assert listed == sorted(piece.id for piece in made.laid.cut)
    for row in made.cut_rows:
        assert len({piece.tile for piece in row.pieces}) == 1
        met = "mitre" if row.pieces[0].tile == BAND else "border"
        assert row.walls and all(wall.endswith(met) for wall in row.walls)


def test_text_and_json_show_the_pieces_of_the_border() -> None:
    made = plan(bordered_job(), "A")
    text, tree = as_text(bordered_job(), [made], []), json.loads(as_json([made]))["layouts"][0]
    assert "bottom wall mitre" in text and "bottom wall border" in text
    ids = [piece["id"] for piece in tree["pieces"]]
    assert isinstance(made.laid, Bordered)
    assert {f"b{at}" for at in range(1, 1 + len(made.laid.border.pieces))} <= set(ids)
    assert len(ids) == len(set(ids)) == tree["whole"] + tree["cut"]


def test_border_cuts_are_those_of_the_field_at_the_border() -> None:
    """2788 x 2188 of field from (0, 0): 194 left of the first joint, and so on, by hand."""
    cuts = {cut.edge: cut.usual for cut in plan(bordered_job(), "A").borders}
    assert cuts == pytest.approx({0: 297 - 106, 1: 2894 - 2700, 2: 2294 - 2100, 3: 297 - 106})


def test_a_moved_start_leaves_the_border_as_it_is() -> None:
    job = bordered_job()
    first, second = plan(job, "A").laid, plan(move_start(job, "A", (40.0, 70.0)), "A").laid
    assert isinstance(first, Bordered) and isinstance(second, Bordered)
    assert first.border is second.border
    assert first.cut_parts.areas.tolist() != second.cut_parts.areas.tolist()


def test_a_wall_that_moves_takes_its_strip_along() -> None:
    made = plan(bordered_job(), "A")
    moved = Plan(with_wall_moved(PLAIN, 1, 3.0), made.tile, made.layout, made.style, made.more)
    there = moved.field_region.shape.bounds
    assert there[2] == pytest.approx(2894 + 3)


def test_map_and_seek_know_the_field() -> None:
    job = bordered_job()
    made = plan(job, "A")
    assert worst_border(made) in {f"border {edge}" for edge in range(4)}
    assert map_key(made) == map_key(plan_at(made, (50.0, 60.0)))
    *_, last = seek(job, "floor", wish=Wish(most=1))
    found = plan(structs.replace(job, layouts=(last.found[0].layout,)), last.found[0].layout.id)
    assert found.narrowest == pytest.approx(last.found[0].narrowest)
    assert found.layout.border == job.layouts[0].border
    ends = {cut.edge: cut.usual for cut in found.borders}
    assert ends[0] == pytest.approx(ends[2], abs=0.01) and ends[1] == pytest.approx(ends[3], abs=0.01)


def test_the_border_is_what_is_seen_from_the_door() -> None:
    room = structs.replace(rectangle(3000, 2400), edges=(Edge(at=0, role=EdgeRole.DOORWAY),))
    seen = narrowest_from_the_door(plan(bordered_job(room), "A"))
    assert seen is not None and seen <= BAND.width


def test_drawing_again_takes_the_next_seed_and_forgets_the_room() -> None:
    layout = layout_of(LONG, "random_planks", seed=4, least_stagger=200.0, shifts=(0.0, 400.0))
    assert drawn_again(layout) == {"seed": 5, "least_stagger": 200.0}
    assert drawn_again(structs.replace(layout, settings={"seed": 999_999}))["seed"] == 1


def test_planks_drawn_for_the_room_are_a_layout_that_can_be_saved_and_laid() -> None:
    made = planks_plan(seed=2, least_stagger=200.0)
    assert are_planks(made)
    *_, drawn = for_the_room(made, made.layout, 250.0)
    assert isinstance(drawn, DrawnRows)
    job = Job(surfaces=(PLAIN,), tiles=(LONG,), layouts=(drawn.layout,))
    after = plan(job, "A")
    lengths = [float(np.ptp(piece.in_tile(piece.outline)[:, 0])) for piece in after.laid.cut]
    assert drawn.rows_short == 0 and min(lengths) >= 250.0 - 1e-6
    assert drawn_words(drawn, LengthStyle.MM) == "No row has a piece shorter than 250 mm."


def test_the_rows_that_miss_are_counted_in_words() -> None:
    layout = Layout(id="A", surface="floor", tile="long")
    assert drawn_words(DrawnRows(layout, 300.0, 18, 1), LengthStyle.MM).startswith("1 of 18 rows still has")
    assert drawn_words(DrawnRows(layout, 300.0, 18, 2), LengthStyle.MM).startswith("2 of 18 rows still have")


MIDDLE = RectangleTile(id="middle", length=897, width=197)


def mixed_job(surface: Surface = PLAIN, **settings: object) -> Job:
    layout = structs.replace(
        layout_of(LONG, "random_planks", seed=4, lengths=2, **settings), more_tiles={"plank-2": "middle"}
    )
    return Job(surfaces=(surface,), tiles=(LONG, MIDDLE), layouts=(layout,))


def shortest_end(made: Plan) -> float:
    return min(float(np.ptp(piece.in_tile(piece.outline)[:, 0])) for piece in made.laid.cut)


def test_mixed_planks_are_counted_by_length() -> None:
    made = plan(mixed_job(), "A")
    assert [count.tile for count in made.by_tile] == [LONG, MIDDLE]
    pieces = list(made.laid.pieces())
    for count, tile in zip(made.by_tile, (LONG, MIDDLE), strict=True):
        own = [piece for piece in pieces if piece.tile == count.tile]
        assert (count.whole, count.cut) == (sum(p.whole for p in own), sum(not p.whole for p in own))
        assert count.needed >= count.needed_at_least >= sum(p.area for p in own) / (tile.length * 197)
    document = json.loads(as_json([made]))["layouts"][0]
    assert document["whole"] + document["cut"] == len(pieces)


@pytest.mark.parametrize("job", [mixed_job(least_end=250.0), mixed_job(L_SHAPED, least_end="200 mm")])
def test_a_job_that_asks_for_a_least_end_is_drawn_when_it_is_opened(job: Job, tmp_path: Path) -> None:
    path = tmp_path / "planks.tilejob"
    write_job(job, path)
    opened = open_job(path)
    layout = opened.layouts[0]
    assert "shifts" in layout.settings and layout.settings["least_end"] in (250.0, 200.0)
    assert shortest_end(plan(opened, "A")) >= layout.settings["least_end"] - 1e-3
    assert open_job(path) == opened
    write_job(opened, path)
    assert open_job(path) == opened


def test_alternatives_keep_the_least_end_at_every_start_they_offer() -> None:
    layout = layout_of(LONG, "random_planks", seed=2, least_end=250.0)
    job = Job(surfaces=(PLAIN,), tiles=(LONG,), layouts=(layout,))
    *_, last = alternatives(job, "floor", None, Wish(most=3))
    assert len(last.found) > 1 and last.cannot == ()
    for one in last.found:
        made = plan(structs.replace(job, layouts=(one.layout,)), one.layout.id)
        assert shortest_end(made) >= 250.0 - 1e-3
        assert drawn_for_its_room(job, one.layout) == one.layout
        assert one.figures.narrowest == pytest.approx(made.narrowest)
        assert one.figures.tiles_needed == made.tiles_needed and one.narrowest_at_most is None


def test_seek_keeps_the_least_end_at_every_start_it_offers() -> None:
    layout = layout_of(LONG, "random_planks", seed=2, least_end=250.0)
    job = Job(surfaces=(PLAIN,), tiles=(LONG,), layouts=(layout,))
    *_, last = seek(job, "floor", wish=Wish(most=2))
    for found in last.found:
        made = plan(structs.replace(job, layouts=(found.layout,)), found.layout.id)
        assert shortest_end(made) >= 250.0 - 1e-3
        assert made.narrowest == pytest.approx(found.narrowest)
        assert found.narrowest_at_most is None


def test_what_cannot_be_drawn_is_left_to_the_plan_to_refuse(tmp_path: Path) -> None:
    path = tmp_path / "planks.tilejob"
    write_job(mixed_job(least_end=900.0), path)
    with pytest.raises(LayoutError, match="No piece can be 900 mm long where a plank is 897 mm"):
        _ = plan(open_job(path), "A").laid
    inches = structs.replace(mixed_job(least_end=990.6), show_lengths=LengthStyle.INCH)
    with pytest.raises(LayoutError, match=r'No piece can be 39" long where a plank is 35\.315"'):
        _ = plan(inches, "A").laid
