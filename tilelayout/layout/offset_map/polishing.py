"""Climbs from a good start to the best beside it: the narrowest cut is a tent whose top is seldom on a grid.

On a ridge a step straight along the axes leads down, so the climb tries eight directions and halves its
step where none of them leads up.
"""

from __future__ import annotations

import numpy as np

from tilelayout.layout.offset_map.rating import Rater, Start

FINEST = 0.05
"""The last step of the climb, in mm: far below what anybody can set out."""

_GAIN = 1e-4
_MOST_CLIMBS = 60
_TURNS = np.arange(8) * np.pi / 4
_DIRECTIONS = np.column_stack([np.cos(_TURNS), np.sin(_TURNS)])


def polished(rater: Rater, start: Start, step: float) -> Start:
    """Return a start at least as good as `start`, from which no step of `FINEST` mm leads to a better one."""
    best = rater.rate([start])[0]
    for _ in range(_MOST_CLIMBS):
        around = rater.rate(np.array(best.start) + step * _DIRECTIONS)
        top = max(around, key=lambda rating: round(rating.narrowest, 6))
        if top.narrowest > best.narrowest + _GAIN:
            best = top
        elif step <= FINEST:
            break
        else:
            step = max(step / 2.0, FINEST)
    return best.start
