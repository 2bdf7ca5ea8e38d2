"""What every part of the window shares: the session, the look, and which part of the job is in front.

No part of the window knows another. Each reads the bench, asks it for changes, and hears from it what has
changed: the job (`job_changed`), what is in front (`place_changed`), what is chosen (`chosen_changed`).
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from PySide6.QtCore import QObject, Signal

from tilelayout.app.bridge import Bridge
from tilelayout.app.look import Look
from tilelayout.app.seeking.seeker import Seeker
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.said_lengths import error_in
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits.cuts import without_ticks
from tilelayout.job.session import Session
from tilelayout.job.values import Job, Layout, Surface, Tile
from tilelayout.planning.plan import Plan, plan


class Stage(StrEnum):
    """The questions that are complete, in the order in which a person meets them."""

    MEASURE = "measure"
    TILE = "tile"
    SURFACE = "surface"
    SET_OUT = "set-out"
    COMPARE = "compare"
    CUT = "cut"


class Bench(QObject):
    """The shared state of one window. What is in front and what is chosen never enters the job."""

    job_changed = Signal()
    place_changed = Signal()
    chosen_changed = Signal(object)
    printed_changed = Signal()
    refused = Signal(str)

    def __init__(self, session: Session, look: Look, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.session = session
        self.look = look
        self.bridge = Bridge(session, self)
        self.stage = Stage.MEASURE
        self.chosen: object = None
        self._surface_id = ""
        self._layout_id = ""
        self._printed: Job | None = None
        self._plan_of: tuple[Job, str, Plan | None, str] | None = None
        self.bridge.changed.connect(self._on_change)
        self._find_place()
        self.seeker = Seeker(self)

    @property
    def job(self) -> Job:
        """The job as it is now."""
        return self.session.job

    @property
    def surface(self) -> Surface | None:
        """The surface in front; None if the job has none."""
        return next((each for each in self.job.surfaces if each.id == self._surface_id), None)

    @property
    def layout(self) -> Layout | None:
        """The layout in front; None if nothing is laid on the surface."""
        return next((each for each in self.job.layouts if each.id == self._layout_id), None)

    @property
    def layouts(self) -> tuple[Layout, ...]:
        """All layouts of the surface in front."""
        return tuple(each for each in self.job.layouts if each.surface == self._surface_id)

    @property
    def tile(self) -> Tile | None:
        """The tile of the layout in front, else the first of the job; None if the job has none."""
        if self.layout is not None:
            return self.job.tile(self.layout.tile)
        return next(iter(self.job.tiles), None)

    @property
    def plan(self) -> Plan | None:
        """The plan of the layout in front; None if there is none or it cannot be laid (see `trouble`)."""
        return self._planned()[2]

    @property
    def trouble(self) -> str:
        """Why the layout in front cannot be laid; "" if it can or there is none."""
        return self._planned()[3]

    @property
    def is_printed(self) -> bool:
        """True if the sheets were made of the job as it is now, whatever was ticked since."""
        printed = self._printed
        return printed is self.job or (
            printed is not None and without_ticks(printed) == without_ticks(self.job)
        )

    def mark_printed(self, job: Job) -> None:
        """Remember that the sheets of `job` were made."""
        self._printed = job
        self.printed_changed.emit()

    def show(
        self, *, surface: str | None = None, layout: str | None = None, stage: Stage | None = None
    ) -> None:
        """Bring a surface, a layout (and the surface it lies on) or a question to the front."""
        before = (self._surface_id, self._layout_id, self.stage)
        if layout is not None:
            self._layout_id = layout
            self._surface_id = self.job.layout(layout).surface
        elif surface is not None and surface != self._surface_id:
            self._surface_id, self._layout_id = surface, ""
        self.stage = stage or self.stage
        self._find_place()
        if before != (self._surface_id, self._layout_id, self.stage):
            self.choose(None)
            self.place_changed.emit()

    def apply(self, label: str, edit: Callable[[Job], Job], gesture: object | None = None) -> bool:
        """Make one change. If it is impossible nothing changes and `refused` says why."""
        try:
            self.session.apply(label, edit, gesture)
        except TileLayoutError as error:
            self.refused.emit(str(error_in(error, self.job.show_lengths)))
            return False
        return True

    def choose(self, pick: object) -> None:
        """Choose one thing on the board or in a list; None chooses nothing."""
        if pick != self.chosen:
            self.chosen = pick
            self.chosen_changed.emit(pick)

    def _planned(self) -> tuple[Job, str, Plan | None, str]:
        known = self._plan_of
        if known is None or known[0] is not self.job or known[1] != self._layout_id:
            known = (self.job, self._layout_id, *self._make_plan())
            self._plan_of = known
        return known

    def _make_plan(self) -> tuple[Plan | None, str]:
        if self.layout is None:
            return None, ""
        try:
            made = plan(self.job, self._layout_id)
            _ = made.whole
        except TileLayoutError as error:
            return None, str(error)
        return made, ""

    def _on_change(self, before: Job, after: Job, _label: str) -> None:
        place = (self._surface_id, self._layout_id)
        self._follow_what_was_added(before, after)
        self._follow_what_is_laid(before, after)
        self._find_place()
        if not self._is_there(self.chosen):
            self.choose(None)
        if place != (self._surface_id, self._layout_id):
            self.choose(None)
            self.place_changed.emit()
        self.job_changed.emit()

    def _is_there(self, pick: object) -> bool:
        """Whether what is chosen has outlived the change."""
        surface = self.surface
        if not isinstance(pick, Pick) or pick.kind in (PickKind.PIECE, PickKind.START):
            return True
        if surface is None or pick.surface != surface.id:
            return False
        parts = surface.cutouts if pick.kind is PickKind.CUTOUT else surface.outline
        return pick.index < len(parts)

    def _follow_what_was_added(self, before: Job, after: Job) -> None:
        """A surface or layout just made is what the person wants in front."""
        layouts = {each.id for each in before.layouts}
        surfaces = {each.id for each in before.surfaces}
        new_layouts = [each for each in after.layouts if each.id not in layouts]
        new_surfaces = [each for each in after.surfaces if each.id not in surfaces]
        if len(new_surfaces) == 1 and surfaces <= {each.id for each in after.surfaces}:
            self._surface_id, self._layout_id = new_surfaces[0].id, ""
        elif len(new_layouts) == 1 and new_layouts[0].surface == self._surface_id:
            self._layout_id = new_layouts[0].id

    def _follow_what_is_laid(self, before: Job, after: Job) -> None:
        """If another of the same layouts comes first, it is the one to be laid: bring it to the front."""
        old, new = (
            [each.id for each in job.layouts if each.surface == self._surface_id] for job in (before, after)
        )
        if old != new and set(old) == set(new) and old[0] != new[0]:
            self._layout_id = new[0]

    def _find_place(self) -> None:
        """Make sure that what is in front exists; the first of each kind otherwise."""
        if self.surface is None:
            self._surface_id = next((each.id for each in self.job.surfaces), "")
        if self.layout is None or self.layout.surface != self._surface_id:
            self._layout_id = next((each.id for each in self.layouts), "")
