"""Drawing the rows of random planks again: by another seed, or for the room so that no row ends too short.

A layout whose planks are to end in no short piece (`least_end`) and are not drawn for its room yet, as one
written by hand in a job file, is drawn when the job is opened; so whoever lays it lays the same floor.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec

from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.values import Job, Layout, RectangleTile
from tilelayout.layout import row_ends
from tilelayout.layout.patterns.random_planks import LARGEST_SEED
from tilelayout.layout.row_ends import DrawnRows
from tilelayout.planning.field import field_region
from tilelayout.planning.plan import Plan

PATTERN = "random_planks"


def are_planks(plan: Plan) -> bool:
    """Claim that the rows of the plan's layout are drawn."""
    return plan.layout.pattern == PATTERN and isinstance(plan.tile, RectangleTile)


def drawn_again(layout: Layout) -> dict[str, Any]:
    """Return the settings of the layout with the next seed, its rows not yet drawn for a room."""
    seed = int(layout.settings.get("seed", 1))
    return bare(layout) | {"seed": seed % LARGEST_SEED + 1}


def bare(layout: Layout) -> dict[str, Any]:
    """Return the settings of the layout without the shifts that were drawn for a room."""
    return {key: value for key, value in layout.settings.items() if key != "shifts"}


def least_end_of(layout: Layout) -> float | None:
    """Return the least length asked for of the pieces of a row; None if nothing is asked."""
    least = layout.settings.get("least_end") if layout.pattern == PATTERN else None
    return None if least is None else float(least)


def for_the_room(plan: Plan, layout: Layout, least_end: float) -> Iterator[DrawnRows | float]:
    """Yield the part done, and at last `layout` (of the plan's surface and tile) drawn for the room.

    LayoutError if that cannot be done.
    """
    assert isinstance(plan.tile, RectangleTile)
    yield from row_ends.steps(plan.surface, plan.tile, layout, plan.field_region, least_end, plan.more)


def drawn_for_its_room(job: Job, layout: Layout) -> Layout:
    """Return a layout with its rows drawn for its room and its start, if a least end is asked for.

    The layout itself if none is, or if it cannot be laid.
    """
    least, tile = least_end_of(layout), job.tile(layout.tile)
    if least is None or not isinstance(tile, RectangleTile):
        return layout
    undrawn = msgspec.structs.replace(layout, settings=bare(layout))
    try:
        region, surface = field_region(job, undrawn), job.surface(layout.surface)
        *_, drawn = row_ends.steps(surface, tile, undrawn, region, least, job.more_tiles(layout))
    except TileLayoutError:
        return layout
    assert isinstance(drawn, DrawnRows)
    return drawn.layout


def with_planks_drawn(job: Job) -> Job:
    """Return the job with the planks drawn for their room that are to be and are not yet."""
    layouts = tuple(
        drawn_for_its_room(job, layout) if "shifts" not in layout.settings else layout
        for layout in job.layouts
    )
    is_same = all(new is old for new, old in zip(layouts, job.layouts, strict=True))
    return job if is_same else msgspec.structs.replace(job, layouts=layouts)


def drawn_words(drawn: DrawnRows, style: LengthStyle) -> str:
    """Return a sentence on the pieces that the rows drawn still have under the least end."""
    least = format_length(drawn.least_end, style)
    if not drawn.rows_short:
        return f"No row has a piece shorter than {least}."
    rows = f"{drawn.rows_short} of {drawn.rows} rows"
    return f"{rows} still {'has' if drawn.rows_short == 1 else 'have'} a piece shorter than {least}."
