"""Typed sizes leave the next corner a line, a ring, a place or two, or none; the boxes keep what is typed."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tilelayout.base.units import LengthStyle
from tilelayout.drawing.crossing import blocked, blocked_closing
from tilelayout.drawing.entry import Entry
from tilelayout.drawing.events import Erased, Event, Field, FieldStepped, KeyTyped, LockToggled, Typed
from tilelayout.drawing.grid import grid_step
from tilelayout.drawing.placing import AlongLine, Anywhere, AtSpots, Nowhere, OnRing, angle_of, next_corner

LAST = (100.0, 200.0)
NEXT = (Field.LENGTH, Field.ANGLE, Field.DX, Field.DY)


def test_nothing_fixed_leaves_every_place() -> None:
    assert next_corner(LAST, {}) == Anywhere()


def test_one_fixed_value_leaves_a_ring_a_ray_or_a_line() -> None:
    assert next_corner(LAST, {Field.LENGTH: 50.0}) == OnRing(LAST, 50.0)
    assert next_corner(LAST, {Field.ANGLE: 90.0}) == AlongLine(LAST, (0.0, 1.0), is_ray=True)
    assert next_corner(LAST, {Field.DX: 30.0}) == AlongLine((130.0, 200.0), (0.0, 1.0))
    assert next_corner(LAST, {Field.DY: -30.0}) == AlongLine((100.0, 170.0), (1.0, 0.0))


def test_length_and_one_step_leave_the_two_places_of_a_3_4_5_triangle() -> None:
    """The builder's 3-4-5 rule for a right angle (common practice)."""
    assert next_corner((0.0, 0.0), {Field.LENGTH: 5.0, Field.DX: 3.0}) == AtSpots(((3.0, 4.0), (3.0, -4.0)))
    assert next_corner((0.0, 0.0), {Field.LENGTH: 5.0, Field.DY: 4.0}) == AtSpots(((3.0, 4.0), (-3.0, 4.0)))


def test_a_step_as_long_as_the_length_leaves_one_place() -> None:
    assert next_corner((0.0, 0.0), {Field.LENGTH: 5.0, Field.DX: -5.0}) == AtSpots(((-5.0, 0.0),))


@pytest.mark.parametrize(
    "fixed",
    [
        {Field.LENGTH: 5.0, Field.DX: 6.0},
        {Field.ANGLE: 90.0, Field.DX: 6.0},
        {Field.ANGLE: 30.0, Field.DY: -6.0},
        {Field.ANGLE: 30.0, Field.DY: 6.0, Field.LENGTH: 12.0},
    ],
)
def test_what_contradicts_itself_is_said_in_words(fixed: dict[Field, float]) -> None:
    locus = next_corner(LAST, fixed)
    assert isinstance(locus, Nowhere)
    assert locus.words.endswith(".")


@given(st.floats(1, 9000), st.floats(0, 359.9), st.sampled_from([Field.DX, Field.DY, Field.LENGTH]))
def test_any_two_sizes_of_a_corner_lead_back_to_it(length: float, angle: float, second: Field) -> None:
    turn = math.radians(angle)
    corner = (LAST[0] + length * math.cos(turn), LAST[1] + length * math.sin(turn))
    sizes = {Field.LENGTH: length, Field.DX: corner[0] - LAST[0], Field.DY: corner[1] - LAST[1]}
    if abs(sizes[second]) < length / 1000:
        return
    locus = next_corner(LAST, {Field.ANGLE: angle_of(LAST, corner), second: sizes[second]})
    assert isinstance(locus, AtSpots)
    assert min(math.dist(spot, corner) for spot in locus.points) < 1e-3


def typed(*events: Event, style: LengthStyle = LengthStyle.MM) -> Entry:
    entry = Entry(NEXT, style)
    for event in events:
        entry = entry.after(event, {Field.LENGTH: 1234.5}) or entry
    return entry


def test_a_first_digit_goes_to_the_first_box_and_tab_to_the_next() -> None:
    entry = typed(KeyTyped("4"), KeyTyped("2"), FieldStepped(), KeyTyped("9"), KeyTyped("0"))
    assert entry.values() == {Field.LENGTH: 42.0, Field.ANGLE: 90.0}
    assert entry.active is Field.ANGLE
    assert typed(FieldStepped(back=True)).active is Field.DY


def test_an_emptied_box_is_free_again() -> None:
    assert typed(KeyTyped("4"), Erased()).values() == {}
    assert typed(Typed(Field.DX, "4"), Typed(Field.DX, " ")).values() == {}


def test_a_lock_keeps_what_was_typed_last_in_its_box() -> None:
    entry = typed(LockToggled(Field.LENGTH))
    assert entry.cleared().values() == {Field.LENGTH: 1234.5}
    entry = entry.after(Typed(Field.LENGTH, "800")) or entry
    assert entry.cleared().values() == {Field.LENGTH: 800.0}
    entry = entry.cleared().after(LockToggled(Field.LENGTH)) or entry
    assert entry.values() == {}


@pytest.mark.parametrize("style", LengthStyle)
@pytest.mark.parametrize(
    ("field", "text"),
    [
        (Field.LENGTH, "0"),
        (Field.LENGTH, "-5 mm"),
        (Field.ANGLE, "361"),
        (Field.ANGLE, "nan"),
        (Field.DX, "x"),
    ],
)
def test_a_wrong_entry_says_what_would_be_right_and_fixes_nothing(
    style: LengthStyle, field: Field, text: str
) -> None:
    entry = typed(Typed(field, text), style=style)
    assert entry.values() == {}
    assert "Write " in entry.wrong()[field]
    box = next(box for box in entry.boxes({}) if box.field is field)
    assert box.wrong == entry.wrong()[field]


@pytest.mark.parametrize("text", ["90", "90°", " 22,5 ", "-45 deg"])
def test_angles_are_read_with_and_without_their_sign(text: str) -> None:
    assert typed(Typed(Field.ANGLE, text)).values()


@pytest.mark.parametrize("style", LengthStyle)
@given(px_per_mm=st.floats(0.002, 8.0))
def test_grid_lines_never_crowd(style: LengthStyle, px_per_mm: float) -> None:
    assert grid_step(style, px_per_mm) * px_per_mm >= 8.0


def test_an_outline_may_touch_itself_only_at_its_first_corner() -> None:
    corners = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0))
    assert blocked_closing(corners) == ""
    assert blocked(corners, (500.0, 1000.0)) == ""
    assert "wall 1" in blocked(corners, (500.0, 0.0))
    assert "already there" in blocked(corners, corners[-1])
    assert "three corners" in blocked_closing(corners[:2])
    assert "run back" in blocked_closing(((0.0, 0.0), (1000.0, 0.0), (500.0, 0.0)))
