"""A sheet to type or paste a table of readings into; what cannot be read is said with its line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtGui import QFontDatabase, QTextCursor
from PySide6.QtWidgets import QFileDialog, QLabel, QPlainTextEdit, QWidget

from tilelayout.app.look import STEP, Look
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.heights import format_height, height_style
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.flatness.reading import ReadingError, read_table
from tilelayout.job.edits.surveys import Reading

_WORDS = (
    "One reading a line: across from the left, up from below, height. Columns by tab, semicolon or spaces. "
    "Read with a level from place to place, head the columns “x y step”: each is then how much higher "
    "than the one before."
)


class TableSheet(Sheet):
    """Shows the readings there are; `taken(readings)` is called with those of a table that can be read."""

    def __init__(
        self,
        parent: QWidget,
        look: Look,
        style: LengthStyle,
        readings: tuple[Reading, ...],
        taken: Callable[[tuple[Reading, ...]], object],
    ) -> None:
        choices = (
            Choice("Take these readings", self.take, is_next=True, keeps_open=True),
            Choice("Open a file…", self.open_file, keeps_open=True),
            Choice("Cancel"),
        )
        super().__init__(parent, look, "Readings as a table", _WORDS, choices)
        self._style, self._taken = style, taken
        self.text = QPlainTextEdit(self)
        self.text.setAccessibleName("Table of readings")
        self.text.setFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont))
        self.text.setPlaceholderText("x\ty\theight")
        self.text.setMinimumSize(110 * STEP, 60 * STEP)
        self.text.setTabChangesFocus(False)
        self.text.setPlainText(table_of(readings, style))
        self.wrong = QLabel(self)
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.setVisible(False)
        self.body.addWidget(self.text)
        self.body.addWidget(self.wrong)
        self.text.setFocus()

    def take(self) -> None:
        """Read the table and close; if it cannot be read, say why and go to the line."""
        try:
            readings = read_table(self.text.toPlainText(), self._style, height_style(self._style))
        except ReadingError as error:
            self._say(str(error))
            self._go_to(error.line)
            return
        self._taken(readings)
        self.accept()

    def open_file(self) -> None:
        """Put the text of a file in place of what is there."""
        path, _ = QFileDialog.getOpenFileName(
            self, "Open a table", "", "Tables (*.csv *.txt *.tsv);;All files (*)"
        )
        if path:
            self.load(Path(path))

    def load(self, path: Path) -> None:
        """Show what a file holds; nothing is taken before the person says so."""
        try:
            self.text.setPlainText(path.read_text("utf-8-sig"))
        except (OSError, UnicodeDecodeError) as error:
            why = (
                error.strerror if isinstance(error, OSError) and error.strerror else "it is no text in UTF-8"
            )
            self._say(str(TileLayoutError(f"{path.name} cannot be read: {why}.", "Choose another file.")))
        else:
            self._say("")

    def _say(self, words: str) -> None:
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))

    def _go_to(self, line: int) -> None:
        cursor = QTextCursor(self.text.document().findBlockByLineNumber(line - 1))
        cursor.select(QTextCursor.SelectionType.LineUnderCursor)
        self.text.setTextCursor(cursor)
        self.text.setFocus()


def table_of(readings: tuple[Reading, ...], style: LengthStyle) -> str:
    """Return readings as a table that reads back the same but for what the job's lengths round off."""
    rows = [
        f"{format_length(x, style)}\t{format_length(y, style)}\t{format_height(height, style)}"
        for x, y, height in readings
    ]
    return "\n".join(rows)
