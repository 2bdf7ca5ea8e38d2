"""Jobs of one room for the tests of plans."""

from __future__ import annotations

from typing import Any

from tests.rooms import SQUARE, layout_of
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Job, Surface, Tile
from tilelayout.planning.plan import Plan, plan


def job_of(surface: Surface, tile: Tile = SQUARE, style: LengthStyle = LengthStyle.MM, **keys: Any) -> Job:
    """Return a job with one layout "A"; `keys` are those of `layout_of`."""
    return Job(
        title="Test room",
        show_lengths=style,
        surfaces=(surface,),
        tiles=(tile,),
        layouts=(layout_of(tile, **keys),),
    )


def plan_of(surface: Surface, tile: Tile = SQUARE, style: LengthStyle = LengthStyle.MM, **keys: Any) -> Plan:
    """Return the plan of `job_of`."""
    return plan(job_of(surface, tile, style, **keys), "A")
