"""What the parts of "will it sit?" share: the answers so far, worked out off the window's thread, and the
tile to worry about that is in front.
"""

from __future__ import annotations

from PySide6.QtCore import QObject

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.surface.answers import AnsweringDesk
from tilelayout.app.surface.sit_answer import SitAnswer, sit_answering
from tilelayout.app.surface.sit_sight import SitSight, sit_sight_of
from tilelayout.job.edits.readings import survey_at
from tilelayout.planning.sitting import Sitting
from tilelayout.planning.worries import Worry


class SitDesk(AnsweringDesk):
    """Which tile to worry about is in front, and what the board shows of it."""

    answer: SitAnswer

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.is_in_front = False
        self.answer = SitAnswer()
        self.chosen = ""
        self._sight: tuple[tuple[Sitting, str], SitSight] | None = None

    @property
    def worries(self) -> tuple[Worry, ...]:
        """The tiles to worry about, the worst first."""
        found = self.answer.sitting
        return () if found is None else found.worries

    @property
    def sight(self) -> SitSight | None:
        """What the board shows; None where the question is another one or nothing is known yet."""
        is_shown = self.is_in_front and self.bench.stage is Stage.SURFACE
        found = self.answer.sitting if is_shown else None
        if found is None:
            return None
        if self._sight is None or self._sight[0] != (found, self.chosen):
            self._sight = ((found, self.chosen), sit_sight_of(found, self.chosen))
        return self._sight[1]

    def show(self, is_in_front: bool) -> None:
        """Come to the front, or leave it; nothing is worked out that is not shown."""
        self.is_in_front = is_in_front
        bench = self.bench
        at = survey_at(bench.job, bench.surface.id) if bench.surface is not None else None
        if not is_in_front or at is None:
            self._work.forget()
            self.answer, self.trouble = SitAnswer(), ""
        else:
            self._ask(at)
        self.changed.emit()

    def choose(self, id: str) -> None:
        """Bring a tile to worry about to the front; "" brings none."""
        if id != self.chosen:
            self.chosen = id
            self.changed.emit()

    def _ask(self, at: int) -> None:
        job, layout = self.bench.job, self.bench.layout
        layout_id = None if layout is None else layout.id
        question = (job, layout_id, at)
        if self._work.question != question:
            self.answer, self.trouble, self.chosen = SitAnswer(), "", ""
            self._work.ask(question, lambda: sit_answering(job, layout_id, at))
