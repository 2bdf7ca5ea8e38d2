"""The search against a raster of all starts in rooms with drains, bays and borders, for every aim at once."""

from __future__ import annotations

import numpy as np
import pytest

from tests.cli.calls import SAMPLES
from tilelayout.job.files import read_job
from tilelayout.job.values import Job, Layout
from tilelayout.layout.offset_map.many_starts import AT_ONCE
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.search import Search
from tilelayout.planning.field import field_region

SIDE = 16


def search_of(job: Job, layout: Layout) -> Search:
    region, more = field_region(job, layout), job.more_tiles(layout)
    surface, tile = job.surface(layout.surface), job.tile(layout.tile)
    return Search(surface, tile, layout, Aim.BALANCED, region, also=tuple(Aim), more=more)


@pytest.mark.parametrize("sample", ["garden_passage", "reading_room", "wash_house", "garden_room"])
def test_no_start_of_a_raster_and_none_laid_by_hand_is_better(sample: str) -> None:
    job = read_job(SAMPLES / f"{sample}.tilejob")
    by_hand = [each for each in job.layouts if each.surface == job.layouts[0].surface]
    alike = [each for each in by_hand if each.pattern == job.layouts[0].pattern and each.angle == 0.0]
    found, raster = search_of(job, job.layouts[0]), search_of(job, job.layouts[0])
    for _ in found.steps():
        pass
    shares = (np.arange(SIDE) + 0.37) / SIDE
    starts = np.stack(np.meshgrid(shares, shares), axis=-1).reshape(-1, 2) @ raster.trials.placed.vectors
    starts = np.vstack([starts, *([each.start] for each in alike)])
    for at in range(0, len(starts), AT_ONCE):
        raster.take(raster.trials.of(starts[at : at + AT_ONCE]))
    for aim in Aim:
        assert found.pools[aim].scored[0].merit >= raster.pools[aim].scored[0].merit, aim
