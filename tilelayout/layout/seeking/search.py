"""Looks for the best start of one layout, a few starts at a time, so that it can be watched and left.

Every step lays some starts and takes them into the pool; the best so far always stands first. Nothing
depends on the clock or on chance, so the same layout gives the same pool on every run.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator

import numpy as np

from tilelayout.job.values import Layout, Surface, Tile
from tilelayout.layout.lines_in_place import LinesInPlace
from tilelayout.layout.offset_map.many_starts import AT_ONCE
from tilelayout.layout.region import region_of
from tilelayout.layout.roles import NO_MORE, MoreTiles
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.at_cutouts import starts_at_cutouts
from tilelayout.layout.seeking.balance import Balance, facing_pairs
from tilelayout.layout.seeking.certificate import Certificate
from tilelayout.layout.seeking.critical import critical_starts, starts_on_walls
from tilelayout.layout.seeking.nearly_equal import from_equal_on
from tilelayout.layout.seeking.pool import Pool, Scored
from tilelayout.layout.seeking.refining import refining
from tilelayout.layout.seeking.rows_in_room import rows_in_room
from tilelayout.layout.seeking.trials import Start, Trial, Trials
from tilelayout.layout.seeking.widest import Widest
from tilelayout.layout.values import Points, Region

_MOST_CANDIDATES = 400
_WHERE_COUNTED = 4
"""Counts change in jumps, and refining seldom finds its way to fewer: so many times more starts along oblique
walls are tried for them."""

_MOST_REFINED = {aim: 6 if aim is Aim.FEWEST_CUTS else 3 for aim in Aim}
_ALTERNATIVES = 144


class Search:
    """The search for one layout and aim; its own start is one of those that are tried.

    `pool` holds the best starts, best first, no two of them the same laying; `pools` those of every aim that
    is sought `also`. `is_proved` claims that no start is better for the aim; without it, no start 0.25 mm
    from the best is.
    """

    def __init__(
        self,
        surface: Surface,
        tile: Tile,
        layout: Layout,
        aim: Aim,
        region: Region | None = None,
        also: tuple[Aim, ...] = (),
        more: MoreTiles = NO_MORE,
    ) -> None:
        self.aim = aim
        self.region = region or region_of(surface, layout.gap)
        self.trials = Trials(tile, layout, self.region, more)
        self.balance = Balance(facing_pairs(self.region), self.trials.placed)
        aims = dict.fromkeys((aim, *also))
        self.lines = LinesInPlace(surface, layout, self.trials.placed)
        self.pools = {one: Pool(one, self.trials, self.balance, self.lines) for one in aims}
        self.is_proved = False
        self._certificate: Certificate | None = None
        self._rows = rows_in_room(self.region, tile, layout, self.trials.cell)

    @property
    def pool(self) -> list[Scored]:
        """The best starts for the aim, best first."""
        return self.pools[self.aim].scored

    @property
    def best(self) -> Scored:
        """The best so far; there is one after the first step."""
        return self.pool[0]

    def scored(self, trial: Trial) -> Scored:
        """Return what was laid with its merit for the aim."""
        return self.pools[self.aim].score(trial)

    @property
    def narrowest_at_most(self) -> float | None:
        """A proved bound, in mm, on the narrowest cut of every start that leaves no place bare; else None."""
        if self.is_proved:
            return self.pools[Aim.WIDEST_CUT].scored[0].trial.narrowest
        return None if self._certificate is None else self._certificate.at_most

    def steps(self) -> Iterator[float]:
        """Search; yield after each step about what part of the work is done, 0 to 1."""
        is_free = self._rows is not None and not self.lines.lines
        if Aim.WIDEST_CUT in self.pools and is_free and self._rows is not None and self._rows.is_exact:
            yield from self._exactly()
        rest = [pool for pool in self.pools.values() if not (pool.aim is Aim.WIDEST_CUT and self.is_proved)]
        if rest:
            yield from self._laying(self._candidates(), 0.3, 0.6)
        if Aim.BALANCED in self.pools and not self.lines.lines:
            yield from self._nearly_equal(self.pools[Aim.BALANCED])
        for at, pool in enumerate(rest):
            for done in self._refining(pool):
                yield 0.7 + 0.2 * (at + done) / len(rest)
        if self.aim is Aim.WIDEST_CUT and not self.is_proved and not self.lines.lines:
            yield from self._certifying()
        yield 1.0

    def take(self, tried: list[Trial]) -> None:
        """Take what was laid into the pools."""
        for pool in self.pools.values():
            pool.take(tried)

    def _exactly(self) -> Iterator[float]:
        """Find the best start for certain, then lay others that are as good or nearly."""
        assert self._rows is not None
        widest = Widest(self.trials, self._rows)
        for tried in widest.steps():
            self.take(tried)
            yield 0.1
        self.is_proved = widest.is_proved
        hoped = [self._rows.on_surface(guess.x, guess.y) for guess in widest.guesses()[:AT_ONCE]]
        others = np.array(hoped + self.balance.starts())
        yield from self._laying(np.vstack([others, starts_on_walls(self._rows, _ALTERNATIVES)]), 0.1, 0.3)

    def _certifying(self) -> Iterator[float]:
        """Bound what any start can give; a better one that comes to light on the way is refined."""
        if not self.trials.are_all_seen or self.best.trial.bare:
            return
        certificate, before = Certificate(self.trials), self.best
        for starts in certificate.steps(lambda: self.best.trial.narrowest):
            if len(starts):
                self.take(self.trials.hopeful(starts, self._is_any_keen))
            yield 0.9
        if self.best is not before:
            yield from (0.95 for _ in self._refining(self.pools[self.aim]))
        self._certificate = certificate

    def _nearly_equal(self, pool: Pool) -> Iterator[float]:
        """Go from equal borders on until no start that is left can be better, or very many were laid."""
        for laid, (unequal, starts) in enumerate(from_equal_on(self.balance, AT_ONCE)):
            best = pool.scored[0]
            if laid * AT_ONCE >= _MOST_CANDIDATES or (best.trial.slivers == 0 and best.unequal <= unequal):
                return
            self.take(self.trials.hopeful(starts, self._is_any_keen))
            yield 0.6 + 0.1 * laid * AT_ONCE / _MOST_CANDIDATES

    def _candidates(self) -> Points:
        """Starts (n, 2) from all over: equal borders, a cutout set well, a joint on a wall or a corner."""
        starts = [np.array([*self.balance.starts(), self.trials.layout.start])]
        starts.append(starts_at_cutouts(self.region, self.trials.placed))
        is_all = self._rows is not None and self._rows.walls.are_all
        if self._rows is not None:
            starts.append(starts_on_walls(self._rows, _MOST_CANDIDATES))
        if not is_all:
            placed, pairs = self.trials.placed, self.balance.pairs
            most = _MOST_CANDIDATES if self._rows is None else _MOST_CANDIDATES // 2
            along = most * (1 if list(self.pools) == [Aim.WIDEST_CUT] else _WHERE_COUNTED)
            starts.append(critical_starts(self.region, placed, pairs, most, along))
        return self._kept_to_lines(np.vstack(starts))

    def _kept_to_lines(self, starts: Points) -> Points:
        """Return the different starts (n, 2) nearest to these that the reference lines allow, in order."""
        nearest = np.round(self.lines.nearest(starts), 6)
        return nearest[np.sort(np.unique(nearest, axis=0, return_index=True)[1])]

    def _laying(self, starts: Points, begun: float, ended: float) -> Iterator[float]:
        for at in range(0, len(starts), AT_ONCE):
            self.take(self.trials.hopeful(starts[at : at + AT_ONCE], self._is_any_keen))
            yield begun + (ended - begun) * at / len(starts)

    def _is_any_keen(self, hoped: Trial) -> bool:
        return any(pool.is_keen_on(hoped) for pool in self.pools.values())

    def _refining(self, pool: Pool) -> Iterator[float]:
        """Move the best few, each by ever smaller steps, until no step from the best of all is better."""
        chosen = pool.scored[: _MOST_REFINED[pool.aim]]
        refined = set[Start]()
        for at, scored in enumerate(chosen):
            refined.add((yield from self._refined(pool, scored, at / len(chosen))))
        while (best := pool.scored[0]).trial.start not in refined:
            refined |= {best.trial.start, (yield from self._refined(pool, best, 0.95))}

    def _refined(self, pool: Pool, scored: Scored, done: float) -> Generator[float, None, Start]:
        """Refine a start; return where it ends."""
        steps = refining(scored.trial, pool.merit, self.trials, self._kept_to_lines)
        while True:
            try:
                self.take(next(steps))
            except StopIteration as end:
                start: Start = end.value
                return start
            yield done
