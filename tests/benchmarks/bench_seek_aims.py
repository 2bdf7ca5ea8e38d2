"""Seeking for each aim, as the program does it, beside a plain scan of the same cell in the same run.

The scan tries starts 25 mm apart, tile by tile; it only counts whole and cut tiles and boxes the cuts, so it
does less for each start than any aim needs. A sample of its starts tells its price.
"""

from __future__ import annotations

import pytest

from tests.benchmarks.bench_seek import PATTERNS, laid_plainly, room, starts_of, taken
from tests.benchmarks.measured import Measured
from tilelayout.job.values import Job
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.seek import Step, Wish, seek

pytestmark = pytest.mark.benchmark

APART = 25.0
SIZES = (60, 500, 5_000)
LEAST_RATIO = {60: 1.0, 500: 3.0, 5_000: 20.0}
"""A search must never take longer than the scan; the larger the room, the less it may take beside it."""


def last_step(job: Job, surface: str, aim: Aim) -> Step:
    """Run a search to its end."""
    *_, last = seek(job, surface, wish=Wish(aim=aim, most=1))
    return last


def measured() -> list[Measured]:
    """Race every aim in rooms of three sizes."""
    tile, layout = PATTERNS["grid"]
    found: list[Measured] = []
    print("\ntiles   aim            seek s   plain scan s   ratio   narrowest   slivers   tiles    cuts")
    for tiles in SIZES:
        surface = room(tiles, tile, layout)
        job = Job(surfaces=(surface,), tiles=(tile,), layouts=(layout,))
        sample = starts_of(layout, tile, 4)
        (a, b), (c, d) = cell_of(layout, tile).vectors.tolist()
        count = abs(a * d - b * c) / APART**2
        scan = taken(laid_plainly, region_of(surface, layout.gap), tile, layout, sample) / len(sample) * count
        for aim in Aim:
            seeking = taken(last_step, job, surface.id, aim)
            best = last_step(job, surface.id, aim).found[0] if tiles < 100 else None
            figures = (
                ""
                if best is None
                else f"{best.narrowest or 0:12.1f}{best.slivers:10d}{best.tiles_needed:8d}{best.cuts:8d}"
            )
            print(f"{tiles:5d}   {aim.value:13s}{seeking:8.2f}{scan:15.1f}{scan / seeking:8.1f}{figures}")
            found.append(
                Measured(
                    f"seek {aim.value}, {tiles} tiles, over a plain scan", scan / seeking, LEAST_RATIO[tiles]
                )
            )
    return found


def test_every_aim_beats_a_plain_scan() -> None:
    assert all(row.is_near for row in measured())
