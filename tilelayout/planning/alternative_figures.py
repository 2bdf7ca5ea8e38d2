"""What layouts of one surface and tile are weighed by, and when one beats another.

Figures are compared as a person reads them: lengths that differ by less than a millimetre are equal. One
layout beats another if it is nowhere worse and somewhere better. What nothing beats is worth keeping.
(Vilfredo Pareto's rule; "non-dominated" in the handbooks of optimisation.)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from tilelayout.planning.compare import saw_settings
from tilelayout.planning.from_the_door import narrowest_from_the_door
from tilelayout.planning.plan import Plan

SEEN_LENGTH = 1.0
"""Lengths that differ by less, in mm, are one to a person."""

T = TypeVar("T")


@dataclass(frozen=True)
class Figures:
    """The figures of one layout.

    `narrowest` is the narrowest cut piece that can be seen, a whole tile's if there is none, `in_border` that
    of the border, which no start changes and which therefore weighs nothing; `unequal` by
    how many mm opposite border cuts differ, `off_lines` by how many mm the reference lines are missed.
    `from_the_door` is the narrowest piece along doorways and edges looked at, None if there are none. `cost`
    is that of whole boxes, None if box or price is not known.
    """

    bare: int
    slivers: int
    narrowest: float
    unequal: float
    cuts: int
    saw_settings: int
    tiles_needed: int
    from_the_door: float | None = None
    cost: float | None = None
    off_lines: float = 0.0
    in_border: float = math.inf

    @property
    def narrowest_of_all(self) -> float:
        """The narrowest cut of field and border."""
        return min(self.narrowest, self.in_border)

    @property
    def weighed(self) -> tuple[float, ...]:
        """The figures as a person weighs them, each the less the better."""
        return (
            float(self.bare),
            float(self.slivers),
            -seen(self.narrowest),
            seen(self.unequal),
            float(self.cuts),
            float(self.saw_settings),
            float(self.tiles_needed),
            -seen(self.from_the_door or 0.0),
            self.cost or 0.0,
            seen(self.off_lines),
        )

    def beats(self, other: Figures) -> bool:
        """Tell whether this is nowhere worse than the other and somewhere better."""
        return beats(self.weighed, other.weighed)


def figures_of(
    plan: Plan, narrowest: float, unequal: float, off_lines: float = 0.0, in_border: float = math.inf
) -> Figures:
    """Return the figures of a planned layout. Sharing offcuts makes this the dear part of a search."""
    boxes, price = plan.boxes_needed, plan.tile.price_per_box
    return Figures(
        bare=len(plan.bare_patches),
        slivers=len(plan.slivers),
        narrowest=narrowest,
        unequal=unequal,
        cuts=plan.cut,
        saw_settings=len(saw_settings(plan)),
        tiles_needed=plan.tiles_needed,
        from_the_door=narrowest_from_the_door(plan),
        cost=None if boxes is None or price is None else boxes * price,
        off_lines=off_lines,
        in_border=in_border,
    )


def seen(length: float) -> float:
    """Return a length as a person weighs it."""
    return float(round(length / SEEN_LENGTH)) * SEEN_LENGTH


def beats(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    """Tell whether `one` is nowhere greater than `other` and somewhere less."""
    return one != other and all(a <= b for a, b in zip(one, other, strict=True))


def unbeaten(these: Sequence[T], weighed: Sequence[tuple[float, ...]]) -> list[T]:
    """Return those whose figures no other's beat, in their order. `weighed` are the less the better."""
    if not these:
        return []
    table: NDArray[np.float64] = np.array(weighed)
    kept = [not _is_beaten(table, row) for row in table]
    return [this for this, is_kept in zip(these, kept, strict=True) if is_kept]


def _is_beaten(table: NDArray[np.float64], row: NDArray[np.float64]) -> bool:
    return bool(((table <= row).all(axis=1) & (table < row).any(axis=1)).any())
