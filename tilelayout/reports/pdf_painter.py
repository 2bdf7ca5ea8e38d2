"""Paints figures' marks on the pages of a PDF. Nothing is decided here but ink: lines, fills and fonts.

A plan has thousands of marks, so they are written as the format's own operators (ISO 32000-1, annex A), many
numbers in one go: a setting only where it changes, and letters coded once for all the places they stand at.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from reportlab.pdfgen.canvas import Canvas

from tilelayout.reports.figure import Align, Mark, Path, Pen, Points, Role, Text
from tilelayout.reports.pdf_letters import run_width, runs
from tilelayout.reports.type_size import CAP, POINT

PT = 1 / POINT
"""Points in one mm."""

INKS = {
    Role.PAPER: (1.0, 1.0, 1.0),
    Role.INK: (0.0, 0.0, 0.0),
    Role.FAINT_INK: (0.38, 0.38, 0.38),
    Role.CHALK: (0.0, 0.447, 0.698),
    Role.TILE_FACE: (1.0, 1.0, 1.0),
    Role.TILE_JOINT: (0.55, 0.55, 0.55),
    Role.CUT_TINT: (0.925, 0.91, 0.875),
    Role.SLIVER: (0.0, 0.0, 0.0),
    Role.WALL: (0.12, 0.12, 0.12),
    Role.DOORWAY: (1.0, 1.0, 1.0),
    Role.CUTOUT: (0.82, 0.82, 0.82),
}
"""Red, green and blue of each role on paper; the classes differ in lightness, so a grey print reads too."""

_RIM = 0.15
"""The paper left free around letters with a halo, as a share of the type size."""

_INK_OPERANDS = {role: "{:g} {:g} {:g}".format(*ink) for role, ink in INKS.items()}
_PAINT = {(True, False): "S", (False, True): "f*", (True, True): "B*", (False, False): "n"}
"""The operator that strokes a path, fills it (even-odd), does both, or neither."""

_SHIFT = {Align.LEFT: 0.0, Align.CENTRE: -0.5, Align.RIGHT: -1.0}


class PdfPainter:
    """Paints page after page of one canvas."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._settings: dict[str, str] = {}
        self._coded: dict[tuple[str, bool, float], tuple[str, float]] = {}

    def paint(self, marks: Iterable[Mark]) -> None:
        """Paint all marks of a page, whose (0, 0) is its lower left corner."""
        self._settings.clear()
        for mark in marks:
            if isinstance(mark, Text):
                self._paint_text(mark)
            else:
                self._paint_path(mark)

    def _paint_path(self, mark: Path) -> None:
        if mark.pen:
            self._take_pen(mark.pen)
        self._set("J", "1" if mark.is_round else "0")
        self._set("j", "1" if mark.is_round else "0")
        if mark.fill:
            self._set("rg", _INK_OPERANDS[mark.fill])
        steps = " ".join(_steps(line, is_closed=mark.is_closed) for line in mark.lines)
        self._canvas.addLiteral(f"{steps} {_PAINT[mark.pen is not None, mark.fill is not None]}")

    def _take_pen(self, pen: Pen) -> None:
        self._set("RG", _INK_OPERANDS[pen.role])
        self._set("w", f"{pen.weight * PT:.3f}")
        self._set("d", f"[{' '.join(f'{length * PT:.3f}' for length in pen.dashes)}] 0")

    def _set(self, operator: str, operands: str) -> None:
        if self._settings.get(operator) != operands:
            self._settings[operator] = operands
            self._canvas.addLiteral(f"{operands} {operator}")

    def _paint_text(self, mark: Text) -> None:
        letters, width = self._letters(mark)
        place = _placement(mark, _SHIFT[mark.align] * width)
        if mark.has_halo:
            self._set("rg", _INK_OPERANDS[Role.PAPER])
            self._canvas.addLiteral(f"q {place} {_halo(width, mark.height * PT)} Q")
        self._set("rg", _INK_OPERANDS[mark.role])
        self._canvas.addLiteral(f"q {place} {letters} Q")

    def _letters(self, mark: Text) -> tuple[str, float]:
        """Return the operators that write the words from (0, 0), and their width in pt."""
        key = (mark.words, mark.is_bold, mark.height)
        if key not in self._coded:
            self._coded[key] = self._coded_anew(mark)
        return self._coded[key]

    def _coded_anew(self, mark: Text) -> tuple[str, float]:
        height, parts = mark.height * PT, runs(mark.words, is_bold=mark.is_bold)
        text = self._canvas.beginText()
        for font, letters in parts:
            text.setFont(font, height)
            text.textOut(letters)
        return str(text.getCode()), sum(run_width(part, height) for part in parts)


def _steps(line: Points, *, is_closed: bool) -> str:
    """Return the operators that go along a line (n, 2) in mm."""
    path = "%.3f %.3f m" + " %.3f %.3f l" * (len(line) - 1)
    return path % tuple((line * PT).ravel().tolist()) + (" h" if is_closed else "")


def _placement(mark: Text, along: float) -> str:
    """Return the operator that puts (0, 0) where a text stands, moved by `along` pt in its direction."""
    x, y = mark.at[0] * PT, mark.at[1] * PT
    if not mark.angle:
        return f"1 0 0 1 {x + along:.3f} {y:.3f} cm"
    cos, sin = math.cos(math.radians(mark.angle)), math.sin(math.radians(mark.angle))
    return f"{cos:.6f} {sin:.6f} {-sin:.6f} {cos:.6f} {x + along * cos:.3f} {y + along * sin:.3f} cm"


def _halo(width: float, height: float) -> str:
    rim = height * _RIM
    return f"{-rim:.3f} {-rim:.3f} {width + 2 * rim:.3f} {height * CAP + 2 * rim:.3f} re f"
