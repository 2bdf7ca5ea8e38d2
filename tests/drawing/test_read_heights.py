"""Height readings entered on the board: typed, clicked, put right and taken away, place after place."""

from __future__ import annotations

from functools import partial

import numpy as np
import pytest
import shapely

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
from tilelayout.drawing.walk import Direction, StartCorner, Walk, places_of, steps_of, usual_walk
from tilelayout.flatness.lattice import lattice_of
from tilelayout.flatness.mesh import mesh_of
from tilelayout.job.edits.jobs import set_show_lengths
from tilelayout.job.values import Circle, Cutout, Point, Surface

WALK = Walk(step=1000.0, from_wall=100.0)
"""In the room of 3600 x 2400: 100, 950, 1800, 2650, 3500 across and 100, 833, 1566, 2299 up."""


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
    assert [y for _, y in places[:6]] == [100.0] * 5 + [833.0]
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
    assert readings(play)[0][:2] == (950.0, 100.0)
    play.run.send(FieldStepped(back=True))
    typed(play, "2")
    assert readings(play) == ((950.0, 100.0, 2.0),)


@pytest.mark.parametrize(
    ("arrow", "reached"), [((1, 0), (950.0, 100.0)), ((0, 1), (100.0, 833.0)), ((-1, 0), (100.0, 100.0))]
)
def test_an_arrow_goes_to_the_place_it_points_to(arrow: tuple[int, int], reached: Point) -> None:
    play = playing()
    play.run.send(Nudged(*arrow))
    typed(play, "1")
    assert readings(play)[0][:2] == reached


@pytest.mark.parametrize(
    ("corner", "direction", "first", "second"),
    [
        (StartCorner.LOWER_LEFT, Direction.UP, (100.0, 100.0), (100.0, 833.0)),
        (StartCorner.UPPER_RIGHT, Direction.ACROSS, (3500.0, 2300.0), (2650.0, 2300.0)),
        (StartCorner.LOWER_RIGHT, Direction.UP, (3500.0, 100.0), (3500.0, 833.0)),
        (StartCorner.UPPER_LEFT, Direction.ACROSS, (100.0, 2300.0), (950.0, 2300.0)),
    ],
)
def test_the_walk_begins_where_and_as_it_is_set(
    corner: StartCorner, direction: Direction, first: Point, second: Point
) -> None:
    walk = Walk(1000.0, 100.0, corner, direction)
    assert places_of(room().surfaces[0], walk)[:2] == (first, second)


def surface_of(*outline: Point) -> Surface:
    return Surface(id="floor", outline=outline)


def arm() -> Surface:
    """A room of 4300 x 3100 with an arm of 1450 x 1300."""
    return surface_of((0, 0), (4300, 0), (4300, 1800), (1450, 1800), (1450, 3100), (0, 3100))


@pytest.mark.parametrize("style", [LengthStyle.MM, LengthStyle.INCH, LengthStyle.FEET])
@pytest.mark.parametrize("wide", [1000.0, 2437.0, 3555.5, 7140.0])
def test_places_are_spread_evenly_and_no_further_apart_than_asked(style: LengthStyle, wide: float) -> None:
    """The far wall is not left further away than the rounding of all steps together."""
    walk = usual_walk(style)
    places = np.array(places_of(surface_of((0, 0), (wide, 0), (wide, 2000), (0, 2000)), walk))
    across = np.diff(np.unique(places[:, 0]))
    assert np.ptp(across) < 1e-6
    assert walk.step - walk.step / len(across) - walk.mark < across[0] <= walk.step + 1e-6
    assert 0.0 <= wide - places[:, 0].max() - walk.from_wall <= walk.mark * len(across)
    marks = across[0] / walk.mark
    assert marks == pytest.approx(round(marks))


def test_a_walk_in_feet_or_inches_is_round_in_inches() -> None:
    for style in (LengthStyle.INCH, LengthStyle.FEET, LengthStyle.DECIMAL_FEET):
        walk = usual_walk(style)
        assert (walk.step / 25.4, walk.from_wall / 25.4) == pytest.approx((12, 2))
    assert (usual_walk(LengthStyle.M).step, usual_walk(LengthStyle.M).from_wall) == (300.0, 50.0)


def test_a_room_with_an_arm_is_read_on_one_even_grid() -> None:
    """So straightedges can be laid on it all at once."""
    places = np.array(places_of(arm(), Walk()))
    assert len(places) > 100
    for axis in (0, 1):
        assert np.ptp(np.diff(np.unique(places[:, axis]))) < 1e-9
    assert lattice_of(mesh_of(places, shapely.Polygon(arm().outline))) is not None


@pytest.mark.parametrize("corner", StartCorner)
def test_what_the_steps_come_out_at_is_told(corner: StartCorner) -> None:
    walk = Walk(corner=corner)
    places = np.array(places_of(arm(), walk))
    steps = [float(np.diff(np.unique(places[:, axis]))[0]) for axis in (0, 1)]
    assert steps_of(arm(), walk) == pytest.approx(steps)


def test_no_place_lies_in_a_cutout_or_outside_the_room() -> None:
    drain = Cutout(circle=Circle(centre=(1000.0, 1000.0), diameter=300.0))
    outline = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 1500.0), (1500.0, 1500.0), (1500.0, 3000.0), (0.0, 3000.0))
    surface = Surface(id="floor", outline=outline, cutouts=(drain,))
    places = places_of(surface, Walk(100.0, 0.0))
    assert all((x <= 1500 or y <= 1500) and (x - 1000) ** 2 + (y - 1000) ** 2 > 150**2 for x, y in places)
    assert {(0.0, 0.0), (3000.0, 0.0), (3000.0, 1500.0), (0.0, 3000.0)} <= set(places)


def test_a_grid_finer_than_anyone_reads_has_no_places() -> None:
    assert places_of(room().surfaces[0], Walk(1.0)) == ()
