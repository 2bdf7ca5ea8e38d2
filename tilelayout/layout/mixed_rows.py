"""Rows of planks of two or three lengths: which plank follows which, and how far each row is shifted.

Every row has the same planks in an order of its own and repeats after them, so all rows repeat by one vector.
The orders are shuffled by the seed; of the shifts on an even grid those are allowed at which no end joint
comes nearer than the least stagger to one of the row beside, the last row against the first too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.layout.drawn_shifts import share
from tilelayout.layout.kernel.arrays import Flags
from tilelayout.layout.values import Points

SHIFTS = 480
"""So many shifts of a row are tried, evenly spread over its planks."""

_ORDERS = 60
"""So many orders are tried for a row before the draw begins anew."""

_DRAWS = 6


@dataclass(frozen=True)
class Row:
    """One row: the kinds of its planks from left to right, and where the first one begins, in mm."""

    order: tuple[int, ...]
    shift: float


@dataclass(frozen=True)
class Planks:
    """The coordinating lengths of the kinds of planks, longest or not, and how many of each make a row."""

    along: tuple[float, ...]
    mix: tuple[int, ...]

    @property
    def repeat(self) -> float:
        """After so many mm a row repeats."""
        return float(sum(length * count for length, count in zip(self.along, self.mix, strict=True)))

    def joints(self, order: Sequence[int]) -> Points:
        """Return where the planks of an order begin (n,), the first at 0."""
        return np.concatenate(([0.0], np.cumsum([self.along[kind] for kind in order])[:-1]))


@lru_cache(maxsize=64)
def mixed_rows(planks: Planks, seed: int, rows: int, stagger: float) -> tuple[Row, ...] | None:
    """Return the rows that a seed draws; None if in no draw every row keeps the stagger."""
    for draw in range(_DRAWS):
        found = _drawn(planks, seed + draw * 7919, rows, stagger)
        if found is not None:
            return found
    return None


def shuffled(planks: Planks, seed: int, row: int, attempt: int) -> tuple[int, ...]:
    """Return the kinds of a row's planks in the order that seed, row and attempt draw."""
    kinds = [kind for kind, count in enumerate(planks.mix) for _ in range(count)]
    for at in range(len(kinds) - 1, 0, -1):
        other = int(share(seed, row, 64 * attempt + at) * (at + 1))
        kinds[at], kinds[other] = kinds[other], kinds[at]
    return tuple(kinds)


def are_apart(planks: Planks, one: Sequence[int], other: Sequence[int], stagger: float, count: int) -> Flags:
    """Tell by how many of `count` even steps (count,) row `other` may be shifted against row `one`.

    Each end joint of the one row is then `stagger` mm or more from every end joint of the other.
    """
    steps = np.arange(count) * (planks.repeat / count)
    away = (steps[:, None, None] + planks.joints(other)[:, None] - planks.joints(one)) % planks.repeat
    least = np.minimum(away, planks.repeat - away).min(axis=(1, 2))
    return np.asarray(least >= stagger - SAME_PLACE)


def nearest_joints(planks: Planks, below: Row, row: Row) -> float:
    """Return how near in mm an end joint of a row comes to one of the row below, all along their repeat."""
    starts = [planks.joints(each.order) + each.shift for each in (below, row)]
    away = (starts[1][:, None] - starts[0]) % planks.repeat
    return float(np.minimum(away, planks.repeat - away).min())


def _drawn(planks: Planks, seed: int, rows: int, stagger: float) -> tuple[Row, ...] | None:
    orders, steps = [shuffled(planks, seed, 0, 0)], [int(share(seed, 0, 63) * SHIFTS)]
    for row in range(1, rows):
        found = _next(planks, seed, row, (orders, steps), stagger, is_last=row == rows - 1)
        if found is None:
            return None
        orders.append(found[0])
        steps.append(found[1])
    size = planks.repeat / SHIFTS
    return tuple(Row(order, step * size) for order, step in zip(orders, steps, strict=True))


def _next(
    planks: Planks,
    seed: int,
    row: int,
    drawn: tuple[list[tuple[int, ...]], list[int]],
    stagger: float,
    *,
    is_last: bool,
) -> tuple[tuple[int, ...], int] | None:
    """Return an order and a shift (in steps) that keep the stagger to the rows beside."""
    orders, steps = drawn
    for attempt in range(1, _ORDERS):
        order = shuffled(planks, seed, row, attempt)
        fits = np.roll(are_apart(planks, orders[-1], order, stagger, SHIFTS), steps[-1])
        if is_last:
            fits &= np.roll(are_apart(planks, orders[0], order, stagger, SHIFTS), steps[0])
        places = np.flatnonzero(fits)
        if len(places):
            return order, int(places[int(share(seed, row, 64 * attempt) * len(places))])
    return None
