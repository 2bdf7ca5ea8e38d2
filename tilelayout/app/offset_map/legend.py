"""What the tones and the marks of the map mean, in the job's lengths."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from tilelayout.app.look import STEP, Look, TextSize
from tilelayout.app.offset_map.marks import best_mark, paint_mark, start_mark
from tilelayout.app.offset_map.picture import Scale
from tilelayout.app.offset_map.tones import COUNT, tones

_BAR = 3 * STEP
BEST, BEST_FOUND = "the best there is", "the best found"


class Legend(QWidget):
    """A bar of the tones with the values at both ends and at one mark between, and the two marks' names."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._scale = Scale(0.0, 1.0)
        self._words = ("", "")
        self._tick: tuple[float, str] | None = None
        self._best = ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_scale(self, scale: Scale, worst: str, best: str, tick: tuple[float, str] | None = None) -> None:
        """Show the words for both ends; `tick` is a value between them and its words."""
        self._scale, self._words, self._tick = scale, (worst, best), tick
        between = f", {tick[1]} marked" if tick is not None else ""
        self.setAccessibleName(f"Tones from dark, {worst}, to light, {best}{between}")
        self.update()

    def name_best(self, words: str) -> None:
        """Show what the mark of the best start is called; "" while it is not known."""
        self._best = words
        self.update()

    def sizeHint(self) -> QSize:
        """The bar and three lines of words."""
        line = self._line()
        return QSize(60 * STEP, int(_BAR + 3 * line + 4 * STEP))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self._look.font(TextSize.SMALL))
        bar = QRectF(0, 0, self.width(), _BAR)
        pixels = np.ascontiguousarray(tones())
        painter.drawImage(bar, QImage(pixels.tobytes(), COUNT, 1, 3 * COUNT, QImage.Format.Format_RGB888))
        painter.setPen(self._look.colour("faint_ink"))
        line = QRectF(0, _BAR + STEP / 2, self.width(), self._line())
        painter.drawText(line, Qt.AlignmentFlag.AlignLeft, self._words[0])
        painter.drawText(line, Qt.AlignmentFlag.AlignRight, self._words[1])
        if self._tick is not None:
            self._paint_tick(painter, bar, line.translated(0, self._line()))
        self._paint_marks(painter, line.translated(0, 2 * self._line() + STEP))

    def _paint_tick(self, painter: QPainter, bar: QRectF, line: QRectF) -> None:
        value, words = self._tick or (0.0, "")
        x = bar.width() * float(self._scale.shares(np.array([value]))[0])
        if not 0.0 < x < bar.width():
            return
        painter.setPen(QPen(self._look.colour("ink"), 2.0))
        painter.drawLine(QPointF(x, bar.top()), QPointF(x, line.top()))
        wide = painter.fontMetrics().horizontalAdvance(words)
        left = min(max(x - wide / 2, 0.0), bar.width() - wide)
        painter.setPen(self._look.colour("faint_ink"))
        painter.drawText(QPointF(left, line.top() + painter.fontMetrics().ascent()), words)

    def _paint_marks(self, painter: QPainter, line: QRectF) -> None:
        middle, x = line.center().y(), 2.0 * STEP
        named = ((start_mark, "the start"), (best_mark, self._best))
        for mark, words in named if self._best else named[:1]:
            paint_mark(painter, mark(QPointF(x, middle), 5.0))
            painter.setPen(self._look.colour("faint_ink"))
            place = line.adjusted(x + 3 * STEP, 0, 0, 0)
            painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, words)
            x += painter.fontMetrics().horizontalAdvance(words) + 7 * STEP

    def _line(self) -> float:
        return float(self.fontMetrics().lineSpacing())
