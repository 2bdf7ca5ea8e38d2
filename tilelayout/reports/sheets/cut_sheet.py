"""The cut list for the saw: cautions, how to read it, then one row for each distinct cut.

A row is never parted by the end of a page; only one with more boxes than a page can hold goes on, with
its drawing again, on the next.
"""

from __future__ import annotations

from tilelayout.planning.plan import Plan
from tilelayout.reports.figure import Mark, Pen, Role, Text, moved
from tilelayout.reports.figures.piece_figure import piece_figure
from tilelayout.reports.marks import HAIRLINE, line
from tilelayout.reports.sheets.cautions import cautions_block
from tilelayout.reports.sheets.cut_row import DRAWING, row_blocks
from tilelayout.reports.sheets.page import BODY, Block, Frame, Page, about, paragraph
from tilelayout.reports.type_size import wrapped

HEADING = "Cut list"


def cut_pages(plan: Plan, frame: Frame) -> tuple[Page, ...]:
    """Return the pages of the cut list; a single one that says so if nothing is to be cut."""
    width = frame.room[0]
    first, taken = _opening(plan, width)
    blocks = _blocks(plan, frame)
    pages: list[list[Mark]] = [list(moved(first, (frame.left, frame.top - 2.0)))]
    y = frame.top - 2.0 - taken
    for block in blocks:
        if y - block.height < frame.bottom:
            pages.append([])
            y = frame.top
        elif y < frame.top:
            pages[-1].append(line((frame.left, y), (frame.right, y), pen=Pen(Role.FAINT_INK, HAIRLINE)))
        pages[-1] += moved(block.marks, (frame.left, y))
        y -= block.height
    return tuple(Page(frame, HEADING, about(plan), tuple(marks)) for marks in pages)


def _blocks(plan: Plan, frame: Frame) -> list[Block]:
    width, height = frame.room
    return [
        block
        for row in plan.cut_rows
        for block in row_blocks(row, piece_figure(row, plan, DRAWING), plan, width, height)
    ]


def _opening(plan: Plan, width: float) -> tuple[tuple[Mark, ...], float]:
    """Return the cautions and how to read the list, hanging below (0, 0), and their height."""
    if not plan.cut_rows:
        return (Text((0.0, -8.0), "Every tile is laid whole: there is nothing to cut.", BODY),), 12.0
    cautions, height = cautions_block((0.0, 0.0), width)
    lines = [row for sentence in reading_words(plan) for row in wrapped(sentence, BODY, width)]
    text = paragraph((0.0, -height - 6.5), tuple(lines), BODY)
    return (*cautions, *text), height + 5.0 + len(lines) * BODY * 1.35


def reading_words(plan: Plan) -> tuple[str, ...]:
    """Return how to read the list: totals, what is drawn, how sizes are rounded."""
    rows, pieces = len(plan.cut_rows), plan.cut
    step = "1 mm" if plan.style.is_metric else '1/16"'
    arrow = " The arrow in the tile is the tile's own." if plan.tile.directional else ""
    return (
        f"{pieces} {'piece' if pieces == 1 else 'pieces'} in {rows} {'row' if rows == 1 else 'rows'}. "
        "Each is drawn face up: tinted is kept, hatched falls off, a thick side is sawn, "
        f"the arrow points up on the plan.{arrow}",
        f"Sizes are taken from factory edges and rounded down to {step}, so that a row of pieces and joints "
        "never comes out longer than its space. Let the blade run on the waste.",
    )
