"""Seeking raced against plain scans of the same starts: the ratios, in one run.

A plain scan lays one start after another: each tile is tried against the prepared room and those that cross
its boundary are clipped, as a person would write it. The kernel's scan lays them with the program's own
kernel. Full scans of a fine raster would take hours, so a scan's price is that of a sample of its starts
times their number.
"""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt
from random import Random
from statistics import median
from time import process_time

import msgspec
import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from tests.benchmarks.measured import Measured
from tests.layout.scanned import Rows, widest
from tests.layout.test_seek_exact import OFFSETS, random_room, rings_of, sought
from tests.rooms import HEXAGON, INCH, PLANK, floor_of, layout_of, rectangle, round_cutout, square_cutout
from tilelayout.job.values import Layout, RectangleTile, Surface, Tile
from tilelayout.layout.laying import lay
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.certificate import NEAR
from tilelayout.layout.seeking.search import Search
from tilelayout.layout.seeking.trials import Trials
from tilelayout.layout.values import Region

pytestmark = pytest.mark.benchmark

Starts = NDArray[np.float64]

OVER_PLAIN = {150: 15, 2_000: 60}
EXACT_OVER_SCAN = 10_000
CERTIFIED_OVER_SCAN = 7.0
FINE, COARSE = INCH / 16, INCH / 8
FOOT_TILE = RectangleTile(id="foot", length=12 * INCH, width=12 * INCH)
PATTERNS: dict[str, tuple[Tile, Layout]] = {
    "grid": (FOOT_TILE, layout_of(FOOT_TILE, joint=INCH / 8)),
    "half bond": (PLANK, layout_of(PLANK, row_offsets=(0.0, 0.5))),
    "herringbone": (PLANK, layout_of(PLANK, "herringbone")),
    "hexagon": (HEXAGON, layout_of(HEXAGON, "hexagon")),
}


def room(tiles: int, tile: Tile, layout: Layout) -> Surface:
    """An L-shaped room that takes about so many tiles."""
    cell = cell_of(layout, tile)
    one = abs(float(np.linalg.det(cell.vectors))) / len(cell.faces)
    side = sqrt(tiles * one / 0.78)
    x, y = round(side), round(side * 0.97)
    return floor_of(
        (0, 0), (x, 0), (x, round(0.6 * y)), (round(0.45 * x), round(0.6 * y)), (round(0.45 * x), y), (0, y)
    )


def taken(run: Callable[..., object], *given: object) -> float:
    """Return the seconds of processor time a run takes."""
    began = process_time()
    run(*given)
    return process_time() - began


def starts_of(layout: Layout, tile: Tile, count: int) -> Starts:
    """So many starts spread over one cell."""
    shares = np.random.default_rng(3).uniform(size=(count, 2))
    return shares @ cell_of(layout, tile).vectors


def _run_through(search: Search) -> None:
    for _ in search.steps():
        pass


def laid_plainly(region: Region, tile: Tile, layout: Layout, starts: Starts) -> list[tuple[int, int, float]]:
    """Lay starts tile by tile: whole tiles, cut ones, and the narrowest side of their boxes."""
    return [_laid_plainly(region, tile, layout, start) for start in starts]


def _laid_plainly(region: Region, tile: Tile, layout: Layout, start: Starts) -> tuple[int, int, float]:
    shape = region.shape
    shapely.prepare(shape)
    cell, (low_x, low_y, high_x, high_y) = cell_of(layout, tile), shape.bounds
    corners = np.array([(low_x, low_y), (high_x, low_y), (low_x, high_y), (high_x, high_y)]) - start
    lattice = corners @ np.linalg.inv(cell.vectors)
    first, last = np.floor(lattice.min(axis=0)).astype(int) - 3, np.ceil(lattice.max(axis=0)).astype(int) + 3
    whole, cut, least = 0, 0, np.inf
    for i in range(first[0], last[0]):
        for j in range(first[1], last[1]):
            shift = start + np.array([i, j]) @ cell.vectors
            for face in cell.faces:
                tile_shape = shapely.Polygon(face.outline + shift)
                if shape.contains(tile_shape):
                    whole += 1
                    continue
                kept = shape.intersection(tile_shape)
                if kept.area > 1e-3:
                    x, y, to_x, to_y = kept.bounds
                    cut, least = cut + 1, min(least, to_x - x, to_y - y)
    return whole, cut, least


