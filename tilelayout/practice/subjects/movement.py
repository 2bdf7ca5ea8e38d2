"""Where the tile may move: the gap at walls, and how far a field runs before it wants a soft joint.

Tile that has no room rises in the middle. Lengths of a field are taken along and across the tile.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import radians

import numpy as np

from tilelayout.job.kinds import Exposure, Practice, Wetness
from tilelayout.job.shapes import outline_ring
from tilelayout.job.values import EdgeRole
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Figure, Finding, Grade, Level, Source
from tilelayout.practice.sources import MOVEMENT_US

LEAST_GAP = Figure(25.4 / 8, MOVEMENT_US, metric=3.0)
PREFERRED_GAP = Figure(25.4 / 4, MOVEMENT_US, metric=6.0)

INSIDE = (Figure(304.8 * 20, MOVEMENT_US), Figure(304.8 * 25, MOVEMENT_US))
EXPOSED = (Figure(304.8 * 8, MOVEMENT_US), Figure(304.8 * 12, MOVEMENT_US))
"""From the first on a soft joint in the field may be wanted, beyond the second it is."""

_TRADE_UK = Source("British guidance on movement joints", Grade.TRADE_PRESS, Practice.UK)
_OUTSIDE_UK = Source("BS 5385-3:2024, external floors", Grade.QUOTED, Practice.UK)
INSIDE_UK = (Figure(10_000.0, _TRADE_UK), Figure(10_000.0, _TRADE_UK))
OUTSIDE_UK = (Figure(3_000.0, _OUTSIDE_UK), Figure(5_000.0, _OUTSIDE_UK))
GAP_NEEDED_UK = Figure(2_000.0, _TRADE_UK)
"""A British floor that runs further has a gap round it."""


def findings(case: Case) -> Iterator[Finding]:
    """Yield whether the gap at the walls is wide enough and the field short enough."""
    yield from _gap(case)
    if is_exposed(case) is None and max(runs(case)) > EXPOSED[0].value:
        exposure = ("whether it lies in the sun or outside", "surface.exposure", None)
        yield from case.missing("exposure-unknown", "how far the field may run", exposure)
    yield from _field(case)


def is_exposed(case: Case) -> bool | None:
    """Tell whether sun, weather or water move the tile more; None if it is not known."""
    exposure, wetness = case.surface.exposure, case.surface.wetness
    if exposure in (Exposure.SUNLIT, Exposure.OUTSIDE) or wetness in (Wetness.WET, Wetness.IMMERSED):
        return True
    return None if exposure is None else False


def runs(case: Case) -> tuple[float, float]:
    """Return how far the surface runs along and across the tile."""
    turn = radians(case.layout.angle)
    along = np.array([(np.cos(turn), -np.sin(turn)), (np.sin(turn), np.cos(turn))])
    x, y = np.ptp(np.asarray(outline_ring(case.surface)) @ along, axis=0)
    return float(x), float(y)


def _gap(case: Case) -> Iterator[Finding]:
    surface, gap = case.surface, case.layout.gap
    walls = (surface.edge(at).role is EdgeRole.WALL for at in range(len(surface.outline)))
    if not any(walls) or _is_small_uk_floor(case):
        return
    least, preferred = case.limit(LEAST_GAP), case.limit(PREFERRED_GAP)
    wanted = least if case.is_wall else preferred
    if not case.is_less(gap, wanted):
        return
    is_short = case.is_less(gap, least)
    limit = least if is_short else wanted
    words = (
        f"{case.where} leaves a gap of {case.said(gap)} at the walls; "
        f"{case.said(limit)} is {'the least' if is_short else 'better'}, kept free of mortar and grout."
    )
    level = case.at_home(Level.WARN, LEAST_GAP.source) if is_short else Level.ADVISE
    yield Finding("gap", level, case.layout_ids, words, LEAST_GAP.source, gap, limit)


def _is_small_uk_floor(case: Case) -> bool:
    is_british_floor = case.practice is Practice.UK and not case.is_wall
    return is_british_floor and max(runs(case)) <= GAP_NEEDED_UK.value


def _field(case: Case) -> Iterator[Finding]:
    run, (from_here, most) = max(runs(case)), _field_limits(case)
    if not case.is_more(run, from_here.value):
        return
    is_long = case.is_more(run, most.value)
    limit = most if is_long else from_here
    words = (
        f"{case.where} runs {case.said(run)}: {'it wants' if is_long else 'consider'} a soft joint in the "
        f"field {'every ' if is_long else 'from '}{case.said(limit.value)} on, laid on a grout line. Joints "
        "in the base go through the tile wherever they are."
    )
    level = case.at_home(Level.WARN, limit.source) if is_long else Level.ADVISE
    yield Finding("field-joint", level, case.layout_ids, words, limit.source, run, limit.value)


def _field_limits(case: Case) -> tuple[Figure, Figure]:
    if case.practice is Practice.UK:
        return OUTSIDE_UK if case.surface.exposure is Exposure.OUTSIDE else INSIDE_UK
    return EXPOSED if is_exposed(case) else INSIDE
