"""Edges are bent and straightened, corners are inserted, distances are measured."""

from __future__ import annotations

import pytest

from tests.drawing.play import L_ROOM, PX_PER_MM, Play, room
from tilelayout.drawing.bends import radius_for, rise_for, rise_of
from tilelayout.drawing.events import (
    Deleted,
    Entered,
    Escaped,
    Field,
    FieldStepped,
    PointerReleased,
    Typed,
)
from tilelayout.drawing.preview import SnapKind
from tilelayout.drawing.tools.bend_edge import bend_edge
from tilelayout.drawing.tools.insert_corner import insert_corner
from tilelayout.drawing.tools.measure_between import measure_between
from tilelayout.geometry.arcs import arc_through
from tilelayout.job.values import Edge, Job


def test_a_dragged_wall_becomes_an_arc_with_a_round_rise_in_one_step() -> None:
    play = Play(bend_edge, room())
    play.drag((1800.0, 2400.0), (1800.0, 2500.0), (1830.0, 2890.0))
    assert play.surface.edge(2).through == (1800.0, 2900.0)
    assert play.session.undo_label == "Bend wall 3"
    play.session.undo()
    assert not play.session.can_undo


def test_a_wall_dragged_inward_bends_inward_whichever_way_the_corners_run() -> None:
    for outline in (L_ROOM, tuple(reversed(L_ROOM))):
        play = Play(bend_edge, room(outline))
        at = next(k for k in range(6) if {outline[k], outline[(k + 1) % 6]} == {L_ROOM[0], L_ROOM[5]})
        play.drag((0.0, 1500.0), (100.0, 1500.0), (200.0, 1490.0))
        assert play.surface.edge(at).through == (200.0, 1500.0)
        assert rise_of(play.surface, at) == pytest.approx(-200.0)


def test_half_round_and_straight_are_snapped_to_and_named() -> None:
    play = Play(bend_edge, room())
    play.press(0, 1200)
    play.move(-1160, 1200)
    assert play.marked == "half round"
    assert play.surface.edge(3).through == (-1200.0, 1200.0)
    play.move(-30, 1200)
    assert play.marked == "straight"
    assert play.surface.edge(3).through is None


def test_a_typed_radius_gives_an_arc_of_that_radius() -> None:
    play = Play(bend_edge, room())
    play.click(0, 1200)
    play.send(Typed(Field.RADIUS, "1500"), Entered())
    a, b = play.surface.outline[3], play.surface.outline[0]
    through = play.surface.edge(3).through
    assert through is not None
    assert arc_through(a, through, b).radius == pytest.approx(1500.0)
    assert through[0] == pytest.approx(-600.0)


def test_a_typed_rise_gives_an_arc_of_that_rise() -> None:
    play = Play(bend_edge, room())
    play.click(0, 1200)
    play.send(Typed(Field.RISE, "-250"), Entered())
    assert play.surface.edge(3).through == (250.0, 1200.0)


def test_a_radius_too_small_for_the_wall_is_refused_with_the_least() -> None:
    play = Play(bend_edge, room())
    play.click(0, 1200)
    assert "1200 mm" in play.send(Typed(Field.RADIUS, "900"), Entered()).trouble
    assert not play.session.can_undo


def test_delete_makes_a_bent_wall_straight_and_keeps_what_else_it_is() -> None:
    play = Play(bend_edge, room(edges=(Edge(at=2, through=(1800.0, 2900.0), name="bay"),)))
    play.click(1800, 2900)
    play.send(Deleted())
    assert play.surface.edge(2) == Edge(at=2, name="bay")
    assert play.session.undo_label == "Straighten bay"


def test_esc_in_a_bend_gives_the_straight_wall_back() -> None:
    play = Play(bend_edge, room())
    before = play.session.job
    play.press(1800, 2400)
    play.move(1800, 2900)
    play.send(Escaped())
    assert play.session.job == before
    assert not play.session.can_undo


@pytest.mark.parametrize(("chord", "rise"), [(1000.0, 500.0), (2400.0, 100.0), (3000.0, 0.5)])
def test_rise_and_radius_are_each_other_s_inverse(chord: float, rise: float) -> None:
    """The radius from chord and rise, c^2 / 8h + h / 2, is the joiner's rule for a segmental arch."""
    assert radius_for(chord, rise) == pytest.approx(chord**2 / (8 * rise) + rise / 2)
    assert rise_for(chord, radius_for(chord, rise)) == pytest.approx(rise)


def test_a_corner_is_inserted_where_the_wall_is_clicked() -> None:
    play = Play(insert_corner, room())
    assert play.move(1210, 20).measures[0].text == "1200 mm"
    play.click(1210, 20)
    assert play.surface.outline[1] == (1200.0, 0.0)
    assert play.session.undo_label == "Add a corner to wall 1"


def test_a_corner_is_inserted_at_a_typed_distance_without_the_mouse() -> None:
    play = Play(insert_corner, room())
    play.send(FieldStepped(), FieldStepped())
    play.enter("812.5")
    assert play.surface.outline[2] == (3600.0, 812.5)


def test_the_middle_of_a_wall_and_the_line_of_another_corner_are_found() -> None:
    play = Play(insert_corner, room(L_ROOM))
    play.move(2030, 10)
    assert play.preview.marker is not None
    assert play.preview.marker.kind is SnapKind.MIDDLE
    play.move(1510, 10)
    assert play.marked.startswith("lined up with corner")
    play.click(1510, 10)
    assert play.surface.outline[1] == (1500.0, 0.0)


def test_a_corner_beyond_the_end_of_the_wall_is_refused() -> None:
    play = Play(insert_corner, room())
    play.send(FieldStepped())
    assert "between the two ends" in play.enter("4000").trouble
    assert not play.session.can_undo


def test_a_corner_on_an_arc_lies_on_the_arc() -> None:
    play = Play(insert_corner, room(edges=(Edge(at=2, through=(1800.0, 2900.0)),)))
    play.click(1800, 2905)
    assert play.surface.outline[3] == pytest.approx((1800.0, 2900.0), abs=0.05)


def test_the_distance_between_two_points_is_measured_with_its_legs() -> None:
    play = Play(measure_between, room())
    play.click(10, 10)
    play.click(3590, 2390)
    assert [measure.text for measure in play.preview.measures] == ["4326.7 mm", "3600 mm", "2400 mm"]
    assert "4326.7 mm" in play.preview.hint
    assert not play.session.can_undo


def test_a_distance_is_measured_by_typing_alone() -> None:
    play = Play(measure_between, room())
    for x, y in (("0", "0"), ("300", "400")):
        play.send(Typed(Field.X, x), Typed(Field.Y, y), Entered())
    assert play.preview.measures[0].text == "500 mm"


def test_esc_gives_measured_points_back_one_by_one() -> None:
    play = Play(measure_between, room())
    play.click(0, 0)
    play.click(3600, 2400)
    counts = []
    while not play.run.is_over:
        counts.append(len(play.preview.corners))
        play.send(Escaped())
    assert counts == [2, 1, 0]


def test_there_is_nothing_to_bend_without_a_surface() -> None:
    play = Play(bend_edge, Job())
    play.press(0, 0)
    play.send(PointerReleased((0.0, 0.0), PX_PER_MM), Deleted(), Entered())
    assert not play.session.can_undo
