"""The cut list in the order of the saw: cautions, how to read it, the settings, then the work by hand.

After it come the tiles themselves, drawn eight on a page. A block is never parted by the end of a page; only
a row with more boxes than a page can hold goes on, with its drawing again, on the next.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tilelayout.job.values import MosaicSheet
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.saw_list import SawList
from tilelayout.planning.saw_words import reading_words
from tilelayout.planning.ticks import Made, Ticks
from tilelayout.reports.figure import Mark, Pen, Role, Text, moved
from tilelayout.reports.figures.piece_figure import piece_figure
from tilelayout.reports.marks import HAIRLINE, line
from tilelayout.reports.sheets.cautions import cautions_block
from tilelayout.reports.sheets.cut_row import DRAWING, Room, row_blocks
from tilelayout.reports.sheets.page import BODY, Block, Frame, Page, about, paragraph
from tilelayout.reports.sheets.saw_blocks import SETTING, all_setting_blocks
from tilelayout.reports.sheets.tile_pages import tile_pages
from tilelayout.reports.type_size import wrapped

HEADING = "Cut list"
BY_HAND = "By hand, inside the piece"
BY_KNIFE = "Sheets, with the knife along the chips"
_HEAD = 14.0
"""Room in mm that a heading above the first row of the work by hand takes at the most."""


def cut_pages(found: SawList, frame: Frame, made: Made = ()) -> tuple[Page, ...]:
    """Return the pages of the cut list and of the tiles; a single one that says so if nothing is cut.

    Cuts that are `made` have a tick in their box.
    """
    first, taken = _opening(found, frame.room[0])
    pages: list[list[Mark]] = [list(moved(first, (frame.left, frame.top - 2.0)))]
    y = frame.top - 2.0 - taken
    for block in _blocks(Ticks(found), made, frame):
        if y - block.height < frame.bottom:
            pages.append([])
            y = frame.top
        pages[-1] += moved(block.marks, (frame.left, y))
        y -= block.height
    subject = _about(found)
    listed = (Page(frame, HEADING, subject, tuple(marks)) for marks in pages)
    return (*listed, *tile_pages(found, subject, frame))


def _about(found: SawList) -> str:
    plans = found.of.plans
    return about(plans[0]) if len(plans) == 1 else ", ".join(made.surface.title for made in plans)


def _blocks(ticks: Ticks, made: Made, frame: Frame) -> list[Block]:
    width, height = frame.room
    blocks = all_setting_blocks(ticks, made, width)
    by_hand = rows_by_hand(ticks.found)
    room = Room(width, height - _HEAD)
    done = {work.name for work in ticks.found.by_hand if ticks.is_made(work, made)}
    for heading, is_mosaic in ((BY_HAND, False), (BY_KNIFE, True)):
        rows = [row for row in by_hand if isinstance(row.pieces[0].tile, MosaicSheet) == is_mosaic]
        blocks += _headed(heading, [each for row in rows for each in _row(row, ticks.found, room, done)])
    return blocks


def _row(row: CutRow, found: SawList, room: Room, done: set[str]) -> Iterator[Block]:
    drawn = piece_figure(row, found.of.pieces[row.pieces[0].id].plan, DRAWING)
    yield from row_blocks(row, drawn, found.of.style, room, done)


def _headed(words: str, blocks: list[Block]) -> list[Block]:
    if not blocks:
        return []
    rule = line((0.0, -0.5), (186.0, -0.5), pen=Pen(Role.FAINT_INK, HAIRLINE))
    head = Text((0.0, -4.0 - SETTING * 0.72), words, SETTING, is_bold=True)
    first = Block((rule, head, *moved(blocks[0].marks, (0.0, -11.0))), blocks[0].height + 11.0)
    return [first, *blocks[1:]]


def rows_by_hand(found: SawList) -> tuple[CutRow, ...]:
    """Return the rows of like pieces on which something is left to do by hand, and what that is."""
    words = {work.name: work.words for work in found.by_hand}
    rows = found.of.rows
    said = [next((words[piece.id] for piece in row.pieces if piece.id in words), ()) for row in rows]
    return tuple(replace(row, words=work) for row, work in zip(rows, said, strict=True) if work)


def _opening(found: SawList, width: float) -> tuple[tuple[Mark, ...], float]:
    """Return the cautions and how to read the list, hanging below (0, 0), and their height."""
    if not found.of.pieces:
        return (Text((0.0, -8.0), "Every tile is laid whole: there is nothing to cut.", BODY),), 12.0
    cautions, height = cautions_block((0.0, 0.0), width)
    lines = [row for sentence in reading_words(found) for row in wrapped(sentence, BODY, width)]
    text = paragraph((0.0, -height - 6.5), tuple(lines), BODY)
    return (*cautions, *text), height + 5.0 + len(lines) * BODY * 1.35
