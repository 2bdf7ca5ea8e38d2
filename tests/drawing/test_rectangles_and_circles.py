"""Plain rooms and cutouts are drawn by clicking, by dragging, or by typing alone."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.drawing.play import PX_PER_MM, Play, room
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.events import Entered, Escaped, Field, FieldStepped, PointerReleased, Typed
from tilelayout.drawing.tools.add_round_cutout import add_round_cutout
from tilelayout.drawing.tools.draw_rectangle import add_rect_cutout, draw_rectangle
from tilelayout.job.values import Circle, Job


def test_a_plain_room_is_made_from_typed_width_and_height_alone() -> None:
    play = Play(draw_rectangle)
    play.type("12'")
    play.send(FieldStepped())
    play.enter("8'")
    assert play.run.is_over
    assert play.surface.outline == ((0.0, 0.0), (3657.6, 0.0), (3657.6, 2438.4), (0.0, 2438.4))


def test_a_plain_room_is_drawn_with_two_clicks() -> None:
    play = Play(draw_rectangle, Job())
    play.click(2407, 1795)
    play.click(-612, 38)
    assert play.surface.outline == ((-600.0, 50.0), (2400.0, 50.0), (2400.0, 1800.0), (-600.0, 1800.0))


def test_a_plain_room_is_drawn_with_one_drag() -> None:
    play = Play(draw_rectangle, Job())
    play.drag((0.0, 0.0), (1000.0, 700.0), (3000.0, 2000.0))
    assert play.surface.outline[2] == (3000.0, 2000.0)


def test_a_typed_width_leaves_the_height_to_the_pointer() -> None:
    play = Play(draw_rectangle, Job())
    play.click(0, 0)
    play.move(-400, 1490)
    play.enter("1234")
    assert play.surface.outline == ((-1234.0, 0.0), (0.0, 0.0), (0.0, 1500.0), (-1234.0, 1500.0))


def test_a_rectangle_without_height_is_refused() -> None:
    play = Play(draw_rectangle, Job())
    play.click(0, 0)
    assert "width and a height" in play.click(1000, 0).trouble
    assert not play.session.can_undo


def test_esc_gives_back_the_first_corner_then_ends() -> None:
    play = Play(draw_rectangle, Job())
    play.click(0, 0)
    seen = []
    while not play.run.is_over:
        seen.append(len(play.preview.corners))
        play.send(Escaped())
    assert seen == [1, 0]


def test_a_rectangle_is_cut_out_where_it_is_typed_from_left_and_bottom() -> None:
    play = Play(add_rect_cutout, room(((500.0, 500.0), (3500.0, 500.0), (3500.0, 2500.0), (500.0, 2500.0))))
    play.send(Typed(Field.X, "200"), Typed(Field.Y, "300"), Entered())
    play.send(Typed(Field.WIDTH, "400"), Typed(Field.HEIGHT, "150"), Entered())
    assert play.surface.cutouts[0].polygon == (
        (700.0, 800.0),
        (1100.0, 800.0),
        (1100.0, 950.0),
        (700.0, 950.0),
    )
    assert play.session.undo_label == "Cut out a rectangle"


def test_a_circle_is_cut_out_by_centre_and_typed_diameter() -> None:
    play = Play(add_round_cutout, room())
    play.click(608, 590)
    play.enter("110")
    assert play.surface.cutouts[0].circle == Circle(centre=(600.0, 600.0), diameter=110.0)


def test_a_circle_drawn_by_hand_has_a_round_diameter() -> None:
    play = Play(add_round_cutout, room())
    play.click(600, 600)
    assert play.move(810, 695).measures[0].text == "diameter 450 mm"
    play.click(810, 695)
    circle = play.surface.cutouts[0].circle
    assert circle is not None
    assert circle.diameter == 450.0


def test_a_circle_without_a_diameter_is_refused() -> None:
    play = Play(add_round_cutout, room())
    play.click(600, 600)
    assert "needs a diameter" in play.send(Entered()).trouble
    assert not play.surface.cutouts


def test_a_cutout_outside_the_room_is_refused_in_words_and_the_tool_goes_on() -> None:
    play = Play(add_round_cutout, room())
    play.click(6000, 6000)
    preview = play.enter("110")
    assert preview.trouble
    assert not play.run.is_over
    assert not play.session.can_undo


@pytest.mark.parametrize("tool", [add_round_cutout, add_rect_cutout])
def test_there_is_nothing_to_cut_from_without_a_surface(tool: Callable[[Context], Tool]) -> None:
    assert Play(tool, Job()).run.is_over


def test_lengths_are_read_in_the_style_of_the_job() -> None:
    play = Play(draw_rectangle, Job(show_lengths=LengthStyle.CM))
    play.type("250")
    play.send(FieldStepped())
    play.enter("1.8 m")
    assert play.surface.outline[2] == (2500.0, 1800.0)


def test_letting_go_where_it_was_pressed_is_a_click_and_no_drag() -> None:
    play = Play(draw_rectangle, Job())
    play.press(0, 0)
    play.send(PointerReleased((3.0, 2.0), PX_PER_MM))
    assert not play.run.is_over
    assert play.preview.corners == ((0.0, 0.0),)
