"""Sharing of offcuts beside the two plain ways: one tile for each piece, and first-fit alone.

Counts stand beside what they cost: first-fit and the proof are timed in one run on the same floors, out of
square, so that every piece is a kind of its own, which is the hardest case. Time is the processor's. Run it
by itself:

    python -m pytest tests/benchmarks/bench_sharing.py -m benchmark -s
"""

from __future__ import annotations

from time import process_time

import pytest

from tests.rooms import LAYINGS, floor_of
from tilelayout.job.values import Saw, Surface
from tilelayout.layout.laying import lay
from tilelayout.offcuts.sharing import share_steps

pytestmark = pytest.mark.benchmark

NAMES = ("grid", "stepped third", "diagonal", "hexagon point up", "herringbone")
SIDES = {50: 3600.0, 150: 11000.0, 400: 30000.0}
WIDTHS = (8, 10, 11, 7, 7, 20)
MOST_GAP = 1


def out_of_square(side: float) -> Surface:
    """Return a floor none of whose walls run along the tiles."""
    return floor_of((0, 0), (side, side * 0.03), (side * 0.97, side * 0.83), (side * 0.02, side * 0.8))


@pytest.mark.parametrize("size", SIDES)
def test_tiles_saved_and_proved(size: int) -> None:
    print(f"\nabout {size} cut pieces, out of square")
    heads = ("pieces", "one each", "first fit", "found", "least", "proof / first fit")
    print("pattern".ljust(20) + "".join(head.rjust(width) for head, width in zip(heads, WIDTHS, strict=True)))
    proved = 0
    for name in NAMES:
        laid = lay(out_of_square(SIDES[size] * (0.8 if name == "diagonal" else 1.0)), *LAYINGS[name])
        steps, times = [], [0.0]
        cut, begun = laid.cut, process_time()
        for step in share_steps({"A": cut}, laid.whole_tiles, Saw()):
            steps.append(step)
            times.append(process_time() - begun)
        first, last = steps[0], steps[-1]
        counts = [each - last.whole for each in (last.without_sharing, first.tiles_needed, last.tiles_needed)]
        least = last.tiles_needed_at_least - last.whole
        ratio = times[-1] / max(times[1], 1e-9)
        row = (*map(str, (len(cut), *counts, least)), f"{ratio:.1f}")
        print(name.ljust(20) + "".join(each.rjust(width) for each, width in zip(row, WIDTHS, strict=True)))
        assert last.gap <= MOST_GAP
        assert last.tiles_needed <= first.tiles_needed <= last.without_sharing
        proved += last.is_fewest
    assert proved >= len(NAMES) - 1
