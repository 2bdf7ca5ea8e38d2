"""The layouts of a surface that nothing else beats, each with what it is best at.

There is seldom one best layout: the widest cuts may take two tiles more, the fewest cuts may leave a
sliver. So every aim is sought, and of all that was laid on the way the set is kept that no other layout beats
in every figure. Cheap figures sort first; sharing offcuts is planned only for the few that stay.

The search goes in steps: pull them one after the other, show the best so far, and stop pulling to cancel. The
same job and wish give the same steps and the same answer on every run.
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
from tilelayout.planning.alternative_figures import SEEN_LENGTH, Figures, figures_of, seen, unbeaten
from tilelayout.planning.alternative_words import figures_told, reason_kept, what_cannot_be_had
from tilelayout.planning.draw_planks import drawn_for_its_room, least_end_of
from tilelayout.planning.field import field_region
from tilelayout.planning.fixed_pieces import fixed_pieces
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.seek_basis import basis_of
from tilelayout.planning.seek_ways import Way, Wish, layouts_wished, middle_of

_MOST_PLANNED = 16
_SAME_START = 10.0
"""Starts nearer than this, in mm, are one to a person."""


@dataclass(frozen=True)
class Alternative:
    """A layout nothing else beats: ready to be put into the job, with its figures and why it is there.

    `why` is one sentence without a full stop; it begins with `reason`, what the layout is best at, and tells
    its figures after that. `narrowest_at_most` is a proved bound on the narrowest cut of
    every start laid this way, in mm; None if none was proved.
    """

    layout: Layout
    figures: Figures
    reason: str
    why: str
    narrowest_at_most: float | None = None


@dataclass(frozen=True)
class Step:
    """How far a search is.

    `done` goes from 0 to 1; `best`, `narrowest` (mm) and `slivers` tell of the best layout so far for the
    wish's aim. `found`, best first for that aim, and `cannot`, sentences about what no start gives, are
    empty until the last step.
    """

    done: float
    best: Layout
    narrowest: float
    slivers: int
    found: tuple[Alternative, ...] = ()
    cannot: tuple[str, ...] = ()


def alternatives(
    job: Job, surface_id: str, tile_id: str | None = None, wish: Wish | None = None
) -> Iterator[Step]:
    """Yield the steps of a search for all aims; the last has done 1 and everything found.

    `wish.aim` orders what is found, `wish.most` is how many to return at most; `angles`, `row_offsets` and
    `joints` are the ways of laying to try, as for `planning.seek.seek`. LayoutError if the job has no such
    surface or tile, or the tile cannot be laid so.
    """
    wish = wish or Wish()
    basis = basis_of(job, surface_id, tile_id)
    surface, tile = job.surface(basis.surface), job.tile(basis.tile)
    region, more = field_region(job, basis), job.more_tiles(basis)
    layouts, tried = layouts_wished(basis, tile, wish, more), list[Way]()
    for at, (layout, joints) in enumerate(layouts):
        search = Search(surface, *laid_in_chips(tile, layout), wish.aim, region, also=tuple(Aim), more=more)
        tried.append(Way(layout, search, middle_of(region), joints, fixed_pieces(job, layout)))
        for done in search.steps():
            yield _step(tried, 0.8 * (at + done) / len(layouts))
    yield from _planning(job, tried, wish)


def _step(tried: list[Way], done: float) -> Step:
    """The step that tells of the best so far for the wish's aim."""
    way = max(tried, key=lambda way: way.search.best.merit)
    return Step(done, way.laid_at(way.search.best), way.best_narrowest, way.best_slivers)


