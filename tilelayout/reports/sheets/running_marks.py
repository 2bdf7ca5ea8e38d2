"""The story pole on paper: every joint's running distance from one fixed wall, drawn and as a table.

Each mark is measured from the wall and never from the last mark, so roundings cannot add up along the row.
"""

from __future__ import annotations

import numpy as np

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.planning.joints import RunningMarks
from tilelayout.reports.figure import Align, Mark, Path, Pen, Place, Role, Text
from tilelayout.reports.marks import HAIRLINE, MEDIUM, THIN, box
from tilelayout.reports.sheets.page import BODY, SMALL, Block
from tilelayout.reports.type_size import POINT, text_width

_COLUMN = 34.0
_ROW = 5.2
_POLE = 7.0
_SIZE = 11 * POINT


def marks_title(running: RunningMarks) -> str:
    """Return what the pole is called: the way it is held and the wall its end stands at."""
    way = "left to right" if running.axis == "x" else "bottom to top"
    wall = running.wall.name if running.wall else "the outermost point"
    return f"Joint marks {way}, from the {wall}" if running.wall else f"Joint marks {way}, from {wall}"


def marks_block(running: RunningMarks, style: LengthStyle, width: float) -> Block:
    """Return title, pole and table below each other."""
    marks = (
        Text((0.0, -4.0), marks_title(running), BODY, is_bold=True),
        *_pole(running, (0.0, -7.0 - _POLE), width),
        *_table(running, style, (0.0, -7.0 - _POLE - 6.0), width),
    )
    return Block(marks, 7.0 + _POLE + 6.0 + _rows(running, width) * _ROW + 2.0)


def _pole(running: RunningMarks, at: Place, width: float) -> tuple[Mark, ...]:
    """Draw the pole as long as the page is wide, a stroke for each joint, numbered where there is room."""
    x, y = at
    share = width / max(running.end, running.marks[-1] if running.marks else 0.0)
    strokes = tuple(np.array([(x + m * share, y), (x + m * share, y + _POLE)]) for m in running.marks)
    marks: list[Mark] = [box(x, y, width, _POLE, pen=Pen(Role.INK, MEDIUM))]
    if strokes:
        marks.append(Path(strokes, Pen(Role.CHALK, THIN)))
    every = _every(running, share)
    for number, mark in enumerate(running.marks, start=1):
        if number % every == 0 or number == 1:
            marks.append(Text((x + mark * share, y - 3.4), str(number), SMALL, align=Align.CENTRE))
    return tuple(marks)


def _every(running: RunningMarks, share: float) -> int:
    """Return how many marks to a printed number, so that numbers do not touch."""
    if len(running.marks) < 2:
        return 1
    step = float(np.diff(running.marks).min()) * share
    needed = text_width(str(len(running.marks)), SMALL) + 1.5
    return next((n for n in (1, 2, 5, 10, 20, 50, 100) if n * step >= needed), 200)


def _columns(width: float) -> int:
    return max(1, int(width // _COLUMN))


def _rows(running: RunningMarks, width: float) -> int:
    return max(1, -(-len(running.marks) // _columns(width)))


def _table(running: RunningMarks, style: LengthStyle, at: Place, width: float) -> tuple[Mark, ...]:
    """List the marks column by column, each with its number and the distance to write on the stick."""
    rows = _rows(running, width)
    step = width / _columns(width)
    marks: list[Mark] = []
    for index, mark in enumerate(running.marks):
        column, row = divmod(index, rows)
        x, y = at[0] + column * step, at[1] - (row + 1) * _ROW
        words = format_length(mark, style, decimals=0)
        marks.append(Text((x, y), str(index + 1), SMALL, Role.FAINT_INK))
        marks.append(Text((x + step - 5.0, y), words, _SIZE, align=Align.RIGHT))
        marks.append(
            Path((np.array([(x, y - 1.3), (x + step - 5.0, y - 1.3)]),), Pen(Role.TILE_JOINT, HAIRLINE))
        )
    return tuple(marks)
