"""Seeks layouts of a surface that suit an aim: tries the ways of laying that are wished for, and ranks them.

What comes back are layouts as they stand in a job, so that whoever likes one can take it over as it is. The
search goes in steps; whoever runs it sees the best so far and may leave at any step.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
from msgspec.structs import replace

from tilelayout.job.edits.ids import free_id
from tilelayout.job.values import Job, Layout, Point, Surface, Tile
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.seeking.aims import Aim, Merit, merit_of
from tilelayout.layout.seeking.search import Scored, Search
from tilelayout.layout.values import Region
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.seek_basis import basis_of
from tilelayout.planning.seek_words import Told, why

_SAME_WIDTH = 1.0
_SAME_START = 10.0
"""Layouts whose figures or starts differ by less, in mm, are one to a person."""

_FINEST_JOINT = 0.25
_MOST_JOINTS = 9
_SPARE = 3
"""How many more than are asked for are planned, since a plan may rank them otherwise than the search."""


@dataclass(frozen=True)
class Wish:
    """What to seek.

    `angles` and `row_offsets` are the ways of laying to try; none means that of the layout there is. `joints`
    is the least and the greatest joint that is allowed, in mm. `most` is how many layouts to return.
    """

    aim: Aim = Aim.BALANCED
    most: int = 5
    angles: tuple[float, ...] = ()
    row_offsets: tuple[tuple[float, ...], ...] = ()
    joints: tuple[float, float] | None = None


@dataclass(frozen=True)
class Found:
    """A layout and its figures; `is_proved` claims that no start, laid this way, is better for the aim."""

    layout: Layout
    slivers: int
    narrowest: float | None
    tiles_needed: int
    cuts: int
    why: str
    is_proved: bool


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
    region = region_of(surface, basis.gap)
    ways = _ways(basis, tile, wish)
    tried: list[_Way] = []
    for at, layout in enumerate(ways):
        way = _Way(layout, Search(surface, tile, layout, wish.aim, region), _middle(region))
        tried.append(way)
        for done in way.search.steps():
            best = max(tried, key=lambda one: one.search.best.merit)
            yield best.step(0.98 * (at + done) / len(ways))
    found = _found(job, surface, tried, wish)
    first = found[0]
    yield Step(1.0, first.layout, first.narrowest or 0.0, first.slivers, found)


@dataclass(frozen=True, eq=False)
class _Way:
    """One way of laying and its search; `middle` is where starts are to lie near."""

    layout: Layout
    search: Search
    middle: Point

    def laid_at(self, scored: Scored) -> Layout:
        """Return the layout with a start of the pool."""
        return replace(self.layout, start=self.search.trials.near(scored.trial.start, self.middle))

    def step(self, done: float) -> Step:
        trial = self.search.best.trial
        return Step(done, self.laid_at(self.search.best), trial.narrowest, trial.slivers)

    def measured(self, scored: Scored) -> Scored:
        """Return a start of the pool with every figure exact."""
        return self.search.scored(self.search.trials.of([scored.trial.start])[0])


def _ways(basis: Layout, tile: Tile, wish: Wish) -> list[Layout]:
    """The layouts to seek a start for, without those that are the same turned by a quarter."""
    offsets = [{"row_offsets": each} for each in wish.row_offsets] or [{}]
    found: list[Layout] = []
    for angle, own, joint in product(wish.angles or (basis.angle,), offsets, _joints(basis, wish)):
        layout = replace(basis, angle=float(angle), joint=joint, settings={**basis.settings, **own})
        if not any(_is_the_same_pattern(layout, other, tile) for other in found):
            found.append(layout)
    return found


def _joints(basis: Layout, wish: Wish) -> list[float]:
    if wish.joints is None:
        return [basis.joint]
    least, most = wish.joints
    count = min(max(2, round((most - least) / _FINEST_JOINT) + 1), _MOST_JOINTS) if most > least else 1
    return [round(least + (most - least) * k / max(count - 1, 1), 6) for k in range(count)]


def _is_the_same_pattern(one: Layout, other: Layout, tile: Tile) -> bool:
    """Tell whether two ways of laying differ by nothing but a quarter turn of a square grid."""
    if one.joint != other.joint or one.settings != other.settings or (one.angle - other.angle) % 90.0:
        return False
    if (one.angle - other.angle) % 360.0 == 0.0:
        return True
    (a, b), (c, d) = cell_of(one, tile).vectors
    is_square = abs(b) + abs(c) < 1e-9 and abs(a - d) < 1e-9
    return is_square and len(cell_of(one, tile).faces) == 1


def _found(job: Job, surface: Surface, tried: list[_Way], wish: Wish) -> tuple[Found, ...]:
    """Plan the best starts, none of them what a person would call the same, and rank them by their plans."""
    pool = [(scored, way) for way in tried for scored in way.search.pool]
    pool.sort(key=lambda pair: pair[0].merit, reverse=True)
    chosen: list[_Candidate] = []
    for scored, way in pool:
        if len(chosen) == wish.most + _SPARE:
            break
        candidate = _Candidate(way.measured(scored), way)
        if not any(candidate.is_like(other) for other in chosen):
            chosen.append(candidate)
    for candidate in chosen:
        candidate.plan(job)
    chosen.sort(key=lambda candidate: candidate.merit(wish.aim), reverse=True)
    is_proved = wish.aim is Aim.WIDEST_CUT and all(way.search.is_proved for way in tried)
    kept = chosen[: wish.most]
    taken = {layout.id for layout in job.layouts}
    return tuple(_told(job, one, at == 0 and is_proved, wish, taken) for at, one in enumerate(kept))


class _Candidate:
    """A start that may be returned."""

    def __init__(self, scored: Scored, way: _Way) -> None:
        self.scored, self.way = scored, way
        self.layout = way.laid_at(scored)
        self.planned: Plan

    def plan(self, job: Job) -> None:
        """Plan the layout by itself."""
        self.planned = plan(replace(job, layouts=(self.layout,)), self.layout.id)

    def merit(self, aim: Aim) -> Merit:
        """Return the merit with the tiles that the plan needs."""
        return merit_of(aim, self.scored.trial, self.scored.unequal, self.planned.tiles_needed)

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
    told = Told(planned, wish.aim, search.balance.pairs, search.trials, is_proved)
    return Found(
        layout=replace(candidate.layout, id=id),
        slivers=len(planned.slivers),
        narrowest=planned.narrowest,
        tiles_needed=planned.tiles_needed,
        cuts=planned.cut,
        why=why(told, job),
        is_proved=is_proved,
    )


def _middle(region: Region) -> Point:
    low_x, low_y, high_x, high_y = region.shape.bounds
    return (low_x + high_x) / 2.0, (low_y + high_y) / 2.0
