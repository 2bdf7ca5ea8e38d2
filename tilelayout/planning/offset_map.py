"""The map of all starts of a plan, and the plan at any one of them."""

from __future__ import annotations

from collections.abc import Hashable, Iterator

import numpy as np
from msgspec.structs import replace

from tilelayout.geometry.turns import turning
from tilelayout.job.values import Point
from tilelayout.layout.chips import laid_in_chips
from tilelayout.layout.offset_map.map_of_starts import OffsetMap, steps
from tilelayout.layout.offset_map.own_repeat import own_repeat
from tilelayout.layout.offset_map.rating import Rater
from tilelayout.layout.values import Points
from tilelayout.planning.plan import Plan


def map_steps(plan: Plan) -> Iterator[OffsetMap]:
    """Yield the map of all starts, coarse first. LayoutError if the layout cannot be laid."""
    yield from steps(_rater(plan), repeat(plan))


def _rater(plan: Plan) -> Rater:
    return Rater(*laid_in_chips(plan.tile, plan.layout), plan.field_region, plan.more)


def repeat(plan: Plan) -> Points:
    """Return the two vectors (2, 2) on the surface by which the start may be moved and nothing changes."""
    return own_repeat(plan.joint_cell) @ turning(plan.layout.angle)


def map_key(plan: Plan) -> Hashable:
    """Return what the map depends on: everything but the start. Equal keys, equal maps."""
    layout = replace(plan.layout, start=(0.0, 0.0), settings={})
    settings = tuple(sorted((name, repr(value)) for name, value in plan.layout.settings.items()))
    return plan.surface, plan.tile, tuple(plan.more.items()), repr(layout), settings


def plan_at(plan: Plan, start: Point) -> Plan:
    """Return the same plan with another start."""
    return Plan(plan.surface, plan.tile, replace(plan.layout, start=start), plan.style, plan.more, plan.saw)


def nearest_alike(plan: Plan, start: Point) -> Point:
    """Return the start of the same laying that lies nearest to the plan's own."""
    vectors = repeat(plan)
    cells = (np.array(plan.layout.start) - start) @ np.linalg.inv(vectors)
    steps_there = np.floor(cells) + np.array([(0, 0), (1, 0), (0, 1), (1, 1)])
    starts = np.array(start) + steps_there @ vectors
    away = np.round(np.hypot(*(starts - plan.layout.start).T), 6)
    x, y = np.round(starts[int(np.argmin(away))], 6).tolist()
    return x, y


def worst_border(plan: Plan) -> str | None:
    """Return the border ("edge 3", "drain") at which the narrowest piece in sight is cut; None if none is."""
    rater = _rater(plan)
    worst = rater.rate([plan.layout.start])[0].worst
    return rater.sources[worst] if worst >= 0 else None
