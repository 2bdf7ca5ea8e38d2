"""The map of gaps raced against a hull for every window, and the lazy program against all its rows.

The plain way to the gap at every reading is Andrew's upper hull of each window along each line of readings,
in plain Python. The plain way to the least fill is one row of the program for every chord. Both are done on
the same floors and in the same run as ours, and give the same figures. Time is the processor's. By itself:

    python -m pytest tests/benchmarks/bench_flatness.py -m benchmark -s
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import pairwise
from math import hypot
from statistics import median
from time import process_time

import numpy as np
import pytest

from tests.benchmarks.measured import Measured
from tests.flatness.floors import grid
from tilelayout.flatness.fans import Fans
from tilelayout.flatness.fill import kept_on_grid
from tilelayout.flatness.grids import DIRECTIONS, Grid, all_rows, depth_map, grid_of
from tilelayout.flatness.mesh import mesh_of
from tilelayout.flatness.programs import Preparation, sums_of_rows
from tilelayout.flatness.straightedge import Rays, deepest, rays_for

pytestmark = pytest.mark.benchmark

FOOT = 304.8
OVERS = (10 * FOOT, 2 * FOOT)
LIMITS = ((10 * FOOT, 3.175), (2 * FOOT, 1.5875))
RUNS = 5


def floor(columns: int, rows: int, step: float, seed: int = 1) -> tuple[Grid, np.ndarray]:
    """A floor with slow waves and a little roughness, as a slab is left; heights as the grid."""
    places = grid(columns, rows, step)
    found = grid_of(places)
    assert found is not None
    x, y = places.T
    waves = 2.4 * np.sin(x / 900.0 + 0.4) * np.cos(y / 1100.0) + 1.3 * np.sin((x + 2 * y) / 700.0)
    rough = np.random.default_rng(seed).normal(size=len(places)) * 0.25
    return found, (waves + rough + x * 0.0008)[found.number]


def hull_map(found: Grid, heights: np.ndarray, over: float) -> np.ndarray:
    """The gap at every reading by hulls of windows along the lines of eight directions, one after another."""
    rows, columns = heights.shape
    worst = np.zeros(heights.shape)
    for right, up in DIRECTIONS[8]:
        span = int((over + 1e-6) / hypot(right * found.step_x, up * found.step_y))
        for line in _lines(rows, columns, right, up):
            along = [float(heights[place]) for place in line]
            for first in range(max(len(line) - span, 1)):
                _hang(along, line, first, min(first + span, len(line) - 1), worst)
    return worst


def _lines(rows: int, columns: int, right: int, up: int) -> list[list[tuple[int, int]]]:
    lines = []
    for row in range(rows):
        for column in range(columns):
            if not (0 <= row - up < rows and 0 <= column - right < columns):
                steps = range(max(rows, columns))
                line = [(row + k * up, column + k * right) for k in steps]
                lines.append([(r, c) for r, c in line if 0 <= r < rows and 0 <= c < columns])
    return [line for line in lines if len(line) > 2]


def _hang(along: list[float], line: list[tuple[int, int]], first: int, last: int, worst: np.ndarray) -> None:
    hull: list[int] = []
    for k in range(first, last + 1):
        while len(hull) > 1 and (along[hull[-1]] - along[hull[-2]]) * (k - hull[-2]) <= (
            along[k] - along[hull[-2]]
        ) * (hull[-1] - hull[-2]):
            hull.pop()
        hull.append(k)
    for a, b in pairwise(hull):
        for k in range(a + 1, b):
            gap = along[a] + (along[b] - along[a]) * (k - a) / (b - a) - along[k]
            worst[line[k]] = max(worst[line[k]], gap)


def all_at_once(found: Grid, heights: np.ndarray) -> tuple[float, int]:
    """The least fill with a row for every chord: its sum and its rows."""
    readings = np.empty(heights.size)
    readings[found.number] = heights
    program = Preparation(readings, np.ones(len(readings)))
    for over, limit in LIMITS:
        program.add(sums_of_rows(all_rows(found, heights, over), limit))
    return float(program.solved()[0].sum()), program.rows


def as_broken(found: Grid, heights: np.ndarray) -> tuple[float, int]:
    """The least fill with rows added as they are found broken: its sum and its rows."""
    readings = np.empty(heights.size)
    readings[found.number] = heights
    program = Preparation(readings, np.ones(len(readings)))
    added, _ = kept_on_grid(program, found, readings, LIMITS)
    return float(added.sum()), program.rows


def taken(run: Callable[[], object], runs: int = RUNS) -> float:
    """Return the milliseconds of processor time a run takes, the median of several."""
    times = []
    for _ in range(runs):
        began = process_time()
        run()
        times.append((process_time() - began) * 1e3)
    return median(times)


FLOORS = (
    ("20 x 30 ft, every foot", 31, 21, FOOT, 10.0),
    ("20 x 30 ft, every 6 in", 61, 41, FOOT / 2, 20.0),
    ("40 x 60 ft, every foot", 61, 41, FOOT, 20.0),
)


def map_of_gaps() -> list[Measured]:
    """Race the map of gaps over both lengths on three floors."""
    print("\nfloor                     readings   hulls    ours  ratio   (ms)")
    rows = []
    for name, columns, deep, step, goal in FLOORS:
        found, heights = floor(columns, deep, step)
        for over in OVERS:
            assert np.allclose(hull_map(found, heights, over), depth_map(found, heights, over), atol=1e-9)
        plain = sum(taken(partial(hull_map, found, heights, over), 3) for over in OVERS)
        ours = sum(taken(partial(depth_map, found, heights, over), 11) for over in OVERS)
        print(f"{name:26s}{heights.size:8d}{plain:8.0f}{ours:8.2f}{plain / ours:7.1f}")
        rows.append(Measured(f"map of gaps, {name}, over hulls of every window", plain / ours, goal))
    return rows


def least_fill() -> list[Measured]:
    """Race rows added as they are broken against all rows at once, to one and the same least fill."""
    found, heights = floor(31, 21, FOOT)
    (whole, all_count), (lazy, count) = all_at_once(found, heights), as_broken(found, heights)
    assert lazy == pytest.approx(whole, rel=1e-6, abs=1e-4)
    plain = taken(partial(all_at_once, found, heights), 3)
    ours = taken(partial(as_broken, found, heights))
    print(f"\nleast fill, 651 readings: {all_count} rows {plain:.0f} ms, {count} rows {ours:.0f} ms")
    return [
        Measured("least fill at 651 readings, rows as broken over all rows", plain / ours, 8.0),
        large_fill(),
    ]


def large_fill() -> Measured:
    """Time the least fill along eight directions of 10,201 readings; its goal is a time and no ratio."""
    found, heights = floor(101, 101, FOOT)
    seconds = taken(partial(as_broken, found, heights)) / 1e3
    print(f"least fill along the grid, {heights.size:,} readings: {seconds:.2f} s")
    return Measured("least fill along the grid, 10,201 readings", seconds, 0.2, is_limit=True, unit="s")


def all_directions() -> list[Measured]:
    """Race the sweep that chooses fans against drawing every fan, to the same gap and rise everywhere."""
    found, heights = floor(40, 25, FOOT)
    readings = np.empty(heights.size)
    readings[found.number] = heights
    mesh = mesh_of(grid(40, 25, FOOT))
    at_corners, fans = mesh.heights(readings), Fans(mesh, max(OVERS) + 2.0 * mesh.longest)
    swept = rays_for(mesh, OVERS)

    def best(rays: Rays) -> list[float]:
        return [one.best.depth if one.best else 0.0 for one in deepest(mesh, at_corners, OVERS, rays)]

    assert best(swept) == pytest.approx(best(Rays(fans, None)), abs=1e-3)
    plain = taken(lambda: best(Rays(fans, None)), 1)
    ours = taken(lambda: best(rays_for(mesh, OVERS)), 3)
    print(f"gap and rise in all directions, 1,000 readings: fans {plain:.0f} ms, swept {ours:.0f} ms")
    return [Measured("gap and rise in all directions, 1,000 readings, over fans of all", plain / ours, 2.5)]


def measured() -> list[Measured]:
    """Return all that is raced here."""
    return [*map_of_gaps(), *least_fill(), *all_directions()]


def test_the_map_of_gaps_beats_hulls_of_every_window() -> None:
    assert all(row.is_near for row in map_of_gaps())


def test_rows_added_as_they_are_broken_beat_all_rows_at_once() -> None:
    assert all(row.is_near for row in least_fill())


def test_the_sweep_beats_fans_of_all_corners() -> None:
    assert all(row.is_near for row in all_directions())
