"""The path: the questions from top to bottom as marks on a line, with how far each is answered.

The mark is a shape, not a colour: an open ring, a half-filled ring, a full one, or an exclamation mark.
Only questions that the program answers completely stand on it.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QSizePolicy, QVBoxLayout, QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.drawings import draw_stage
from tilelayout.app.look import STEP, Look, TextSize
from tilelayout.app.progress import Answered, answered

WORDS = {
    Stage.MEASURE: "Measure",
    Stage.TILE: "Tile",
    Stage.SURFACE: "Surface",
    Stage.SET_OUT: "Set out",
    Stage.COMPARE: "Compare",
    Stage.CUT: "Cut",
}

_PICTURE = 10 * STEP
_RING = 6.0
_STICK = 4.0 * STEP
"""From the right end of the strip to the line that the marks stand on."""


class PathStop(QAbstractButton):
    """One question on the path: its drawing, its word, its mark."""

    def __init__(self, stage: Stage, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.stage = stage
        self._look = look
        self._answered = Answered.OPEN
        self.setText(WORDS[stage])
        self.setCheckable(True)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.show_answered(Answered.OPEN)

    def show_answered(self, state: Answered) -> None:
        """Show how far the question is answered."""
        self._answered = state
        self.setAccessibleName(f"{self.text()}, {state}")
        self.setToolTip(f"{self.text()}: {state}")
        self.update()

    def sizeHint(self) -> QSize:
        """Wide enough for the word, high enough for drawing, word and mark."""
        bold = QFont(self.font())
        bold.setBold(True)
        metrics = QFontMetrics(bold)
        width = max(metrics.horizontalAdvance(self.text()), _PICTURE) + 10 * STEP
        return QSize(width, _PICTURE + metrics.height() + 7 * STEP)

    def minimumSizeHint(self) -> QSize:
        """Without the air around the drawing."""
        return QSize(self.sizeHint().width(), self.fontMetrics().height() + 8 * STEP)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the ground, the line with its mark, the drawing and the word."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ground = "paper" if self.isChecked() else "panel"
        painter.fillRect(self.rect(), self._look.colour(ground))
        if self.isChecked():
            painter.fillRect(0, 0, STEP, self.height(), self._look.colour("chalk"))
        self._paint_stick(painter)
        self._paint_words(painter)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(self._look.colour("accent"), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _paint_words(self, painter: QPainter) -> None:
        line = self.fontMetrics().height()
        left, width = 2 * STEP, self.width() - 9 * STEP
        high = self.height() - line - 4 * STEP
        if high >= 4 * STEP:
            side = min(float(_PICTURE), float(high))
            picture = QRectF(left + (width - side) / 2, 2 * STEP, side, side)
            draw_stage(painter, self.stage, picture, self._look)
        font = self.font()
        font.setBold(self.isChecked())
        painter.setFont(font)
        painter.setPen(self._look.colour("panel_ink"))
        foot = QRectF(left, self.height() - line - 2 * STEP, width, line)
        painter.drawText(foot, Qt.AlignmentFlag.AlignCenter, self.text())

    def _paint_stick(self, painter: QPainter) -> None:
        across = self.width() - _STICK
        painter.setPen(QPen(self._look.colour("line"), 1.5))
        painter.drawLine(QPointF(across, 0), QPointF(across, self.height()))
        paint_mark(painter, QPointF(across, self.height() / 2), self._answered, self._look)


def paint_mark(painter: QPainter, centre: QPointF, state: Answered, look: Look) -> None:
    """Paint the mark of a state: open ring, half ring, full ring, or a ring with an exclamation mark."""
    ink = look.colour("stop" if state is Answered.TROUBLE else "panel_ink")
    painter.setPen(QPen(ink, 2.0))
    painter.setBrush(look.colour("panel"))
    ring = QRectF(centre.x() - _RING, centre.y() - _RING, 2 * _RING, 2 * _RING)
    if state is Answered.TROUBLE:
        ring.adjust(-2, -2, 2, 2)
    painter.drawEllipse(ring)
    painter.setBrush(ink)
    if state is Answered.HALF:
        painter.drawChord(ring, 180 * 16, 180 * 16)
    elif state is Answered.FULL:
        painter.drawEllipse(ring)
    elif state is Answered.TROUBLE:
        painter.drawLine(QPointF(centre.x(), centre.y() - 4), QPointF(centre.x(), centre.y() + 1))
        painter.drawPoint(QPointF(centre.x(), centre.y() + 4.5))


class Path(QWidget):
    """The whole strip. A press brings a question to the front; arrow keys lead from one to the next."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self.setAccessibleName("Questions")
        self.stops = {stage: PathStop(stage, bench.look, self) for stage in Stage}
        self._group = QButtonGroup(self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        for stage, stop in self.stops.items():
            self._group.addButton(stop)
            column.addWidget(stop)
            stop.clicked.connect(lambda _checked=False, stage=stage: bench.show(stage=stage))
        column.addStretch(1)
        bench.job_changed.connect(self.refresh)
        bench.place_changed.connect(self.refresh)
        bench.printed_changed.connect(self.refresh)
        bench.look.changed.connect(self.update)
        self.refresh()

    def refresh(self) -> None:
        """Show which question is in front and how far each is answered."""
        font = self._bench.look.font(TextSize.TEXT)
        width = max(stop.sizeHint().width() for stop in self.stops.values())
        for stage, stop in self.stops.items():
            stop.setFont(font)
            stop.setFixedWidth(width)
            stop.setChecked(stage is self._bench.stage)
            stop.show_answered(answered(stage, self._bench))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Carry the line on below the last question."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._bench.look.colour("panel"))
        across = self.width() - _STICK
        painter.setPen(QPen(self._bench.look.colour("line"), 1.5))
        last = self.stops[Stage.CUT].geometry().bottom()
        painter.drawLine(QPointF(across, last), QPointF(across, last + 6 * STEP))
