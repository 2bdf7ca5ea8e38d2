"""Strips from the tile itself: how many one tile gives, how long they are, how they meet at corners."""

from __future__ import annotations

from math import floor
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rooms import HEXAGON, L_SHAPED, PLAIN, floor_of, rectangle
from tilelayout.base.errors import LayoutError
from tilelayout.geometry.rings import area
from tilelayout.job.ground import Trim
from tilelayout.job.kinds import TrimCorners, TrimKind
from tilelayout.job.values import Edge, EdgeRole, RectangleTile, Surface, SurfaceKind
from tilelayout.layout.trim import (
    LEFT,
    RIGHT,
    TOP,
    lengths_along,
    strips_of,
    strips_of_a_tile,
    tiles_for,
)
from tilelayout.layout.trim_runs import runs_of

TILE = RectangleTile(id="t", length=298, width=298, thickness=10)
MITRE = TrimCorners.MITRE


def trim(height: float = 75.0, **keys: Any) -> Trim:
    return Trim(tile="t", height=height, **keys)


def test_a_tile_of_298_mm_gives_three_strips_of_75_and_two_that_show_a_factory_edge() -> None:
    """published-checks A2 and the needs table: kerf 2.5, floor(300.5 / 77.5) = 3; factory edge out, 2."""
    sawn = strips_of_a_tile(TILE, trim(factory_edge_up=False), 2.5)
    assert (sawn.count, sawn.wants_factory_edges) == (3, False)
    shown = strips_of_a_tile(TILE, trim(), 2.5)
    assert (shown.count, shown.if_all_sawn, shown.wants_factory_edges) == (2, 3, True)


def test_strips_that_fill_the_tile_exactly_all_fit() -> None:
    """sum(w + k) <= W + k (published-checks A2): 4 x 73 + 3 x 2 = 298."""
    assert strips_of_a_tile(TILE, trim(73.0, factory_edge_up=False), 2.0).count == 4
    assert strips_of_a_tile(TILE, trim(73.001, factory_edge_up=False), 2.0).count == 3


@given(st.floats(6, 400), st.floats(60, 600), st.floats(0, 5))
def test_no_more_strips_than_the_width_holds(height: float, width: float, kerf: float) -> None:
    tile = RectangleTile(id="t", length=600, width=width)
    if height > width:
        with pytest.raises(LayoutError, match="No strip of"):
            strips_of_a_tile(tile, trim(height), kerf)
        return
    many = strips_of_a_tile(tile, trim(height, factory_edge_up=False), kerf).count
    assert many * height + (many - 1) * kerf <= width + 1e-3
    assert (many + 1) * height + many * kerf > width - 1e-3
    assert many == floor((width + kerf + 1e-6) / (height + kerf))


def test_a_face_with_a_direction_shows_only_one_of_its_edges() -> None:
    one_way = RectangleTile(id="t", length=298, width=298, directional=True)
    assert strips_of_a_tile(one_way, trim(), 2.5).count == 1


def test_strips_are_sawn_from_rectangles_only() -> None:
    with pytest.raises(LayoutError, match="not sawn from a tile of this shape"):
        strips_of_a_tile(HEXAGON, trim(), 2.0)


def test_runs_go_round_the_room_less_its_doorway() -> None:
    door = floor_of(
        (0, 0), (900, 0), (1700, 0), (3000, 0), (3000, 2400), (0, 2400),
        edges=(Edge(at=1, role=EdgeRole.DOORWAY),),
    )  # fmt: skip
    runs = runs_of(door, trim())
    assert sum(run.length for run in runs) == pytest.approx(2 * (3000 + 2400) - 800)
    assert [run.edges for run in runs] == [(0,), (2,), (3,), (4,), (5,)]
    assert [run.turns for run in runs][:2] == [(pytest.approx(90), 0.0), (0.0, pytest.approx(90))]


def test_edges_in_one_line_are_one_run_wherever_the_first_of_them_is() -> None:
    room = floor_of((1000, 0), (3000, 0), (3000, 2400), (0, 2400), (0, 0))
    assert [run.edges for run in runs_of(room, trim())] == [(4, 0), (1,), (2,), (3,)]
    assert runs_of(room, trim())[0].length == pytest.approx(3000)


def test_a_room_drawn_the_other_way_round_has_the_same_runs() -> None:
    other = Surface(id="floor", outline=L_SHAPED.outline[::-1])
    both = [sorted(run.length for run in runs_of(each, trim())) for each in (L_SHAPED, other)]
    assert both[0] == pytest.approx(both[1])
    turns = [sorted(round(run.turns[0]) for run in runs_of(each, trim())) for each in (L_SHAPED, other)]
    assert turns[0] == turns[1] == [-90, 90, 90, 90, 90, 90]


def test_only_the_edges_named_are_trimmed() -> None:
    assert [run.edges for run in runs_of(PLAIN, trim(edges=(2,)))] == [(2,)]
    assert runs_of(PLAIN, trim(edges=(2,)))[0].turns == (0.0, 0.0)


@given(st.floats(1, 9000), st.floats(50, 900), st.floats(0, 10))
def test_strips_and_joints_add_up_to_the_run(reach: float, longest: float, joint: float) -> None:
    lengths = lengths_along(reach, longest, joint)
    assert sum(lengths) + joint * (len(lengths) - 1) == pytest.approx(reach)
    assert max(lengths) <= longest + 1e-6
    assert len(lengths) == 1 or min(lengths) >= longest / 3 - 1e-6
    assert all(length == longest for length in lengths[1:-1])


