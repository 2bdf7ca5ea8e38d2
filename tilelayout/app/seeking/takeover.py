"""Takes over what was found: as a layout of its own, as the one to be laid, or by moving the start there.

Each is a plain edit and so one step of undo.
"""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.job.edits.ids import free_id
from tilelayout.job.edits.layouts import add_layout, lay_layout, replace_layout
from tilelayout.job.values import Job, Layout

_WAY = ("start", "angle", "joint", "settings")
"""What a search may have changed."""


def keep(job: Job, found: Layout, name: str = "") -> Job:
    """Return the job with what was found as one more layout, under the next free letter."""
    id = free_id((layout.id for layout in job.layouts), "A")
    return add_layout(job, replace(found, id=id, name=" ".join(name.split())))


def lay(job: Job, chosen: Layout) -> Job:
    """Return the job with a layout as the one to be laid; what was found is kept first."""
    if any(layout.id == chosen.id for layout in job.layouts):
        return lay_layout(job, chosen.id)
    kept = keep(job, chosen)
    return lay_layout(kept, kept.layouts[-1].id)


def start_there(job: Job, id: str, found: Layout) -> Job:
    """Return the job with a layout laid as what was found."""
    return replace_layout(job, id, **{key: getattr(found, key) for key in _WAY})
