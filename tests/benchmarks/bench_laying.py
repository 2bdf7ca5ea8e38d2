"""Laying raced against plain ways of doing it: the ratios, and how the time grows with the room.

Every rival finds the same, checked first. Rounds go through all rivals in turn and medians over the rounds
are compared. Time is what the processor spent on this program, so that others running beside it count
little; goals are held with three tenths of slack for what they still disturb.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import log
from statistics import median
from time import process_time

import pytest

from tests.benchmarks.courses import PATTERNS, SIZES, course
from tests.benchmarks.measured import Measured
from tests.benchmarks.rivals import (
    Course,
    Found,
    all_at_once,
    ours,
    overlay_alone,
    tile_by_tile,
    touched_tiles,
)

pytestmark = pytest.mark.benchmark

FEWEST_ROUNDS, MOST_ROUNDS = 5, 25
OVER_LOOP: dict[int, float] = {1_000: 10, 16_000: 80, 100_000: 300}
OVER_ARRAYS: dict[int, float] = {1_000: 2.5, 16_000: 10, 100_000: 40}
OVER_FLOOR: dict[int, float] = {1_000: 1, 16_000: 1, 100_000: 3}
STEEPEST_GROWTH = 0.5


@dataclass(frozen=True)
class Race:
    """Medians in milliseconds over one course."""

    pattern: str
    tiles: int
    found: Found
    loop: float
    arrays: float
    floor: float
    ours: float


def raced(pattern: str, tiles: int) -> Race:
    """Race over one course."""
    on = course(pattern, tiles)
    touched = touched_tiles(on)
    found = checked(on)
    runs: tuple[Callable[[], object], ...] = (
        lambda: tile_by_tile(on),
        lambda: all_at_once(on),
        lambda: overlay_alone(on, touched),
        lambda: ours(on),
    )
    count = min(max(FEWEST_ROUNDS, 25_000 // tiles), MOST_ROUNDS)
    rounds = [[taken(run) for run in runs] for _ in range(count)]
    return Race(pattern, tiles, found, *(median(times) for times in zip(*rounds, strict=True)))


def checked(on: Course) -> Found:
    """Return what ours finds, once the others have found the same."""
    found = ours(on)
    for other in (tile_by_tile(on), all_at_once(on)):
        assert (other.whole, other.cut) == (found.whole, found.cut)
        assert other.cut_area == pytest.approx(found.cut_area, rel=1e-5)
    return found


def taken(run: Callable[[], object]) -> float:
    """Return the milliseconds of processor time a run takes."""
    began = process_time()
    run()
    return (process_time() - began) * 1e3


def table(races: list[Race]) -> str:
    """Return the races as a table, one line each, the ratios last."""
    lines = [
        "pattern        tiles  whole    cut     loop   arrays    floor     ours   loop/  arrays/  floor/"
    ]
    for race in races:
        times = f"{race.loop:9.2f}{race.arrays:9.2f}{race.floor:9.2f}{race.ours:9.2f}"
        ratios = f"{race.loop / race.ours:8.1f}{race.arrays / race.ours:9.1f}{race.floor / race.ours:8.1f}"
        counts = f"{race.tiles:7d}{race.found.whole:7d}{race.found.cut:7d}"
        lines.append(f"{race.pattern:13s}{counts}{times}{ratios}")
    return "\n".join(lines)


def middle(races: list[Race], tiles: int, ratio: Callable[[Race], float]) -> float:
    """Return the median over the patterns of a ratio at one size."""
    return median(ratio(race) for race in races if race.tiles == tiles)


def growth(races: list[Race]) -> float:
    """Return the exponent by which our time grows from 1,000 to 100,000 tiles."""
    rise = middle(races, 100_000, lambda race: race.ours) / middle(races, 1_000, lambda race: race.ours)
    return log(rise) / log(100)


def all_races() -> list[Race]:
    """Race over every course, printing as it goes."""
    races = [raced(pattern, tiles) for tiles in SIZES for pattern in PATTERNS]
    print("\n" + table(races))
    print(f"growth of ours from 1,000 to 100,000 tiles: tiles ** {growth(races):.2f}")
    return races


def measured() -> list[Measured]:
    """Race over every course; medians over the patterns beside their goals."""
    races = all_races()
    rivals: tuple[tuple[str, dict[int, float], Callable[[Race], float]], ...] = (
        ("a plain loop", OVER_LOOP, lambda race: race.loop / race.ours),
        ("arrays of shapes", OVER_ARRAYS, lambda race: race.arrays / race.ours),
        ("overlaying the cut tiles alone", OVER_FLOOR, lambda race: race.floor / race.ours),
    )
    found = [
        Measured(f"laying {tiles:,} tiles, over {name}", middle(races, tiles, ratio), goals.get(tiles))
        for name, goals, ratio in rivals
        for tiles in SIZES
    ]
    grows = Measured("growth of laying, exponent of the tiles", growth(races), STEEPEST_GROWTH, True, "")
    return [*found, grows]


def test_laying_beats_the_plain_ways_by_the_agreed_ratios() -> None:
    assert all(row.is_near for row in measured())
