"""Edits of the layouts of a job."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from tilelayout.job.checks import id_problems, known_ids, layout_problems
from tilelayout.job.edits.parts import allowed, changed, with_id, without
from tilelayout.job.frozen import frozen
from tilelayout.job.values import Job, Layout, Point


def add_layout(job: Job, layout: Layout) -> Job:
    """Return the job with one more layout. EditError if its id is taken or it names what is not there."""
    layouts = (*job.layouts, allowed(layout, layout_problems(layout, known_ids(job))))
    allowed(layouts, id_problems("layouts", "layout", [layout.id for layout in layouts]))
    return replace(job, layouts=layouts)


def replace_layout(job: Job, id: str, **changes: Any) -> Job:
    """Return the job with some fields of a layout changed (`joint=3`, `tile="slate"`).

    `settings` are replaced as a whole. EditError if the layout could then not be.
    """
    if "settings" in changes:
        changes["settings"] = frozen(changes["settings"])
    new = replace(with_id(job.layouts, id, "layout"), **changes)
    allowed(new, layout_problems(new, known_ids(job)))
    return replace(job, layouts=changed(job.layouts, id, "layout", lambda _: new))


def set_more_tile(job: Job, layout_id: str, role: str, tile_id: str | None) -> Job:
    """Return the job with another tile in a role of a layout's pattern (None: with none in it).

    EditError if the job has no such tile.
    """
    others = {
        name: id for name, id in with_id(job.layouts, layout_id, "layout").more_tiles.items() if name != role
    }
    more = others if tile_id is None else others | {role: tile_id}
    return replace_layout(job, layout_id, more_tiles=dict(sorted(more.items())))


def rename_layout(job: Job, id: str, name: str) -> Job:
    """Return the job with another name for the layout; its id stays."""
    return replace_layout(job, id, name=" ".join(name.split()))


def lay_layout(job: Job, id: str) -> Job:
    """Return the job with this layout as the one to be laid: the first of its surface."""
    chosen = with_id(job.layouts, id, "layout")
    at = next(at for at, layout in enumerate(job.layouts) if layout.surface == chosen.surface)
    others = without(job.layouts, id, "layout")
    return replace(job, layouts=(*others[:at], chosen, *others[at:]))


def remove_layout(job: Job, id: str) -> Job:
    """Return the job without the layout."""
    return replace(job, layouts=without(job.layouts, id, "layout"))


def move_start(job: Job, id: str, point: Point) -> Job:
    """Return the job with the start of a layout at another point of its surface."""
    return replace_layout(job, id, start=point)
