"""What the parts of the surface question share: which step is in front, the walk, and the answers so far.

Answers are worked out off the window's thread, and only for the steps that show them; while readings are
typed nothing heavier than the map is made.
"""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum
from typing import Any

from PySide6.QtCore import QObject, Signal

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.surface.answer import Answer, answering
from tilelayout.app.surface.answers import AnsweringDesk
from tilelayout.app.surface.sight import Sight, sight_of
from tilelayout.app.surface.sit_desk import SitDesk
from tilelayout.base.errors import TileLayoutError
from tilelayout.drawing.walk import Walk, usual_walk
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.job.edits.readings import survey_at
from tilelayout.job.preparation import GivenHeight, Preparation
from tilelayout.planning.given_heights import offered_places
from tilelayout.planning.surface import Flatness, flatness


class Face(StrEnum):
    """The steps of the question, in order."""

    READINGS = "readings"
    VERDICT = "verdict"
    SIT = "sit"
    MEND = "mend"


class Desk(AnsweringDesk):
    """`asked_anew` when the board is to be used otherwise: another step, or another walk."""

    answer: Answer | None
    asked_anew = Signal()

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.face = Face.READINGS
        self._walk: dict[str, Any] = {}
        self.sits = SitDesk(bench, self)
        self._search = LatestWork(self)
        self._search.answered.connect(self._take_slips)
        self._search.failed.connect(self._fail)
        self.sits.changed.connect(self.changed)
        self._sight: tuple[tuple[object, ...], Sight | None] | None = None
        self._on_board = (self.hint, self.walk)
        self.changed.connect(self._tell_board)
        bench.job_changed.connect(self.follow)
        bench.place_changed.connect(self.follow)

    @property
    def one(self) -> Flatness | None:
        """The survey in front, joined with the tiles; None if nothing was read on the surface."""
        surface, job = self.bench.surface, self.bench.job
        at = None if surface is None else survey_at(job, surface.id)
        return None if at is None else flatness(job, at)

    @property
    def hint(self) -> str:
        """What to do on the board in the step in front; nothing where readings are taken."""
        if self.one is None:
            return ""
        if self.face is Face.SIT:
            return "Click a hatched tile to read what is wrong with it; rest on one to be told."
        words = "The map shows how deep the filler is. Readings are changed in the first step."
        return words if self.face is Face.MEND else ""

    @property
    def places(self) -> tuple[GivenHeight, ...]:
        """The places of the surface in front that a height may be given for by name."""
        return () if self.bench.surface is None else tuple(offered_places(self.bench.surface))

    @property
    def asked(self) -> Preparation:
        """How the surface is to be made flat."""
        one = self.one
        return (one.survey.preparation if one else None) or Preparation()

    @property
    def slips(self) -> tuple[Mistyped, ...]:
        """The readings that look mistyped, once they are searched; none where they make no surface."""
        one = self.one
        is_known = one is not None and one.surveyed.is_searched and not self._unreadable(one)
        return one.slips if one is not None and is_known else ()

    @property
    def is_working(self) -> bool:
        """Whether an answer is still being worked out."""
        return super().is_working or self._search.is_working

    @property
    def sight(self) -> Sight | None:
        """What the board shows of the survey; None if nothing was read."""
        one, answer = self.one, self.answer
        slips = self.slips
        key = (one, self.face, answer, self.bench.job.show_lengths, self.sits.sight, slips)
        if self._sight is None or self._sight[0] != key:
            made = answer.prepared if answer and self.face is Face.MEND else None
            judged = answer is not None and answer.has_verdicts and self.face in (Face.VERDICT, Face.MEND)
            sight = None if one is None else sight_of(one, slips, self.bench.job.show_lengths, made, judged)
            self._sight = (key, sight and replace(sight, sits=self.sits.sight))
        return self._sight[1]

    def show(self, face: Face) -> None:
        """Bring a step to the front."""
        self.face = face
        self.follow()

    @property
    def walk(self) -> Walk:
        """How the places are walked: as usual in the job's lengths, but for what the person changed."""
        return replace(usual_walk(self.bench.job.show_lengths), **self._walk)

    def change_walk(self, **changes: Any) -> None:
        """Walk the places another way."""
        self._walk |= changes
        self.changed.emit()

    def follow(self) -> None:
        """Ask for the answers about what is in front now, if they are shown."""
        if self.bench.stage is not Stage.SURFACE:
            return
        one, asked = self.one, self.asked
        if self.answer is not None and self.answer.one is not one:
            self.answer = None
        self._search_slips(one)
        self.sits.show(self.face is Face.SIT)
        if one is None or self.face in (Face.READINGS, Face.SIT):
            self._work.forget()
            self.trouble = self._unreadable(one)
        else:
            self._ask(one, asked)
        self.changed.emit()

    def stop(self) -> None:
        """Work no longer: the window closes."""
        super().stop()
        self._search.stop()
        self.sits.stop()

    def _search_slips(self, one: Flatness | None) -> None:
        """Look for mistyped readings off the window's thread, where there are many."""
        if one is None or one.surveyed.is_searched or self._unreadable(one):
            self._search.forget()
        else:
            self._search.ask(one, lambda: iter((one.slips,)))

    def _take_slips(self) -> None:
        self.changed.emit()

    def _ask(self, one: Flatness, asked: Preparation) -> None:
        question = (one, asked)
        if self._work.question != question:
            self.trouble = ""
            self.answer = Answer(one, has_verdicts=bool(self.answer and self.answer.has_verdicts))
            self._work.ask(question, lambda: answering(one, asked))

    def _tell_board(self) -> None:
        now = (self.hint, self.walk)
        if now != self._on_board:
            self._on_board = now
            self.asked_anew.emit()

    def _unreadable(self, one: Flatness | None) -> str:
        try:
            _ = one.surveyed.mesh if one else None
        except TileLayoutError as error:
            return str(error)
        return ""
