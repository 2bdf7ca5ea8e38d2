from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path

import pytest

from tilelayout.job.values import Job
from tilelayout.reports.to_pdf import print_job

DAY = datetime.date(2024, 2, 29)

Printer = Callable[..., Path]


@pytest.fixture
def printed(tmp_path: Path) -> Printer:
    """Print a job and return the PDF's path."""

    def print_it(job: Job, paper: str = "letter", name: str = "sheets.pdf") -> Path:
        path = tmp_path / name
        for _ in print_job(job, path, paper, date=DAY, file_name="room.tilejob"):
            pass
        return path

    return print_it
