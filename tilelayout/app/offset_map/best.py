"""The best start of the map: what seeking finds for the measure shown, not the best start laid for the map.

The map lays a grid of starts; the best one seldom lies on it. So the mark and the words come from the same
search that answers on the card, for the same way of laying.
"""

from __future__ import annotations

from collections.abc import Hashable

from msgspec.structs import replace
from PySide6.QtCore import QObject, Signal

from tilelayout.app.latest_work import LatestWork
from tilelayout.app.offset_map.picture import Scale
from tilelayout.job.values import Job
from tilelayout.layout.offset_map.map_of_starts import Measure
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.plan import Plan
from tilelayout.planning.seek import Found, Step, Wish, seek

AIMS = {
    Measure.NARROWEST: Aim.WIDEST_CUT,
    Measure.SLIVERS: Aim.BALANCED,
    Measure.CUTS: Aim.FEWEST_CUTS,
}
"""What to seek for each measure; of the starts with fewest slivers, the balanced one."""

_MOST_KNOWN = 12


class BestStart(QObject):
    """Seeks the best start for a map. `changed` when it is found; `found` is None until then."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = LatestWork(self)
        self._known: dict[Hashable, Found] = {}
        self._question: Hashable = None
        self._work.answered.connect(self._take)
        self._work.failed.connect(lambda _error: self._work.forget())

    @property
    def found(self) -> Found | None:
        """The best start for what was asked last."""
        return self._known.get(self._question)

    @property
    def is_seeking(self) -> bool:
        """Whether it is still being sought."""
        return self._question is not None and self.found is None and self._work.question is not None

    def ask(self, job: Job, plan: Plan, key: Hashable, measure: Measure) -> None:
        """Seek the best start of a plan's way of laying, which `key` stands for; what is known is kept."""
        self._question = (key, plan.style, measure)
        if self.found is not None:
            self._work.forget()
            return
        only, wish = replace(job, layouts=(plan.layout,)), Wish(AIMS[measure], most=1)
        self._work.ask(self._question, lambda: seek(only, plan.surface.id, plan.tile.id, wish))

    def forget(self) -> None:
        """Seek no longer; what was found stays known."""
        self._question = None
        self._work.forget()

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._question = None
        self._work.stop()

    def _take(self, question: Hashable, step: Step, is_last: bool) -> None:
        if is_last and step.found:
            if len(self._known) >= _MOST_KNOWN:
                self._known.clear()
            self._known[question] = step.found[0]
            self.changed.emit()


def best_value(scale: Scale, found: Found | None, measure: Measure) -> float:
    """Return the best value to write at the light end: that of the best start once it is known.

    Until then that of the map, which may be estimated too wide.
    """
    if found is None:
        return scale.best
    if measure is Measure.NARROWEST:
        return found.narrowest or 0.0
    return float(found.slivers if measure is Measure.SLIVERS else found.cuts)
