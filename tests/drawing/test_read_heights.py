"""Height readings entered on the board: typed, clicked, put right and taken away, place after place."""

from __future__ import annotations

from functools import partial

import pytest

from tests.drawing.play import Play, room
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.events import (
    Deleted,
    Entered,
    Escaped,
    FieldStepped,
    KeyTyped,
    Nudged,
    PointerPressed,
)
from tilelayout.drawing.tools.read_heights import read_heights
from tilelayout.drawing.walk import Direction, StartCorner, Walk, places_of
from tilelayout.job.edits.jobs import set_show_lengths
from tilelayout.job.values import Circle, Cutout, Point, Surface

WALK = Walk(step=1000.0, from_wall=100.0)
"""In the room of 3600 x 2400: 100, 1100, 2100, 3100, 3500 across and 100, 1100, 2100, 2300 up."""


def playing(walk: Walk = WALK, style: LengthStyle = LengthStyle.MM) -> Play:
    return Play(partial(read_heights, walk=lambda: walk), set_show_lengths(room(), style))


def typed(play: Play, text: str) -> None:
    for letter in text:
        play.run.send(KeyTyped(letter))
    play.run.send(Entered())


def readings(play: Play) -> tuple[tuple[float, float, float], ...]:
    return play.session.job.surveys[0].points if play.session.job.surveys else ()


def press(x: float, y: float, *, snaps_suspended: bool = False) -> PointerPressed:
    return PointerPressed((x, y), 0.2, snaps_suspended=snaps_suspended)


def test_heights_typed_one_after_another_follow_the_rows_to_and_fro() -> None:
    play = playing()
    places = places_of(play.surface, WALK)
    for count in range(len(places)):
        typed(play, str(count))
    assert [point[:2] for point in readings(play)] == list(places)
    assert [point[2] for point in readings(play)] == [float(count) for count in range(len(places))]
    assert [y for _, y in places[:6]] == [100.0] * 5 + [1100.0]
    assert places[4][0] == places[5][0] == 3500.0
    assert "Every place" in play.run.preview.hint


def test_every_reading_is_a_step_of_its_own_to_undo() -> None:
    play = playing()
    typed(play, "1.5")
    typed(play, "-0.5")
    assert [point[2] for point in readings(play)] == [1.5, -0.5]
    play.session.undo()
    assert [point[2] for point in readings(play)] == [1.5]
    play.session.undo()
    assert play.session.job.surveys == ()


def test_a_press_near_a_reading_puts_it_right_and_delete_takes_it_away() -> None:
    play = playing()
    typed(play, "12")
    play.run.send(press(130, 70))
    assert play.run.preview.boxes[0].text == "12 mm"
    typed(play, "1.2")
    assert readings(play) == ((100.0, 100.0, 1.2),)
    play.run.send(press(100, 100))
    play.run.send(Deleted())
    assert play.session.job.surveys == ()


def test_a_press_elsewhere_reads_at_the_very_point() -> None:
    play = playing()
    play.run.send(press(777, 555))
    typed(play, "2")
    play.run.send(press(110, 110, snaps_suspended=True))
    typed(play, "3")
    assert readings(play) == ((777.0, 555.0, 2.0), (110.0, 110.0, 3.0))


def test_a_height_in_a_job_of_feet_is_in_inches() -> None:
    play = playing(style=LengthStyle.FEET)
    typed(play, "1/8")
    assert readings(play)[0][2] == pytest.approx(25.4 / 8)


def test_what_cannot_be_read_is_not_entered_and_says_so() -> None:
    play = playing()
    typed(play, "1,2,3")
    assert readings(play) == ()
    assert play.run.preview.boxes[0].wrong
    play.run.send(Escaped())
    typed(play, "1")
    assert len(readings(play)) == 1


def test_places_are_passed_over_and_gone_back_to() -> None:
    play = playing()
    play.run.send(FieldStepped())
    typed(play, "1")
    assert readings(play)[0][:2] == (1100.0, 100.0)
    play.run.send(FieldStepped(back=True))
    typed(play, "2")
    assert readings(play) == ((1100.0, 100.0, 2.0),)


@pytest.mark.parametrize(
    ("arrow", "reached"), [((1, 0), (1100.0, 100.0)), ((0, 1), (100.0, 1100.0)), ((-1, 0), (100.0, 100.0))]
)
def test_an_arrow_goes_to_the_place_it_points_to(arrow: tuple[int, int], reached: Point) -> None:
    play = playing()
    play.run.send(Nudged(*arrow))
    typed(play, "1")
    assert readings(play)[0][:2] == reached


@pytest.mark.parametrize(
    ("corner", "direction", "first", "second"),
    [
        (StartCorner.LOWER_LEFT, Direction.UP, (100.0, 100.0), (100.0, 1100.0)),
        (StartCorner.UPPER_RIGHT, Direction.ACROSS, (3500.0, 2300.0), (2500.0, 2300.0)),
        (StartCorner.LOWER_RIGHT, Direction.UP, (3500.0, 100.0), (3500.0, 1100.0)),
        (StartCorner.UPPER_LEFT, Direction.ACROSS, (100.0, 2300.0), (1100.0, 2300.0)),
    ],
)
def test_the_walk_begins_where_and_as_it_is_set(
    corner: StartCorner, direction: Direction, first: Point, second: Point
) -> None:
    walk = Walk(1000.0, 100.0, corner, direction)
    assert places_of(room().surfaces[0], walk)[:2] == (first, second)


def test_no_place_lies_in_a_cutout_or_outside_the_room() -> None:
    drain = Cutout(circle=Circle(centre=(1000.0, 1000.0), diameter=300.0))
    outline = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 1500.0), (1500.0, 1500.0), (1500.0, 3000.0), (0.0, 3000.0))
    surface = Surface(id="floor", outline=outline, cutouts=(drain,))
    places = places_of(surface, Walk(100.0, 0.0))
    assert all((x <= 1500 or y <= 1500) and (x - 1000) ** 2 + (y - 1000) ** 2 > 150**2 for x, y in places)
    assert {(0.0, 0.0), (3000.0, 0.0), (3000.0, 1500.0), (0.0, 3000.0)} <= set(places)


def test_a_grid_finer_than_anyone_reads_has_no_places() -> None:
    assert places_of(room().surfaces[0], Walk(1.0)) == ()
