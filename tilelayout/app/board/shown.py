"""What the board shows at one moment: a surface, perhaps a layout on it, and the question being answered."""

from __future__ import annotations

from dataclasses import dataclass

from tilelayout.app.bench import Stage
from tilelayout.app.board.surface_shape import SurfaceShape, shape_of
from tilelayout.app.board.view import BARE_SHEET, Bounds
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Job, Layout, Surface
from tilelayout.planning.plan import Plan, plan


@dataclass(frozen=True, eq=False)
class Shown:
    """A surface, its layout and plan if there are any; `trouble` says why a layout cannot be laid."""

    job: Job
    surface: Surface | None
    layout: Layout | None
    plan: Plan | None
    stage: Stage
    trouble: str = ""

    @property
    def style(self) -> LengthStyle:
        """How lengths are written."""
        return self.job.show_lengths

    @property
    def shape(self) -> SurfaceShape | None:
        """The surface as lines."""
        return shape_of(self.surface) if self.surface else None

    @property
    def bounds(self) -> Bounds:
        """What "fit" must bring on the screen."""
        return self.shape.bounds if self.shape else BARE_SHEET

    @property
    def surface_id(self) -> str | None:
        """The id of the surface, if there is one."""
        return self.surface.id if self.surface else None

    @property
    def layout_id(self) -> str | None:
        """The id of the layout, if there is one."""
        return self.layout.id if self.layout else None

    @property
    def shows_tiles(self) -> bool:
        """Whether the layout is shown: not while the bare surface is the question."""
        return self.stage not in (Stage.MEASURE, Stage.SURFACE)

    @property
    def is_measured(self) -> bool:
        """Whether the room itself is the question: lengths and corners are shown, tiles keep quiet."""
        return self.stage is Stage.MEASURE


def shown_of(job: Job, surface_id: str | None, layout_id: str | None, stage: Stage) -> Shown:
    """Return what to show of a job; what the job no longer holds is simply not shown."""
    surface = next((each for each in job.surfaces if each.id == surface_id), None)
    layout = next((each for each in job.layouts if each.id == layout_id), None)
    if surface is None or layout is None or layout.surface != surface.id:
        return Shown(job, surface, None, None, stage)
    try:
        return Shown(job, surface, layout, _laid_plan(job, layout), stage)
    except TileLayoutError as error:
        return Shown(job, surface, layout, None, stage, str(error))


def _laid_plan(job: Job, layout: Layout) -> Plan:
    """Return the plan of a layout, laid already, so that what cannot be laid is known at once."""
    made = plan(job, layout.id)
    _ = made.laid
    return made
