"""A room is drawn corner by corner: by clicks, by typing, by both, and steps back cleanly."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.drawing.play import Play
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.events import (
    Entered,
    Erased,
    Escaped,
    Field,
    FieldStepped,
    KeyTyped,
    LockToggled,
    Nudged,
    PointerLeft,
    Typed,
)
from tilelayout.drawing.preview import LineRole, SnapKind
from tilelayout.drawing.tools.draw_surface import draw_surface
from tilelayout.job.values import Job, SurfaceKind

TWELVE_BY_EIGHT = ((0.0, 0.0), (3657.6, 0.0), (3657.6, 2438.4), (0.0, 2438.4))
"""In mm, to the last digit: a foot is 304.8 mm (international yard and pound agreement of 1959)."""


def drawing(style: LengthStyle = LengthStyle.INCH) -> Play:
    return Play(draw_surface, Job(show_lengths=style))


def test_a_room_of_12_by_8_feet_is_drawn_with_five_clicks_that_are_a_little_off() -> None:
    play = drawing()
    for x, y in ((9.0, -7.0), (3640.0, 21.0), (3671.0, 2455.0), (-18.0, 2420.0), (11.0, 13.0)):
        play.click(x, y)
    assert play.run.is_over
    assert play.surface.outline == TWELVE_BY_EIGHT
    assert play.session.undo_label == "Draw floor"


def test_a_room_is_drawn_without_the_mouse_by_lengths_and_arrow_keys() -> None:
    play = drawing()
    play.enter()
    for length, arrow in (("12'", (1, 0)), ("8 ft", (0, 1)), ("144", (-1, 0))):
        play.type(length)
        play.send(Nudged(*arrow), Entered())
    play.enter()
    assert play.surface.outline == TWELVE_BY_EIGHT


def test_a_typed_length_goes_where_the_pointer_points() -> None:
    play = drawing()
    play.click(0, 0)
    play.move(150, 12)
    play.enter("12' 3 5/8")
    assert play.preview.corners[-1] == (3749.675, 0.0)


def test_a_typed_length_is_stored_as_typed() -> None:
    play = drawing()
    play.click(0, 0)
    play.move(0, 500)
    play.enter("5' 3-1/2\"")
    assert play.preview.corners[-1] == (0.0, 1612.9)


def test_a_typed_length_needs_a_direction() -> None:
    play = drawing()
    play.enter()
    preview = play.enter("8'")
    assert "Point the way" in preview.trouble
    assert len(preview.corners) == 1


def test_length_and_angle_are_typed_in_their_boxes() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.type("1000")
    play.send(FieldStepped())
    play.enter("30")
    assert play.preview.corners[-1] == pytest.approx((866.0254037844387, 500.0))


def test_across_and_up_are_typed_in_their_boxes() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.send(Typed(Field.DX, "-1200"), Typed(Field.DY, "350.5"), Entered())
    assert play.preview.corners[-1] == (-1200.0, 350.5)


def test_a_locked_angle_is_kept_from_corner_to_corner() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.send(Typed(Field.ANGLE, "45"), LockToggled(Field.ANGLE))
    play.move(700, 900)
    x, y = play.preview.marker.point if play.preview.marker else (0.0, 1.0)
    assert x == pytest.approx(y)
    play.click(700, 900)
    x, y = play.preview.corners[-1]
    assert x == pytest.approx(y)
    assert x > 700
    play.enter("500")
    assert play.preview.corners[-1] == pytest.approx((x + 500 / 2**0.5, y + 500 / 2**0.5))


def test_a_lock_keeps_what_is_drawn_and_lets_it_go_again() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.move(1000, 0)
    play.send(LockToggled(Field.LENGTH))
    assert play.move(0, 3000).marker is not None
    assert play.click(0, 3000).corners[-1] == (0.0, 1000.0)
    play.send(LockToggled(Field.LENGTH))
    assert play.click(-2000, 1000).corners[-1] == (-2000.0, 1000.0)


def test_three_fixed_boxes_are_one_too_many() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.send(Typed(Field.LENGTH, "500"), Typed(Field.ANGLE, "0"), Typed(Field.DX, "400"), Entered())
    assert "empty the others" in play.preview.trouble
    assert len(play.preview.corners) == 1


def test_a_wrong_entry_is_named_with_what_would_be_right() -> None:
    play = drawing()
    play.click(0, 0)
    preview = play.enter("5-3-1/2")
    box = next(box for box in preview.boxes if box.field is Field.LENGTH)
    assert "5-3-1/2" in box.wrong
    assert "5' 3-1/2\"" in box.wrong
    assert preview.trouble == box.wrong
    assert len(preview.corners) == 1


def test_letters_are_not_taken_for_sizes_until_a_number_has_begun() -> None:
    play = drawing()
    play.click(0, 0)
    assert not any(box.is_typed for box in play.send(KeyTyped("f")).boxes)
    assert any(box.text == "8f" for box in play.type("8f").boxes)


def test_esc_steps_back_one_corner_at_a_time_and_then_ends() -> None:
    play = drawing(LengthStyle.MM)
    for x, y in ((0, 0), (1000, 0), (1000, 800)):
        play.click(x, y)
    play.type("12")
    seen = []
    while not play.run.is_over:
        seen.append((len(play.preview.corners), any(box.is_typed for box in play.preview.boxes)))
        play.send(Escaped())
    assert seen == [(3, True), (3, False), (2, False), (1, False), (0, False)]
    assert not play.session.can_undo


def test_backspace_takes_back_letters_then_corners_but_never_ends() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.click(1000, 0)
    play.type("25")
    assert play.send(Erased()).boxes[0].text == "2"
    play.send(Erased())
    assert len(play.preview.corners) == 2
    assert not play.send(*[Erased()] * 5).corners
    assert not play.run.is_over


def test_an_edge_that_would_cross_another_is_refused_in_words() -> None:
    play = drawing(LengthStyle.MM)
    for x, y in ((0, 0), (2000, 0), (2000, 1000), (1000, 1000)):
        play.click(x, y)
    preview = play.move(1000, -500)
    assert "run into wall 1" in preview.trouble
    assert LineRole.REFUSED in [line.role for line in preview.lines]
    assert len(play.click(1000, -500).corners) == 4
    assert len(play.click(500, 1000).corners) == 5


def test_running_back_along_the_last_edge_is_refused() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.click(2000, 0)
    assert "run back along wall 1" in play.move(1000, 0).trouble
    assert len(play.click(1000, 0).corners) == 2


def test_a_closing_edge_that_would_cross_is_refused() -> None:
    play = drawing(LengthStyle.MM)
    for x, y in ((0, 0), (1000, 0), (1000, 1000), (2000, 1000), (2000, 500)):
        play.click(x, y)
    play.click(0, 0)
    assert "run into wall 2" in play.preview.trouble
    assert not play.run.is_over
    assert not play.session.can_undo


def test_the_way_back_to_the_first_corner_is_always_in_sight() -> None:
    play = drawing(LengthStyle.MM)
    for x, y in ((0, 0), (3000, 0), (3000, 2000)):
        play.click(x, y)
    preview = play.move(0, 2400)
    assert "Back to corner 1: 2400 mm (across 0 mm, up -2400 mm)" in preview.hint
    assert (LineRole.CLOSING, ((0.0, 2400.0), (0.0, 0.0))) in [
        (each.role, each.points) for each in preview.lines
    ]
    assert "2400 mm" in [measure.text for measure in preview.measures]


def test_the_angle_at_the_last_corner_is_shown() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.click(2000, 0)
    assert "135°" in [measure.text for measure in play.move(3000, 1000).measures]


def test_closing_by_the_first_corner_is_said_before_it_is_done() -> None:
    play = drawing(LengthStyle.MM)
    for x, y in ((0, 0), (3000, 0), (3000, 2000)):
        play.click(x, y)
    marker = play.move(15, 20).marker
    assert marker is not None
    assert marker.kind is SnapKind.FIRST
    assert marker.point == (0.0, 0.0)


def test_nothing_is_marked_while_the_pointer_is_away() -> None:
    play = drawing(LengthStyle.MM)
    play.click(0, 0)
    play.move(500, 0)
    preview = play.send(PointerLeft())
    assert preview.marker is None
    assert preview.corners == ((0.0, 0.0),)


def test_a_wall_is_drawn_as_a_wall() -> None:
    play = Play(draw_surface, Job(), lambda context: replace(context, new_kind=SurfaceKind.WALL))
    for x, y in ((0, 0), (2400, 0), (2400, 2400)):
        play.click(x, y)
    play.send(Entered())
    assert play.surface.kind is SurfaceKind.WALL
    assert play.surface.name == "Wall"