class Candidate:
    """A start that may be kept."""

    def __init__(self, scored: Scored, way: Way, order: int) -> None:
        self.scored, self.way, self.order = scored, way, order
        self.layout = way.laid_at(scored)
        self.planned: Plan
        self.figures: Figures

    @property
    def cheap(self) -> tuple[float, ...]:
        """What is known without planning, each the less the better."""
        trial = self.scored.trial
        counts = float(trial.bare), float(trial.slivers), float(trial.cuts), float(trial.tiles)
        return *counts, -seen(trial.narrowest), seen(self.scored.unequal), seen(self.scored.off_lines)

    def plan(self, job: Job) -> Iterator[None]:
        """Plan the layout by itself and take its figures, a part of the work at a time.

        Planks with a least end are drawn for its start, and their narrowest cut is that of the plan.
        """
        self.layout = drawn_for_its_room(job, self.layout)
        yield
        self.planned = plan(replace(job, layouts=(self.layout,)), self.layout.id)
        for figure in ("slivers", "cut_rows", "tiles_needed"):
            getattr(self.planned, figure)
            yield
        self.figures = figures_of(
            self.planned,
            self._narrowest,
            self.scored.unequal,
            self.scored.off_lines,
            self.way.fixed.narrowest,
        )

    @property
    def is_drawn(self) -> bool:
        """Whether the rows are drawn for its start, which the search did not know."""
        return least_end_of(self.layout) is not None

    @property
    def _narrowest(self) -> float:
        """The narrowest cut: of rows that the search did not know the plan's."""
        trial = self.scored.trial.narrowest
        return trial if not self.is_drawn or self.planned.narrowest is None else self.planned.narrowest

    def merit(self, aim: Aim) -> Merit:
        """Return the merit with the tiles that the plan needs."""
        return merit_of(
            aim, self.scored.trial, self.scored.unequal, self.figures.tiles_needed, self.scored.off_lines
        )

    def is_like(self, other: Candidate) -> bool:
        """Tell whether a person would call both the same: figures alike, or starts a few mm apart."""
        if self.way.layout is not other.way.layout:
            return False
        one, two = self.scored.trial, other.scored.trial
        if (one.slivers, one.bare, one.whole, one.cuts) != (two.slivers, two.bare, two.whole, two.cuts):
            return False
        apart = self.way.search.trials.apart(one.start, np.array([two.start]))
        is_as_wide = abs(one.narrowest - two.narrowest) < SEEN_LENGTH
        return bool(apart[0] < _SAME_START) or (
            is_as_wide and abs(self.scored.unequal - other.scored.unequal) < SEEN_LENGTH
        )


def _planning(job: Job, tried: list[Way], wish: Wish) -> Iterator[Step]:
    """Sort out by the cheap figures, plan those that stay, and yield at last what nothing beats."""
    promising = _promising(tried)
    for at, candidate in enumerate(promising, start=1):
        for _ in candidate.plan(job):
            yield _step(tried, 0.8 + 0.2 * at / (len(promising) + 1))
    found = tuple(_told(job, _kept(promising, wish)))
    best = found[0]
    cannot = tuple(words for way in tried for words in _cannot(job, way))
    yield Step(1.0, best.layout, best.figures.narrowest_of_all, best.figures.slivers, found, cannot)


def _kept(promising: list[Candidate], wish: Wish) -> list[Candidate]:
    """What nothing beats, the best first for the aim; of too many those that are best at something."""
    kept = unbeaten(promising, [candidate.figures.weighed for candidate in promising])
    kept.sort(key=lambda candidate: candidate.merit(wish.aim), reverse=True)
    figures = range(len(kept[0].figures.weighed))
    champions = (min(kept, key=lambda candidate: candidate.figures.weighed[at]) for at in figures)
    chosen = list(dict.fromkeys((kept[0], *champions, *kept)))[: wish.most]
    return [candidate for candidate in kept if candidate in chosen]


def _cannot(job: Job, way: Way) -> tuple[str, ...]:
    """What no start of one way of laying gives; nothing is said of rows that are drawn for each start."""
    if least_end_of(way.layout) is not None:
        return ()
    widest = way.search.pools[Aim.WIDEST_CUT].scored[0]
    laid = way.laid_at(widest)
    planned = plan(replace(job, layouts=(laid,)), laid.id)
    return what_cannot_be_had(planned, widest.trial.narrowest, way.search.narrowest_at_most)


def _promising(tried: list[Way]) -> list[Candidate]:
    """The starts that no other beats by the cheap figures, the best of each aim first, none like another."""
    pool = [
        Candidate(scored, way, order)
        for way in tried
        for of_aim in way.search.pools.values()
        for order, scored in enumerate(of_aim.scored)
    ]
    kept = unbeaten(pool, [candidate.cheap for candidate in pool])
    kept.sort(key=lambda candidate: candidate.order)
    chosen: list[Candidate] = []
    for candidate in kept:
        if len(chosen) < _MOST_PLANNED and not any(candidate.is_like(other) for other in chosen):
            chosen.append(candidate)
    return chosen


def _told(job: Job, kept: list[Candidate]) -> Iterator[Alternative]:
    taken = {layout.id for layout in job.layouts}
    everything = [candidate.figures for candidate in kept]
    for candidate in kept:
        id = free_id(taken, candidate.layout.id)
        taken.add(id)
        figures, way, style = candidate.figures, candidate.way, job.show_lengths
        reason = reason_kept(figures, everything, style)
        why = "; ".join(filter(None, (reason, figures_told(figures, style), way.joints_told(style))))
        at_most = None if candidate.is_drawn else way.narrowest_at_most
        yield Alternative(replace(candidate.layout, id=id), figures, reason, why, at_most)
