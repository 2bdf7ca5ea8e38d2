"""Opens the job that a call names and plans the layouts it asks for."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tilelayout.base.errors import JobFileError, LayoutError
from tilelayout.job.values import Job
from tilelayout.planning.open_job import open_job
from tilelayout.planning.plan import Plan, layout_named, plan


def opened(path: Path, layout_id: str | None) -> tuple[Job, tuple[str, ...]]:
    """Return the job and the ids of the layouts asked for: the one named, else all.

    JobFileError if the file cannot be read or holds no such layout.
    """
    job = open_job(path)
    try:
        if layout_id is not None or not job.layouts:
            return job, (layout_named(job, layout_id or "").id,)
    except LayoutError as error:
        raise JobFileError(error.what, error.mend, file=str(path), place="layouts") from error
    return job, tuple(layout.id for layout in job.layouts)


def planned(path: Path, job: Job, layout_ids: tuple[str, ...]) -> Iterator[Plan]:
    """Yield each plan once it is laid. JobFileError names the layout that cannot be."""
    places = {layout.id: f"layouts[{at}]" for at, layout in enumerate(job.layouts)}
    for layout_id in layout_ids:
        made = plan(job, layout_id)
        try:
            _ = made.laid
        except LayoutError as error:
            raise JobFileError(error.what, error.mend, file=str(path), place=places[layout_id]) from error
        yield made
