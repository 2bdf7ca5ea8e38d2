"""Whether the joint is wide enough: for the spread of the tile's sizes, for its edge, for running bond.

The rule on running bond looks at any side "greater than" 15 in, where that on flat floors looks at one of
"15 in or longer": a tile of exactly 15 in is judged by the one and not by the other.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.job.kinds import Practice
from tilelayout.job.values import TileEdge
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Figure, Finding, Level
from tilelayout.practice.sources import FINISH_UK, JOINT_DE, JOINT_UK, JOINT_US, OFFSET_US

LEAST_US = Figure(25.4 / 16, JOINT_US, metric=1.6)
SPREADS = Figure(3.0, JOINT_US)
"""The joint is at least so many times the spread of the tile's sizes."""

LONG_SIDE = Figure(381.0, OFFSET_US)
OFFSET_RECTIFIED = Figure(25.4 / 8, OFFSET_US, metric=3.0)
OFFSET_OTHER = Figure(25.4 * 3 / 16, OFFSET_US, metric=5.0)
"""The least joint in running bond where a side is longer than that; the edge's warpage comes on top."""

FLOOR_UK = Figure(3.0, FINISH_UK)
WALL_UK = Figure(1.5, FINISH_UK)
SMALL_DE = (Figure(1.0, JOINT_DE), Figure(3.0, JOINT_DE))
LARGE_DE = (Figure(2.0, JOINT_DE), Figure(8.0, JOINT_DE))
_SMALL_SIDE_DE = 100.0


def findings(case: Case) -> Iterator[Finding]:
    """Yield whether the joint is wide enough, by the country's rules and by the tile's own sizes."""
    yield from _for_spread(case)
    yield from _for_running_bond(case)
    if case.practice is Practice.UK:
        figure = max(least_uk(case), FLOOR_UK if not case.is_wall else WALL_UK, key=lambda each: each.value)
        yield from _at_least(case, figure, "joint-least", Level.WARN)
    elif case.practice is Practice.DE:
        yield from _german(case)
    else:
        yield from _at_least(case, LEAST_US, "joint-least", case.at_home(Level.STOP, LEAST_US.source))


def least_uk(case: Case) -> Figure:
    """Return the least joint by size of tile: 2 or 3 mm, growing to 5 mm for a panel of 3 m."""
    side, area = case.longest_side, case.face_m2
    if area < 0.1 and side <= 600.0:
        return Figure(2.0, JOINT_UK)
    return Figure(3.0 + 2.0 * max(0.0, side - 1200.0) / 1800.0, JOINT_UK)


def _german(case: Case) -> Iterator[Finding]:
    least, most = SMALL_DE if case.longest_side <= _SMALL_SIDE_DE else LARGE_DE
    yield from _at_least(case, least, "joint-least", Level.WARN)
    joint = case.layout.joint
    if case.is_more(joint, most.value):
        words = f"{case.where} has a joint of {case.said(joint)}, over the usual {case.said(most.value)}."
        yield Finding("joint-most", Level.ADVISE, case.layout_ids, words, most.source, joint, most.value)


def _at_least(case: Case, figure: Figure, code: str, level: Level) -> Iterator[Finding]:
    joint, least = case.layout.joint, case.limit(figure)
    if case.is_less(joint, least):
        words = f"{case.where} has a joint of {case.said(joint)}; it wants {case.said(least)} at the least."
        yield Finding(code, level, case.layout_ids, words, figure.source, joint, least)


def _for_spread(case: Case) -> Iterator[Finding]:
    spread, joint = case.tile.spread, case.layout.joint
    sizes = ("the spread of its sizes on ten tiles or so", "tile.spread", spread)
    yield from case.missing("spread-unknown", "the least joint", sizes)
    if spread is not None and case.is_less(joint, SPREADS.value * spread):
        least = SPREADS.value * spread
        words = (
            f"{case.where}: sizes differ by {case.said(spread)}, so the joint wants three times that, "
            f"{case.said(least)}; {case.said(joint)} cannot hold a straight line. Widen it or sort the tiles."
        )
        level = case.at_home(Level.WARN, SPREADS.source)
        yield Finding("joint-spread", level, case.layout_ids, words, SPREADS.source, joint, least)


def _for_running_bond(case: Case) -> Iterator[Finding]:
    if not case.offset or not case.is_more(case.nominal_side, LONG_SIDE.value):
        return
    figure = OFFSET_RECTIFIED if case.tile.edge is TileEdge.RECTIFIED else OFFSET_OTHER
    warpage, joint = case.tile.warpage, case.layout.joint
    least = case.limit(figure) + (warpage or 0.0)
    warped = ("the measured warpage of its edge", "tile.warpage", warpage)
    yield from case.missing("warpage-unknown", "the least joint in running bond", warped)
    if case.is_less(joint, least):
        more = f", of which {case.said(warpage)} for its warpage" if warpage else ""
        words = (
            f"{case.where} is laid in running bond with a side over {case.said(LONG_SIDE.value)}: the joint "
            f"wants {case.said(least)} at the least{more}; it is {case.said(joint)}."
        )
        level = case.at_home(Level.WARN, figure.source)
        yield Finding("joint-running-bond", level, case.layout_ids, words, figure.source, joint, least)
