"""Which layouts of the surface in front stand side by side: what a person picked, never more than four.

Layouts of the job and those that were found by seeking stand here as equals; what was found enters the job
only when it is taken. A layout that is new (found, copied or made by hand) joins by itself; the one in front
is always among them.
"""

from __future__ import annotations

from msgspec.structs import replace
from PySide6.QtCore import QObject, Signal

from tilelayout.app.bench import Bench
from tilelayout.app.seeking.seeker import Answer, Offer
from tilelayout.job.values import Job, Layout
from tilelayout.planning.compare import FEWEST, MOST


class Beside(QObject):
    """The layouts shown, those of the job first. `changed` when there are others, or another is in front."""

    changed = Signal()

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._picked: list[str] = []
        self._known: set[str] = set()
        self._answer: Answer | None = None
        self._offers: tuple[Offer, ...] = ()
        self._offer_in_front = ""
        self._shown: tuple[tuple[Layout, ...], str] = ((), "")
        bench.bridge.changed.connect(self._forget_other_job)
        bench.place_changed.connect(self._follow_bench)
        bench.job_changed.connect(self.refresh)
        bench.seeker.changed.connect(self.refresh)
        self.refresh()

    @property
    def job(self) -> Job:
        """The job as if what was found were in it."""
        return replace(self._bench.job, layouts=(*self._bench.job.layouts, *self._found))

    @property
    def all(self) -> tuple[Layout, ...]:
        """Every layout that can be shown: those of the surface in front, then what was found for it."""
        return (*self._bench.layouts, *self._found)

    @property
    def shown(self) -> tuple[Layout, ...]:
        """The layouts that stand side by side."""
        return self._shown[0]

    @property
    def front(self) -> Layout | None:
        """The layout in front here: that of the bench, or one that was found."""
        found = next((each for each in self._found if each.id == self._offer_in_front), None)
        return found or self._bench.layout

    @property
    def offer_in_front(self) -> Offer | None:
        """What was found, if that is in front."""
        return next((each for each in self._offers if each.layout.id == self._offer_in_front), None)

    def is_shown(self, id: str) -> bool:
        """Tell whether the layout with this id is among them."""
        return any(layout.id == id for layout in self.shown)

    def bring(self, id: str) -> None:
        """Bring a layout to the front; one that stands by joins the others."""
        if any(layout.id == id for layout in self._found):
            self._offer_in_front = id
            if not self.is_shown(id):
                self._pick(id)
            self.refresh()
        elif any(layout.id == id for layout in self._bench.layouts):
            self._offer_in_front = ""
            self._bench.show(layout=id)
            self.refresh()

    def toggle(self, id: str) -> None:
        """Take a layout away, or put it beside the others; two stay as long as there are two."""
        if not self.is_shown(id):
            self._pick(id)
        elif len(self.shown) > FEWEST:
            others = [layout.id for layout in self.shown if layout.id != id]
            self._picked = others
            if self._front == id:
                self.bring(others[0])
        self.refresh()

    def refresh(self) -> None:
        """Follow the job: who is gone is gone, who is new joins."""
        self._offers = self._bench.seeker.offers
        for layout in self._bench.layouts:
            if layout.id not in self._known:
                self._pick(layout.id)
        self._known |= {layout.id for layout in self._bench.layouts}
        self._greet(self._bench.seeker.answer)
        shown = (self._filled(), self._front)
        if shown != self._shown:
            self._shown = shown
            self.changed.emit()

    @property
    def _found(self) -> tuple[Layout, ...]:
        return tuple(offer.layout for offer in self._offers)

    @property
    def _front(self) -> str:
        return self.front.id if self.front else ""

    def _greet(self, answer: Answer | None) -> None:
        """Put the best of what was just found beside the layout in front."""
        if answer is self._answer:
            return
        self._answer, self._offer_in_front = answer, ""
        if answer is not None:
            others = [id for id in self._picked if id != self._front]
            new = [layout.id for layout in self._found[: MOST - 1]]
            self._picked = [self._front, *new, *(id for id in others if id not in new)]

    def _follow_bench(self) -> None:
        """Who brings a layout of the job to the front elsewhere wants it in front here too."""
        self._offer_in_front = ""
        self.refresh()

    def _pick(self, id: str) -> None:
        picked = self._here(self._picked)
        if len(picked) >= MOST:
            self._picked.remove(next(each for each in reversed(picked) if each != self._front))
        self._picked.append(id)

    def _filled(self) -> tuple[Layout, ...]:
        """The one in front and the picked layouts, and if that is one, the next there is."""
        wanted = self._here(list(dict.fromkeys((self._front, *self._picked))))[:MOST]
        others = [layout.id for layout in self.all if layout.id not in wanted]
        kept = {*wanted, *others[: max(0, FEWEST - len(wanted))]}
        return tuple(layout for layout in self.all if layout.id in kept)

    def _here(self, ids: list[str]) -> list[str]:
        here = {layout.id for layout in self.all}
        return [id for id in ids if id in here]

    def _forget_other_job(self, _before: Job, _after: Job, label: str) -> None:
        if label == "Open":
            self._picked, self._known = [], set()
            self.refresh()
