"""The story pole and the start lines, against the pieces themselves and against plain sums."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.planning.jobs import plan_of
from tests.rooms import CAST, HEXAGON, LAYINGS, PLANK, SQUARE, floor_of, layings, rectangle, starts
from tilelayout.geometry.rings import cross
from tilelayout.job.values import Edge, EdgeRole, Job, Layout, Point, Surface, Tile
from tilelayout.planning.fixed_walls import Axis, fixed_wall
from tilelayout.planning.joints import running_marks, start_lines
from tilelayout.planning.plan import Plan, plan


def plan_for(room: Surface, tile: Tile, layout: Layout) -> Plan:
    return plan(Job(surfaces=(room,), tiles=(tile,), layouts=(layout,)), "A")


def test_the_marks_of_a_grid_are_whole_pitches_from_the_wall() -> None:
    made = plan_of(rectangle(3000, 2400), start=(150.0, 6.0))
    along, up = running_marks(made, "x"), running_marks(made, "y")
    assert along is not None
    assert up is not None
    assert along.marks == pytest.approx([148.5 + 300 * n for n in range(10)])
    assert up.marks == pytest.approx([304.5 + 300 * n for n in range(7)])
    assert (along.zero, along.end, along.joint) == (0.0, 2994.0, 3.0)
    assert along.wall is not None
    assert along.wall.name == "left wall"


def test_marks_are_measured_from_the_wall_wherever_it_stands() -> None:
    room = floor_of((700, -200), (3700, -200), (3700, 2200), (700, 2200))
    marks = running_marks(plan_of(room, start=(850.0, -194.0)), "x")
    assert marks is not None
    assert marks.zero == 700
    assert marks.marks[:2] == pytest.approx([148.5, 448.5])


@pytest.mark.parametrize("offset", [1 / 3, 0.3333333333, 0.5, 0.123456])
def test_a_running_bond_has_marks_across_its_rows_only(offset: float) -> None:
    made = plan_of(rectangle(3000, 2400), PLANK, row_offsets=(0.0, offset))
    assert running_marks(made, "x") is None
    assert running_marks(made, "y") is not None


def test_a_bond_turned_by_a_right_angle_changes_the_axis() -> None:
    made = plan_of(rectangle(3000, 2400), PLANK, row_offsets=(0.0, 0.5), angle=90)
    assert running_marks(made, "y") is None
    assert running_marks(made, "x") is not None


@pytest.mark.parametrize(
    "keys",
    [
        {"tile": PLANK, "pattern": "herringbone"},
        {"tile": PLANK, "pattern": "herringbone", "angle": 45},
        {"tile": HEXAGON, "pattern": "hexagon"},
        {"tile": SQUARE, "angle": 45},
        {"tile": SQUARE, "angle": 0.2},
    ],
    ids=["herringbone", "herringbone 45", "hexagon", "diagonal", "a little askew"],
)
def test_patterns_without_straight_joints_along_a_wall_have_no_marks(keys: dict[str, Any]) -> None:
    made = plan_of(rectangle(3000, 2400), **keys)
    assert (running_marks(made, "x"), running_marks(made, "y")) == (None, None)


def straight_joints(made: Plan, axis: Axis) -> list[float]:
    """Return, from the pieces alone, the middles of what no face covers along an axis inside the region."""
    of = 0 if axis == "x" else 1
    spans = sorted(
        (float(piece.face[:, of].min()), float(piece.face[:, of].max())) for piece in made.laid.pieces()
    )
    middles, reached = [], spans[0][1]
    for low, high in spans:
        if low > reached + 1e-4:
            middles.append((low + reached) / 2)
        reached = max(reached, high)
    return middles


@pytest.mark.parametrize("room", ["plain", "L-shaped", "with holes"])
@pytest.mark.parametrize("laying", LAYINGS.values(), ids=LAYINGS.keys())
@pytest.mark.parametrize("turn", [0.0, 90.0])
def test_marks_are_where_no_tile_lies(room: str, laying: tuple[Tile, Layout], turn: float) -> None:
    tile, layout = laying
    made = plan_for(CAST[room], tile, replace(layout, start=(131.0, 77.0), angle=layout.angle + turn))
    for axis in ("x", "y"):
        marks = running_marks(made, axis)
        found = [] if marks is None else [marks.zero + mark for mark in marks.marks]
        of = 0 if axis == "x" else 1
        low, high = made.region.shape.bounds[of], made.region.shape.bounds[of + 2]
        assert [at for at in found if low + 2 < at < high - 2] == pytest.approx(
            [at for at in straight_joints(made, axis) if low + 2 < at < high - 2]
        )


def test_the_fixed_wall_is_a_wall_before_a_doorway_and_the_outermost_before_the_longest() -> None:
    room = floor_of(
        (0, 0), (2000, 0), (2000, 2400), (0, 2400), (0, 1500), (-100, 1500), (-100, 700), (0, 700),
        edges=(Edge(at=5, role=EdgeRole.DOORWAY),),
    )  # fmt: skip
    wall = fixed_wall(room, "x")
    assert wall is not None
    assert (wall.start[0], wall.end[0], abs(wall.start[1] - wall.end[1])) == (0, 0, 900)


def test_beside_a_wall_that_leans_away_no_mark_stands_before_the_end_of_the_pole() -> None:
    leaning = floor_of((0, 0), (3000, 0), (3000, 2000), (-160, 2000))
    marks = running_marks(plan_of(leaning, start=(150.0, 0.0)), "x")
    assert marks is not None
    assert marks.wall is not None
    assert marks.marks[0] > 0


def test_a_room_without_a_straight_wall_on_the_left_is_measured_from_its_outermost_point() -> None:
    diamond = floor_of((0, -2000), (2000, 0), (0, 2000), (-2000, 0))
    marks = running_marks(plan_of(diamond, gap=0), "x")
    assert marks is not None
    assert (marks.wall, marks.zero) == (None, -2000)


@settings(max_examples=60, deadline=None)
@given(layings(), starts(), st.sampled_from(sorted(CAST)))
def test_start_lines_lie_in_the_room_along_the_pattern_and_are_found_by_their_distances(
    laying: tuple[Tile, Layout], start: Point, name: str
) -> None:
    tile, layout = laying
    made = plan_for(CAST[name], tile, replace(layout, start=start))
    region = made.region.shape.buffer(1e-6)
    lines = start_lines(made)
    for line in lines:
        assert region.covers(shapely.LineString([line.start, line.end]))
        slope = math.degrees(math.atan2(line.end[1] - line.start[1], line.end[0] - line.start[0]))
        assert min((slope - layout.angle) % 90, (layout.angle - slope) % 90) == pytest.approx(0, abs=1e-6)
        for end, marks in ((line.start, line.at_start), (line.end, line.at_end)):
            assert marks
            for mark in marks:
                assert math.dist(end, mark.foot) == pytest.approx(mark.distance)
                along, away = (
                    np.subtract(mark.wall.end, mark.wall.start),
                    np.subtract(mark.foot, mark.wall.start),
                )
                assert abs(cross(along, away)) < 1e-6 * math.hypot(*along)


def test_a_line_along_a_wall_has_one_distance_and_the_same_at_both_ends() -> None:
    level, plumb = start_lines(plan_of(rectangle(3000, 2400), start=(1500.0, 900.0)))
    assert [mark.distance for mark in (*level.at_start, *level.at_end)] == [900, 900]
    assert [mark.distance for mark in (*plumb.at_start, *plumb.at_end)] == [1500, 1500]
    assert (level.start, level.end) == ((6, 900), (2994, 900))


def test_a_start_at_the_wall_is_moved_by_whole_tiles_to_where_a_line_can_be_snapped() -> None:
    level, plumb = start_lines(plan_of(rectangle(3000, 2400), start=(6.0, 6.0)))
    up, along = level.at_start[0].distance, plumb.at_start[0].distance
    assert 600 < up < 1800
    assert 900 < along < 2100
    assert ((up - 6) / 300, (along - 6) / 300) == pytest.approx(
        (round((up - 6) / 300), round((along - 6) / 300))
    )


def test_a_diagonal_line_is_found_by_its_distances_from_both_walls() -> None:
    rising, _ = start_lines(plan_of(rectangle(3000, 2400), start=(1500.0, 1200.0), angle=45))
    assert [mark.wall.name for mark in rising.at_start] == ["left wall", "bottom wall"]
    assert [mark.distance for mark in rising.at_end] == pytest.approx([2694, 2394])
