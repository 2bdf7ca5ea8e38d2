"""Edits of the border of tiles that a layout has."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from tilelayout.base.errors import EditError
from tilelayout.job.edits.layouts import replace_layout
from tilelayout.job.edits.parts import with_id
from tilelayout.job.values import Border, Job


def give_border(job: Job, id: str, tile: str) -> Job:
    """Return the job with a border of `tile` round the layout; one that is there only changes its tile.

    A new one leaves curved edges out, which it cannot follow.
    """
    layout = with_id(job.layouts, id, "layout")
    if layout.border is not None:
        return change_border(job, id, tile=tile)
    surface = with_id(job.surfaces, layout.surface, "surface")
    curved = tuple(edge.at for edge in surface.edges if edge.through is not None)
    return replace_layout(job, id, border=Border(tile=tile, left_out=tuple(sorted(curved))))


def take_border(job: Job, id: str) -> Job:
    """Return the job with the layout without a border."""
    return replace_layout(job, id, border=None)


def change_border(job: Job, id: str, **changes: Any) -> Job:
    """Return the job with some fields of the border changed (`rows=2`). EditError if there is no border."""
    border = with_id(job.layouts, id, "layout").border
    if border is None:
        raise EditError("This layout has no border.", "Choose a tile for the border first.")
    return replace_layout(job, id, border=replace(border, **changes))
