"""Which layouts of the surface in front stand side by side: what a person picked, never more than four.

A layout that is new in the job (found, copied or made by hand) joins by itself; the one in front is always
among them.
"""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from tilelayout.app.bench import Bench
from tilelayout.job.values import Job, Layout
from tilelayout.planning.compare import FEWEST, MOST


class Beside(QObject):
    """The layouts shown, in the order of the job. `changed` when there are others."""

    changed = Signal()

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._picked: list[str] = []
        self._known: set[str] = set()
        self._shown: tuple[Layout, ...] = ()
        bench.bridge.changed.connect(self._forget_other_job)
        for heard in (bench.job_changed, bench.place_changed):
            heard.connect(self.refresh)
        self.refresh()

    @property
    def shown(self) -> tuple[Layout, ...]:
        """The layouts that stand side by side."""
        return self._shown

    def is_shown(self, id: str) -> bool:
        """Tell whether the layout with this id is among them."""
        return any(layout.id == id for layout in self._shown)

    def toggle(self, id: str) -> None:
        """Take a layout away, or put it beside the others; two stay as long as there are two."""
        if not self.is_shown(id):
            self._pick(id)
        elif len(self._shown) > FEWEST:
            others = [layout.id for layout in self._shown if layout.id != id]
            self._picked = others
            if self._front == id:
                self._bench.show(layout=others[0])
        self.refresh()

    def refresh(self) -> None:
        """Follow the job: who is gone is gone, who is new joins."""
        for layout in self._bench.layouts:
            if layout.id not in self._known:
                self._pick(layout.id)
        self._known |= {layout.id for layout in self._bench.layouts}
        shown = self._filled()
        if shown != self._shown:
            self._shown = shown
            self.changed.emit()

    @property
    def _front(self) -> str:
        return self._bench.layout.id if self._bench.layout else ""

    def _pick(self, id: str) -> None:
        picked = self._here(self._picked)
        if len(picked) >= MOST:
            self._picked.remove(next(each for each in reversed(picked) if each != self._front))
        self._picked.append(id)

    def _filled(self) -> tuple[Layout, ...]:
        """The one in front and the picked layouts, and if that is one, the next there is."""
        wanted = self._here(list(dict.fromkeys((self._front, *self._picked))))[:MOST]
        others = [layout.id for layout in self._bench.layouts if layout.id not in wanted]
        kept = {*wanted, *others[: max(0, FEWEST - len(wanted))]}
        return tuple(layout for layout in self._bench.layouts if layout.id in kept)

    def _here(self, ids: list[str]) -> list[str]:
        here = {layout.id for layout in self._bench.layouts}
        return [id for id in ids if id in here]

    def _forget_other_job(self, _before: Job, _after: Job, label: str) -> None:
        if label == "Open":
            self._picked, self._known = [], set()
            self.refresh()