def many_starts() -> list[Measured]:
    """Race the measuring of many starts at once against laying one after another."""
    print("\npattern        tiles   plain /s    lay /s    ours /s   plain/    lay/")
    ratios: dict[int, list[float]] = {tiles: [] for tiles in OVER_PLAIN}
    for tiles in OVER_PLAIN:
        for name, (tile, layout) in PATTERNS.items():
            surface = room(tiles, tile, layout)
            region, starts = region_of(surface, layout.gap), starts_of(layout, tile, 64)
            trials = Trials(tile, layout, region)
            trials.of(starts[:16])
            ours = taken(trials.of, starts) / 64
            plain = taken(laid_plainly, region, tile, layout, starts[:3]) / 3
            laid = taken(laid_singly, surface, tile, layout, region, starts[:12]) / 12
            ratios[tiles].append(plain / ours)
            rates = f"{1 / plain:11.0f}{1 / laid:10.0f}{1 / ours:11.0f}"
            print(f"{name:13s}{tiles:7d}{rates}{plain / ours:9.1f}{laid / ours:8.1f}")
    return [
        Measured(f"starts tried in a second, {tiles:,} tiles, over a plain loop", median(ratios[tiles]), goal)
        for tiles, goal in OVER_PLAIN.items()
    ]


def test_many_starts_at_once_beat_one_after_another() -> None:
    assert all(row.is_near for row in many_starts())


def laid_singly(
    surface: Surface, tile: Tile, layout: Layout, region: Region, starts: Starts
) -> list[float | None]:
    """Lay starts one by one with the program's kernel, and measure the narrowest cut of each."""
    found = []
    for x, y in starts.tolist():
        laid = lay(surface, tile, msgspec.structs.replace(layout, start=(x, y)), region)
        found.append(laid.narrowest_cut)
    return found


def exact_starts() -> list[Measured]:
    """Race the exact start of rows against a scan by the program's own kernel."""
    found = []
    print("\npattern        tiles     exact ms   fine scan s   scan/exact   narrowest   scan finds")
    for name in ("grid", "half bond"):
        tile, layout = PATTERNS[name]
        for tiles in (150, 2_000):
            surface = room(tiles, tile, layout)
            assert isinstance(tile, RectangleTile)
            exact = median(taken(sought, surface, tile, layout) for _ in range(5))
            best, search = sought(surface, tile, layout)
            along, up = tile.length + layout.joint, tile.width + layout.joint
            count = (along / FINE) * (up / FINE)
            region, sample = region_of(surface, layout.gap), starts_of(layout, tile, 24)
            scan = taken(laid_singly, surface, tile, layout, region, sample) / 24 * count
            rows = Rows(tile.length, tile.width, layout.joint, layout.settings.get("row_offsets", (0.0,)))
            scanned = widest(rings_of(surface, layout.gap), rows, FINE, layout.least_piece)
            assert search.is_proved
            figures = (
                f"{exact * 1e3:12.2f}{scan:14.1f}{scan / exact:13.0f}{best.narrowest:12.3f}{scanned:13.3f}"
            )
            print(f"{name:13s}{tiles:7d}{figures}")
            goal = EXACT_OVER_SCAN if name == "grid" and tiles == 150 else None
            found.append(
                Measured(f"exact start, {name}, {tiles:,} tiles, over a 1/16 in scan", scan / exact, goal)
            )
            assert best.narrowest >= scanned - 1e-4
    return found


def test_the_exact_start_beats_a_scan_of_a_sixteenth_of_an_inch() -> None:
    assert all(row.is_near for row in exact_starts())


