"""The boxes of the cut list: empty to be ticked with a pencil, or with the tick given in the window."""

from __future__ import annotations

import numpy as np

from tilelayout.reports.figure import Mark, Path, Pen, Role
from tilelayout.reports.marks import HEAVY, tick_box

SIZE = 4.6
_TICK = np.array([(0.18, 0.52), (0.42, 0.24), (0.92, 0.98)])


def box_to_tick(left: float, bottom: float, *, is_ticked: bool) -> tuple[Mark, ...]:
    """Return a box with its lower left corner at a place."""
    empty = tick_box(left, bottom, SIZE)
    if not is_ticked:
        return (empty,)
    return empty, Path((_TICK * SIZE + (left, bottom),), Pen(Role.INK, HEAVY))
