"""Prints the layouts that nothing else beats: for a person at a terminal, and for a program."""

from __future__ import annotations

from typing import Any

import msgspec

from tilelayout.base.units import format_length
from tilelayout.job.canonical import tree_of_value
from tilelayout.job.values import Job
from tilelayout.planning.alternatives import Alternative, Step

_DECIMALS = 6


def alternatives_json(step: Step) -> str:
    """Return the document of the last step, ending in a line feed; lengths in mm."""
    tree = {"found": [_tree(one) for one in step.found], "cannot": list(step.cannot)}
    return msgspec.json.encode(tree).decode() + "\n"


def _tree(one: Alternative) -> dict[str, Any]:
    figures = one.figures
    return {
        "layout": tree_of_value(one.layout),
        "slivers": figures.slivers,
        "narrowest": _length(figures.narrowest_of_all),
        "narrowest_at_most": _length(one.narrowest_at_most),
        "tiles_needed": figures.tiles_needed,
        "cuts": figures.cuts,
        "saw_settings": figures.saw_settings,
        "unequal_borders": _length(figures.unequal),
        "from_the_door": _length(figures.from_the_door),
        "off_lines": _length(figures.off_lines),
        "cost": figures.cost,
        "why": one.why,
    }


def _length(length: float | None) -> float | None:
    return None if length is None else round(length, _DECIMALS)


def alternatives_text(job: Job, step: Step) -> str:
    """Return the last step for a person at a terminal."""
    first = step.found[0].layout
    where = f"{job.surface(first.surface).title} with {job.tile(first.tile).title}"
    lines = [f"Layouts of {where} that nothing else beats", ""]
    for number, one in enumerate(step.found, start=1):
        lines += _lines(job, number, one)
    return "\n".join([*lines, *step.cannot]).rstrip() + "\n"


def _lines(job: Job, number: int, one: Alternative) -> list[str]:
    style, layout = job.show_lengths, one.layout
    x, y = (format_length(at, style) for at in layout.start)
    return [
        f"  {number}.  start at {x} to the right and {y} up, turned {layout.angle:g} degrees, "
        f"joint {format_length(layout.joint, style)}",
        f"      {one.why}",
        "",
    ]
