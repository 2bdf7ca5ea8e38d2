"""The first picture of the map of starts, raced against laying its starts one after another.

The plain loop lays each start by the program's own kernel and asks for the narrowest cut and the slivers; so
what is won is won by laying many at once and by measuring no more than is asked. Medians of processor time.
"""

from __future__ import annotations

from collections.abc import Callable
from statistics import median
from time import process_time

import numpy as np
import pytest
from msgspec.structs import replace

from tests.benchmarks.courses import PATTERNS
from tests.benchmarks.measured import Measured
from tests.rooms import floor_of, round_cutout, square_cutout
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Surface
from tilelayout.layout.laying import lay
from tilelayout.layout.offset_map.map_of_starts import FIRST, steps
from tilelayout.layout.offset_map.own_repeat import own_repeat
from tilelayout.layout.offset_map.rating import Rater
from tilelayout.layout.region import region_of
from tilelayout.layout.slivers import is_sliver

pytestmark = pytest.mark.benchmark

ROUNDS, LOOPED = 5, 12
AT_LEAST = 3.0

_OUTLINE = ((0, 0), (6100, 0), (6100, 4000), (9000, 4000), (9000, 7000), (0, 7000))
ROOMS = {
    "straight walls": floor_of(*_OUTLINE),
    "with a drain and a post": floor_of(
        *_OUTLINE, cutouts=(round_cutout(1500, 3000, 120), square_cutout(3000, 2000, 600))
    ),
}


def seconds(run: Callable[[], object]) -> float:
    """Median processor time of a few runs."""
    times = []
    for _ in range(ROUNDS):
        began = process_time()
        run()
        times.append(process_time() - began)
    return median(times)


def raced(surface: Surface, pattern: str) -> tuple[int, float, float]:
    """Return the tiles of the room, the seconds of the first picture, and those of the plain loop for it."""
    tile, layout = PATTERNS[pattern]
    region = region_of(surface, layout.gap)
    rater = Rater(tile, layout, region)
    vectors = own_repeat(rater.cell) @ turning(layout.angle)
    starts = np.random.default_rng(1).random((LOOPED, 2)) @ vectors

    def one_by_one() -> int:
        found = 0
        for x, y in starts.tolist():
            laid = lay(surface, tile, replace(layout, start=(x, y)), region)
            found += sum(is_sliver(piece, laid) for piece in laid.cut) + round(laid.narrowest_cut or 0.0)
        return found

    tiles = rater.rate(starts[:1])[0]
    first = seconds(lambda: next(steps(rater, vectors)))
    return tiles.whole + tiles.cuts, first, seconds(one_by_one) * FIRST / LOOPED


def measured() -> list[Measured]:
    """Race the first picture of every room and pattern."""
    print(f"\n{'room':<24}{'pattern':<14}{'tiles':>7}{'first picture':>15}{'plain loop':>12}{'ratio':>7}")
    ratios = []
    for name, surface in ROOMS.items():
        for pattern in PATTERNS:
            tiles, first, loop = raced(surface, pattern)
            ratios.append(loop / first)
            print(f"{name:<24}{pattern:<14}{tiles:>7}{first:>13.2f} s{loop:>10.2f} s{loop / first:>7.1f}")
    return [Measured("first map of starts, over laying them singly: least", min(ratios), AT_LEAST)]


def test_the_first_picture_beats_the_plain_loop() -> None:
    assert all(row.is_near for row in measured())
