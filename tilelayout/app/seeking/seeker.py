"""Seeks the best start and its alternatives off the window's thread, and keeps what was found.

What is found is no part of the job until a person takes it. It belongs to the surface, the tile and the way
lengths are written: as long as they are the same it is offered, also when an undo has brought them back. An
answer to a question whose layout has changed meanwhile is dropped.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import QObject, Signal

from tilelayout.app.latest_work import LatestWork
from tilelayout.app.seeking.wanted import Wanted, is_alike, way_of_laying
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits.ids import free_id
from tilelayout.job.values import Job, Layout, Surface, Tile
from tilelayout.planning.alternatives import Alternative, Step, alternatives

if TYPE_CHECKING:
    from tilelayout.app.bench import Bench

_MOST_KEPT = 8
FOUND = "found"
"""What an offered layout is called until a person gives it a name."""

DROPPED = "The layout has changed meanwhile, so the search was dropped."
STOPPED = "Stopped. Nothing was changed."


@dataclass(frozen=True)
class Offer:
    """A layout that was found, under an id of its own: what it is best at, and the sentence that says all."""

    layout: Layout
    reason: str
    why: str


@dataclass(frozen=True, eq=False)
class Answer:
    """What one search has found for a surface and a tile, best first, and what cannot be had."""

    wanted: Wanted
    surface: Surface
    tile: Tile
    style: LengthStyle
    offers: tuple[Offer, ...]
    cannot: tuple[str, ...] = ()

    def is_for(self, job: Job, surface: Surface | None) -> bool:
        """Tell whether all that was found is still true of a job."""
        is_written_so = surface == self.surface and job.show_lengths is self.style
        return is_written_so and any(tile == self.tile for tile in job.tiles)


@dataclass(frozen=True, eq=False)
class _Question:
    wanted: Wanted
    surface: Surface
    tile: Tile
    layout: Layout
    style: LengthStyle

    @property
    def way(self) -> tuple[object, ...]:
        return way_of_laying(self.layout, self.tile, self.surface, self.style)


class Seeker(QObject):
    """One search at a time. `changed` whenever there is more to show; `answered` when a search has ended."""

    changed = Signal()
    answered = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._bench = bench
        self._work = LatestWork(self)
        self._question: _Question | None = None
        self._answers: list[Answer] = []
        self.step: Step | None = None
        self.said = ""
        self._work.answered.connect(self._take)
        self._work.failed.connect(self._fail)
        bench.job_changed.connect(self._follow)
        bench.place_changed.connect(self._follow)

    @property
    def is_working(self) -> bool:
        """Whether a search is under way."""
        return self._question is not None

    @property
    def answer(self) -> Answer | None:
        """The newest answer for what is in front; None if there is none."""
        job, surface = self._bench.job, self._bench.surface
        return next((each for each in reversed(self._answers) if each.is_for(job, surface)), None)

    @property
    def offers(self) -> tuple[Offer, ...]:
        """What was found for the surface in front and is not in the job."""
        offers = self.answer.offers if self.answer else ()
        return tuple(each for each in offers if self.taken_as(each.layout) is None)

    @property
    def ghost(self) -> Layout | None:
        """The best layout so far, or the best that was found as long as it is only offered."""
        if self._question is not None:
            return self.step.best if self.step and self._question.surface is self._bench.surface else None
        best = self.answer.offers[0].layout if self.answer and self.answer.offers else None
        return best if best is not None and self.taken_as(best) is None else None

    def taken_as(self, layout: Layout) -> Layout | None:
        """Return the layout of the job that is laid as this one."""
        return next((each for each in self._bench.layouts if is_alike(each, layout)), None)

    def begin(self, wanted: Wanted) -> None:
        """Seek for the layout in front; what is under way is given up."""
        bench = self._bench
        surface, tile, layout = bench.surface, bench.tile, bench.layout
        if surface is None or tile is None or layout is None:
            return
        question = _Question(wanted, surface, tile, layout, bench.job.show_lengths)
        self._question, self.step, self.said = question, None, ""
        only = replace(bench.job, layouts=(layout,))
        self._work.ask(question, lambda: alternatives(only, surface.id, tile.id, wanted.wish(layout)))
        self.changed.emit()

    def cancel(self) -> None:
        """Give up what is under way, at once; nothing is changed by it."""
        self._give_up(STOPPED)

    def dismiss(self) -> None:
        """Offer no longer what was found for the surface in front."""
        surface = self._bench.surface
        self._answers = [each for each in self._answers if each.surface != surface]
        self.said = ""
        self.changed.emit()

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._question = None
        self._work.stop()

    # --- following -------------------------------------------------------------------------------------

    def _follow(self) -> None:
        if self._question is not None and not self._is_asked_still(self._question):
            self._give_up(DROPPED)
        else:
            self.said = ""
            self.changed.emit()

    def _is_asked_still(self, question: _Question) -> bool:
        job = self._bench.job
        layout = next((each for each in job.layouts if each.id == question.layout.id), None)
        if layout is None:
            return False
        surface, tile = job.surface(layout.surface), job.tile(layout.tile)
        return way_of_laying(layout, tile, surface, job.show_lengths) == question.way

    def _give_up(self, words: str) -> None:
        if self._question is not None:
            self._question, self.step, self.said = None, None, words
            self._work.forget()
            self.changed.emit()

    def _take(self, question: object, step: Step, is_last: bool) -> None:
        if question is not self._question or self._question is None:
            return
        self.step = step
        if is_last:
            self._keep(self._question, step)
        self.changed.emit()
        if is_last:
            self.answered.emit()

    def _keep(self, question: _Question, step: Step) -> None:
        offers = tuple(self._offer(at, found) for at, found in enumerate(step.found, start=1))
        answer = Answer(
            question.wanted,
            question.surface,
            question.tile,
            question.style,
            offers,
            tuple(map(sentence_of, step.cannot)),
        )
        self._answers = [*self._answers, answer][-_MOST_KEPT:]
        self._question, self.step = None, None
        self._work.forget()

    def _offer(self, number: int, found: Alternative) -> Offer:
        taken = {layout.id for layout in self._bench.job.layouts}
        id = str(number) if str(number) not in taken else free_id(taken, f"{FOUND}-{number}")
        layout = replace(found.layout, id=id, name=FOUND)
        return Offer(layout, sentence_of(found.reason), sentence_of(found.why))

    def _fail(self, error: object) -> None:
        self._question, self.step = None, None
        if not isinstance(error, TileLayoutError):
            assert isinstance(error, Exception)
            raise error
        self.said = str(error)
        self.changed.emit()


def sentence_of(words: str) -> str:
    """Return words as a sentence: a capital letter first, a full stop last."""
    return f"{words[:1].upper()}{words[1:].rstrip('.')}." if words else ""
