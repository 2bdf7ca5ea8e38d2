"""Works out answers off the window's thread, one question at a time: the map, a plan pointed at, the ranges.

What is asked for last is what is wanted: an answer to an earlier question is dropped when it comes.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator

from PySide6.QtCore import QObject, Signal

from tilelayout.app.background import Pull


class LatestWork(QObject):
    """Answers the latest question. `answered(question, answer, is_last)` for every step of the answer.

    `ask(question, steps)` begins at once, or as soon as the work under way has been stopped.
    """

    answered = Signal(object, object, bool)
    failed = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.question: Hashable = None
        self._steps: Callable[[], Iterator[object]] | None = None
        self._pull: Pull | None = None
        self._latest: list[object] = []

    @property
    def is_working(self) -> bool:
        """Whether an answer is being worked out."""
        return self._pull is not None

    def ask(self, question: Hashable, steps: Callable[[], Iterator[object]], *, waits: bool = False) -> None:
        """Ask something else; the same question again changes nothing.

        `waits`: what is under way is short and may end, so that answers come while questions keep coming.
        """
        if question == self.question:
            return
        self.question, self._steps = question, steps
        if self._pull is None:
            self._begin()
        elif not waits:
            self._pull.cancel()

    def forget(self) -> None:
        """Want nothing any more."""
        self.question, self._steps = None, None
        if self._pull is not None:
            self._pull.cancel()

    def stop(self) -> None:
        """Want nothing any more, and wait until nothing is under way."""
        self.forget()
        if self._pull is not None:
            self._pull.wait()

    def _begin(self) -> None:
        steps, question = self._steps, self.question
        self._steps = None
        if steps is None:
            return
        latest: list[object] = []
        self._latest = latest

        def kept() -> Iterator[object]:
            for step in steps():
                latest[:] = [step]
                yield question, step

        pull = Pull(kept)
        self._pull = pull
        pull.stepped.connect(self._take)
        pull.done.connect(self._end)
        pull.cancelled.connect(self._begin_next)
        pull.failed.connect(self._fail)
        pull.start()

    def _take(self, answer: tuple[Hashable, object]) -> None:
        question, step = answer
        if question == self.question:
            self.answered.emit(question, step, False)

    def _end(self) -> None:
        is_wanted = self._steps is None and self.question is not None
        if is_wanted and self._latest:
            self.answered.emit(self.question, self._latest[0], True)
        self._begin_next()

    def _fail(self, error: object) -> None:
        self.failed.emit(error)
        self._begin_next()

    def _begin_next(self) -> None:
        self._pull = None
        self._begin()
