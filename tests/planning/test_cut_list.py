"""The cut list: what shares a row, what never does, and sizes that always fit the room."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.planning.jobs import plan_of
from tests.rooms import HEXAGON, PLANK, SQUARE, floor_of, layings, rectangle, rooms, starts
from tilelayout.base.units import LengthStyle, cut_size
from tilelayout.geometry.turns import turning
from tilelayout.job.values import HexagonTile, Job, Layout, Point, Surface, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.tile_turns import tile_turns
from tilelayout.layout.values import CutKind, Piece
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.plan import Plan, plan

DIRECTED = msgspec.structs.replace(PLANK, directional=True)


def kinds(row: CutRow) -> tuple[str, ...]:
    return tuple(cut.kind.value for cut in row.cuts)


def test_pieces_at_opposite_walls_share_a_row_if_the_tile_may_be_turned() -> None:
    room = rectangle(197 + 3 + 597 + 3 + 197, 297)
    made = plan_of(room, PLANK, gap=0, start=(-400.0, 0.0))
    (row,) = made.cut_rows
    assert ([piece.id for piece in row.pieces], row.walls) == (["A1", "A3"], ("left wall", "right wall"))


def test_a_tile_with_a_direction_is_not_turned_for_the_opposite_wall() -> None:
    room = rectangle(197 + 3 + 597 + 3 + 197, 297)
    made = plan_of(room, DIRECTED, gap=0, start=(-400.0, 0.0))
    assert [[piece.id for piece in row.pieces] for row in made.cut_rows] == [["A1"], ["A3"]]


def test_the_four_corners_of_a_room_are_one_row_for_a_square_tile_and_two_for_a_plank() -> None:
    square = plan_of(rectangle(297 + 2 * 103, 297 + 2 * 103), SQUARE, gap=0, start=(103.0, 103.0))
    assert [row.count for row in square.cut_rows] == [4, 4]
    plank = plan_of(rectangle(597 + 2 * 103, 297 + 2 * 103), PLANK, gap=0, start=(103.0, 103.0))
    assert [(kinds(row), row.count) for row in plank.cut_rows] == [
        (("rip",), 2), (("cross cut",), 2), (("rip", "cross cut"), 2), (("rip", "cross cut"), 2),
    ]  # fmt: skip


def test_opposite_corners_of_a_directional_tile_are_four_rows() -> None:
    made = plan_of(rectangle(597 + 2 * 103, 297 + 2 * 103), DIRECTED, gap=0, start=(103.0, 103.0))
    assert [row.count for row in made.cut_rows] == [1] * 8


def test_mirror_images_never_share_a_row() -> None:
    room = floor_of((0, 0), (597, 0), (497, 297), (100, 297))
    made = plan_of(room, SQUARE, gap=0)
    assert sorted([piece.id for piece in row.pieces] for row in made.cut_rows) == [["A1"], ["A2"]]


def test_an_oblique_piece_turned_half_round_is_the_same_piece() -> None:
    room = floor_of((0, 0), (597, 0), (497, 297), (-100, 297))
    made = plan_of(room, SQUARE, gap=0, start=(100.0, 0.0))
    assert [[piece.id for piece in row.pieces] for row in made.cut_rows] == [["A1", "A3"]]


def test_two_legs_a_millimetre_apart_are_no_excuse_to_take_a_mirror_image() -> None:
    room = floor_of((0, 60), (61, 0), (597 - 61, 0), (597, 60), (597, 297), (0, 297))
    made = plan_of(room, SQUARE, gap=0)
    assert [row.count for row in made.cut_rows] == [1, 1]


def test_rows_are_numbered_by_kind_with_the_largest_size_first() -> None:
    made = plan_of(floor_of((0, 0), (1000, 0), (1000, 640), (560, 640), (560, 940), (0, 940)), SQUARE, gap=0)
    assert [row.number for row in made.cut_rows] == list(range(1, len(made.cut_rows) + 1))
    single = [
        (list(CutKind).index(row.cuts[0].kind), -row.cuts[0].sizes[0])
        for row in made.cut_rows
        if len(row.cuts) == 1
    ]
    assert single == sorted(single)
    assert [len(row.cuts) for row in made.cut_rows] == sorted(len(row.cuts) for row in made.cut_rows)


def test_sizes_that_are_one_mark_on_the_saw_share_a_row() -> None:
    room = floor_of((0, 0), (420.9, 0), (420.9, 298.5), (420.2, 298.5), (420.2, 597), (0, 597))
    assert [row.count for row in plan_of(room, SQUARE, gap=0).cut_rows] == [2]
    finer = floor_of((0, 0), (420.9, 0), (420.9, 298.5), (419.9, 298.5), (419.9, 597), (0, 597))
    assert [row.count for row in plan_of(finer, SQUARE, gap=0).cut_rows] == [1, 1]


def test_opposite_cuts_that_fall_on_a_mark_of_the_saw_share_a_row() -> None:
    """7 11/16 in at both walls of a hexagon floor: rounding of doubles must not part what is one size."""
    tile = HexagonTile(id="hex", across_flats=7.875 * 25.4)
    keys: dict[str, Any] = {"pattern": "hexagon", "joint": 3.175, "gap": 6.35, "start": (32 * 25.4, 300.0)}
    made = plan_of(rectangle(64 * 25.4, 1000), tile, LengthStyle.INCH, **keys)
    row = next(
        row
        for row in made.cut_rows
        if row.words[0].startswith('cross cut to 7 11/16"') and len(row.cuts) == 1
    )
    assert row.walls == ("left wall", "right wall")


def test_a_sliver_marks_its_row() -> None:
    made = plan_of(rectangle(297 + 3 + 30, 297), SQUARE, gap=0)
    assert [(row.is_sliver, row.size) for row in made.cut_rows] == [(True, "30 mm x 297 mm")]


@given(
    st.floats(400, 4000),
    st.floats(0, 597),
    st.sampled_from([LengthStyle.MM, LengthStyle.INCH]),
    st.sampled_from([0.0, 6.0]),
)
@settings(max_examples=80, deadline=None)
def test_the_sizes_on_the_list_never_add_up_to_more_than_the_room(
    width: float, start: float, style: LengthStyle, gap: float
) -> None:
    made = plan_of(rectangle(width, 297 + 2 * gap), PLANK, style, gap=gap, start=(start, gap))
    sawn = [
        597 - sum(597 - cut_size(cut.sizes[0], style) for cut in row.cuts)
        for row in made.cut_rows
        for _ in row.pieces
    ]
    total = sum(sawn) + 597 * made.whole + 3 * (made.whole + made.cut - 1)
    assert total <= width - 2 * gap + 1e-5


def apart(one: Piece, other: Piece, tile: Tile) -> float:
    """Return how far two pieces are apart at least, in their tile, over all turns of the tile onto itself."""
    middle = tile_outline(tile).max(axis=0) / 2
    first = shapely.Polygon(one.in_tile(one.outline) - middle)
    rings = (((other.in_tile(other.outline) - middle) @ turning(turn)) for turn in tile_turns(tile))
    return min(float(first.exterior.hausdorff_distance(shapely.Polygon(ring).exterior)) for ring in rings)


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), starts(), st.sampled_from([LengthStyle.MM, LengthStyle.INCH]))
def test_every_cut_piece_is_in_one_row_with_pieces_of_its_shape(
    room: Surface, laying: tuple[Tile, Layout], start: Point, style: LengthStyle
) -> None:
    tile, layout = laying
    job = Job(show_lengths=style, surfaces=(room,), tiles=(tile,), layouts=(replace(layout, start=start),))
    made = plan(job, "A")
    listed = [piece.id for row in made.cut_rows for piece in row.pieces]
    assert sorted(listed) == sorted(piece.id for piece in made.laid.cut)
    for row in made.cut_rows:
        assert all(apart(row.pieces[0], piece, tile) < 4.0 for piece in row.pieces[1:])


@pytest.mark.parametrize(
    ("tile", "turns"),
    [
        (PLANK, (0, 180)),
        (SQUARE, (0, 90, 180, 270)),
        (HEXAGON, (0, 60, 120, 180, 240, 300)),
        (DIRECTED, (0,)),
    ],
    ids=["plank", "square", "hexagon", "directional"],
)
def test_a_tile_is_turned_only_onto_itself(tile: Tile, turns: tuple[int, ...]) -> None:
    assert tile_turns(tile) == turns
    middle = tile_outline(tile).max(axis=0) / 2
    shape = shapely.Polygon(tile_outline(tile) - middle)
    for turn in turns:
        assert (
            shape.symmetric_difference(shapely.Polygon((tile_outline(tile) - middle) @ turning(turn))).area
            < 1e-6
        )


def test_turned_room_makes_the_same_list() -> None:
    room = floor_of((0, 0), (2000, 0), (2000, 1100), (900, 1100), (900, 1700), (0, 1700))
    turned = floor_of(*((-y, x) for x, y in room.outline))
    one = plan_of(room, SQUARE, start=(40.0, 70.0))
    other = plan_of(turned, SQUARE, start=(-70.0, 40.0), angle=90)
    assert listed(one) == listed(other)


def listed(made: Plan) -> list[tuple[int, tuple[str, ...]]]:
    return sorted((row.count, row.words) for row in made.cut_rows)
