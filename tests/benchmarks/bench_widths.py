"""Narrowest places raced against the plain way: shrinking and growing each piece by a general library.

The plain way to learn which pieces are narrower than a limit is one opening of each; the plain way to measure
a piece is a dozen of them, halving in on its width. Both are done on the very pieces of laid floors, in the
same run as ours. Time is the processor's. Run it by itself:

    python -m pytest tests/benchmarks/bench_widths.py -m benchmark -s
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from statistics import median
from time import process_time

import numpy as np
import pytest
import shapely
from msgspec.structs import replace

from tests.benchmarks.measured import Measured
from tests.rooms import LAYINGS, floor_of, round_cutout, square_cutout
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.laying import lay
from tilelayout.layout.measuring import least_widths

pytestmark = pytest.mark.benchmark

LIMIT = 50.0
HALVINGS = 12
STARTS = 5
MEASURED = 25
"""So many pieces of each floor are measured, the notched ones first."""

LAID = ("grid", "alternating third", "diagonal", "herringbone", "hexagon flat up")
LEAST_RATIO = {"which are narrower": 3.0, "exactly": 10.0}

ROOM = floor_of(
    (0, 0),
    (16000, 0),
    (16000, 8000),
    (9000, 8000),
    (9000, 15000),
    (0, 15000),
    cutouts=(
        round_cutout(3000, 3130, 110, 3),
        square_cutout(7000, 4000, 400, 3),
        square_cutout(5000, 9000, 600, 3),
    ),
)


def floors(name: str) -> list[Parts]:
    """The cut parts of one laying from a dozen starts."""
    tile, layout = LAYINGS[name]
    starts = [(17.3 + 31 * at, -8.1 + 23.7 * at) for at in range(STARTS)]
    return [lay(ROOM, tile, replace(layout, start=start)).overlap.parts for start in starts]


def shapes_of(parts: Parts) -> np.ndarray:
    """The parts as shapes of the library, made beforehand."""
    return np.array(
        [shapely.Polygon(parts.outlines[k], parts.holes.get(k, ())) for k in range(len(parts))], dtype=object
    )


def opened(shapes: np.ndarray, width: float | np.ndarray) -> np.ndarray:
    """What each shape loses in one opening, in mm2."""
    shrunk = shapely.buffer(shapes, -width / 2, join_style="mitre", mitre_limit=1e3)
    grown = shapely.buffer(shrunk, width / 2, join_style="mitre", mitre_limit=1e3)
    return np.asarray(shapely.area(shapely.difference(shapes, grown)))


def halved_in(shapes: np.ndarray) -> np.ndarray:
    """The width of each shape by halving in on it."""
    low, high = np.zeros(len(shapes)), np.full(len(shapes), 700.0)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        is_lost = opened(shapes, middle) > 1.0
        low, high = np.where(is_lost, low, middle), np.where(is_lost, middle, high)
    return low


def hardest(parts: Parts) -> Parts:
    """Some of the parts, those with the most corners first."""
    chosen = np.zeros(len(parts), dtype=bool)
    chosen[np.argsort(-parts.outlines.sizes, kind="stable")[:MEASURED]] = True
    return parts.only(chosen)


def exactly(parts: Parts) -> np.ndarray:
    """Ours, every one exact."""
    return least_widths(parts, np.inf)[0]


def taken(run: Callable[[], object]) -> float:
    """Return the milliseconds of processor time a run takes."""
    began = process_time()
    run()
    return (process_time() - began) * 1e3


def measured() -> list[Measured]:
    """Race both questions on the cut pieces of some floors."""
    print(
        "\nlaying                      cut   which: plain    ours  ratio   exact: plain    ours  ratio   (ms)"
    )
    ratios: dict[str, list[float]] = {question: [] for question in LEAST_RATIO}
    for name in LAID:
        times = []
        laid = floors(name)
        for parts in laid:
            shapes, some = shapes_of(parts), hardest(parts)
            asked = taken(partial(opened, shapes, LIMIT)), taken(partial(least_widths, parts, LIMIT))
            measured = taken(partial(halved_in, shapes_of(some))), taken(partial(exactly, some))
            times.append((*asked, *measured))
        plain, ours, slow, exact = (median(each) for each in zip(*times, strict=True))
        cut = round(median(map(len, laid)))
        print(
            f"{name:26s}{cut:5d}{plain:15.2f}{ours:8.2f}{plain / ours:7.1f}"
            f"{slow:15.1f}{exact:8.2f}{slow / exact:7.1f}"
        )
        ratios["which are narrower"].append(plain / ours)
        ratios["exactly"].append(slow / exact)
    return [
        Measured(f"narrowest places, {question}, over a library's openings", median(ratios[question]), least)
        for question, least in LEAST_RATIO.items()
    ]


def test_widths_beat_the_librarys_openings() -> None:
    assert all(row.is_near for row in measured())
