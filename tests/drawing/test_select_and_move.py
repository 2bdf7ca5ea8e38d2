"""Things are chosen, moved, sized, inserted and deleted, each a step that undo takes back as one."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.drawing.play import L_ROOM, PX_PER_MM, Play, room
from tilelayout.drawing.events import (
    Chosen,
    Deleted,
    DoublePressed,
    Entered,
    Erased,
    Escaped,
    Field,
    FieldStepped,
    Inserted,
    Nudged,
    PointerReleased,
    Typed,
)
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.tools.select_and_move import select_and_move
from tilelayout.job.files import job_to_bytes
from tilelayout.job.values import Circle, Cutout, Edge, Job, Point


def corner(at: int) -> Pick:
    return Pick(PickKind.CORNER, "floor", at)


def edge(at: int) -> Pick:
    return Pick(PickKind.EDGE, "floor", at)


def cutout(at: int) -> Pick:
    return Pick(PickKind.CUTOUT, "floor", at)


DRAIN = Cutout(name="drain", circle=Circle(centre=(1210.0, 630.0), diameter=110.0), clearance=3.0)
POST = Cutout(name="post", polygon=((2010.0, 610.0), (2410.0, 610.0), (2410.0, 1010.0), (2010.0, 1010.0)))


def furnished() -> Job:
    job = room()
    return replace(job, surfaces=(replace(job.surfaces[0], cutouts=(DRAIN, POST)),))


def choosing(job: Job | None = None) -> Play:
    return Play(select_and_move, job or furnished())


@pytest.mark.parametrize(
    ("at", "pick"),
    [((30, -20), corner(0)), ((1800, 40), edge(0)), ((1220, 640), cutout(0)), ((2200, 800), cutout(1))],
)
def test_a_click_chooses_what_is_under_the_pointer(at: Point, pick: Pick) -> None:
    play = choosing()
    assert play.click(*at).chosen == (pick,)
    assert play.click(900, 1700).chosen == ()
    assert not play.session.can_undo


def test_the_grab_zone_of_a_corner_is_24_pixels_wide() -> None:
    play = choosing()
    reach = 12 / PX_PER_MM
    assert play.move(3600 - reach * 0.7, 2400 - reach * 0.7).under == corner(2)
    assert play.move(3600 - reach * 0.9, 2400 - reach * 0.9).under != corner(2)


def test_the_add_key_adds_and_takes_out_again() -> None:
    play = choosing()
    play.click(0, 0)
    assert play.click(3600, 2400, adds=True).chosen == (corner(0), corner(2))
    assert play.click(0, 0, adds=True).chosen == (corner(2),)


def test_two_chosen_things_show_their_distance() -> None:
    play = choosing()
    play.click(0, 0)
    preview = play.click(3600, 2400, adds=True)
    assert [measure.text for measure in preview.measures] == ["4326.7 mm"]


def test_a_box_on_empty_ground_chooses_what_stands_in_it() -> None:
    play = choosing()
    play.press(300, 2100)
    assert play.move(-200, 2600).selection_box == ((300, 2100), (-200, 2600))
    play.send(PointerReleased((3900.0, 300.0), PX_PER_MM))
    assert set(play.preview.chosen) == {cutout(0), cutout(1)}
    assert not play.session.can_undo


def test_a_dragged_corner_goes_exactly_to_the_snap_shown_and_undoes_as_one() -> None:
    play = choosing()
    before = job_to_bytes(play.session.job)
    play.press(3600, 2400)
    play.move(3700, 2500)
    preview = play.move(3911.0, 2988.0)
    assert preview.marker is not None
    shown = preview.marker.point
    play.send(PointerReleased((3911.0, 2988.0), PX_PER_MM))
    assert play.surface.outline[2] == shown
    assert play.session.undo_label == "Move corner 3"
    play.session.undo()
    assert job_to_bytes(play.session.job) == before
    assert not play.session.can_undo


def test_a_dragged_corner_snaps_square_to_the_walls_beside_it() -> None:
    play = choosing(room(((0.0, 0.0), (3000.0, 900.0), (2500.0, 3000.0), (0.0, 3000.0))))
    play.press(2500, 3000)
    play.move(2360, 3040)
    assert "square to wall 1" in play.marked


def test_esc_in_a_drag_puts_everything_back_and_leaves_no_step() -> None:
    play = choosing()
    before = play.session.job
    play.press(3600, 2400)
    play.move(4000, 2900)
    assert play.surface.outline[2] != (3600.0, 2400.0)
    play.send(Escaped())
    assert play.session.job == before
    assert not play.session.can_undo
    assert not play.run.is_over


def test_a_tool_dropped_in_a_drag_leaves_nothing_half_made() -> None:
    play = choosing()
    before = play.session.job
    play.press(3600, 2400)
    play.move(4000, 2900)
    play.run.end()
    assert play.run.is_over
    assert play.session.job == before
    assert not play.session.can_undo


def test_a_drag_that_ends_where_it_cannot_stay_is_put_back_with_the_reason() -> None:
    play = choosing(room(L_ROOM))
    before = play.session.job
    preview = play.drag((4000.0, 1500.0), (3000.0, 1600.0), (500.0, -900.0))
    assert preview.trouble
    assert play.session.job == before
    assert not play.session.can_undo


def test_undo_in_the_middle_of_a_drag_ends_the_drag() -> None:
    play = choosing()
    play.press(3600, 2400)
    play.move(4000, 2900)
    play.session.undo()
    play.move(4100, 2900)
    play.send(PointerReleased((4100.0, 2900.0), PX_PER_MM))
    assert play.surface.outline[2] == (3600.0, 2400.0)


def test_a_dragged_wall_stays_parallel_and_its_neighbours_keep_their_direction() -> None:
    play = choosing(room(((0.0, 0.0), (3000.0, 0.0), (4000.0, 2000.0), (0.0, 2000.0))))
    play.drag((1500.0, 2000.0), (1500.0, 2200.0), (1540.0, 2510.0))
    assert play.surface.outline == ((0.0, 0.0), (3000.0, 0.0), (4250.0, 2500.0), (0.0, 2500.0))
    assert play.session.undo_label == "Move wall 3"


def test_a_dragged_wall_comes_in_line_with_a_corner() -> None:
    play = choosing(room(L_ROOM))
    play.press(750, 3000)
    play.move(760, 1530)
    assert play.marked == "in line with corner 4"


def test_a_dragged_cutout_keeps_its_clearance_and_lands_on_the_snap() -> None:
    play = choosing()
    play.drag((1210.0, 630.0), (1500.0, 900.0), (1795.0, 1190.0))
    moved = play.surface.cutouts[0]
    assert moved.circle is not None
    assert moved.circle.centre == (1800.0, 1200.0)
    assert moved.clearance == 3.0
    assert play.session.undo_label == "Move drain"


def test_a_dragged_post_snaps_by_any_of_its_corners() -> None:
    play = choosing()
    play.drag((2200.0, 800.0), (2000.0, 900.0), (3370.0, 820.0))
    assert max(x for x, _ in play.surface.cutouts[1].polygon or ()) == pytest.approx(3600.0)


def test_several_things_move_together_as_one_step() -> None:
    play = choosing()
    play.click(3600, 0)
    play.click(3600, 2400, adds=True)
    play.drag((3600.0, 2400.0), (3700.0, 2400.0), (4000.0, 2400.0))
    assert play.surface.outline == ((0.0, 0.0), (4000.0, 0.0), (4000.0, 2400.0), (0.0, 2400.0))
    play.session.undo()
    assert not play.session.can_undo


def test_arrow_keys_nudge_by_a_millimetre_and_with_shift_by_ten_as_one_step() -> None:
    play = choosing()
    play.click(3600, 2400)
    play.send(Nudged(1, 0), Nudged(1, 0), Nudged(0, -1, big=True))
    assert play.surface.outline[2] == (3602.0, 2390.0)
    play.session.undo()
    assert play.surface.outline[2] == (3600.0, 2400.0)


def test_a_wall_is_nudged_only_square_to_itself() -> None:
    play = choosing()
    play.click(1800, 0)
    assert "square to itself" in play.send(Nudged(1, 0)).trouble
    play.send(Nudged(0, -1, big=True))
    assert play.surface.outline[:2] == ((0.0, -10.0), (3600.0, -10.0))


def test_the_place_of_a_corner_is_typed() -> None:
    play = choosing()
    play.click(3600, 2400)
    play.enter("3812.5")
    assert play.surface.outline[2] == (3812.5, 2400.0)
    assert play.session.undo_label == "Move corner 3"


def test_the_length_of_a_wall_is_typed_and_the_next_wall_moves_along() -> None:
    play = choosing()
    play.click(1700, 0)
    play.enter("4 m")
    assert play.surface.outline == ((0.0, 0.0), (4000.0, 0.0), (4000.0, 2400.0), (0.0, 2400.0))
    assert play.session.undo_label == "Set length of wall 1"


def test_a_drain_is_sized_by_typing() -> None:
    play = choosing()
    play.click(1210, 630)
    play.send(Typed(Field.DIAMETER, "75"), Typed(Field.X, "1000"), Entered())
    assert play.surface.cutouts[0].circle == Circle(centre=(1000.0, 630.0), diameter=75.0)


def test_a_post_is_sized_by_typing() -> None:
    play = choosing()
    play.click(2200, 800)
    play.send(Typed(Field.WIDTH, "100"), Entered())
    assert play.surface.cutouts[1].polygon == ((2010, 610), (2110, 610), (2110, 1010), (2010, 1010))


def test_a_wrong_size_changes_nothing_and_is_named() -> None:
    play = choosing()
    play.click(3600, 2400)
    assert "1,234,5" in play.enter("1,234,5").trouble
    assert not play.session.can_undo


def test_delete_takes_away_corners_and_cutouts_in_one_step() -> None:
    play = choosing(replace(room(L_ROOM), layouts=()))
    play.click(1500, 1500)
    play.click(1500, 3000, adds=True)
    play.send(Deleted())
    assert play.surface.outline == (L_ROOM[0], L_ROOM[1], L_ROOM[2], L_ROOM[5])
    assert play.preview.chosen == ()
    play.session.undo()
    assert not play.session.can_undo


def test_delete_of_too_many_corners_is_refused_and_changes_nothing() -> None:
    play = choosing(room(((0.0, 0.0), (3000.0, 0.0), (0.0, 3000.0))))
    play.click(0, 0)
    assert "three corners" in play.send(Deleted()).trouble
    assert len(play.surface.outline) == 3


def test_a_wall_cannot_be_deleted_and_the_reason_is_given() -> None:
    play = choosing()
    play.click(1800, 0)
    assert "one of its corners" in play.send(Deleted()).trouble
    assert not play.session.can_undo


def test_a_second_press_on_a_wall_adds_a_corner_there_and_chooses_it() -> None:
    play = choosing()
    play.click(1193, 12)
    play.send(DoublePressed((1193.0, 12.0), PX_PER_MM))
    assert play.surface.outline[1] == (1200.0, 0.0)
    assert play.preview.chosen == (corner(1),)


def test_the_insert_key_adds_a_corner_in_the_middle_of_the_chosen_wall() -> None:
    play = choosing()
    play.send(Chosen(edge(3)), Inserted())
    assert play.surface.outline[4] == (0.0, 1200.0)


def test_tab_goes_from_corner_to_wall_to_cutout_and_back_round() -> None:
    play = choosing()
    seen = []
    for _ in range(11):
        play.send(FieldStepped())
        seen.append(play.preview.chosen[0])
    assert seen[:3] == [corner(0), edge(0), corner(1)]
    assert seen[8:] == [cutout(0), cutout(1), corner(0)]
    assert play.send(FieldStepped(back=True)).chosen == (cutout(1),)


def test_esc_empties_the_box_then_lets_go_then_ends() -> None:
    play = choosing()
    play.click(3600, 2400)
    play.type("12")
    assert not any(box.is_typed for box in play.send(Escaped()).boxes)
    assert play.preview.chosen == (corner(2),)
    assert play.send(Escaped()).chosen == ()
    play.send(Escaped())
    assert play.run.is_over


def test_enter_goes_to_the_first_box_of_what_is_chosen() -> None:
    play = choosing()
    play.click(3600, 2400)
    assert [box.is_active for box in play.send(Entered()).boxes] == [True, False]
    assert [box.is_active for box in play.send(FieldStepped()).boxes] == [False, True]
    assert play.send(Erased()).chosen == (corner(2),)


def test_what_undo_took_away_is_no_longer_chosen() -> None:
    play = choosing()
    play.send(Chosen(edge(3)), Inserted())
    assert play.preview.chosen == (corner(4),)
    play.session.undo()
    assert play.move(500, 500).chosen == ()


def test_an_arc_goes_along_when_its_wall_is_dragged() -> None:
    play = choosing(room(edges=(Edge(at=2, through=(1800.0, 2900.0)),)))
    play.drag((1800.0, 2900.0), (1800.0, 3000.0), (1800.0, 3100.0))
    through = play.surface.edge(2).through
    assert play.surface.outline[2:] == ((3600.0, 2600.0), (0.0, 2600.0))
    assert through == pytest.approx((1800.0, 3100.0))
