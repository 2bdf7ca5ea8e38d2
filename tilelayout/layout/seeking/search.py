"""Looks for the best start of one layout, a few starts at a time, so that it can be watched and left.

Every step lays some starts and takes them into the pool; the best so far always stands first. Nothing
depends on the clock or on chance, so the same layout gives the same pool on every run.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator
from dataclasses import dataclass

import numpy as np

from tilelayout.job.values import Layout, Surface, Tile
from tilelayout.layout.offset_map.many_starts import AT_ONCE
from tilelayout.layout.offset_map.rating import Rater, Rating
from tilelayout.layout.region import region_of
from tilelayout.layout.seeking.aims import Aim, Merit, merit_of
from tilelayout.layout.seeking.balance import Balance, facing_pairs
from tilelayout.layout.seeking.critical import critical_starts, starts_on_walls
from tilelayout.layout.seeking.refining import Sift, refining
from tilelayout.layout.seeking.rows_in_room import rows_in_room
from tilelayout.layout.seeking.trials import Start, Trial, Trials
from tilelayout.layout.seeking.widest import Widest
from tilelayout.layout.values import Points, Region

_MOST_CANDIDATES = 400
_MOST_REFINED = 3
_POOL = 64
_PROMISING = 48
_ALTERNATIVES = 144
_SAME_START = 1.0
"""Starts nearer than this, in mm, are one laying to a person."""


@dataclass(frozen=True)
class Scored:
    """A start that was laid, by how many mm opposite border cuts differ, and its merit for the aim."""

    trial: Trial
    unequal: float
    merit: Merit


class Search:
    """The search for one layout and aim; its own start does not matter.

    `pool` holds the best starts, best first, no two of them the same laying. `is_proved` claims that no start
    is better for the aim; without it, no start 0.25 mm from the best is.
    """

    def __init__(
        self, surface: Surface, tile: Tile, layout: Layout, aim: Aim, region: Region | None = None
    ) -> None:
        self.aim = aim
        self.region = region or region_of(surface, layout.gap)
        self.trials = Trials(tile, layout, self.region)
        self.balance = Balance(facing_pairs(self.region), self.trials.placed)
        self.pool: list[Scored] = []
        self.is_proved = False
        self._rows = rows_in_room(self.region, tile, layout, self.trials.cell)
        self._rater = Rater(tile, layout, self.region)
        self._is_curved = any(border.radius is not None for ring in self.region.borders for border in ring)

    def steps(self) -> Iterator[float]:
        """Search; yield after each step about what part of the work is done, 0 to 1."""
        if self.aim is Aim.WIDEST_CUT and self._rows is not None and self._rows.is_exact:
            yield from self._exactly()
        if not self.is_proved:
            yield from self._widely()
            yield from self._refining()
        yield 1.0

    @property
    def best(self) -> Scored:
        """The best so far; there is one after the first step."""
        return self.pool[0]

    def take(self, tried: list[Trial]) -> None:
        """Take what was laid into the pool."""
        for trial in tried:
            scored = self.scored(trial)
            if len(self.pool) < _POOL or scored.merit > self.pool[-1].merit:
                self._enter(scored)

    def _enter(self, scored: Scored) -> None:
        starts = np.array([one.trial.start for one in self.pool]).reshape(-1, 2)
        is_alike = self.trials.apart(scored.trial.start, starts) < _SAME_START
        alike = [one for one, is_it in zip(self.pool, is_alike, strict=True) if is_it]
        if any(one.merit >= scored.merit for one in alike):
            return
        self.pool = [one for one in self.pool if one not in alike] + [scored]
        self.pool.sort(key=lambda one: (one.merit, one.trial.start), reverse=True)
        del self.pool[_POOL:]

    def scored(self, trial: Trial) -> Scored:
        """Return what was laid with its merit for the aim."""
        unequal = self.balance.unequal(trial.start)
        return Scored(trial, unequal, merit_of(self.aim, trial, unequal))

    def _exactly(self) -> Iterator[float]:
        """Find the best start for certain, then lay others that are as good or nearly."""
        assert self._rows is not None
        widest = Widest(self.trials, self._rows)
        for tried in widest.steps():
            self.take(tried)
            yield 0.3
        self.is_proved = widest.is_proved
        hoped = [self._rows.on_surface(guess.x, guess.y) for guess in widest.guesses()[:AT_ONCE]]
        others = np.vstack(
            [np.array(hoped + self.balance.starts()), starts_on_walls(self._rows, _ALTERNATIVES)]
        )
        yield from self._laying(others, self.trials, 0.3, 1.0)

    def _widely(self) -> Iterator[float]:
        """Lay starts from all over; where that is slow, only the most promising of them by a quick rating."""
        starts = self._candidates()
        if self._rows is None or not self._rows.walls.are_all:
            rated: list[Rating] = []
            for at in range(0, len(starts), AT_ONCE):
                rated += self._rater.rate(starts[at : at + AT_ONCE], is_quick=True)
                if not self.pool:
                    self.take(self.trials.of([rated[0].start]))
                yield 0.5 * at / len(starts)
            starts = np.array(self._most_promising(rated))
        yield from self._laying(starts, self.trials, 0.5, 0.7)

    def _candidates(self) -> Points:
        """Starts (n, 2) from all over: with equal borders, and where a joint meets a wall or a corner."""
        starts = [np.array(self.balance.starts()).reshape(-1, 2)]
        if self._rows is not None:
            starts.append(starts_on_walls(self._rows, _MOST_CANDIDATES))
        if self._rows is None or not self._rows.walls.are_all:
            placed, pairs = self.trials.placed, self.balance.pairs
            starts.append(critical_starts(self.region, placed, pairs, _MOST_CANDIDATES))
        return np.round(np.vstack(starts), 6)

    def _most_promising(self, rated: list[Rating]) -> list[Start]:
        """The starts of the best ratings; a rating tells nothing of bare places."""
        scored = sorted(map(self._hoped, rated), key=lambda one: one.merit, reverse=True)
        return [one.trial.start for one in scored[:_PROMISING]]

    def _hoped(self, rating: Rating) -> Scored:
        """Score a quick rating: parts are no wider than it says, and some may be bare places."""
        figures = rating.narrowest, rating.slivers, rating.whole, rating.cuts
        return self.scored(Trial(rating.start, *figures, 0))

    def _sifted(self, starts: Points, here: Trial) -> Points:
        """Return the starts that may be better than a trial; where measuring is slow, by a quick rating."""
        if not self._is_curved:
            return starts
        merit = self.scored(here).merit
        hoped = [self._hoped(rating) for rating in self._rater.rate(starts, is_quick=True)]
        return starts[[one.merit > merit for one in hoped]]

    def _laying(self, starts: Points, trials: Trials, begun: float, ended: float) -> Iterator[float]:
        for at in range(0, len(starts), AT_ONCE):
            self.take(trials.of(starts[at : at + AT_ONCE], self._worth))
            yield begun + (ended - begun) * at / len(starts)

    def _refining(self) -> Iterator[float]:
        """Move the best few, each by ever smaller steps; at last the best of all, until nothing is better."""
        chosen = self.pool[:_MOST_REFINED] if self._is_curved else self.pool[: _MOST_REFINED - 1]
        for at, scored in enumerate(chosen):
            yield from self._refined(scored, self._sifted, 0.7 + 0.2 * at / len(chosen))
        ended: Start | None = None
        while ended != self.best.trial.start:
            ended = yield from self._refined(self.best, None, 0.95)

    def _refined(self, scored: Scored, sift: Sift | None, done: float) -> Generator[float, None, Start]:
        """Refine a start; return where it ends."""
        steps = refining(scored.trial.start, self._better, sift, self.trials)
        while True:
            try:
                self.take(next(steps))
            except StopIteration as end:
                start: Start = end.value
                return start
            yield done

    @property
    def _worth(self) -> float:
        """The narrowest place that a start must exceed to be looked at closely."""
        return self.best.trial.narrowest if self.pool else 0.0

    def _better(self, one: Trial, other: Trial) -> bool:
        return self.scored(one).merit > self.scored(other).merit
