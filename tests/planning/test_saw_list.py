"""The cut list in the order of the saw, replayed cut by cut, its settings counted in every other order."""

from __future__ import annotations

import itertools

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.planning.jobs import job_of, plan_of
from tests.planning.sawing import every_piece_comes_out
from tests.rooms import CAST, LAYINGS, ODD, PLANK, SQUARE, floor_of, rectangle, round_cutout
from tilelayout.base.units import LengthStyle
from tilelayout.job.ground import Trim
from tilelayout.job.kinds import TrimKind
from tilelayout.job.values import Job
from tilelayout.planning.fence_order import FenceOrder, Task, fence_order
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.saw_list import MARKED_LINE, SawList, named_offcuts, saw_list, saw_list_steps
from tilelayout.planning.saw_words import lying_words, reading_words
from tilelayout.planning.straight_sawing import LEAST_AT_FENCE, straight_cuts

STRAIGHT = (
    "plain",
    "L-shaped",
    "slotted",
    "narrower than a tile",
    "smaller than a tile",
    "oblique with a bay",
)
PATTERNS = ("grid", "half bond", "diagonal", "herringbone", "chevron", "triangles", "pickets", "drawn arrows")


def laid(room: str, pattern: str) -> Plan:
    tile, layout = LAYINGS[pattern]
    return plan(Job(surfaces=(CAST[room],), tiles=(tile,), layouts=(layout,)), "A")


@pytest.mark.parametrize("pattern", PATTERNS)
@pytest.mark.parametrize("room", STRAIGHT)
def test_the_cuts_part_each_tile_and_every_piece_comes_out(room: str, pattern: str) -> None:
    made = laid(room, pattern)
    found = saw_list(made)
    assert all(every_piece_comes_out(found, tile) for tile in found.opened)


@pytest.mark.parametrize("pattern", PATTERNS)
@pytest.mark.parametrize("room", STRAIGHT)
def test_every_cut_piece_is_on_the_list_once(room: str, pattern: str) -> None:
    made = laid(room, pattern)
    found = saw_list(made)
    pieces = sorted(piece.id for piece in made.laid.cut)
    assert sorted(each.piece for tile in found.opened for each in tile.pieces) == pieces
    done = [piece for setting in found.settings for step in setting.steps for piece in step.done]
    assert len(done) == len(set(done))
    by_hand = {work.piece.id for work in found.by_hand}
    assert set(done) | by_hand == set(pieces)


def test_the_cuts_of_a_tile_are_numbered_as_they_are_made() -> None:
    found = saw_list(laid("oblique with a bay", "half bond"))
    for steps in found.steps_of.values():
        assert [step.number for step in steps] == list(range(1, len(steps) + 1))


@pytest.mark.parametrize("room", ["plain", "L-shaped", "slotted"])
def test_a_fence_is_as_far_from_the_blade_as_it_is_set(room: str) -> None:
    for setting in saw_list(laid(room, "half bond")).settings:
        for step in setting.steps:
            if step.rest is None:
                assert setting.distance == MARKED_LINE
                continue
            exact = shapely.LineString(step.cut.line).distance(shapely.LineString(step.rest.side))
            off = exact - step.tile.blank.saw.kerf / 2 - setting.distance
            assert -1e-6 < off < 1.0 if step.rest.is_kept else -1.0 < off < 1e-6


def every_order(tasks: list[Task]) -> int:
    """Return the fewest settings by trying every sequence of settings, shortest first."""
    choices = sorted({setting for task in tasks for setting in task.settings})
    for length in itertools.count():
        for sequence in itertools.product(choices, repeat=length):
            if _finishes(tasks, sequence):
                return length
    raise AssertionError


def _finishes(tasks: list[Task], sequence: tuple[float, ...]) -> bool:
    left = set(range(len(tasks)))
    for setting in sequence:
        for number, task in enumerate(tasks):
            if number in left and setting in task.settings and task.after not in left:
                left.remove(number)
    return not left


@st.composite
def tasks(draw: st.DrawFn) -> list[Task]:
    """Up to nine cuts at up to four settings; each may wait for an earlier one."""
    made: list[Task] = []
    for number in range(draw(st.integers(0, 9))):
        chosen = draw(st.sets(st.integers(1, 4), min_size=1, max_size=2))
        after = draw(st.none() | st.integers(0, number - 1)) if number else None
        made.append(Task(tuple(float(each) for each in sorted(chosen)), after))
    return made


def is_whole(found: FenceOrder, tasks: list[Task]) -> bool:
    made: list[int] = []
    for visit in found.visits:
        for number in visit.tasks:
            assert visit.setting in tasks[number].settings
            assert tasks[number].after is None or tasks[number].after in made
            made.append(number)
    return sorted(made) == list(range(len(tasks)))


@given(tasks())
@settings(max_examples=60, deadline=None)
def test_no_order_of_the_settings_takes_fewer(some: list[Task]) -> None:
    found = fence_order(some)
    assert is_whole(found, some)
    assert len(found.visits) == found.at_least == every_order(some)


@given(tasks())
@settings(max_examples=40, deadline=None)
def test_a_short_search_still_makes_every_cut_and_its_bound_holds(some: list[Task]) -> None:
    found = fence_order(some, most_states=1)
    assert is_whole(found, some)
    assert found.at_least <= every_order(some) <= len(found.visits)


