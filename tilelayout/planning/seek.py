"""Seeks layouts of a surface that suit an aim: tries the ways of laying that are wished for, and ranks them.

What comes back are layouts as they stand in a job, so that whoever likes one can take it over as it is. The
search goes in steps; whoever runs it sees the best so far and may leave at any step.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from msgspec.structs import replace

from tilelayout.job.edits.ids import free_id
from tilelayout.job.values import Job, Layout
from tilelayout.layout.chips import laid_in_chips
from tilelayout.layout.seeking.aims import Aim, merit_of
from tilelayout.layout.seeking.pool import Scored
from tilelayout.layout.seeking.search import Search
from tilelayout.layout.seeking.trials import Merit
from tilelayout.planning.draw_planks import drawn_for_its_room, least_end_of
from tilelayout.planning.field import field_region
from tilelayout.planning.fixed_pieces import fixed_pieces
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.seek_basis import basis_of
from tilelayout.planning.seek_ways import Way, Wish, layouts_wished, middle_of
from tilelayout.planning.seek_words import Told, why

__all__ = ["Found", "Step", "Wish", "seek"]

_SAME_WIDTH = 1.0
_SAME_START = 10.0
"""Layouts whose figures or starts differ by less, in mm, are one to a person."""

_SPARE = 3
"""How many more than are asked for are planned, since a plan may rank them otherwise than the search."""


@dataclass(frozen=True)
class Found:
    """A layout and its figures; `is_proved` claims that no start, laid this way, is better for the aim.

    `narrowest_at_most` is a proved bound on the narrowest cut of every start laid this way, if sought.
    """

    layout: Layout
    slivers: int
    narrowest: float | None
    tiles_needed: int
    cuts: int
    why: str
    is_proved: bool
    narrowest_at_most: float | None = None


@dataclass(frozen=True)
class Step:
    """How far a search is: the part done (0 to 1), the best layout so far, and at the end what was found."""

    done: float
    best: Layout
    narrowest: float
    slivers: int
    found: tuple[Found, ...] = ()


def seek(job: Job, surface_id: str, tile_id: str | None = None, wish: Wish | None = None) -> Iterator[Step]:
    """Yield the steps of a search; the last has done 1 and everything found, best first.

    LayoutError if the job has no such surface or tile, or the tile cannot be laid so.
    """
    wish = wish or Wish()
    basis = basis_of(job, surface_id, tile_id)
    surface, tile = job.surface(basis.surface), job.tile(basis.tile)
    region, more = field_region(job, basis), job.more_tiles(basis)
    ways = layouts_wished(basis, tile, wish, more)
    tried: list[Way] = []
    for at, (layout, joints) in enumerate(ways):
        search = Search(surface, *laid_in_chips(tile, layout), wish.aim, region, more=more)
        way = Way(layout, search, middle_of(region), joints, fixed_pieces(job, layout))
        tried.append(way)
        for done in way.search.steps():
            best = max(tried, key=lambda one: one.search.best.merit)
            yield _step(best, 0.9 * (at + done) / len(ways))
    yield from _planning(job, tried, wish)


def _step(way: Way, done: float) -> Step:
    return Step(done, way.laid_at(way.search.best), way.best_narrowest, way.best_slivers)


def _planning(job: Job, tried: list[Way], wish: Wish) -> Iterator[Step]:
    """Plan the best starts, one a step; rank them by their plans, and yield at last what was found."""
    best, chosen = max(tried, key=lambda one: one.search.best.merit), _chosen(tried, wish)
    for at, candidate in enumerate(chosen):
        candidate.plan(job)
        yield _step(best, 0.9 + 0.1 * at / len(chosen))
    chosen.sort(key=lambda candidate: candidate.merit(wish.aim), reverse=True)
    is_proved = wish.aim is Aim.WIDEST_CUT and all(way.search.is_proved for way in tried)
    taken = {layout.id for layout in job.layouts}
    kept = enumerate(chosen[: wish.most])
    found = tuple(_told(job, one, at == 0 and is_proved, wish, taken) for at, one in kept)
    yield Step(1.0, found[0].layout, found[0].narrowest or 0.0, found[0].slivers, found)


def _chosen(tried: list[Way], wish: Wish) -> list[_Candidate]:
    """The best starts, some more than are wished for, none of them what a person would call the same."""
    pool = [(scored, way) for way in tried for scored in way.search.pool]
    pool.sort(key=lambda pair: pair[0].merit, reverse=True)
    chosen: list[_Candidate] = []
    for scored, way in pool:
        if len(chosen) == wish.most + _SPARE:
            break
        candidate = _Candidate(scored, way)
        if not any(candidate.is_like(other) for other in chosen):
            chosen.append(candidate)
    return chosen


class _Candidate:
    """A start that may be returned."""

    def __init__(self, scored: Scored, way: Way) -> None:
        self.scored, self.way = scored, way
        self.layout = way.laid_at(scored)
        self.planned: Plan

    def plan(self, job: Job) -> None:
        """Plan the layout by itself, and count its tiles; planks with a least end are drawn for its start."""
        self.layout = drawn_for_its_room(job, self.layout)
        self.planned = plan(replace(job, layouts=(self.layout,)), self.layout.id)
        _ = self.planned.tiles_needed

    def merit(self, aim: Aim) -> Merit:
        """Return the merit with the tiles that the plan needs."""
        return merit_of(
            aim, self.scored.trial, self.scored.unequal, self.planned.tiles_needed, self.scored.off_lines
        )

    def is_like(self, other: _Candidate) -> bool:
        """Tell whether a person would call both the same: figures alike, or starts a few mm apart."""
        if self.way is not other.way:
            return False
        one, two = self.scored.trial, other.scored.trial
        if (one.slivers, one.bare) != (two.slivers, two.bare):
            return False
        apart = self.way.search.trials.apart(one.start, np.array([two.start]))
        is_as_wide = abs(one.narrowest - two.narrowest) < _SAME_WIDTH
        return apart[0] < _SAME_START or (is_as_wide and (one.whole, one.cuts) == (two.whole, two.cuts))


def _told(job: Job, candidate: _Candidate, is_proved: bool, wish: Wish, taken: set[str]) -> Found:
    planned, search = candidate.planned, candidate.way.search
    id = free_id(taken, candidate.layout.id)
    taken.add(id)
    is_drawn = least_end_of(candidate.layout) is not None  # by rows that the search did not know
    at_most = None if is_drawn else candidate.way.narrowest_at_most
    told = Told(planned, wish.aim, search.balance.pairs, search.trials, is_proved, at_most)
    words = "; ".join(filter(None, (why(told, job), candidate.way.joints_told(job.show_lengths))))
    return Found(
        layout=replace(candidate.layout, id=id),
        slivers=len(planned.slivers),
        narrowest=planned.narrowest,
        tiles_needed=planned.tiles_needed,
        cuts=planned.cut,
        why=words,
        is_proved=is_proved,
        narrowest_at_most=at_most,
    )
