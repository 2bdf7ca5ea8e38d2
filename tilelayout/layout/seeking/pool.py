"""The best starts for one aim, best first, no two of them the same laying."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.layout.lines_in_place import LinesInPlace
from tilelayout.layout.seeking.aims import Aim, merit_of
from tilelayout.layout.seeking.balance import Balance
from tilelayout.layout.seeking.trials import Merit, Trial, Trials

_MOST = 64
_KEEN = 12
"""A start that cannot come among so many of the best is not measured closely."""

_SAME_START = 1.0
"""Starts nearer than this, in mm, are one laying to a person."""


@dataclass(frozen=True)
class Scored:
    """A start that was laid, by how many mm opposite border cuts differ, and its merit for the aim.

    `off_lines` is by how many mm the reference lines are missed.
    """

    trial: Trial
    unequal: float
    merit: Merit
    off_lines: float = 0.0


class Pool:
    """The pool of one aim; `scored` are its starts."""

    def __init__(self, aim: Aim, trials: Trials, balance: Balance, lines: LinesInPlace) -> None:
        self.aim, self.trials, self.balance, self.lines = aim, trials, balance, lines
        self.scored: list[Scored] = []

    def score(self, trial: Trial) -> Scored:
        """Return what was laid with its merit for the aim."""
        unequal, off = self.balance.unequal(trial.start), self.lines.off(trial.start)
        return Scored(trial, unequal, merit_of(self.aim, trial, unequal, off_lines=off), off)

    def take(self, tried: list[Trial]) -> None:
        """Take what was laid into the pool, as far as it is good enough."""
        for trial in tried:
            scored = self.score(trial)
            if len(self.scored) < _MOST or scored.merit > self.scored[-1].merit:
                self._enter(scored)

    def is_keen_on(self, hoped: Trial) -> bool:
        """Tell whether a start that is at best so good might come among the first."""
        return len(self.scored) < _KEEN or self.score(hoped).merit > self.scored[_KEEN - 1].merit

    def merit(self, trial: Trial) -> Merit:
        """Return how good a start is for the aim."""
        return self.score(trial).merit

    def _enter(self, scored: Scored) -> None:
        starts = np.array([one.trial.start for one in self.scored]).reshape(-1, 2)
        is_alike = self.trials.apart(scored.trial.start, starts) < _SAME_START
        alike = [one for one, is_it in zip(self.scored, is_alike, strict=True) if is_it]
        if any(one.merit >= scored.merit for one in alike):
            return
        self.scored = [one for one in self.scored if one not in alike] + [scored]
        self.scored.sort(key=lambda one: (one.merit, one.trial.start), reverse=True)
        del self.scored[_MOST:]
