"""The table of a comparison on paper: a line for each figure, a column for each layout."""

from __future__ import annotations

import numpy as np

from tilelayout.planning.compare import Cell, Comparison, Row
from tilelayout.reports.figure import Mark, Path, Pen, Role, Text
from tilelayout.reports.marks import HAIRLINE, MEDIUM, line
from tilelayout.reports.sheets.page import BODY, SMALL, Block, paragraph
from tilelayout.reports.type_size import POINT, shortened, text_width, wrapped

LEADING = 1.5
"""Height of a line as a multiple of its type size."""

_TICK = 1.15
"""Room for the tick before a figure, as a multiple of the type size."""

_NAMES = 0.3
"""At most this share of the width is for the names of the figures."""

_EQUAL = "  equal"
_TYPES = ((BODY, SMALL), (SMALL, 7 * POINT))
"""The type of figures and of what parts them, the larger one first."""


def table_blocks(comparison: Comparison, width: float) -> list[Block]:
    """Return the lines of the table, `width` mm wide: letters, figures by parts, and how it is read."""
    table = _Table(comparison, width)
    blocks, part = [table.letters()], None
    for row in comparison.rows:
        if row.part is not part:
            part = row.part
            blocks.append(table.heading(str(part)))
        blocks.append(table.line(row))
    return [*blocks, table.legend(comparison.remarks)]


class _Table:
    """The places of the columns; each line hangs below (0, 0)."""

    def __init__(self, comparison: Comparison, width: float) -> None:
        self._width = width
        self._ids = [plan.layout.id for plan in comparison.plans]
        cells = [cell for row in comparison.rows for cell in row.cells]
        for self._text, self._small in _TYPES:
            names = [self._name_width(row) for row in comparison.rows]
            self._name = min(max(names), width * _NAMES)
            self._column = (width - self._name) / len(self._ids)
            self._is_beside = all(self._beside_width(cell) <= self._column for cell in cells)
            if self._is_beside:
                break
        self._row = LEADING * self._text

    def letters(self) -> Block:
        """The ids of the layouts over their columns."""
        room = self._column - _TICK * BODY
        marks: list[Mark] = [
            Text((self._left(at), -3.6), shortened(id, BODY, room), BODY, is_bold=True)
            for at, id in enumerate(self._ids)
        ]
        marks.append(line((0.0, -5.4), (self._width, -5.4), pen=Pen(Role.INK, MEDIUM)))
        return Block(tuple(marks), 5.8)

    def heading(self, words: str) -> Block:
        """The name of a part over a fine line."""
        rule = line((0.0, -5.2), (self._width, -5.2), pen=Pen(Role.FAINT_INK, HAIRLINE))
        return Block((Text((0.0, -4.1), words, self._small, Role.FAINT_INK), rule), 5.4)

    def line(self, row: Row) -> Block:
        """One figure of all layouts."""
        base, equal = -1.1 * self._text, _EQUAL if row.is_equal else ""
        room = self._name - text_width(equal, self._small) - 1.0
        name = shortened(row.figure, self._text, room)
        marks: list[Mark] = [Text((0.0, base), name, self._text)]
        if equal:
            at = text_width(name, self._text)
            marks.append(Text((at, base), equal, self._small, Role.FAINT_INK))
        for at, cell in enumerate(row.cells):
            marks += self._figure(cell, self._left(at), base)
        has_second = not self._is_beside and any(cell.difference for cell in row.cells)
        return Block(tuple(marks), self._row + self._small * has_second)

    def legend(self, remarks: tuple[str, ...]) -> Block:
        """How the table is read, and what it leaves out."""
        sentences = ("A tick and bold type mark what is better in its line.", *remarks)
        rows = wrapped(" ".join(sentences), SMALL, self._width)
        return Block(paragraph((0.0, -5.0), rows, SMALL), 4.0 + len(rows) * SMALL * 1.35)

    def _left(self, at: int) -> float:
        """Where the figures of a column begin, behind the room for the tick."""
        return self._name + at * self._column + _TICK * self._text

    def _figure(self, cell: Cell, left: float, base: float) -> list[Mark]:
        marks: list[Mark] = [Text((left, base), cell.words, self._text, is_bold=cell.is_better)]
        if cell.is_better:
            marks.append(Path((_TICK_LINE * self._text + (left, base),), Pen(Role.INK, MEDIUM)))
        if cell.difference:
            beside = text_width(f"{cell.words}  ", self._text, is_bold=cell.is_better)
            at = (left + beside, base) if self._is_beside else (left, base - self._small)
            marks.append(Text(at, cell.difference, self._small, Role.FAINT_INK))
        return marks

    def _name_width(self, row: Row) -> float:
        equal = _EQUAL if row.is_equal else ""
        return text_width(row.figure, self._text) + text_width(equal, self._small) + 3.0

    def _beside_width(self, cell: Cell) -> float:
        """Return how wide a figure with what parts it from the best is, in mm."""
        value = text_width(f"{cell.words}  ", self._text, is_bold=cell.is_better)
        return _TICK * self._text + value + text_width(cell.difference, self._small) + 1.0


_TICK_LINE = np.array([(-1.0, 0.3), (-0.75, 0.03), (-0.25, 0.72)])
"""The tick before a figure, from the figure's place, in type sizes."""
