"""How much memory laying and seeking take at most, beside what the tiles' own coordinates would take."""

from __future__ import annotations

import tracemalloc
from collections.abc import Callable
from functools import partial

import pytest

from tests.benchmarks.bench_seek import PATTERNS, room
from tests.benchmarks.bench_seek_aims import last_step
from tests.benchmarks.courses import course
from tests.benchmarks.measured import Measured
from tests.benchmarks.rivals import ours, tiles_in_bounds
from tilelayout.job.values import Job
from tilelayout.layout.seeking.aims import Aim

pytestmark = pytest.mark.benchmark

MEBI = float(2**20)
SOUGHT = 500
MOST = 60.0
"""MB that a search in a room of 500 tiles may take: little beside the 80 of the window."""


def peak(run: Callable[[], object]) -> float:
    """Return the most memory, in MB, that a run holds at a time."""
    tracemalloc.start()
    try:
        run()
        return tracemalloc.get_traced_memory()[1] / MEBI
    finally:
        tracemalloc.stop()


def measured() -> list[Measured]:
    """Lay rooms of 1,000 and 100,000 tiles, and seek in one of 500."""
    found = []
    for tiles in (1_000, 100_000):
        on = course("grid", tiles)
        plain, laid = peak(partial(tiles_in_bounds, on)), peak(partial(ours, on))
        found.append(Measured(f"memory of laying {tiles:,} tiles", laid, unit="MB"))
        if tiles > 1_000:
            found.append(Measured("memory of a shape for each of them, over ours", plain / laid, 5.0))
    tile, layout = PATTERNS["grid"]
    surface = room(SOUGHT, tile, layout)
    job = Job(surfaces=(surface,), tiles=(tile,), layouts=(layout,))
    sought = peak(lambda: last_step(job, surface.id, Aim.BALANCED))
    found.append(Measured(f"memory of seeking in {SOUGHT} tiles", sought, MOST, is_limit=True, unit="MB"))
    return found


def test_memory_stays_small() -> None:
    rows = measured()
    print("\n" + "\n".join(row.row for row in rows))
    assert all(row.is_near for row in rows)