@pytest.mark.parametrize(("width", "depth"), [(1003, 700), (880, 1320), (741, 741)])
def test_small_rooms_take_as_few_settings_as_every_order_tried(width: float, depth: float) -> None:
    made = plan_of(rectangle(width, depth), SQUARE, gap=3, start=(103.0, 87.0))
    pieces = {piece.id: piece for piece in made.laid.cut}
    some: list[Task] = []
    for tile in made.cut_from:
        first = len(some)
        for cut in straight_cuts(tile, pieces, made.cuts_by_piece, made.style):
            after = None if cut.after is None else first + cut.after
            some.append(Task(tuple(rest.distance for rest in cut.rests) or (MARKED_LINE,), after))
    found = saw_list(made)
    assert len(found.settings) == every_order(some) == found.settings_at_least


def test_a_straight_wall_takes_one_setting() -> None:
    """Common practice: tiles of one course are sawn at one setting of the fence."""
    found = saw_list(plan_of(rectangle(1497, 440), SQUARE, gap=0))
    (setting,) = found.settings
    assert (setting.distance, len(setting.steps)) == (
        140.0,
        5,
    )  # two strips from each of two tiles, one from a third
    assert found.settings_at_least == 1


def test_a_round_hole_is_drilled_from_two_factory_edges_that_stay() -> None:
    room = floor_of((0, 0), (440, 0), (440, 297), (0, 297), cutouts=(round_cutout(400, 200, 44, 3),))
    found = saw_list(plan_of(room, SQUARE, gap=0))
    (work,) = found.by_hand
    assert work.words == ("core bit 50 mm: centre 100 mm from the left end, 200 mm from the lower edge",)
    lone = floor_of((0, 0), (200, 0), (200, 297), (0, 297), cutouts=(round_cutout(60, 200, 44, 3),))
    right = saw_list(plan_of(lone, SQUARE, gap=0, start=(-97.0, 0.0)))
    assert right.by_hand[0].words[0].startswith("core bit 50 mm: centre 140 mm from the right end")


def test_a_piece_too_narrow_to_hold_is_marked() -> None:
    found = saw_list(plan_of(rectangle(297 + 3 + 15, 297), SQUARE, gap=0))
    assert "score and snap" in found.by_hand[0].words[0]
    wider = saw_list(plan_of(rectangle(297 + 3 + 25, 297), SQUARE, gap=0))
    assert wider.by_hand == ()


@pytest.mark.parametrize("pattern", PATTERNS)
@pytest.mark.parametrize("room", STRAIGHT)
def test_no_narrow_strip_lies_between_fence_and_blade(room: str, pattern: str) -> None:
    """Common practice: a strip that cannot be held is not trapped between fence and blade."""
    for setting in saw_list(laid(room, pattern)).settings:
        assert setting.distance == MARKED_LINE or setting.distance >= LEAST_AT_FENCE


@pytest.mark.parametrize(("strip", "fence"), [(24.0, 24.0), (15.0, 280.0)])
def test_the_wide_side_of_a_narrow_strip_goes_to_the_fence(strip: float, fence: float) -> None:
    """A 297 mm tile and a 2 mm blade: 297 - 15 - 2 leaves 280 mm of waste to set the fence to."""
    found = saw_list(plan_of(rectangle(297 + 3 + strip, 297), SQUARE, gap=0))
    (setting,) = found.settings
    (step,) = setting.steps
    assert setting.distance == fence
    assert step.rest is not None and step.rest.is_kept == (strip >= LEAST_AT_FENCE)
    assert [work.name for work in found.by_hand] == ["A2"][: strip < LEAST_AT_FENCE]
    assert lying_words(step, LengthStyle.MM).endswith("where the waste is") == (strip < LEAST_AT_FENCE)


def test_the_list_says_why_the_wide_side_goes_to_the_fence() -> None:
    told = " ".join(reading_words(saw_list(laid("plain", "grid"))))
    assert "A strip narrower than 20 mm would jam" in told and "the saw's own manual comes first" in told


def test_a_list_without_what_cannot_be_sawn_says_so() -> None:
    room = replace(rectangle(1500, 900), trims=(Trim(kind=TrimKind.BASE, tile=SQUARE.id, height=400.0),))
    (*_, found) = saw_list_steps(job_of(room, gap=0), "A")
    told = " ".join(reading_words(found))
    assert "No strip of 400 mm can be sawn" in told and "This list is for floor alone." in told


def test_an_oblique_cut_runs_along_a_marked_line() -> None:
    room = floor_of((0, 0), (597, 0), (497, 297), (0, 297))
    found = saw_list(plan_of(room, PLANK, gap=0))
    assert [setting.distance for setting in found.settings] == [MARKED_LINE]


def test_offcuts_are_named_and_each_is_left_by_one_cut_at_the_most() -> None:
    found = saw_list(laid("L-shaped", "half bond"))
    names = [name.name for tile in found.opened for name in named_offcuts(tile)]
    assert names and len(names) == len(set(names))
    kept = [name for setting in found.settings for step in setting.steps for name in step.kept]
    assert len(kept) == len(set(kept)) and set(kept) <= set(names)


@pytest.mark.parametrize("style", [LengthStyle.INCH, LengthStyle.DECIMAL_FEET])
def test_the_fence_is_set_to_a_mark(style: LengthStyle) -> None:
    for setting in saw_list(plan(job_of(CAST["L-shaped"], ODD, style), "A")).settings:
        assert setting.distance / (25.4 / 16) == pytest.approx(round(setting.distance / (25.4 / 16)))


def test_the_list_is_the_same_on_every_run() -> None:
    one, other = (_told(saw_list(laid("slotted", "herringbone"))) for _ in range(2))
    assert one == other


def _told(found: SawList) -> list[tuple[float, list[tuple[int, int]]]]:
    return [
        (setting.distance, [(step.tile.number, step.number) for step in setting.steps])
        for setting in found.settings
    ]
