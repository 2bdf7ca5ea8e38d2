"""The picture beside the questions: three by three cells as they would be laid, gaps and overlaps marked."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tilelayout.app.board.view import fitted
from tilelayout.app.draw_tile.cell_painter import bounds_of, paint_wrong
from tilelayout.app.look import STEP, Look
from tilelayout.app.paint.paths import rings_path
from tilelayout.app.paint.strokes import line_pen
from tilelayout.layout.drafts import Draft, Fit, copies


class CellsPicture(QWidget):
    """Shows a draft, nothing to press."""

    def __init__(self, look: Look, draft: Draft, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self._draft, self._fit = look, draft, Fit()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Three by three cells")

    def show_draft(self, draft: Draft, fit: Fit) -> None:
        """Show another draft, and what is wrong with it."""
        self._draft, self._fit = draft, fit
        self.update()

    def sizeHint(self) -> QSize:
        """A small picture."""
        return QSize(64 * STEP, 28 * STEP)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint joints as the ground and the tiles on it."""
        look, rect = self._look, QRectF(self.rect())
        view = fitted(bounds_of(self._draft), rect, 2 * STEP)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(rect, look.colour("paper"))
            painter.setPen(line_pen(look.colour("tile_joint"), 1.0))
            painter.setBrush(look.colour("tile_face"))
            for _, _, ring in copies(self._draft):
                painter.drawPath(rings_path([view.all_to_screen(ring)]))
            paint_wrong(painter, self._fit, view, look)
            painter.setBrush(painter.brush().style().NoBrush)
            painter.setPen(line_pen(look.colour("line"), 1.0))
            painter.drawRect(rect.adjusted(0.5, 0.5, -0.5, -0.5))
