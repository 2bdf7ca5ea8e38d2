"""The sheet on which a person draws a tile: the drawing, the questions beside it, and whether it does.

Whether the tiles fill the plane is worked out off the window's thread after every change. Only what fills it
can be used; everything before that is a draft, and closing the sheet leaves the job as it was.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from tilelayout.app.draw_tile.cell_board import CellBoard
from tilelayout.app.draw_tile.picture import CellsPicture
from tilelayout.app.draw_tile.questions import Questions
from tilelayout.app.draw_tile.scratch import draft_in, scratch_of, with_draft, with_vectors
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.look import GRAB, STEP, Look
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.said_lengths import error_in
from tilelayout.base.units import LengthStyle
from tilelayout.job.session import Session
from tilelayout.job.values import Job
from tilelayout.layout.drafts import Draft, Fit, completed, fit_of
from tilelayout.planning.draft_words import fit_words

_BESIDE = 92 * STEP
"""Width of what stands beside the drawing."""


class DrawTileSheet(Sheet):
    """Draws on from `draft`; `used(draft)` is called with what fills the plane, and may refuse it."""

    def __init__(
        self, parent: QWidget, look: Look, draft: Draft, style: LengthStyle, used: Callable[[Draft], object]
    ) -> None:
        self.session = Session(scratch_of(draft, style))
        self._used = used
        choices = (
            Choice("Use this tile", self.use, is_next=True, keeps_open=True),
            Choice("Cancel"),
            Choice("Undo", self.session.undo, keeps_open=True),
            Choice("Redo", self.session.redo, keeps_open=True),
        )
        super().__init__(parent, look, "Draw a tile", choices=choices)
        self.use_button, _, self.undo, self.redo = self.buttons
        self.board = CellBoard(self.session, look, self)
        self.questions = Questions(self.board, self._apply, self)
        self.picture = CellsPicture(look, draft, self)
        self.said, self.hint, self.refused = (self._label(name) for name in ("", "faint", "wrong"))
        self.find_button = self._button("Find the vectors", self._find)
        self.take_button = self._button("Take these vectors", self._take)
        self.fit: Fit | None = None
        self._checking, self._finding = LatestWork(self), LatestWork(self)
        self._place()
        self._connect()
        self._follow()

    def use(self) -> None:
        """Hand the draft on and close; what is refused is said, and nothing drawn is lost."""
        if self.fit is None or not self.fit.fills:
            return
        try:
            self._used(draft_in(self.session.job))
        except TileLayoutError as error:
            self._refuse(str(error_in(error, self.session.job.show_lengths)))
        else:
            self.accept()

    def done(self, result: int) -> None:
        """Close, working no longer."""
        self._checking.stop()
        self._finding.stop()
        super().done(result)

    def _place(self) -> None:
        both = QGridLayout()
        both.setHorizontalSpacing(4 * STEP)
        both.addWidget(self.board, 0, 0, 2, 1)
        both.addWidget(self._beside(), 0, 1)
        both.addWidget(self.picture, 1, 1)
        both.setColumnStretch(0, 1)
        self.body.addLayout(both, 1)
        answer = QHBoxLayout()
        answer.addWidget(self.said, 1)
        answer.addWidget(self.take_button)
        answer.addWidget(self.find_button)
        self.body.addLayout(answer)
        for words in (self.refused, self.hint):
            self.body.addWidget(words)
        self.resize(250 * STEP, 165 * STEP)
        self.board.setFocus()

    def _beside(self) -> QScrollArea:
        """Return the questions in a column that scrolls rather than shrinks."""
        held = QWidget(self)
        column = QVBoxLayout(held)
        column.setContentsMargins(0, 0, 2 * STEP, 0)
        column.setSpacing(2 * STEP)
        column.addWidget(self.questions)
        column.addStretch(1)
        scroll = QScrollArea(self)
        scroll.setWidget(held)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFixedWidth(_BESIDE)
        return scroll

    def _connect(self) -> None:
        for button in self.buttons:  # Enter belongs to the drawing and to the boxes
            button.setDefault(False)
            button.setAutoDefault(False)
        self.session.watch(lambda *_: self._follow())
        self.board.front_changed.connect(lambda _: self._follow())
        self.hint.setText(self.board.preview.hint)
        self.board.hint_changed.connect(self.hint.setText)
        self.board.refused.connect(self._refuse)
        self._checking.answered.connect(self._take_fit)
        self._finding.answered.connect(self._take_found)
        for work in (self._checking, self._finding):
            work.failed.connect(self._fail)
        for keys, button in (
            (QKeySequence.StandardKey.Undo, self.undo),
            (QKeySequence.StandardKey.Redo, self.redo),
        ):
            QShortcut(QKeySequence(keys), self).activated.connect(button.click)

    def _follow(self) -> None:
        """Show the draft as it is now, and have it looked at."""
        job = self.session.job
        self.questions.show_job(job)
        self.undo.setEnabled(self.session.can_undo)
        self.redo.setEnabled(self.session.can_redo)
        self._refuse("")
        draft = draft_in(job)
        if self._checking.question != draft:
            self.fit = None
            self._show_fit(draft)
            self._checking.ask(draft, lambda: iter((fit_of(draft),)))

    def _take_fit(self, question: object, fit: object, is_last: bool) -> None:
        if is_last and isinstance(fit, Fit) and isinstance(question, Draft):
            self.fit = fit
            self._show_fit(question)

    def _show_fit(self, draft: Draft) -> None:
        fit = self.fit
        self.use_button.setEnabled(fit is not None and fit.fills)
        self.take_button.setVisible(fit is not None and fit.mended is not None)
        if fit is None:
            self.said.setText("Looking whether the tiles fill the plane …")
        else:
            mark = "✓" if fit.fills else "!"
            self.said.setText(f"{mark} {fit_words(draft, fit, self.session.job.show_lengths)}")
        self.board.show_fit(fit or Fit())
        self.picture.show_draft(draft, fit or Fit())

    def _find(self) -> None:
        draft = draft_in(self.session.job)
        self.find_button.setEnabled(False)
        self._finding.forget()
        self._finding.ask(object(), lambda: iter(((draft, completed(draft)),)))

    def _take_found(self, _question: object, answer: object, is_last: bool) -> None:
        if not is_last:
            return
        self.find_button.setEnabled(True)
        assert isinstance(answer, tuple)
        draft, found = answer
        if draft != draft_in(self.session.job):
            return
        if found is None:
            self._refuse(f"No vectors are found with which {_these(draft)} the plane.")
        else:
            self._apply("Find vectors", lambda job: with_draft(job, found))
            self.board.show_all()

    def _take(self) -> None:
        if self.fit is not None and self.fit.mended is not None:
            mended = self.fit.mended
            self._apply("Take vectors", lambda job: with_vectors(job, mended))

    def _apply(self, label: str, edit: Callable[[Job], Job]) -> None:
        try:
            self.session.apply(label, edit)
        except TileLayoutError as error:
            self._refuse(str(error_in(error, self.session.job.show_lengths)))

    def _refuse(self, words: str) -> None:
        self.refused.setText(words)
        self.refused.setVisible(bool(words))

    def _fail(self, error: object) -> None:
        assert isinstance(error, Exception)
        raise error

    def _label(self, name: str) -> QLabel:
        made = QLabel(self)
        made.setObjectName(name)
        made.setWordWrap(True)
        made.setTextFormat(Qt.TextFormat.PlainText)
        return made

    def _button(self, words: str, does: Callable[[], object]) -> QPushButton:
        made = QPushButton(words, self)
        made.setAutoDefault(False)
        made.setMinimumHeight(GRAB)
        made.clicked.connect(lambda _on=False: does())
        return made


def _these(draft: Draft) -> str:
    if len(draft.outlines) > 1:
        return "these tiles fill"
    return "this tile fills, alone or with a copy turned by half,"