def along(strips: Any, edge: int) -> float:
    """Return what the strips along an edge reach, joints of 2 mm included."""
    found = [strip for strip in strips if strip.edges == (edge,)]
    return float(sum(strip.length for strip in found) + 2.0 * (len(found) - 1))


def test_butt_ends_take_thickness_and_joint_off_the_second_of_two_bases() -> None:
    made = strips_of(PLAIN, trim(), TILE, 2.0)
    assert [along(made, edge) for edge in range(4)] == pytest.approx([2988, 2388, 2988, 2388])
    open_room = floor_of(*PLAIN.outline, edges=(Edge(at=3, role=EdgeRole.OPEN),))
    made = strips_of(open_room, trim(), TILE, 2.0)
    assert [along(made, edge) for edge in range(3)] == pytest.approx([3000, 2388, 2988])


def test_mitred_bases_reach_into_inside_corners_and_past_outside_ones() -> None:
    made = strips_of(L_SHAPED, trim(corners=MITRE), TILE, 2.0)
    assert [along(made, edge) for edge in range(6)] == pytest.approx([3600, 1500, 1910, 1610, 1700, 3100])
    ends = [strip.bevels for strip in made if strip.edges == (2,)]
    assert ends[0][0] == pytest.approx(45)
    assert ends[-1][1] == pytest.approx(-45)


def test_a_flat_frame_is_mitred_across_its_face() -> None:
    """A frame 75 wide inside 3000 x 2400 covers 2 * 75 * (3000 + 2400 - 150), less the joints' share."""
    face = Surface(id="floor", kind=SurfaceKind.WALL, outline=PLAIN.outline)
    made = strips_of(face, trim(kind=TrimKind.RETURN, corners=MITRE), TILE, 0.0)
    assert sum(area(strip.outline) for strip in made) == pytest.approx(2 * 75 * (3000 + 2400 - 150))
    assert all(strip.bevels == (0.0, 0.0) for strip in made)


def test_a_flat_frame_round_an_outside_corner_gains_what_an_inside_one_loses() -> None:
    face = Surface(id="floor", kind=SurfaceKind.WALL, outline=L_SHAPED.outline)
    made = strips_of(face, trim(kind=TrimKind.RETURN, corners=MITRE), TILE, 0.0)
    outline = 2 * (3600 + 3100)
    assert sum(area(strip.outline) for strip in made) == pytest.approx(75 * (outline - 4 * 75))


def test_ends_at_a_joint_are_factory_ends_and_ends_at_a_corner_are_sawn() -> None:
    first, *middle, last = strips_of(PLAIN, trim(edges=(0,)), TILE, 2.0)
    assert first.factory_sides == {TOP, RIGHT}
    assert last.factory_sides == {TOP, LEFT}
    assert all(strip.factory_sides == {TOP, LEFT, RIGHT} for strip in middle)
    assert all(strip.length == 298 for strip in middle)
    sawn = strips_of(PLAIN, trim(edges=(0,), factory_edge_up=False), TILE, 2.0)
    assert sawn[0].factory_sides == {RIGHT}


def test_strips_are_counter_clockwise_outlines_of_their_height() -> None:
    for strip in strips_of(L_SHAPED, trim(corners=MITRE), TILE, 2.0):
        assert area(strip.outline) == pytest.approx(strip.length * 75)


def test_a_jamb_too_short_for_a_strip_has_none() -> None:
    assert strips_of(rectangle(5, 2000), trim(edges=(0, 1)), TILE, 2.0)[0].edges == (0,)
    deep = RectangleTile(id="t", length=298, width=298, thickness=20)
    jamb = strips_of(rectangle(5, 2000), trim(edges=(1, 2)), deep, 2.0)
    assert {strip.edges for strip in jamb} == {(1,)}


def test_tiles_for_a_plain_room() -> None:
    """Counted by hand: 10 strips of 298 and 9 joints of 2 are 2998; two, or three if sawn, to a tile."""
    made = strips_of(rectangle(2998, 2400), trim(edges=(0,)), TILE, 2.0)
    assert [strip.length for strip in made] == [298] * 10
    assert tiles_for(made, TILE, trim(), 2.5) == 5
    assert tiles_for(made, TILE, trim(factory_edge_up=False), 2.5) == 4


def test_a_left_and_a_right_end_share_a_row_and_two_left_ends_do_not() -> None:
    """A left-joined and a right-joined strip of half a tile lie in one row of it."""
    room = rectangle(448, 448)
    pair = strips_of(room, trim(edges=(0,)), TILE, 2.0)
    assert [strip.length for strip in pair] == [298, 148]
    two_left = tuple(
        strip for edge in (0, 2) for strip in strips_of(room, trim(edges=(edge,)), TILE, 2.0)[1:]
    )
    assert all(strip.factory_sides == {TOP, LEFT} for strip in two_left)
    assert tiles_for(two_left, TILE, trim(), 2.0) == 1  # two rows of one tile
    assert tiles_for(two_left * 2, TILE, trim(), 2.0) == 2
    sawn = trim(factory_edge_up=False)
    turnable = tuple(
        strip
        for edge in (0, 2)
        for strip in strips_of(room, trim(edges=(edge,), factory_edge_up=False), TILE, 2.0)[1:]
    )
    assert tiles_for(turnable * 3, TILE, sawn, 2.0) == 1  # three rows of two
