"""One row of the cut list: number and count, drawing, sizes in large type, a box to tick for each piece.

It is read at arm's length with wet hands, so the sizes are larger than anything else on the page.
"""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.layout.slivers import sliver_limit
from tilelayout.layout.values import Piece
from tilelayout.planning.cut_list import CutRow
from tilelayout.reports.figure import Figure, Mark, Role, Text, moved
from tilelayout.reports.marks import box, hatch
from tilelayout.reports.sheets.page import BODY, SMALL, Block, paragraph
from tilelayout.reports.sheets.tick_boxes import SIZE as _TICK
from tilelayout.reports.sheets.tick_boxes import box_to_tick
from tilelayout.reports.type_size import CAP, POINT, text_width, wrapped

DRAWING = (94.0, 50.0)
"""Room in mm for the drawing of a piece."""

SIZE = 16 * POINT
CUT = 12 * POINT
_NUMBER = 18 * POINT
_TICK_LINE = 6.6
_DRAWING_LEFT = 12.0
_TEXT_LEFT = _DRAWING_LEFT + DRAWING[0] + 1.5
_AIR = 3.0
_TOP = _NUMBER * CAP
_FEW_LINES = 2


@dataclass(frozen=True)
class Room:
    """The room for a row: `width` across, `tallest` down a page."""

    width: float
    tallest: float


def row_blocks(
    row: CutRow, figure: Figure, style: LengthStyle, room: Room, made: Collection[str] = ()
) -> tuple[Block, ...]:
    """Return the row as one block; as several, each with its drawing, if its boxes overfill a page.

    `figure` is the drawing of the piece; pieces whose names are in `made` have their tick.
    """
    width = room.width
    words, words_height = _words(row, style, width - _TEXT_LEFT)
    beside = _ticks(row.pieces, width - _TEXT_LEFT, made)
    if words_height + beside.height <= figure.height or beside.height <= _FEW_LINES * _TICK_LINE + 1.0:
        marks = (*words, *moved(beside.marks, (_TEXT_LEFT, -words_height)))
        return (_row(row, figure, marks, max(figure.height, words_height + beside.height)),)
    height = max(figure.height, words_height)
    return _with_boxes_below(row, _row(row, figure, words, height), room, made)


def _row(row: CutRow, figure: Figure, words: tuple[Mark, ...], height: float) -> Block:
    """Set number, drawing and words beside each other."""
    drawing = moved(figure.marks, (_DRAWING_LEFT, -_AIR - figure.height))
    scale = f"1:{figure.one_to:g}" if figure.one_to else ""
    number = (
        Text((0.0, -_AIR - _TOP), str(row.number), _NUMBER, is_bold=True),
        Text((0.0, -_AIR - _TOP - 7.0), f"{row.count} pc", CUT),
        Text((0.0, -_AIR - _TOP - 12.0), scale, SMALL, Role.FAINT_INK),
    )
    return Block((*number, *drawing, *moved(words, (0.0, -_AIR))), height + 2 * _AIR)


def _with_boxes_below(row: CutRow, head: Block, room: Room, made: Collection[str]) -> tuple[Block, ...]:
    width = room.width - _DRAWING_LEFT
    per_line = _ticks_per_line(row.pieces, width)
    lines = max(1, int((room.tallest - head.height - _AIR) // _TICK_LINE))
    blocks: list[Block] = []
    for at in range(0, row.count, lines * per_line):
        ticks = _ticks(row.pieces[at : at + lines * per_line], width, made)
        again = (Text((0.0, -_AIR - _TOP - 17.0), "continued", SMALL),) if at else ()
        marks = (*head.marks, *again, *moved(ticks.marks, (_DRAWING_LEFT, -head.height)))
        blocks.append(Block(marks, head.height + ticks.height + _AIR))
    return tuple(blocks)


def _words(row: CutRow, style: LengthStyle, room: float) -> tuple[tuple[Mark, ...], float]:
    """Write the size, each cut, the walls and the mark of a sliver below each other; and their height."""
    size = row.size.replace(" x ", " × ")
    height = min(SIZE, SIZE * room / text_width(size, SIZE, is_bold=True))
    marks: list[Mark] = [Text((_TEXT_LEFT, -_TOP), size, height, is_bold=True)]
    y = -_TOP - 2.4
    texts = [(CUT, _sentence(words)) for words in row.words]
    texts += [(BODY, f"Meets: {', '.join(row.walls)}")] if row.walls else []
    for type_size, words in texts:
        lines = wrapped(words, type_size, room)
        marks += paragraph((_TEXT_LEFT, y - type_size), lines, type_size, leading=1.25)
        y -= len(lines) * type_size * 1.25 + 1.0
    if row.is_sliver:
        sliver = _sliver(row, style, room)
        marks += moved(sliver.marks, (_TEXT_LEFT, y))
        y -= sliver.height
    return tuple(marks), 1.5 - y


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].replace(' x ', ' × ')}"


def _sliver(row: CutRow, style: LengthStyle, room: float) -> Block:
    limit = format_length(sliver_limit(row.pieces[0].tile), style)
    swatch = box(0.0, -3.6, 5.0, 3.4)
    lines = wrapped(
        f"narrowest place under {limit}: where it cannot be held, score or nip it", BODY, room - 24.0
    )
    marks: tuple[Mark, ...] = (
        swatch,
        hatch([swatch.lines[0]], spacing=0.8),
        Text((7.0, -3.2), "SLIVER", BODY, is_bold=True),
        *paragraph((24.0, -3.2), lines, BODY, leading=1.25),
    )
    return Block(marks, len(lines) * BODY * 1.25 + 1.5)


def _tick_step(pieces: tuple[Piece, ...]) -> float:
    return max(15.0, _TICK + 1.6 + max(text_width(piece.id, BODY) for piece in pieces) + 3.0)


def _ticks_per_line(pieces: tuple[Piece, ...], room: float) -> int:
    return max(1, int(room // _tick_step(pieces)))


def _ticks(pieces: tuple[Piece, ...], room: float, made: Collection[str]) -> Block:
    """Lay out a box to tick and a number for each piece, line by line."""
    step, per_line = _tick_step(pieces), _ticks_per_line(pieces, room)
    marks: list[Mark] = []
    for index, piece in enumerate(pieces):
        line, column = divmod(index, per_line)
        x, y = column * step, -line * _TICK_LINE - _TICK - 1.0
        marks += box_to_tick(x, y, is_ticked=piece.id in made)
        marks.append(Text((x + _TICK + 1.6, y + 1.0), piece.id, BODY))
    return Block(tuple(marks), math.ceil(len(pieces) / per_line) * _TICK_LINE + 1.0)
