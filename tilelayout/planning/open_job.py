"""Opens a job file: checked as far as it can be without laying anything, and planks drawn for their rooms.

The reader of the file knows every key but those of the patterns, which belong to the patterns' own files.
Here they are checked and brought into one form, so that whoever holds an opened job can rely on all of it.
"""

from __future__ import annotations

from pathlib import Path

import msgspec

from tilelayout.base.errors import JobFileError
from tilelayout.job.files import read_job
from tilelayout.job.values import Job, Layout
from tilelayout.layout import patterns
from tilelayout.planning.draw_planks import with_planks_drawn


def open_job(path: Path) -> Job:
    """Read and check a job file; planks that are still to be drawn for their room are drawn.

    JobFileError names the file, the place in it and the mend.
    """
    return with_planks_drawn(check_job(read_job(path), str(path)))


def check_job(job: Job, file: str = "") -> Job:
    """Return the job with the settings of every layout checked and in one form, lengths in mm.

    JobFileError names a wrong setting as `layouts[0].row_offsets`. What is already in that form stays the
    same object.
    """
    layouts = tuple(_checked(layout, f"layouts[{at}]", file) for at, layout in enumerate(job.layouts))
    if all(new is old for new, old in zip(layouts, job.layouts, strict=True)):
        return job
    return msgspec.structs.replace(job, layouts=layouts)


def _checked(layout: Layout, place: str, file: str) -> Layout:
    try:
        patterns.check_roles(layout)
        read = msgspec.to_builtins(patterns.settings_of(layout))
    except JobFileError as error:
        inner = f"{place}.{error.place}" if error.place else place
        raise JobFileError(error.what, error.mend, file=file, place=inner) from error
    settings = {key: value for key, value in read.items() if key in layout.settings}
    return layout if settings == layout.settings else msgspec.structs.replace(layout, settings=settings)
