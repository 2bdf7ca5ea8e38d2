"""The few kinds of field that the cards are made of: a choice, a line of text, a tick.

Each shows a value without saying that it changed, and says so once when a person changed it.
"""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, QSignalBlocker, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen, QWheelEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QStyle, QStyleOptionButton, QWidget

from tilelayout.app.length_box import EntryBox
from tilelayout.app.look import GRAB, STEP


class ChoiceBox(QComboBox):
    """A list to choose from; each entry stands for a value. `chosen(value)` follows a person's choice."""

    chosen = Signal(object)

    def __init__(
        self, name: str, choices: Iterable[tuple[str, object]] = (), parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setMinimumHeight(GRAB + STEP)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(4)
        self._values: list[object] = []
        self.offer(choices)
        self.activated.connect(lambda at: self.chosen.emit(self._values[at]))

    def offer(self, choices: Iterable[tuple[str, object]]) -> None:
        """Offer other entries; what is shown stays if it is still there."""
        choices = list(choices)
        words = [each[0] for each in choices]
        self._values = [each[1] for each in choices]
        if words != [self.itemText(at) for at in range(self.count())]:
            at = self.currentIndex()
            with QSignalBlocker(self):
                self.clear()
                self.addItems(words)
                self.setCurrentIndex(min(max(at, 0), self.count() - 1))

    @property
    def value(self) -> object:
        """The value of the entry shown; None if nothing is offered."""
        at = self.currentIndex()
        return self._values[at] if 0 <= at < len(self._values) else None

    def show_value(self, value: object) -> None:
        """Show the entry of a value; the first if there is none."""
        with QSignalBlocker(self):
            self.setCurrentIndex(self._values.index(value) if value in self._values else 0)

    def choose(self, value: object) -> None:
        """Choose as a person would."""
        self.setCurrentIndex(self._values.index(value))
        self.chosen.emit(value)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the field and the mark that says it opens."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        group = QPalette.ColorGroup.Normal if self.isEnabled() else QPalette.ColorGroup.Disabled
        painter.setPen(QPen(self.palette().color(group, QPalette.ColorRole.Text), 1.6))
        x, y = self.width() - GRAB / 2, self.height() / 2
        painter.drawPolyline([QPointF(x - 4, y - 2), QPointF(x, y + 2.5), QPointF(x + 4, y - 2)])

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel scrolls the card; it never changes a choice by accident."""
        event.ignore()


class TextBox(EntryBox):
    """A line of plain text, such as a name."""

    def read(self, text: str) -> str:
        """Any text will do."""
        return text


class Tick(QCheckBox):
    """Yes or no. `chosen(is_on)` follows a person's press."""

    chosen = Signal(object)

    def __init__(self, text: str, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setAccessibleName(text)
        self.setMinimumHeight(GRAB)
        self.clicked.connect(self._say)

    def show_value(self, is_on: bool) -> None:
        """Show a value."""
        with QSignalBlocker(self):
            self.setChecked(is_on)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the box, with a tick in it if it is on."""
        super().paintEvent(event)
        if not self.isChecked():
            return
        option = QStyleOptionButton()
        self.initStyleOption(option)
        box = QRectF(self.style().subElementRect(QStyle.SubElement.SE_CheckBoxIndicator, option, self))
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.palette().color(QPalette.ColorRole.HighlightedText), 2.0))
        left, top, side = box.left(), box.top(), box.width()
        ends = ((0.22, 0.55), (0.42, 0.74), (0.78, 0.28))
        painter.drawPolyline([QPointF(left + x * side, top + y * side) for x, y in ends])

    def _say(self, is_on: bool) -> None:
        self.chosen.emit(is_on)
