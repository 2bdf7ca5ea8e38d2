"""How long a long job takes to print; planning apart, and of the rest what putting ink on paper takes."""

from __future__ import annotations

import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

import pytest
from msgspec.structs import replace

from tests.benchmarks.measured import Measured
from tests.cli.calls import SAMPLES
from tilelayout.job.files import read_job
from tilelayout.job.values import Job
from tilelayout.planning.plan import plan
from tilelayout.reports.to_pdf import print_job

pytestmark = pytest.mark.benchmark

LEAST_PAGES, MOST_SECONDS = 58, 0.15
DAY = datetime.date(2024, 5, 17)


def measured() -> list[Measured]:
    """Plan a long job, then print it twice."""
    job, began = long_job(), process_time()
    for layout in job.layouts:
        _ = plan(job, layout.id).sharing
    planning = process_time() - began
    with TemporaryDirectory() as folder:
        made = [Path(folder) / name for name in ("1.pdf", "2.pdf")]
        times = [printed(job, path) for path in made]
        is_same = made[0].read_bytes() == made[1].read_bytes()
    composing, painting, pages = min(times)
    share = LEAST_PAGES / pages
    size = f"{LEAST_PAGES} pages ({pages} measured)"
    return [
        Measured(f"printing {size}", (composing + painting) * share, MOST_SECONDS, is_limit=True, unit="s"),
        Measured(f"of it painting {size}", painting * share, MOST_SECONDS, is_limit=True, unit="s"),
        Measured(f"before it planning {size}", planning * share, unit="s"),
        Measured("same bytes when printed again", float(is_same), 1.0, unit="of 1"),
    ]


def long_job() -> Job:
    """A sample room with its layout on it at so many starts that the sheets have some hundred pages."""
    job = read_job(SAMPLES / "garden_room.tilejob")
    layout = job.layouts[0]
    layouts = [replace(layout, id=f"{layout.id}-{k}", start=(13.0 * k, 29.0 * k)) for k in range(12)]
    return replace(job, layouts=tuple(layouts))


def printed(job: Job, path: Path) -> tuple[float, float, int]:
    """Print a job; return the seconds until the first page is painted, those after, and the pages."""
    began, marks = process_time(), list[float]()
    for step in print_job(job, path, date=DAY, file_name="long.tilejob"):
        marks += [process_time()] if step.words.startswith("Page ") else []
    return marks[0] - began, process_time() - marks[0], len(marks)


def test_a_long_job_prints_quickly_and_always_the_same() -> None:
    rows = measured()
    print("\n" + "\n".join(row.row for row in rows))
    assert rows[1].is_near
    assert rows[-1].figure == 1.0
