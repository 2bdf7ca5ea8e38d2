"""The sample rooms: jobs to open and play with, found beside the package or in the installed wheel."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path

from tilelayout.base.errors import TileLayoutError
from tilelayout.job.values import Job
from tilelayout.planning.open_job import open_job

_PACKAGE = Path(__file__).resolve().parent.parent


@cache
def sample_paths() -> tuple[Path, ...]:
    """Return the files of the sample rooms in the order of their names; none if the folder is missing."""
    for folder in (_PACKAGE / "_sample_rooms", _PACKAGE.parent / "sample_rooms"):
        if folder.is_dir():
            return tuple(sorted(folder.glob("*.tilejob")))
    return ()


def each_sample() -> Iterator[tuple[Path, Job]]:
    """Yield every sample room that opens, with its file; each is read when it is asked for first."""
    for path in sample_paths():
        with suppress(TileLayoutError):
            yield path, _opened(path)


def samples() -> tuple[tuple[Path, Job], ...]:
    """Return every sample room that opens, with its file."""
    return tuple(each_sample())


@cache
def _opened(path: Path) -> Job:
    return open_job(path)
