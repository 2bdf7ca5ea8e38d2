"""The line at the foot: the most serious finding in a sentence, what the pointer snaps to, the zoom.

A press on the finding brings its question to the front and lights the pieces it is about.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.look import GRAB, STEP, Look, TextSize
from tilelayout.app.progress import Finding, Level, worst_finding
from tilelayout.app.rule_findings import findings_in_front

_SHOWN_MS = 8000


class LevelMark(QWidget):
    """The level of a finding as a shape: octagon, triangle, ring or tick."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.level = Level.WELL
        self.setFixedSize(GRAB, GRAB)

    def show_level(self, level: Level) -> None:
        """Show another level."""
        self.level = level
        self.setAccessibleName(
            {Level.WELL: "All well", Level.ADVISE: "Advice"}.get(level, level.capitalize())
        )
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the shape in the colour of its level."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        role = "panel_ink" if self.level is Level.WELL else str(self.level)
        painter.setPen(QPen(self._look.colour(role), 2.0))
        place = QRectF(5, 5, 14, 14)
        if self.level is Level.WELL:
            painter.drawPolyline(
                [place.topLeft() + _at(1, 8), place.topLeft() + _at(5, 12), place.topLeft() + _at(13, 2)]
            )
            return
        if self.level is Level.ADVISE:
            painter.drawEllipse(place)
        elif self.level is Level.WARN:
            painter.drawPolygon([place.topLeft() + _at(7, 0), place.bottomRight(), place.bottomLeft()])
        else:
            corners = ((4, 0), (10, 0), (14, 4), (14, 10), (10, 14), (4, 14), (0, 10), (0, 4))
            painter.drawPolygon([place.topLeft() + _at(*corner) for corner in corners])
        painter.drawText(
            place.adjusted(0, 1, 0, 1),
            Qt.AlignmentFlag.AlignCenter,
            "i" if self.level is Level.ADVISE else "!",
        )


class OneLine(QPushButton):
    """A press-able sentence on one line; what does not fit is cut short and shown whole as a tip."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = ""
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def show_words(self, words: str) -> None:
        """Show a sentence."""
        self._words = words
        self.setAccessibleName(words)
        self.setToolTip(words)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Cut the sentence to the new width."""
        super().resizeEvent(event)
        self._fit()

    def minimumSizeHint(self) -> QSize:
        """Any width will do."""
        return QSize(10 * STEP, GRAB)

    def _fit(self) -> None:
        room = max(self.width() - 6 * STEP, 0)
        words = self.fontMetrics().elidedText(self._words, Qt.TextElideMode.ElideRight, room)
        self.setText(words.replace("&", "&&"))


class Foot(QWidget):
    """The whole line. `finding_pressed(finding)`, `list_wanted` and `fit_wanted` say what was pressed."""

    finding_pressed = Signal(object)
    list_wanted = Signal()
    fit_wanted = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("foot")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._bench = bench
        self.finding: Finding = worst_finding(bench)
        self.mark = LevelMark(bench.look, self)
        self.words = OneLine(self)
        self.words.setObjectName("finding")
        self.all = QPushButton(self)
        self.all.setObjectName("zoom")
        self.all.setToolTip("All that the trade's rules find, with sources")
        self.snap = QLabel(self)
        self.snap.setObjectName("faint")
        self.snap.setAccessibleName("What the pointer snaps to")
        self.zoom = QPushButton(self)
        self.zoom.setObjectName("zoom")
        self.zoom.setToolTip("Fit everything into view")
        self._back = QTimer(self, singleShot=True, interval=_SHOWN_MS)
        self._back.timeout.connect(self.refresh)
        self._place()
        self.words.clicked.connect(lambda: self.finding_pressed.emit(self.finding))
        self.all.clicked.connect(self.list_wanted)
        self.zoom.clicked.connect(self.fit_wanted)
        for heard in (bench.job_changed, bench.place_changed, bench.look.changed):
            heard.connect(self.refresh)
        bench.refused.connect(self.say)
        self.show_zoom(0.1)
        self.refresh()

    def _place(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(3 * STEP, STEP, 3 * STEP, STEP)
        row.setSpacing(2 * STEP)
        row.addWidget(self.mark)
        row.addWidget(self.words, 1)
        row.addWidget(self.all)
        row.addWidget(self.snap)
        row.addWidget(self.zoom)

    def refresh(self) -> None:
        """Show the most serious finding."""
        self._back.stop()
        self.finding = worst_finding(self._bench)
        self.mark.show_level(self.finding.level)
        self.words.setFont(self._bench.look.font(TextSize.TEXT))
        self.words.show_words(self.finding.words)
        found = len(findings_in_front(self._bench))
        self.all.setVisible(found > 0)
        self.all.setText(f"{found} findings" if found != 1 else "1 finding")

    def say(self, words: str) -> None:
        """Say why something was refused; after a while, or said "", the finding comes back."""
        self._show(Level.STOP, words)

    def tell(self, words: str) -> None:
        """Tell of something that was done; after a while the finding comes back."""
        self._show(Level.WELL, words)

    def _show(self, level: Level, words: str) -> None:
        if not words:
            self.refresh()
            return
        self.mark.show_level(level)
        self.words.show_words(words)
        self._back.start()

    def show_snap(self, words: str) -> None:
        """Say what the pointer snaps to."""
        self.snap.setText(words)

    def show_zoom(self, px_per_mm: float) -> None:
        """Show the zoom as the scale on a screen of 96 px to the inch."""
        ratio = 96 / 25.4 / max(px_per_mm, 1e-9)
        words = f"1 : {ratio:.3g}" if ratio >= 1 else f"{1 / ratio:.3g} : 1"
        self.zoom.setText(words)
        self.zoom.setAccessibleName(f"Scale {words}. Fit everything into view")


def _at(x: float, y: float) -> QPointF:
    return QPointF(x, y)
