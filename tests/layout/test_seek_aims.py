"""What makes one start better than another, aim by aim, and that a search heeds it to the last tie."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from tilelayout.job.files import read_job
from tilelayout.layout.seeking.aims import Aim, merit_of
from tilelayout.layout.seeking.search import Search
from tilelayout.layout.seeking.trials import Trial

SAMPLE_ROOMS = Path(__file__).parents[2] / "sample_rooms"
PLAIN = Trial(start=(0.0, 0.0), narrowest=60.0, slivers=2, whole=70, cuts=30, bare=0)
FEWER_CUTS = replace(PLAIN, cuts=27, whole=73)
COUNTED = (Aim.FEWEST_TILES, Aim.FEWEST_CUTS)


@pytest.mark.parametrize("aim", Aim)
def test_a_bare_place_is_worse_than_anything(aim: Aim) -> None:
    bare = replace(PLAIN, narrowest=140.0, slivers=0, cuts=3, whole=80, bare=1)
    assert merit_of(aim, PLAIN, 400.0) > merit_of(aim, bare, 0.0)


@pytest.mark.parametrize(
    ("better", "worse"),
    [
        (replace(PLAIN, slivers=1, cuts=33, whole=67), PLAIN),
        (FEWER_CUTS, replace(PLAIN, narrowest=90.0)),
        (replace(PLAIN, narrowest=61.0), PLAIN),
    ],
    ids=["fewer slivers", "fewer cuts", "a wider narrowest cut"],
)
def test_of_as_many_tiles_each_of_these_counts_before_the_next(better: Trial, worse: Trial) -> None:
    """Equal borders come last: to be equal to a tenth of a millimetre must not cost five cuts more."""
    assert merit_of(Aim.FEWEST_TILES, better, 150.0, tiles=96) > merit_of(Aim.FEWEST_TILES, worse, 0.0, 96)


def test_of_as_many_cuts_fewer_slivers_then_fewer_tiles_then_a_wider_cut_count() -> None:
    best_to_worst = [
        merit_of(Aim.FEWEST_CUTS, trial, unequal, tiles)
        for trial, unequal, tiles in (
            (replace(PLAIN, slivers=1), 9.0, 99),
            (replace(PLAIN, narrowest=50.0), 9.0, 95),
            (replace(PLAIN, narrowest=61.0), 9.0, 96),
            (PLAIN, 0.0, 96),
            (PLAIN, 1.0, 96),
        )
    ]
    assert best_to_worst == sorted(best_to_worst, reverse=True)


@pytest.mark.parametrize("aim", COUNTED)
def test_no_start_of_a_raster_does_better_in_a_room_with_a_drain(aim: Aim) -> None:
    job = read_job(SAMPLE_ROOMS / "wash_house.tilejob")
    layout = job.layouts[0]
    search = Search(job.surface(layout.surface), job.tile(layout.tile), layout, aim)
    for _ in search.steps():
        pass
    steps = (np.arange(20) + 0.5) / 20
    shares = np.stack(np.meshgrid(steps, steps), axis=-1).reshape(-1, 2)
    tried = search.trials.hopeful(
        shares @ search.trials.placed.vectors, lambda trial: merit_of(aim, trial, 0.0) > search.best.merit
    )
    assert not [trial for trial in tried if search.scored(trial).merit > search.best.merit]
