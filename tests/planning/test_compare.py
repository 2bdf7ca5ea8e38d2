"""Layouts side by side: laws that hold whatever is compared, and worked sums."""

from __future__ import annotations

from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.planning.jobs import job_of
from tests.rooms import CAST, LAYINGS, PLAIN, PLANK, SQUARE, floor_of, rectangle
from tilelayout.base.units import LengthStyle, format_area, format_length
from tilelayout.job.values import Edge, EdgeRole, Job, Surface, Tile, Visibility
from tilelayout.planning.compare import Comparison, Row, area_lost, compare, saw_settings
from tilelayout.planning.from_the_door import narrowest_from_the_door
from tilelayout.planning.plan import Plan, plan

STARTS = st.tuples(st.integers(0, 300).map(float), st.integers(0, 300).map(float))
ROOMS = st.sampled_from([CAST["plain"], CAST["L-shaped"], CAST["with holes"], CAST["oblique with a bay"]])
STYLES = st.sampled_from([LengthStyle.MM, LengthStyle.FEET, LengthStyle.INCH])


def plans_at(
    starts: list[tuple[float, float]],
    surface: Surface = PLAIN,
    tile: Tile = SQUARE,
    style: LengthStyle = LengthStyle.MM,
) -> tuple[Plan, ...]:
    """Plans of one surface, laid from each of these starts."""
    job = job_of(surface, tile, style)
    first = job.layouts[0]
    layouts = tuple(replace(first, id=f"L{at}", start=start) for at, start in enumerate(starts))
    job = replace(job, layouts=layouts)
    return tuple(plan(job, layout.id) for layout in layouts)


def row(comparison: Comparison, figure: str) -> Row:
    """The row of a figure."""
    return next(each for each in comparison.rows if each.figure == figure)


@given(starts=st.lists(STARTS, min_size=2, max_size=4), room=ROOMS, style=STYLES, data=st.data())
@settings(max_examples=25, deadline=None)
def test_swapping_columns_swaps_the_marks(
    starts: list[tuple[float, float]], room: Surface, style: LengthStyle, data: st.DataObject
) -> None:
    plans = plans_at(starts, room, style=style)
    order = data.draw(st.permutations(range(len(plans))))
    straight, swapped = compare(plans), compare(tuple(plans[at] for at in order))
    assert [each.figure for each in straight.rows] == [each.figure for each in swapped.rows]
    for mine, its in zip(straight.rows, swapped.rows, strict=True):
        assert [mine.cells[at] for at in order] == list(its.cells)


@given(start=STARTS, room=ROOMS, style=STYLES, count=st.integers(2, 4))
@settings(max_examples=20, deadline=None)
def test_equal_layouts_have_no_better(
    start: tuple[float, float], room: Surface, style: LengthStyle, count: int
) -> None:
    comparison = compare(plans_at([start] * count, room, style=style))
    assert comparison.rows
    for each in comparison.rows:
        assert each.is_equal
        assert not any(cell.difference for cell in each.cells)


@given(starts=st.lists(STARTS, min_size=2, max_size=4), room=ROOMS, style=STYLES)
@settings(max_examples=25, deadline=None)
def test_each_figure_is_the_plans_own_and_the_sums_add_up(
    starts: list[tuple[float, float]], room: Surface, style: LengthStyle
) -> None:
    plans = plans_at(starts, room, style=style)
    comparison = compare(plans)
    values = {each.figure: [cell.value for cell in each.cells] for each in comparison.rows}
    shown = {each.figure: [cell.words for cell in each.cells] for each in comparison.rows}
    for at, made in enumerate(plans):
        assert values["Whole tiles"][at] == made.whole
        assert values["Cut pieces"][at] == made.cut == sum(line.count for line in made.cut_rows)
        assert values["Tiles needed"][at] == made.tiles_needed == made.whole + len(made.cut_from)
        assert values["Slivers"][at] == len(made.slivers)
        assert values["Different cut pieces"][at] == len(made.cut_rows)
        assert shown["Narrowest piece"][at] == format_length(made.narrowest or 0.0, style)
        assert shown["Area lost"][at] == format_area(area_lost(made), style)
        assert area_lost(made) + made.covered_area == pytest.approx(made.tiles_needed * 297.0**2)
        least = ceil(made.covered_area / 297.0**2 - 1e-9)
        assert made.tiles_needed >= (values["Least tiles possible"][at] or 0) >= least


@given(starts=st.lists(STARTS, min_size=2, max_size=4), room=ROOMS)
@settings(max_examples=25, deadline=None)
def test_what_is_better_is_never_beaten_and_the_difference_is_the_difference(
    starts: list[tuple[float, float]], room: Surface
) -> None:
    comparison = compare(plans_at(starts, room))
    for each in comparison.rows:
        values = [cell.value for cell in each.cells if cell.value is not None]
        if "whole" in [cell.words for cell in each.cells]:
            continue
        is_more_better = each.figure == "Whole tiles" or each.part != "Work and tiles"
        is_more_better = is_more_better and each.figure not in ("Slivers", "Places left bare")
        best = (max if is_more_better else min)(values)
        for cell in each.cells:
            if cell.value is None:
                assert not cell.is_better
            elif cell.is_better:
                assert not cell.difference
                assert cell.value == pytest.approx(best, abs=0.05 if each.figure != "Area lost" else 5e3)
            elif cell.difference.endswith(("mm less", "mm more")):
                assert float(cell.difference.split()[0]) == pytest.approx(abs(cell.value - best), abs=0.051)
                assert cell.difference.endswith("more") == (cell.value > best)


