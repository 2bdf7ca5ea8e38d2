"""A sheet laid over the window: a title, a sentence or two, a few plain buttons.

There are few of them. A sheet never blocks the program: it is opened, and what the person presses is called.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from tilelayout.app.access_keys import give_keys
from tilelayout.app.flow import Flow
from tilelayout.app.look import STEP, Look, TextSize
from tilelayout.job.session import Session


@dataclass(frozen=True)
class Choice:
    """One button of a sheet. `keeps_open`: the sheet stays after it was pressed."""

    text: str
    does: Callable[[], object] | None = None
    is_next: bool = False
    keeps_open: bool = False


class Sheet(QDialog):
    """A sheet over `parent`. `dismissed` is called if it is left by Esc or closed without a choice."""

    def __init__(
        self,
        parent: QWidget,
        look: Look,
        title: str,
        words: str = "",
        choices: Sequence[Choice] = (),
        dismissed: Callable[[], object] | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(title)
        self._dismissed = dismissed
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(6 * STEP, 6 * STEP, 6 * STEP, 5 * STEP)
        self.body.setSpacing(3 * STEP)
        heading = QLabel(title, self)
        heading.setFont(look.font(TextSize.TITLE))
        heading.setWordWrap(True)
        self.body.addWidget(heading)
        self.words = QLabel(words, self)
        self.words.setWordWrap(True)
        self.words.setVisible(bool(words))
        self.words.setMinimumWidth(90 * STEP)
        self.body.addWidget(self.words)
        self._row = Flow(spacing=3 * STEP)
        self.buttons = [self._add_button(choice) for choice in choices]
        give_keys(self.buttons)

    def open(self) -> None:
        """Show the sheet; the window behind it waits."""
        foot = QHBoxLayout()
        foot.addLayout(self._row, 1)
        self.body.addLayout(foot)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        super().open()

    def scroll_through(self, *parts: QWidget) -> None:
        """Put parts below one another, to be scrolled where together they are too high."""
        inner = QWidget(self)
        inner.setObjectName("column")
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, 2 * STEP, 0)
        column.setSpacing(2 * STEP)
        for part in parts:
            column.addWidget(part)
        column.addStretch(1)
        scroll = QScrollArea(self)
        scroll.setObjectName("cardScroll")
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setWidget(inner)
        self.body.addWidget(scroll, 1)

    def undo_with_keys(self, session: Session) -> None:
        """Undo and redo in the job by their usual keys: those of the window wait while the sheet is open."""
        QShortcut(QKeySequence.StandardKey.Undo, self, session.undo)
        QShortcut(QKeySequence.StandardKey.Redo, self, session.redo)

    def reject(self) -> None:
        """Leave without a choice."""
        if self._dismissed is not None:
            self._dismissed()
        super().reject()

    def _add_button(self, choice: Choice) -> QPushButton:
        button = QPushButton(choice.text, self)
        button.setAccessibleName(choice.text.replace("&", ""))
        button.setMinimumWidth(18 * STEP)
        if choice.is_next:
            button.setObjectName("next")
            button.setDefault(True)
        else:
            button.setAutoDefault(False)
        button.clicked.connect(lambda: self._choose(choice))
        self._row.addWidget(button)
        return button

    def _choose(self, choice: Choice) -> None:
        if not choice.keeps_open:
            self.accept()
        if choice.does is not None:
            choice.does()
