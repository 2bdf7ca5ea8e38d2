"""Moves a start to where no small step makes it better: pattern search, as the textbooks call it.

It tries the directions round about with a long step and halves the step when none is better, down to a
quarter of a millimetre, far below what can be set out on a floor. What is best lies on a ridge, where two
cuts are alike, and a ridge seldom runs in one of the directions; so the way of the last two moves is tried
further on too. (R. Hooke, T. A. Jeeves, Journal of the ACM 8 (1961).)
"""

from __future__ import annotations

from collections.abc import Callable, Generator

import numpy as np

from tilelayout.layout.seeking.trials import Merit, Start, Trial, Trials
from tilelayout.layout.values import Points

FINEST_STEP = 0.25
_LONGEST_STEP = 16.0
_DIRECTIONS = 16
_MOST_MOVES = 80
_FURTHER = np.array([[0.5], [1.0], [2.0], [4.0], [8.0]])


def refining(
    begun: Trial, merit: Callable[[Trial], Merit], trials: Trials, allowed: Callable[[Points], Points]
) -> Generator[list[Trial], None, Start]:
    """Yield what is laid on the way from a start to one that no step of `FINEST_STEP` makes better.

    `allowed` moves starts to where they may be, as reference lines want it. Returns where it ends, or where
    it has come after very many moves.
    """
    trail, step = [begun], _LONGEST_STEP
    for _ in range(_MOST_MOVES):
        here = trail[-1]
        tried = trials.best(allowed(_beside(trail, step)), merit, merit(here))
        yield tried
        best = max(tried, key=merit, default=here)
        if best is not here:
            trail.append(best)
        elif step <= FINEST_STEP:
            break
        else:
            step /= 2.0
    return trail[-1].start


def _beside(trail: list[Trial], step: float) -> Points:
    """The starts (n, 2) a step from the last one of a trail, and some further on the way it went."""
    count = _DIRECTIONS if step <= FINEST_STEP else _DIRECTIONS // 2
    turns = np.arange(count) * 2.0 * np.pi / count
    here = np.array(trail[-1].start)
    beside = [here + step * np.column_stack([np.cos(turns), np.sin(turns)])]
    if len(trail) > 2:
        beside.append(here + _FURTHER * (here - np.array(trail[-3].start)))
    return np.asarray(np.round(np.vstack(beside), 6), dtype=np.float64)