def test_a_worked_room_by_hand() -> None:
    """3000 less two gaps of 6 is 2988 = 9 tiles of 297, 9 joints of 3 and 288; up 2388 = 7 of each and 288.

    From the corner the far borders are 288 mm. Moved by 100 mm the near ones are 100 - 3 = 97 mm and the far
    ones 288 - 100 = 188 mm.
    """
    comparison = compare(plans_at([(6.0, 6.0), (106.0, 106.0)]))
    left, right = row(comparison, "Left wall"), row(comparison, "Right wall")
    assert [cell.words for cell in left.cells] == ["whole", "97 mm"]
    assert [cell.difference for cell in left.cells] == ["", "cut"]
    assert [cell.words for cell in right.cells] == ["288 mm", "188 mm"]
    assert [cell.difference for cell in right.cells] == ["", "100 mm less"]
    whole = row(comparison, "Whole tiles")
    assert [cell.value for cell in whole.cells] == [9 * 7, 9 * 7]
    assert whole.is_equal
    assert [cell.value for cell in row(comparison, "Cut pieces").cells] == [9 + 7 + 1, 2 * 9 + 2 * 7 + 4]
    narrowest = row(comparison, "Narrowest piece")
    assert [(cell.words, cell.is_better) for cell in narrowest.cells] == [("288 mm", True), ("97 mm", False)]


def test_differences_are_written_in_the_lengths_of_the_job() -> None:
    comparison = compare(plans_at([(6.0, 6.0), (106.0, 106.0)], style=LengthStyle.INCH))
    assert row(comparison, "Right wall").cells[1].difference == '3 15/16" less'


def test_the_settings_of_the_saw_are_counted_once_each() -> None:
    """The worked room from its corner: 288 mm across and 288 mm up are one setting; moved, 97 and 188."""
    first, second = plans_at([(6.0, 6.0), (106.0, 106.0)])
    assert saw_settings(first) == ((288.0,),)
    assert saw_settings(second) == ((188.0,), (97.0,))


def test_a_wall_broken_by_a_doorway_is_one_row() -> None:
    surface = floor_of(
        (0, 0),
        (1000, 0),
        (1000, -120),
        (1800, -120),
        (1800, 0),
        (3000, 0),
        (3000, 2400),
        (0, 2400),
        edges=(Edge(at=2, role=EdgeRole.DOORWAY),),
    )
    comparison = compare(plans_at([(6.0, 6.0), (70.0, 40.0)], surface))
    figures = [each.figure for each in comparison.rows]
    assert len(figures) == len(set(figures))
    assert figures.count("Bottom wall") == figures.count("Doorway jamb") == 1


@pytest.mark.parametrize(
    ("edge", "first"),
    [(Edge(at=3, role=EdgeRole.DOORWAY), "103 mm"), (Edge(at=3, seen=Visibility.LOOKED_AT), "97 mm")],
    ids=["door", "seen"],
)
def test_what_is_seen_from_the_door_is_what_stands_along_it(edge: Edge, first: str) -> None:
    """At the left, 106 mm less a joint and, at a wall, a gap; in the second layout a corner piece 47 high.

    The 288 mm at the right are as narrow as the pieces at the top, of which the first stands at the left.
    """
    surface = replace(rectangle(3000, 2400), edges=(edge,))
    comparison = compare(plans_at([(106.0, 6.0), (6.0, 56.0), (6.0, 6.0)], surface))
    seen = row(comparison, "Seen from the door")
    assert [cell.words for cell in seen.cells] == [first, "47 mm", "288 mm"]
    assert [cell.is_better for cell in seen.cells] == [False, False, True]
    assert comparison.remarks == ()


def test_only_whole_tiles_at_the_door_are_as_wide_as_the_tile() -> None:
    room = replace(rectangle(1197, 897), edges=(Edge(at=0, role=EdgeRole.DOORWAY),))
    job = job_of(room, PLANK, gap=0.0)
    assert narrowest_from_the_door(plan(job, "A")) == 297.0
    hidden = replace(job, surfaces=(replace(room, edges=()),))
    assert narrowest_from_the_door(plan(hidden, "A")) is None


def test_where_nothing_is_looked_at_that_is_said() -> None:
    comparison = compare(plans_at([(0.0, 0.0), (10.0, 0.0)]))
    assert "Seen from the door" not in [each.figure for each in comparison.rows]
    assert any("door" in remark for remark in comparison.remarks)


def test_counts_of_different_tiles_are_shown_and_not_judged() -> None:
    job = job_of(PLAIN, PLANK)
    first = job.layouts[0]
    job = Job(
        surfaces=job.surfaces,
        tiles=(PLANK, SQUARE),
        layouts=(first, replace(first, id="B", tile=SQUARE.id)),
    )
    comparison = compare((plan(job, "A"), plan(job, "B")))
    needed = row(comparison, "Tiles needed")
    assert not needed.is_judged and not needed.is_equal
    assert not any(cell.is_better or cell.difference for cell in needed.cells)
    assert row(comparison, "Area lost").is_judged
    assert any("tiles differ" in remark for remark in comparison.remarks)


@pytest.mark.parametrize("count", [0, 1, 5])
def test_two_to_four_are_compared(count: int) -> None:
    with pytest.raises(ValueError, match="2 to 4"):
        compare(plans_at([(0.0, 0.0)] * count))


@pytest.mark.parametrize("name", LAYINGS)
def test_every_pattern_can_be_compared(name: str) -> None:
    tile, layout = LAYINGS[name]
    job = job_of(PLAIN, tile)
    layouts = (replace(layout, id="A"), replace(layout, id="B", start=(33.0, 51.0)))
    job = replace(job, layouts=layouts)
    assert len(compare((plan(job, "A"), plan(job, "B"))).rows) >= 12
