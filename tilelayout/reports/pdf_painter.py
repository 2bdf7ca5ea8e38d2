"""Paints a figure's marks on a PDF canvas. Nothing is decided here but ink: lines, fills and fonts."""

from __future__ import annotations

from collections.abc import Iterable

from reportlab.pdfgen.canvas import Canvas

from tilelayout.reports.figure import Align, Mark, Path, Role, Text
from tilelayout.reports.pdf_letters import Run, run_width, runs
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


def paint(canvas: Canvas, marks: Iterable[Mark]) -> None:
    """Paint `marks`, whose (0, 0) is the lower left corner of the page."""
    for mark in marks:
        if isinstance(mark, Text):
            _paint_text(canvas, mark)
        else:
            _paint_path(canvas, mark)


def _paint_path(canvas: Canvas, mark: Path) -> None:
    path = canvas.beginPath()
    for line in mark.lines:
        first, *rest = (line * PT).tolist()
        path.moveTo(*first)
        for place in rest:
            path.lineTo(*place)
        if mark.is_closed:
            path.close()
    if mark.pen:
        canvas.setStrokeColorRGB(*INKS[mark.pen.role])
        canvas.setLineWidth(mark.pen.weight * PT)
        canvas.setDash([length * PT for length in mark.pen.dashes] or [])
    canvas.setLineCap(1 if mark.is_round else 0)
    canvas.setLineJoin(1 if mark.is_round else 0)
    if mark.fill:
        canvas.setFillColorRGB(*INKS[mark.fill])
    canvas.drawPath(path, stroke=int(mark.pen is not None), fill=int(mark.fill is not None), fillMode=0)


def _paint_text(canvas: Canvas, mark: Text) -> None:
    height = mark.height * PT
    parts = runs(mark.words, is_bold=mark.is_bold)
    width = sum(run_width(part, height) for part in parts)
    canvas.saveState()
    canvas.translate(mark.at[0] * PT, mark.at[1] * PT)
    canvas.rotate(mark.angle)
    left = {Align.LEFT: 0.0, Align.CENTRE: -width / 2, Align.RIGHT: -width}[mark.align]
    if mark.has_halo:
        _paint_halo(canvas, left, width, height)
    _paint_runs(canvas, parts, left, height, mark.role)
    canvas.restoreState()


def _paint_halo(canvas: Canvas, left: float, width: float, height: float) -> None:
    rim = height * 0.15
    canvas.setFillColorRGB(*INKS[Role.PAPER])
    canvas.rect(left - rim, -rim, width + 2 * rim, height * CAP + 2 * rim, stroke=0, fill=1)


def _paint_runs(canvas: Canvas, parts: tuple[Run, ...], left: float, height: float, role: Role) -> None:
    text = canvas.beginText(left, 0)
    text.setFillColorRGB(*INKS[role])
    for font, letters in parts:
        text.setFont(font, height)
        text.textOut(letters)
    canvas.drawText(text)
