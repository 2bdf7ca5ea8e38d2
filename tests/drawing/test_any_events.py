"""Whatever is thrown at a tool, it never breaks, never leaves a half-made edit, and Esc always ends it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace as changed

from tests.drawing.play import L_ROOM, PX_PER_MM, Play, room
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.context import Context, PlacedPattern
from tilelayout.drawing.events import (
    Chosen,
    Deleted,
    DoublePressed,
    Entered,
    Erased,
    Escaped,
    Event,
    Field,
    FieldChosen,
    FieldStepped,
    Inserted,
    KeyTyped,
    LockToggled,
    Nudged,
    PointerLeft,
    PointerMoved,
    PointerPressed,
    PointerReleased,
    Refreshed,
    Typed,
)
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.toolbox import TOOLS
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.values import Circle, Cutout, Edge, Job
from tilelayout.layout.laying import lay

COORDINATE = st.sampled_from([0.0, 1500.0, 3000.0, 4000.0]) | st.floats(-800, 4800).map(lambda x: round(x, 2))
POINT = st.tuples(COORDINATE, COORDINATE)
TEXT = st.sampled_from(["12 ft", "1500", "-3", "0", "90", "5-3-1/2", "1e9", "abc", "", "nan", "2,5 m", "1/8"])
PICK = st.builds(Pick, st.sampled_from(PickKind), st.sampled_from(["floor", "gone"]), st.integers(0, 7))
FIELD = st.sampled_from(Field)


def pointers(
    kind: type[PointerMoved | PointerPressed | PointerReleased | DoublePressed],
) -> st.SearchStrategy[Event]:
    zoom = st.sampled_from([PX_PER_MM, 0.02, 2.0])
    return st.builds(kind, POINT, zoom, snaps_suspended=st.booleans(), adds=st.booleans())


EVENT: st.SearchStrategy[Event] = st.one_of(
    *(pointers(kind) for kind in (PointerMoved, PointerPressed, PointerReleased, DoublePressed)),
    st.just(Entered()) | st.just(Escaped()) | st.just(Erased()) | st.just(Deleted()) | st.just(Inserted()),
    st.just(PointerLeft()) | st.just(Refreshed()),
    st.builds(KeyTyped, st.sampled_from("0123456789.,-/'\" fm\n")),
    st.builds(Typed, FIELD, TEXT),
    st.builds(FieldChosen, FIELD) | st.builds(LockToggled, FIELD) | st.builds(FieldStepped, st.booleans()),
    st.builds(Nudged, st.integers(-1, 1), st.integers(-1, 1), st.booleans()),
    st.builds(Chosen, st.none() | PICK, st.booleans()),
)
EVENTS = st.lists(EVENT, max_size=25)


def furnished(style: LengthStyle) -> Job:
    job = changed(room(L_ROOM), show_lengths=style)
    surface = changed(
        job.surfaces[0],
        edges=(Edge(at=5, through=(-400.0, 1500.0)),),
        cutouts=(
            Cutout(circle=Circle(centre=(700.0, 700.0), diameter=110.0)),
            Cutout(polygon=((2500.0, 500.0), (2900.0, 500.0), (2900.0, 800.0), (2500.0, 800.0))),
        ),
    )
    return changed(job, surfaces=(surface,))


def with_pattern(context: Context) -> Context:
    def pattern() -> PlacedPattern | None:
        job = context.read_job()
        if not job.layouts:
            return None
        laid = lay(job.surfaces[0], job.tiles[0], job.layouts[0])
        return PlacedPattern(laid.placed_faces, laid.placed_vectors)

    return replace(context, pattern=pattern)


def check_undo_gives_everything_back(play: Play, before: bytes) -> None:
    """The job as it stands is one that can be saved and read, and undo leads back to the very bytes."""
    saved = job_to_bytes(play.session.job)
    assert job_to_bytes(job_from_bytes(saved)) == saved
    while play.session.can_undo:
        play.session.undo()
    assert job_to_bytes(play.session.job) == before


@pytest.mark.parametrize("name", TOOLS)
@given(events=EVENTS, style=st.sampled_from(LengthStyle))
@settings(max_examples=40, deadline=None)
def test_random_events_never_break_a_tool(name: str, events: list[Event], style: LengthStyle) -> None:
    job = furnished(style)
    play = Play(TOOLS[name], job, with_pattern)
    for event in events:
        play.send(event)
    check_undo_gives_everything_back(play, job_to_bytes(job))


@pytest.mark.parametrize("name", TOOLS)
@given(events=EVENTS)
@settings(max_examples=20, deadline=None)
def test_leaving_a_tool_ends_it_and_adds_no_step(name: str, events: list[Event]) -> None:
    left, kept = (Play(TOOLS[name], furnished(LengthStyle.MM), with_pattern) for _ in range(2))
    left.send(*events)
    kept.send(*events)
    left.run.end()
    assert left.run.is_over
    assert steps_back(left) <= steps_back(kept)


def steps_back(play: Play) -> int:
    """How many steps undo takes back until there is none left."""
    count = 0
    while play.session.can_undo:
        play.session.undo()
        count += 1
    return count


@pytest.mark.parametrize("name", TOOLS)
@given(events=EVENTS)
@settings(max_examples=20, deadline=None)
def test_random_events_never_break_a_tool_on_an_empty_job(name: str, events: list[Event]) -> None:
    play = Play(TOOLS[name], Job())
    for event in events:
        play.send(event)
    check_undo_gives_everything_back(play, job_to_bytes(Job()))


@pytest.mark.parametrize("name", TOOLS)
@given(before=EVENTS, after=EVENTS)
@settings(max_examples=20, deadline=None)
def test_undo_and_a_vanished_surface_never_break_a_tool(
    name: str, before: list[Event], after: list[Event]
) -> None:
    play = Play(TOOLS[name], furnished(LengthStyle.MM), with_pattern)
    for event in before:
        play.send(event)
    play.session.undo()
    for event in after:
        play.send(event)
    play.session.replace(Job())
    for event in (*after, Refreshed()):
        play.send(event)
    play.run.end()
    assert play.run.is_over


@pytest.mark.parametrize("name", TOOLS)
def test_every_tool_says_what_to_do_first(name: str) -> None:
    play = Play(TOOLS[name], furnished(LengthStyle.MM), with_pattern)
    assert play.preview.hint.endswith(".")
    assert play.move(1234, 567).hint
