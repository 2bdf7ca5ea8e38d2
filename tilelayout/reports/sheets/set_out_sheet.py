"""The set-out sheet: the plan with its start lines, how to find them with a tape, and the joint marks.

It is read on the knees beside a chalk line, so distances are from fixed walls, at both ends of each line.
"""

from __future__ import annotations

from tilelayout.base.units import format_length
from tilelayout.layout.patterns import start_words
from tilelayout.planning.fixed_walls import Axis
from tilelayout.planning.joints import LineMark, StartLine, running_marks, start_lines
from tilelayout.planning.plan import Plan
from tilelayout.planning.reference_lines import line_misses
from tilelayout.reports.figure import Figure, Text, moved
from tilelayout.reports.figures.plan_figure import Question, plan_figure
from tilelayout.reports.sheets.key_figures import key_figures
from tilelayout.reports.sheets.page import BODY, Block, Frame, Page, about, best_way_up, flowed, paragraph
from tilelayout.reports.sheets.running_marks import marks_block
from tilelayout.reports.type_size import wrapped

HEADING = "Set out"
_AXES: tuple[Axis, ...] = ("x", "y")
_STRIP = 40.0
_GAP = 4.0
_MUCH = 1.4


def set_out_pages(plan: Plan, frame: Frame) -> tuple[Page, ...]:
    """Return the pages of the sheet: plan and key figures first, then what fits below them or follows."""
    frame = best_way_up(plan, frame, _STRIP, Question.SET_OUT)
    width, height = frame.room
    figures, strip = key_figures(plan, width)
    figure = _largest(plan, width, height - _GAP / 2, strip + _GAP)
    drawing = Block(moved(figure.marks, ((width - figure.width) / 2, -figure.height)), figure.height)
    blocks = [drawing, Block(figures, strip), *_mark_blocks(plan, width)]
    pages = flowed(blocks, frame, _GAP)
    headings = (HEADING, *(f"{HEADING}: lines and joints" for _ in pages[1:]))
    return tuple(
        Page(frame, heading, about(plan), marks, None if number else figure.one_to)
        for number, (heading, marks) in enumerate(zip(headings, pages, strict=True))
    )


def _largest(plan: Plan, width: float, height: float, strip: float) -> Figure:
    """Return the plan with room for the strip below it, or without if that makes it much larger."""
    beside, alone = (plan_figure(plan, (width, height - below), Question.SET_OUT) for below in (strip, 0.0))
    return alone if (alone.one_to or 1.0) * _MUCH < (beside.one_to or 1.0) else beside


def _mark_blocks(plan: Plan, width: float) -> list[Block]:
    blocks = [_line_block(plan, width)]
    for axis in _AXES:
        running = running_marks(plan, axis)
        if running is not None and running.marks:
            blocks.append(marks_block(running, plan.style, width))
    return blocks


def _line_block(plan: Plan, width: float) -> Block:
    title = Text((0.0, -4.0), "Lines to snap before the first tile", BODY, is_bold=True)
    sentences = [line_words(number, line, plan) for number, line in enumerate(start_lines(plan), start=1)]
    sentences.append(_joint_words(plan))
    sentences += [f"{line.words}." for line in line_misses(plan)]
    lines = [row for sentence in sentences for row in wrapped(sentence, BODY, width)]
    marks = (title, *paragraph((0.0, -10.5), tuple(lines), BODY, leading=1.45))
    return Block(marks, 8.0 + len(lines) * BODY * 1.45)


def line_words(number: int, line: StartLine, plan: Plan) -> str:
    """Return how to find a line, in one sentence: the distances of both ends from the fixed walls."""
    is_upright = abs(line.end[1] - line.start[1]) > abs(line.end[0] - line.start[0])
    first, last = sorted((line.start, line.end), key=lambda place: place[1] if is_upright else place[0])
    ends = ("lower end", "upper end") if is_upright else ("left end", "right end")
    found = {line.start: line.at_start, line.end: line.at_end}
    places = " and ".join(
        f"{_distances(found[place], plan)} at its {end}"
        for place, end in zip((first, last), ends, strict=True)
    )
    return f"Line {number}: {places}."


def _distances(marks: tuple[LineMark, ...], plan: Plan) -> str:
    return " and ".join(
        f"{format_length(mark.distance, plan.style, decimals=0)} from the {mark.wall.name}" for mark in marks
    )


def _joint_words(plan: Plan) -> str:
    where = start_words(plan.layout, plan.tile)
    if all(running_marks(plan, axis) is None for axis in _AXES):
        return f"The lines {where}."
    joint = format_length(plan.layout.joint, plan.style)
    return f"The lines {where}. Joint marks are the middles of the joints ({joint}), each from the wall."
