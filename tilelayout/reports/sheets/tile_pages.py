"""The tiles to saw, eight on a page: each face up with its pieces, its cuts in order, what is kept."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.offcuts.opened import OpenedTile
from tilelayout.planning.saw_list import SawList
from tilelayout.planning.saw_words import short_step_words
from tilelayout.reports.figure import Mark, Pen, Role, Text, moved
from tilelayout.reports.figures.tile_figure import tile_figure
from tilelayout.reports.marks import HAIRLINE, box
from tilelayout.reports.sheets.page import SMALL, Frame, Page, paragraph
from tilelayout.reports.type_size import POINT, wrapped

HEADING = "Tiles to saw"
PER_PAGE = 8
_COLUMNS, _ROWS = 2, 4
_NAME = 13 * POINT
_AIR = 3.0
_DRAWING = 0.55
"""Share of a cell's width that the drawing takes; the cuts in words stand beside it."""

_STRIP = 5.0
_INDENT = 4.0
_SIZES = (9 * POINT, SMALL, 7 * POINT, 6 * POINT, 5 * POINT)


def tile_pages(found: SawList, about: str, frame: Frame) -> Iterator[Page]:
    """Yield the pages of the opened tiles; `about` says what they are for."""
    for some in _in_pages(found.opened):
        marks = tuple(mark for at, tile in enumerate(some) for mark in _cell(at, tile, found, frame))
        words = (
            "Face up. Tinted: a piece; hatched: waste; dashed: an offcut to keep. Numbers: order of the cuts."
        )
        legend = Text((frame.left, frame.bottom - 0.5), words, SMALL)
        yield Page(frame, HEADING, about, (*marks, legend))


def _in_pages(opened: tuple[OpenedTile, ...]) -> Iterator[tuple[OpenedTile, ...]]:
    for first in range(0, len(opened), PER_PAGE):
        yield opened[first : first + PER_PAGE]


def _cell(at: int, tile: OpenedTile, found: SawList, frame: Frame) -> tuple[Mark, ...]:
    """Return one tile in its place on the page, row by row from the top left."""
    row, column = divmod(at, _COLUMNS)
    width, height = frame.room[0] / _COLUMNS, (frame.room[1] - _STRIP) / _ROWS
    left, top = frame.left + column * width, frame.top - row * height
    room = (width * _DRAWING - _AIR, height - 2 * _AIR)
    figure = tile_figure(tile, found, room)
    middle = (left + (room[0] - figure.width) / 2 + _AIR / 2, top - height / 2 - figure.height / 2)
    words = _words(tile, found, (width * (1 - _DRAWING) - _AIR, height - 2 * _AIR))
    return (
        box(left, top - height, width, height, pen=Pen(Role.FAINT_INK, HAIRLINE)),
        *moved(figure.marks, middle),
        *moved(words, (left + width * _DRAWING, top - _AIR)),
    )


def _words(tile: OpenedTile, found: SawList, room: tuple[float, float]) -> tuple[Mark, ...]:
    """Write the tile's number and each of its cuts, hanging below (0, 0), as large as there is room for."""
    said = [(str(step.number), short_step_words(step, found)) for step in found.steps_of.get(tile.number, ())]
    by_hand = {work.name for work in found.by_hand}
    ids = ", ".join(each.piece for each in tile.pieces if each.piece in by_hand)
    said += [("", f"Then by hand: {ids}")] if ids else []
    name = Text((0.0, -_NAME), f"Tile {tile.number}", _NAME, is_bold=True)
    for size in _SIZES:
        lines, depth = _lines(said, room[0], size)
        if depth + _NAME + 2.2 <= room[1]:
            break
    return (name, *moved(lines, (0.0, -_NAME - 2.2)))


def _lines(said: list[tuple[str, str]], room: float, size: float) -> tuple[tuple[Mark, ...], float]:
    """Write each cut with its number in bold before it, and return how far down they reach."""
    marks: list[Mark] = []
    depth = 0.0
    for number, words in said:
        lines = wrapped(words, size, room - _INDENT)
        marks.append(Text((0.0, -depth - size), number, size, is_bold=True))
        marks += paragraph((_INDENT, -depth - size), lines, size, leading=1.25)
        depth += len(lines) * size * 1.25 + 0.3 * size
    return tuple(marks), depth
