"""A sheet that works something out off the window's thread: it says so meanwhile, and leaving it gives up."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence

from PySide6.QtWidgets import QLabel, QProgressBar, QWidget

from tilelayout.app.latest_work import LatestWork
from tilelayout.app.look import Look
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.base.errors import TileLayoutError

_WHOLE = 100


class WorkingSheet(Sheet):
    """`work` begins; a subclass shows steps and the last of them in `show_answer`.

    Closing the sheet drops the work at once: what is under way ends by itself and is heard of no more.
    """

    def __init__(
        self, window: QWidget, look: Look, title: str, words: str, choices: Sequence[Choice] = ()
    ) -> None:
        super().__init__(window, look, title, words, choices)
        self.bar = QProgressBar(self)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("How far the work is")
        self.state = QLabel(self)
        self.state.setWordWrap(True)
        self.state.setAccessibleName("How the work stands")
        self.body.addWidget(self.bar)
        self.body.addWidget(self.state)
        self._work = LatestWork(window)
        self._work.answered.connect(self._take)
        self._work.failed.connect(self._fail)
        self.finished.connect(self._leave)

    @property
    def is_working(self) -> bool:
        """Whether the answer is still being worked out."""
        return not self.bar.isHidden()

    def work(self, steps: Callable[[], Iterator[object]], words: str, question: Hashable = None) -> None:
        """Work out the steps, showing `words` meanwhile; an earlier question is dropped."""
        self.bar.setRange(0, 0)
        self.bar.show()
        self.say(words)
        self._work.ask(question if question is not None else object(), steps)

    def show_answer(self, answer: object) -> None:
        """Show the answer, which is the last step."""

    def show_step(self, step: object) -> None:
        """Show a step on the way."""

    def show_done(self, share: float) -> None:
        """Show how far the work is, from 0 to 1."""
        self.bar.setRange(0, _WHOLE)
        self.bar.setValue(round(_WHOLE * share))

    def give_up(self, words: str) -> None:
        """Stop at once and say so."""
        self._work.forget()
        self.bar.hide()
        self.say(words)

    def say(self, words: str) -> None:
        """Say how things stand."""
        self.state.setText(words)
        self.state.setVisible(bool(words))
        self._make_room()

    def _make_room(self) -> None:
        """Grow with the words, so that nothing lies over anything else."""
        layout = self.layout()
        if self.isVisible() and layout is not None:
            self.resize(self.width(), max(self.height(), layout.totalHeightForWidth(self.width())))

    def _leave(self, _how: int) -> None:
        """Give up; what is still under way keeps what it answers to until it has ended."""
        self._work.forget()
        if not self._work.is_working:
            self._work.deleteLater()

    def _take(self, _question: object, answer: object, is_last: bool) -> None:
        if not is_last:
            self.show_step(answer)
            return
        self.bar.hide()
        self.say("")
        self.show_answer(answer)

    def _fail(self, error: object) -> None:
        if not isinstance(error, TileLayoutError):
            assert isinstance(error, Exception)
            raise error
        self.bar.hide()
        self.say(str(error))
