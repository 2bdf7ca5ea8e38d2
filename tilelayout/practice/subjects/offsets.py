"""Whether rows are shifted too far: the middle of a bowed tile then stands beside the end of another."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.practice.case import Case
from tilelayout.practice.finding import Figure, Finding, Level
from tilelayout.practice.offset import side_offset
from tilelayout.practice.sources import OFFSET_US

LONG_SIDE = Figure(381.0, OFFSET_US)
"""The rule holds where the side that is shifted along is nominally longer (older editions: 18 in)."""

MOST_OFFSET = Figure(100.0 / 3.0, OFFSET_US)
"""The largest offset in % of that side; the rule prints 33."""

_ROUNDING = 0.5


def findings(case: Case) -> Iterator[Finding]:
    """Yield whether the offset of rows or columns of a long tile is over a third."""
    share, side = 100.0 * case.offset, side_offset(case.tile)
    if share > MOST_OFFSET.value + _ROUNDING and case.is_more(side, LONG_SIDE.value):
        words = (
            f"{case.where} is shifted by {share:.0f} % of a side of {case.said(side)}. Over "
            f"{case.said(LONG_SIDE.value)} it is 33 % at the most, unless the tile's maker says otherwise "
            "and a trial area is approved (older editions: from 18 in)."
        )
        level = case.at_home(Level.WARN, MOST_OFFSET.source)
        limit = MOST_OFFSET.value
        yield Finding("offset", level, case.layout_ids, words, MOST_OFFSET.source, share, limit, "%")