SLOPES = floor_of((0, 0), (3600, 150), (3400, 2700), (100, 2500))
ANY_ROOMS = {
    "right angles": msgspec.structs.replace(rectangle(3600, 2700), cutouts=(square_cutout(1500, 1200, 120),)),
    "slopes": SLOPES,
    "slopes, drain": msgspec.structs.replace(SLOPES, cutouts=(round_cutout(1500, 1250, 110),)),
}


def any_rooms() -> list[Measured]:
    """Race the search for any room and pattern, its proof included, against a scan by many starts at once.

    The scan proves nothing. A search is certified if no start, wherever it stands, leaves a narrowest cut
    wider than the one found by more than 1/32 in; of the others the bound that it has is told.
    """
    ratios: list[float] = []
    certified: list[float] = []
    print("\npattern        room          seek s   laid   coarse scan s   scan/seek   found    at most")
    for name, (tile, layout) in PATTERNS.items():
        for called, surface in ANY_ROOMS.items():
            search = Search(surface, tile, layout, Aim.WIDEST_CUT)
            ratio, figures = _raced_with_a_scan(search, surface, tile, layout)
            best, bound = search.best.trial.narrowest, search.narrowest_at_most
            is_certified = bound is not None and bound <= best + NEAR
            said = "none" if bound is None else f"{bound:.2f} {'certified' if is_certified else 'open'}"
            print(f"{name:13s}  {called:14s}{figures}{best:8.2f}    {said}", flush=True)
            ratios.append(ratio)
            certified += [ratio] if is_certified else []
    what, scan = "search in any room", "over a 1/8 in scan"
    return [
        Measured(f"{what} with its certificate, {scan}: median", median(ratios), CERTIFIED_OVER_SCAN),
        Measured(f"{what} with its certificate, {scan}: least", min(ratios)),
        Measured(f"{what}, certified to 1/32 in, {scan}: median", median(certified), CERTIFIED_OVER_SCAN),
        Measured(f"{what}, certified to 1/32 in, of {len(ratios)}", len(certified), unit=""),
    ]


def _raced_with_a_scan(search: Search, surface: Surface, tile: Tile, layout: Layout) -> tuple[float, str]:
    """Return how many times longer the scan takes, and the figures of a line."""
    seeking = taken(_run_through, search)
    area = abs(float(np.linalg.det(cell_of(layout, tile).vectors)))
    trials = Trials(tile, layout, region_of(surface, layout.gap))
    scan = taken(trials.of, starts_of(layout, tile, 64)) / 64 * area / COARSE**2
    return scan / seeking, f"{seeking:9.2f}{search.trials.laid:7d}{scan:16.1f}{scan / seeking:12.1f}"


def test_any_room_and_pattern_beside_a_scan_of_an_eighth_of_an_inch() -> None:
    rows = any_rooms()
    assert all(row.is_near for row in rows)
    assert rows[1].figure > 1.0


def test_no_start_of_a_fine_raster_is_better_in_a_thousand_rooms() -> None:
    random, names, worst = Random(11), sorted(OFFSETS), 0.0
    for number in range(1_000):
        surface, offsets = random_room(random), OFFSETS[names[number % 3]]
        tile = RectangleTile(id="t", length=11.875 * INCH, width=11.875 * INCH)
        layout = layout_of(tile, row_offsets=offsets, joint=INCH / 8, gap=INCH / 4, least_piece=0.0)
        best, search = sought(surface, tile, layout)
        rows = Rows(tile.length, tile.width, layout.joint, offsets)
        scanned = widest(rings_of(surface, layout.gap), rows, INCH / 32)
        worst = max(worst, best.narrowest - scanned)
        assert search.is_proved and -1e-4 <= best.narrowest - scanned <= INCH / 32 + 1e-4
    print(f"\n1,000 random rooms: never worse than a raster of 1/32 in, at most {worst:.4f} mm better")
