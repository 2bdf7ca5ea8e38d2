"""A figure of the printed sheets in a widget: the very marks that the paper gets."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tilelayout.app.paint.figure_painter import paint_figure
from tilelayout.app.paint.palette import Colours
from tilelayout.reports.figure import Figure

_PX = 4.2
"""Px for each mm of paper at the most, so that type of 8 points is as large as the text around it."""

_RIM = 4
_NARROWEST = 240


class FigureView(QWidget):
    """Paints one figure; without one it takes no room."""

    def __init__(self, name: str, colours: Colours, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colours = colours
        self.figure: Figure | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)

    def show_figure(self, figure: Figure | None, words: str = "") -> None:
        """Show another figure; `words` are what a screen reader says of it."""
        self.figure = figure
        self.setAccessibleDescription(words)
        self.setVisible(figure is not None)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """As large as the figure is at the type size of the window."""
        if self.figure is None:
            return QSize(0, 0)
        return QSize(int(self.figure.width * _PX) + 2 * _RIM, int(self.figure.height * _PX) + 2 * _RIM)

    def minimumSizeHint(self) -> QSize:
        """It may be squeezed, and is then drawn smaller."""
        return QSize(_NARROWEST, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the figure on paper."""
        if self.figure is None:
            return
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._colours.colour("paper"))
        inner = QRectF(self.rect()).adjusted(_RIM, _RIM, -_RIM, -_RIM)
        paint_figure(painter, self.figure, inner, self._colours, largest=_PX)
