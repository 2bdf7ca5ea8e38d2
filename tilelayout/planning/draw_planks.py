"""Drawing the rows of random planks again: by another seed, or for the room so that no row ends too short."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.values import Layout, RectangleTile
from tilelayout.layout import row_ends
from tilelayout.layout.patterns.random_planks import LARGEST_SEED
from tilelayout.layout.row_ends import DrawnRows
from tilelayout.planning.plan import Plan

PATTERN = "random_planks"


def are_planks(plan: Plan) -> bool:
    """Claim that the rows of the plan's layout are drawn."""
    return plan.layout.pattern == PATTERN and isinstance(plan.tile, RectangleTile)


def drawn_again(layout: Layout) -> dict[str, Any]:
    """Return the settings of the layout with the next seed, its rows not yet drawn for a room."""
    seed = int(layout.settings.get("seed", 1))
    kept = {key: value for key, value in layout.settings.items() if key != "shifts"}
    return kept | {"seed": seed % LARGEST_SEED + 1}


def for_the_room(plan: Plan, layout: Layout, least_end: float) -> Iterator[DrawnRows | float]:
    """Yield the part done, and at last `layout` (of the plan's surface and tile) drawn for the room.

    LayoutError if that cannot be done.
    """
    assert isinstance(plan.tile, RectangleTile)
    yield from row_ends.steps(plan.surface, plan.tile, layout, plan.field_region, least_end)


def drawn_words(drawn: DrawnRows, style: LengthStyle) -> str:
    """Return a sentence on the pieces that the rows drawn still have under the least end."""
    least = format_length(drawn.least_end, style)
    if not drawn.rows_short:
        return f"No row has a piece shorter than {least}."
    rows = f"{drawn.rows_short} of {drawn.rows} rows"
    return f"{rows} still {'has' if drawn.rows_short == 1 else 'have'} a piece shorter than {least}."
