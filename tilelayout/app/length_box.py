"""A box for a length: written as a person writes it, named in words beside the box if it cannot be read.

What is shown is rounded, what is kept is not: the text is read back only if the person changed it, so that
looking at a length never changes it. One entry is one change.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLabel, QLineEdit, QVBoxLayout, QWidget

from tilelayout.app.look import GRAB, STEP
from tilelayout.base.errors import LengthError, TileLayoutError
from tilelayout.base.units import LengthStyle, format_length, parse_length


class EntryBox(QWidget):
    """A line of text that stands for a value, with room for a sentence if it cannot be read.

    `entered(value)` is emitted once for each finished entry that differs from what is shown. A subclass says
    how a value is read and written.
    """

    entered = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line = QLineEdit(self)
        self.line.setAccessibleName(name)
        self.line.setMinimumHeight(GRAB + STEP)
        self.wrong = QLabel(self)
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.setVisible(False)
        self.wrong.setAccessibleName(f"{name}: what is wrong")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(STEP)
        column.addWidget(self.line)
        column.addWidget(self.wrong)
        self.setFocusProxy(self.line)
        self.line.editingFinished.connect(self._finish)
        self.line.installEventFilter(self)
        self._shown = ""

    def read(self, text: str) -> object:
        """Return the value of `text`; raise a TileLayoutError in words if it is none."""
        raise TileLayoutError(f"“{text}” cannot be read.")

    def show_text(self, text: str) -> None:
        """Show a value as text, unless a person is in the middle of typing another."""
        self._shown = text
        if not (self.line.hasFocus() and self.line.isModified()):
            is_all_marked = self.line.hasFocus() and self.line.selectedText() == self.line.text()
            self.line.setText(text)
            if is_all_marked:  # what is typed next still takes its place
                self.line.selectAll()
            self._say("")

    def enter(self, text: str) -> None:
        """Type `text` and finish, as a person would."""
        self.line.setText(text)
        self.line.setModified(True)
        self._finish()

    def eventFilter(self, watched: object, event: object) -> bool:
        """Esc brings back the value shown before."""
        is_escape = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape
        if watched is self.line and is_escape and self.line.isModified():
            self._restore()
            return True
        if watched is self.line and isinstance(event, QFocusEvent) and event.gotFocus():
            self.line.selectAll()
        return False

    def _finish(self) -> None:
        text = self.line.text().strip()
        if not self.line.isModified():
            return
        if text == self._shown:
            self._restore()
            return
        try:
            value = self.read(text)
        except TileLayoutError as error:
            self._say(str(error))
            return
        self.line.setModified(False)
        self._say("")
        self.entered.emit(value)
        self.line.setText(self._shown)

    def _restore(self) -> None:
        self.line.setText(self._shown)
        self.line.setModified(False)
        self._say("")

    def _say(self, words: str) -> None:
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))
        self.line.setProperty("isWrong", bool(words))
        self.line.style().polish(self.line)


class LengthBox(EntryBox):
    """A box for a length in the job's way of writing lengths. `entered` carries mm."""

    def __init__(
        self,
        name: str,
        *,
        least: float | None = 0.0,
        is_optional: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(name, parent)
        self._least = least
        self._is_optional = is_optional
        self._style = LengthStyle.MM

    def show_length(self, length: float | None, style: LengthStyle) -> None:
        """Show a length in mm; None shows an empty box."""
        self._style = style
        self.show_text("" if length is None else format_length(length, style))

    def read(self, text: str) -> float | None:
        """Return mm; LengthError if it is no length or smaller than the box allows."""
        if not text and self._is_optional:
            return None
        length = parse_length(text, self._style, signed=self._least is None)
        if self._least is not None and length < self._least:
            least, first, second = (
                format_length(length, self._style)
                for length in (self._least, self._least + 100, self._least + 300)
            )
            raise LengthError(text, f"the least here is {least}", (first, second))
        return length


class NumberBox(EntryBox):
    """A box for a number that is no length: degrees, a count. `entered` carries a float."""

    def __init__(
        self,
        name: str,
        *,
        unit: str = "",
        is_allowed: Callable[[float], bool] = lambda _number: True,
        example: str = "45",
        is_optional: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(name, parent)
        self._unit = unit
        self._is_allowed = is_allowed
        self._example = example
        self._is_optional = is_optional

    def show_number(self, number: float | None) -> None:
        """Show a number with its unit; None shows an empty box."""
        self.show_text("" if number is None else f"{number:.6g}{self._unit}")

    def read(self, text: str) -> float | None:
        """Return the number; a TileLayoutError with an example if it is none."""
        if not text and self._is_optional:
            return None
        try:
            number = float(text.removesuffix(self._unit.strip()).strip().replace(",", "."))
        except ValueError:
            raise TileLayoutError(f"“{text}” is no number.", f"Write for example {self._example}.") from None
        if not self._is_allowed(number):
            raise TileLayoutError(f"{text} cannot be used here.", f"Write for example {self._example}.")
        return number
