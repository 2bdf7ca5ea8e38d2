"""Makes the cut list off the window's thread: first as it is known at once, then with the fewest tiles."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QObject, Signal

from tilelayout.app.bench import Bench
from tilelayout.app.latest_work import LatestWork
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.values import Job
from tilelayout.planning.saw_list import saw_list_steps
from tilelayout.planning.ticks import Ticks


class CutWork(QObject):
    """Holds the list of the layout in front. `changed` when it is another, or final."""

    changed = Signal()

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.ticks: Ticks | None = None
        self.is_final = False
        self.trouble = ""
        self._parts: tuple[object, ...] | None = None
        self._work = LatestWork(self)
        self._work.answered.connect(self._take)
        self._work.failed.connect(self._fail)
        self._bench = bench

    def follow(self) -> None:
        """Make the list of what is in front, unless it is there or under way."""
        layout = self._bench.layout
        if layout is None or self._bench.plan is None:
            self._forget()
            return
        job, parts = self._bench.job, _parts(self._bench.job)
        if parts == self._parts and (self._holds(layout.id) or self._work.question == (parts, layout.id)):
            return
        self._parts, self.is_final, self.trouble = parts, False, ""
        self.ticks = None
        self._work.ask((parts, layout.id), lambda: _lists(job, layout.id))

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._work.stop()

    def _holds(self, layout: str) -> bool:
        """Whether the list that is there is also that of a layout: it is of the whole job."""
        if self.ticks is None or not self.is_final:
            return False
        what = self.ticks.found.of
        return what.is_whole_job and any(made.layout.id == layout for made in what.plans)

    def _forget(self) -> None:
        self._work.forget()
        self._parts, self.ticks, self.is_final, self.trouble = None, None, False, ""

    def _take(self, _question: object, ticks: Ticks, is_last: bool) -> None:
        self.ticks, self.is_final = ticks, is_last
        self.changed.emit()

    def _fail(self, error: object) -> None:
        if not isinstance(error, TileLayoutError):
            assert isinstance(error, Exception)
            raise error
        self.trouble = str(error)
        self.changed.emit()


def _lists(job: Job, layout_id: str) -> Iterator[Ticks]:
    """Yield the lists with all that is asked of them worked out, so that the window need not."""
    for found in saw_list_steps(job, layout_id):
        ticks = Ticks(found)
        _ = ticks.says, ticks.of_piece
        yield ticks


def _parts(job: Job) -> tuple[object, ...]:
    """Return all that a cut list is made from."""
    return job.surfaces, job.tiles, job.layouts, job.saw, job.show_lengths
