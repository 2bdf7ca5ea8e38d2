"""The proved bound on the narrowest cut held against a dense scan: no start 1/8 in apart goes beyond it.

Slow, so it runs with the benchmarks; `tests/layout/test_seek_certificate.py` has a smaller one.
"""

from __future__ import annotations

from functools import partial
from random import Random

import numpy as np
import pytest

from tests.layout.test_seek_certificate import oblique_room
from tests.rooms import INCH, LAYINGS, floor_of
from tilelayout.job.values import Surface
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.certificate import NEAR
from tilelayout.layout.seeking.search import Search
from tilelayout.layout.seeking.trials import Trial

pytestmark = pytest.mark.benchmark

APART = INCH / 8
NAMES = ("diagonal", "herringbone", "hexagon point up")
SEEDS = range(30)


def room(seed: int) -> Surface:
    """An L-shaped room, one of oblique walls, or one with a chimney breast or an alcove: each in turn."""
    if seed % 3 == 0:
        return oblique_room(seed)
    random = Random(seed)
    width, depth = (random.randrange(1500, 3300, 5) for _ in range(2))
    x, y = random.randrange(500, width - 400, 5), random.randrange(400, depth - 300, 5)
    if seed % 3 == 1:
        return floor_of((0, 0), (width, 0), (width, y), (x, y), (x, depth), (0, depth))
    out, to = random.choice((-250, 250)), x + random.randrange(150, 350, 5)
    return floor_of(
        (0, 0),
        (width, 0),
        (width, depth),
        (to, depth),
        (to, depth + out),
        (x, depth + out),
        (x, depth),
        (0, depth),
    )


def _goes_beyond(bound: float, trial: Trial) -> bool:
    return trial.narrowest > bound


@pytest.mark.parametrize("name", NAMES)
def test_no_start_of_a_dense_scan_goes_beyond_the_bound(name: str) -> None:
    tile, layout = LAYINGS[name]
    laid = bounded = near = 0
    for seed in SEEDS:
        search = Search(room(seed), tile, layout, Aim.WIDEST_CUT)
        for _ in search.steps():
            pass
        bound = search.narrowest_at_most
        if bound is None:
            continue
        vectors = search.trials.placed.vectors
        sides = np.ceil(np.hypot(*vectors.T) / APART).astype(int)
        shares = np.stack(np.meshgrid(*((np.arange(side) + 0.5) / side for side in sides)), axis=-1)
        starts = shares.reshape(-1, 2) @ vectors
        tried = search.trials.hopeful(starts, partial(_goes_beyond, bound + 1e-6))
        assert not [trial for trial in tried if not trial.bare], seed
        laid, bounded = laid + len(starts), bounded + 1
        near += bound <= search.best.trial.narrowest + NEAR
    print(f"\n{name}: {laid:,} starts in {bounded} rooms, none beyond the bound; {near} closed to 1/32 in")
    assert bounded >= len(SEEDS) // 2
