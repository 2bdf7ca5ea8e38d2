"""What the tones of the survey's map mean, in the job's lengths, and from line to line how much."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tilelayout.app.look import STEP, Look, TextSize
from tilelayout.app.surface.sight import HeightMap
from tilelayout.base.heights import format_height, format_height_about

_BAR = 3 * STEP
_COUNT = 256


class HeightLegend(QWidget):
    """A bar of the tones with the least and the most at its ends, and the step of the contours below."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._heights: HeightMap | None = None
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_map(self, heights: HeightMap | None) -> None:
        """Show what the tones of a map mean; None hides the legend."""
        self._heights = heights
        self.setVisible(heights is not None)
        self.setAccessibleName(" ".join(self.words))
        self.update()

    @property
    def words(self) -> tuple[str, ...]:
        """What stands at the left and right end and below."""
        made = self._heights
        if made is None:
            return ()
        low, high = (format_height_about(each, made.style) for each in (made.low, made.high))
        step = f"from line to line {format_height(made.step, made.style)}" if made.contours else ""
        if made.is_depth:
            low = f"{low} off" if made.low < -0.05 else "no fill"
            return low, f"{high} deep", step
        return f"{low} low", f"{high} high", step

    def sizeHint(self) -> QSize:
        """The bar and two lines of words."""
        return QSize(60 * STEP, int(_BAR + 2 * self.fontMetrics().lineSpacing() + 2 * STEP))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint it."""
        made = self._heights
        if made is None:
            return
        painter = QPainter(self)
        painter.setFont(self._look.font(TextSize.SMALL))
        row = np.ascontiguousarray(made.tones(np.linspace(made.low, made.high, _COUNT)))
        image = QImage(row.tobytes(), _COUNT, 1, 3 * _COUNT, QImage.Format.Format_RGB888)
        painter.drawImage(QRectF(0, 0, self.width(), _BAR), image)
        painter.setPen(self._look.colour("panel_ink"))
        line = QRectF(0, _BAR + STEP / 2, self.width(), self.fontMetrics().lineSpacing())
        low, high, step = self.words
        painter.drawText(line, Qt.AlignmentFlag.AlignLeft, low)
        painter.drawText(line, Qt.AlignmentFlag.AlignRight, high)
        below = line.translated(0, self.fontMetrics().lineSpacing())
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft, step)
