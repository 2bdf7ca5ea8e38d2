"""The proved bound on the widest narrowest cut: no start that is laid, wherever it stands, goes beyond it."""

from __future__ import annotations

from math import cos, pi, sin

import numpy as np
import pytest

from tests.rooms import CAST, LAYINGS, floor_of, round_cutout, square_cutout
from tilelayout.job.values import Edge, Layout, Surface, Tile, Visibility
from tilelayout.layout.region import region_of
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.certificate import NEAR, Certificate
from tilelayout.layout.seeking.search import Search
from tilelayout.layout.seeking.trials import Trials
from tilelayout.layout.values import Points

PATTERNS = ("grid", "half bond", "diagonal", "herringbone", "hexagon point up")


def oblique_room(seed: int) -> Surface:
    """A room of five to seven walls at odd angles, every third with a post, every fourth with a drain."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(5, 8))
    turns = 2.0 * pi * (np.arange(count) + rng.uniform(-0.2, 0.2, count)) / count
    reach = rng.uniform(1100.0, 1900.0, count)
    corners = [(2000 + r * cos(t), 2000 + r * sin(t)) for r, t in zip(reach, turns, strict=True)]
    post = (square_cutout(2000, 2100, 150, 3),) if seed % 3 == 0 else ()
    drain = (round_cutout(1700, 1800, 110, 3),) if seed % 4 == 0 else ()
    return floor_of(*((round(x, 1), round(y, 1)) for x, y in corners), cutouts=(*post, *drain))


ROOMS = {"oblique with a bay": CAST["oblique with a bay"], **{f"room {k}": oblique_room(k) for k in range(6)}}


def sought(room: Surface, laying: tuple[Tile, Layout]) -> Search:
    search = Search(room, *laying, Aim.WIDEST_CUT)
    for _ in search.steps():
        pass
    return search


def raster(search: Search) -> Points:
    """Starts all over one cell, and close by the best found."""
    steps = (np.arange(14) + 0.37) / 14
    over = np.stack(np.meshgrid(steps, steps), axis=-1).reshape(-1, 2) @ search.trials.placed.vectors
    close = np.stack(np.meshgrid(np.arange(-4, 5), np.arange(-4, 5)), axis=-1).reshape(-1, 2) * 0.25
    return np.vstack([over, np.array(search.best.trial.start) + close])


@pytest.mark.parametrize("name", PATTERNS)
@pytest.mark.parametrize("room", ROOMS.values(), ids=ROOMS.keys())
def test_no_start_of_a_raster_goes_beyond_the_bound(room: Surface, name: str) -> None:
    search = sought(room, LAYINGS[name])
    best, bound = search.best.trial.narrowest, search.narrowest_at_most
    if search.is_proved or search.best.trial.bare:
        return
    assert bound is not None and bound >= best
    laid = [trial.narrowest for trial in search.trials.of(raster(search)) if not trial.bare]
    assert max(laid, default=0.0) <= bound + 1e-6


@pytest.mark.parametrize("name", PATTERNS)
def test_no_start_of_a_box_goes_beyond_the_bound_of_the_box(name: str) -> None:
    """The step that all rests on, tried by itself: boxes of all sizes, starts anywhere in them."""
    rng = np.random.default_rng(11)
    tile, layout = LAYINGS[name]
    room = oblique_room(12)
    trials = Trials(tile, layout, region_of(room, layout.gap))
    certificate, tried = Certificate(trials), 0
    for size in (0.25, 0.05, 0.01, 0.002):
        shares = rng.uniform(0.0, 1.0, (16, 2))
        halves = np.tile([size / 2, size / 3], (16, 1))
        corners = certificate._corners(halves)
        bounds, told = certificate._bounds(shares @ trials.placed.vectors, corners)
        assert np.all(told <= bounds + 1e-9)
        for share, bound in zip(shares, bounds, strict=True):
            within = (share + rng.uniform(-1.0, 1.0, (12, 2)) * halves[0]) @ trials.placed.vectors
            assert max(trial.narrowest for trial in trials.of(within)) <= bound + 1e-6
            tried += bool(bound < trials.tile_narrowest - 1e-6)
    assert tried > 16


def test_in_a_room_of_straight_walls_laid_askew_the_bound_comes_near() -> None:
    for name in ("diagonal", "herringbone", "hexagon point up"):
        search = sought(CAST["L-shaped"], LAYINGS[name])
        bound = search.narrowest_at_most
        assert bound is not None and not search.is_proved
        assert search.best.trial.narrowest <= bound <= search.best.trial.narrowest + NEAR


def test_nothing_is_claimed_where_an_edge_is_hidden() -> None:
    """A piece cut there alone counts for nothing, so its width bounds nothing."""
    room = floor_of(
        (0, 0), (2600, 150), (2400, 2000), (100, 1900), edges=(Edge(at=0, seen=Visibility.HIDDEN),)
    )
    assert sought(room, LAYINGS["grid"]).narrowest_at_most is None
