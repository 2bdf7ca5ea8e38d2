"""What the parts of the surface question share: which step is in front, the walk, and the answers so far.

Answers are worked out off the window's thread, and only for the steps that show them; while readings are
typed nothing heavier than the map is made.
"""

from __future__ import annotations

from enum import StrEnum

from PySide6.QtCore import QObject, Signal

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.surface.answer import Answer, answering
from tilelayout.app.surface.sight import Sight, sight_of
from tilelayout.base.errors import TileLayoutError
from tilelayout.drawing.walk import Walk
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.job.edits.readings import survey_at
from tilelayout.job.preparation import Preparation
from tilelayout.planning.surface import Flatness, flatness


class Face(StrEnum):
    """The steps of the question, in order."""

    READINGS = "readings"
    VERDICT = "verdict"
    MEND = "mend"


class Desk(QObject):
    """`changed` follows whatever changes what is shown of the survey in front."""

    changed = Signal()

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.face = Face.READINGS
        self.walk = Walk()
        self.trouble = ""
        self.answer: Answer | None = None
        self._work = LatestWork(self)
        self._work.answered.connect(self._take)
        self._work.failed.connect(self._fail)
        self._sight: tuple[tuple[object, ...], Sight | None] | None = None
        bench.job_changed.connect(self.follow)
        bench.place_changed.connect(self.follow)

    @property
    def one(self) -> Flatness | None:
        """The survey in front, joined with the tiles; None if nothing was read on the surface."""
        surface, job = self.bench.surface, self.bench.job
        at = None if surface is None else survey_at(job, surface.id)
        return None if at is None else flatness(job, at)

    @property
    def asked(self) -> Preparation:
        """How the surface is to be made flat."""
        one = self.one
        return (one.survey.preparation if one else None) or Preparation()

    @property
    def slips(self) -> tuple[Mistyped, ...]:
        """The readings that look mistyped; none where the readings make no surface."""
        one = self.one
        return () if one is None or self._unreadable(one) else one.slips

    @property
    def is_working(self) -> bool:
        """Whether an answer is still being worked out."""
        return self._work.is_working

    @property
    def sight(self) -> Sight | None:
        """What the board shows of the survey; None if nothing was read."""
        one, answer = self.one, self.answer
        key = (one, self.face, answer, self.bench.job.show_lengths)
        if self._sight is None or self._sight[0] != key:
            made = answer.prepared if answer and self.face is Face.MEND else None
            judged = answer is not None and answer.has_verdicts and self.face is not Face.READINGS
            sight = None if one is None else sight_of(one, self.bench.job.show_lengths, made, judged)
            self._sight = (key, sight)
        return self._sight[1]

    def show(self, face: Face) -> None:
        """Bring a step to the front."""
        self.face = face
        self.follow()

    def set_walk(self, walk: Walk) -> None:
        """Walk the places another way."""
        self.walk = walk
        self.changed.emit()

    def follow(self) -> None:
        """Ask for the answers about what is in front now, if they are shown."""
        if self.bench.stage is not Stage.SURFACE:
            return
        one, asked = self.one, self.asked
        if self.answer is not None and self.answer.one is not one:
            self.answer = None
        if one is None or self.face is Face.READINGS:
            self._work.forget()
            self.trouble = self._unreadable(one)
        else:
            self._ask(one, asked)
        self.changed.emit()

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._work.stop()

    def _ask(self, one: Flatness, asked: Preparation) -> None:
        question = (one, asked)
        if self._work.question != question:
            self.trouble = ""
            self.answer = Answer(one, has_verdicts=bool(self.answer and self.answer.has_verdicts))
            self._work.ask(question, lambda: answering(one, asked))

    def _unreadable(self, one: Flatness | None) -> str:
        try:
            _ = one.surveyed.mesh if one else None
        except TileLayoutError as error:
            return str(error)
        return ""

    def _take(self, _question: object, answer: Answer, _is_last: bool) -> None:
        self.answer = answer
        self.changed.emit()

    def _fail(self, error: Exception) -> None:
        if not isinstance(error, TileLayoutError):
            raise error
        self.trouble = str(error)
        self.changed.emit()
