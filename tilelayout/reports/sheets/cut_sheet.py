"""The cut list in the order of the saw: cautions, how to read it, the settings, then the work by hand.

After it come the tiles themselves, drawn eight on a page. A block is never parted by the end of a page; only
a row with more boxes than a page can hold goes on, with its drawing again, on the next.
"""

from __future__ import annotations

from dataclasses import replace

from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.plan import Plan
from tilelayout.planning.saw_list import SawList, saw_list
from tilelayout.planning.saw_words import settings_words, sharing_words
from tilelayout.reports.figure import Mark, Pen, Role, Text, moved
from tilelayout.reports.figures.piece_figure import piece_figure
from tilelayout.reports.marks import HAIRLINE, line
from tilelayout.reports.sheets.cautions import cautions_block
from tilelayout.reports.sheets.cut_row import DRAWING, row_blocks
from tilelayout.reports.sheets.page import BODY, Block, Frame, Page, about, paragraph
from tilelayout.reports.sheets.saw_blocks import SETTING, all_setting_blocks
from tilelayout.reports.sheets.tile_pages import tile_pages
from tilelayout.reports.type_size import wrapped

HEADING = "Cut list"


def cut_pages(plan: Plan, frame: Frame) -> tuple[Page, ...]:
    """Return the pages of the cut list and of the tiles; a single one that says so if nothing is cut."""
    found = saw_list(plan)
    first, taken = _opening(plan, found, frame.room[0])
    pages: list[list[Mark]] = [list(moved(first, (frame.left, frame.top - 2.0)))]
    y = frame.top - 2.0 - taken
    for block in _blocks(plan, found, frame):
        if y - block.height < frame.bottom:
            pages.append([])
            y = frame.top
        pages[-1] += moved(block.marks, (frame.left, y))
        y -= block.height
    listed = (Page(frame, HEADING, about(plan), tuple(marks)) for marks in pages)
    return (*listed, *tile_pages(found, plan, frame))


def _blocks(plan: Plan, found: SawList, frame: Frame) -> list[Block]:
    width, height = frame.room
    blocks = all_setting_blocks(found, plan, width)
    rows = [
        block
        for row in rows_by_hand(plan, found)
        for block in row_blocks(row, piece_figure(row, plan, DRAWING), plan, width, height - 14.0)
    ]
    if rows:
        rows[0] = _headed("By hand, inside the piece", rows[0])
    return [*blocks, *rows]


def _headed(words: str, block: Block) -> Block:
    rule = line((0.0, -0.5), (186.0, -0.5), pen=Pen(Role.FAINT_INK, HAIRLINE))
    head = Text((0.0, -4.0 - SETTING * 0.72), words, SETTING, is_bold=True)
    return Block((rule, head, *moved(block.marks, (0.0, -11.0))), block.height + 11.0)


def rows_by_hand(plan: Plan, found: SawList) -> tuple[CutRow, ...]:
    """Return the rows of like pieces on which something is left to do by hand, and what that is."""
    words = {work.piece.id: work.words for work in found.by_hand}
    said = [next((words[piece.id] for piece in row.pieces if piece.id in words), ()) for row in plan.cut_rows]
    rows = zip(plan.cut_rows, said, strict=True)
    return tuple(replace(row, words=work) for row, work in rows if work)


def _opening(plan: Plan, found: SawList, width: float) -> tuple[tuple[Mark, ...], float]:
    """Return the cautions and how to read the list, hanging below (0, 0), and their height."""
    if not plan.cut_rows:
        return (Text((0.0, -8.0), "Every tile is laid whole: there is nothing to cut.", BODY),), 12.0
    cautions, height = cautions_block((0.0, 0.0), width)
    lines = [row for sentence in reading_words(plan, found) for row in wrapped(sentence, BODY, width)]
    text = paragraph((0.0, -height - 6.5), tuple(lines), BODY)
    return (*cautions, *text), height + 5.0 + len(lines) * BODY * 1.35


def reading_words(plan: Plan, found: SawList) -> tuple[str, ...]:
    """Return how to read the list: totals, what sharing saves, what a line says, how sizes are rounded."""
    count = f"{plan.cut} {'piece' if plan.cut == 1 else 'pieces'} from {len(found.opened)} sawn tiles"
    step = "1 mm" if plan.style.is_metric else '1/16"'
    arrow = " The arrow in the tile is the tile's own." if any(t.directional for t in plan.tiles) else ""
    return (
        f"{count}, {settings_words(found)}. {sharing_words(plan)}.",
        "T3.2 is the second cut of tile 3, drawn on the pages that follow; after it stands the piece that "
        f"comes off, and an offcut to keep with the name to write on it. Tiles lie face up.{arrow}",
        f"The fence is set from the factory edge named, rounded down to {step}, so that a row of pieces and "
        "joints never comes out longer than its space. The blade runs on the waste side.",
    )
