"""The sheet that tries what would make a layout fit the tiles on hand, and offers what came of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.look import STEP
from tilelayout.app.seeking.takeover import keep
from tilelayout.app.sheet import Choice
from tilelayout.app.stock.working_sheet import WorkingSheet
from tilelayout.job.values import Job, Layout
from tilelayout.planning.make_it_fit import Fit, FitStep, make_it_fit, missing

_WORDS = "Each change is laid and its tiles are counted. Nothing is changed before you say so."


class FitSheet(WorkingSheet):
    """Lists every change that was tried, those that fit first; one of them can be put beside the layout."""

    def __init__(self, window: QWidget, bench: Bench, layout: Layout) -> None:
        choices = (
            Choice("Put it beside", self.take, is_next=True, keeps_open=True),
            Choice("Stop", self.stop, keeps_open=True),
            Choice("Close"),
        )
        title = f"Make layout {layout.id} fit what is on hand"
        super().__init__(window, bench.look, title, _WORDS, choices)
        self._bench = bench
        self._fits: list[Fit] = []
        self._picked: Fit | None = None
        self.list = QListWidget(self)
        self.list.setAccessibleName("Changes that were tried")
        self.list.setWordWrap(True)
        self.list.setMinimumSize(120 * STEP, 60 * STEP)
        self.list.itemActivated.connect(lambda _item: self.take())
        self.list.currentRowChanged.connect(self._pick)
        self.body.addWidget(self.list, 1)
        job = bench.job
        self.work(lambda: _tried(job, layout.id), "Counting what is missing…")
        self._refresh()
        self.list.setFocus()

    def take(self) -> None:
        """Add the change that is chosen as a further layout, and close."""
        fit = self._chosen
        if fit is not None and self._bench.apply(
            "Keep layout", lambda job: keep(job, fit.layout, f"with {fit.words}")
        ):
            self.accept()

    def stop(self) -> None:
        """Try no more; what was tried so far stays."""
        if self.is_working:
            self.give_up("Stopped. What was tried so far can be put beside.")
        self._refresh()

    def show_step(self, step: object) -> None:
        """Show how far it is and what was tried so far."""
        if isinstance(step, _Trying):
            self.words.setText(f"{step.missing}\n{_WORDS}")
            self.show_done(step.step.done)
            self.say(f"Trying {step.step.trying}…" if step.step.trying else "")
            self._list(step.step)

    def show_answer(self, answer: object) -> None:
        """Say whether anything fits."""
        self.show_step(answer)
        self.bar.hide()
        self._refresh()
        if not isinstance(answer, _Trying):
            self.list.hide()
            self.say("What is on hand is enough.")
        elif answer.step.fits:
            self.say("What fits stands first, the least change before others.")
        elif answer.step.nearest is not None:
            self.say("Nothing that was tried fits. What is short by least stands first.")
        else:
            self.say("Nothing could be tried. Get more tiles, or make the border of another tile.")

    @property
    def _chosen(self) -> Fit | None:
        at = self.list.currentRow()
        return self._fits[at] if 0 <= at < len(self._fits) else None

    def _pick(self, _row: int) -> None:
        """Remember what the person went to, so that it stays chosen while others come before it."""
        self._picked = self._chosen
        self._refresh()

    def _list(self, step: FitStep) -> None:
        """List what was tried, what is short by least first; chosen is that, or what the person went to."""
        fits = sorted(step.tried, key=lambda fit: fit.short)
        if fits == self._fits:
            return
        with QSignalBlocker(self.list):
            self.list.clear()
            for fit in fits:
                self.list.addItem(QListWidgetItem(fit.sentence))
            self.list.setCurrentRow(fits.index(self._picked) if self._picked in fits else 0)
        self._fits = fits
        self._refresh()

    def _refresh(self) -> None:
        take, stop, _ = self.buttons
        take.setEnabled(self._chosen is not None)
        stop.setEnabled(self.is_working)


@dataclass(frozen=True, eq=False)
class _Trying:
    """How far the trying is, and in words what is missing as long as nothing is changed."""

    missing: str
    step: FitStep


def _tried(job: Job, layout_id: str) -> Iterator[_Trying | None]:
    """Yield None while tiles are being counted, then the steps of trying changes if some are missing.

    Where the job shares tiles across its layouts and trims, they are counted for all of it.
    """
    in_whole_job = job.shares_tiles
    yield None
    _, short = missing(job, job.layout(layout_id), in_whole_job=in_whole_job)
    words = "\n".join(f"{each.words(job.show_lengths)}." for each in short)
    if short:
        steps = make_it_fit(job, layout_id, in_whole_job=in_whole_job)
        yield from (_Trying(words, step) for step in steps)
