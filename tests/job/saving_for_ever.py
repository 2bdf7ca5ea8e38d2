"""Saves two jobs in turn to the file named on the command line until it is killed."""

from __future__ import annotations

import sys
from itertools import cycle
from pathlib import Path

from tests.job.cast import BAY, POTTING_SHED, job_of
from tilelayout.job.files import write_job


def save_for_ever(path: Path) -> None:
    """Save the bay and the potting shed in turn."""
    for tree in cycle((BAY, POTTING_SHED)):
        write_job(job_of(tree), path)
        print("saved", flush=True)


if __name__ == "__main__":
    save_for_ever(Path(sys.argv[1]))
