"""The drawing below the cut list: the piece of the current line, or the tile it is sawn from."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tilelayout.app.look import STEP, Look
from tilelayout.app.paint.figure_painter import paint_figure
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.cut_views import CutLine, CutView
from tilelayout.planning.hand_work import HandWork
from tilelayout.planning.saw_list import SawList
from tilelayout.reports.figure import Figure
from tilelayout.reports.figures.piece_figure import piece_figure
from tilelayout.reports.figures.tile_figure import tile_figure

_ROOM = (84.0, 40.0)
"""Mm of paper to draw for: at the width of a card the words are as large as small text."""


class CutDrawing(QWidget):
    """Shows one line of the cut list with the same figure as on the sheets."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._figure: Figure | None = None
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(31 * STEP)
        self.hide()

    def show_line(self, line: CutLine | None, found: SawList | None, view: CutView) -> None:
        """Draw a line; nothing without one, and nothing where the list draws its tiles itself."""
        is_drawn = line is not None and found is not None and view is not CutView.TILE
        self._figure = _figure(line, found, view) if is_drawn and line and found else None
        self.setVisible(is_drawn)
        self.setAccessibleName(f"Drawing of {line.title}, face up" if line is not None else "")
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the drawing as large as fits."""
        if self._figure is None:
            return
        with QPainter(self) as painter:
            rect = QRectF(self.rect()).adjusted(0, STEP, 0, -STEP)
            paint_figure(painter, self._figure, rect, self._look, largest=rect.width() / _ROOM[0])


def _figure(line: CutLine, found: SawList, view: CutView) -> Figure:
    """Return the piece with its sizes if the line is about one piece, else the tile with its cuts."""
    is_one_piece = view is CutView.SURFACE or isinstance(line.cuts[0], HandWork)
    row = _row_of(line.pieces[0], found) if is_one_piece else None
    if row is None:
        return tile_figure(line.tile, found, _ROOM)
    return piece_figure(row, found.of.pieces[line.pieces[0]].plan, _ROOM)


def _row_of(name: str, found: SawList) -> CutRow | None:
    """Return a piece as a row of its own, so that its own walls are drawn; None for a strip of trim."""
    for row in found.of.rows:
        for piece in row.pieces:
            if piece.id == name:
                return replace(row, pieces=(piece,), cuts=found.of.pieces[name].cuts)
    return None
