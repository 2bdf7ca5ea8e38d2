"""What it takes to make a surface flat: level it, fill the least, fill to a plane, or grind and fill.

The least preparation is a linear program over the readings (see `programs`). On an even grid it is first
solved for straightedges from reading to reading in eight directions, which is quick; then the whole verdict
is run on the prepared surface, and every chord that still breaks a limit becomes a row, until none does. So
the answer is one that the verdict passes, and no cheaper one keeps to the same chords.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from tilelayout.base.stepping import telling
from tilelayout.flatness.following import followed
from tilelayout.flatness.grids import Grid, grid_of, worst_rows
from tilelayout.flatness.mesh import Mesh, Numbers, Places, Points
from tilelayout.flatness.programs import Preparation, sums_of_chords, sums_of_rows
from tilelayout.flatness.straightedge import (
    Deepest,
    Gathered,
    Rays,
    Search,
    gathering,
    rays_for,
    without_plane,
)
from tilelayout.flatness.values import Chord, Spot
from tilelayout.flatness.volumes import Ground
from tilelayout.flatness.watched import Broken, Watched

Limits = Sequence[tuple[float, float]]
"""Pairs (over, limit) in mm."""

_BROKEN = 1e-6
_MOST_ROUNDS = 200
_FOLLOWED = Search(starts=32, rounds=24)
"""Many chords between corners, each followed only as far as a row of the program needs it."""

_NEARLY = 0.001
"""Limits broken by no more than this (mm) are kept by asking a little more of every row: the search between
corners then ends, and the fill is larger than the least by a share that no trowel could tell."""
_LEAST_COST = 1e-6
"""A reading beside the ground costs this share of the usual, so that it is not filled for nothing."""


@dataclass(frozen=True, eq=False)
class Fill:
    """A preparation: `added` and `removed` (v,) at the corners of the mesh, mm.

    Where it crosses nought between corners (a plane that meets the surface) `added` is negative beyond;
    volumes count what is above nought.
    """

    ground: Ground
    added: Numbers
    removed: Numbers

    @cached_property
    def volume(self) -> float:
        """What is added, mm3."""
        return self.ground.volume_above_nought(self.added)

    @cached_property
    def volume_removed(self) -> float:
        """What is taken off, mm3."""
        return self.ground.volume_above_nought(self.removed)

    @cached_property
    def _on(self) -> Places:
        """The corners whose height counts: those of which some ground is left."""
        return np.flatnonzero(self.ground.weights > 0.0)

    @property
    def deepest(self) -> float:
        """The most that is added anywhere on the surface, mm."""
        return float(max(self.added[self._on].max(initial=0.0), 0.0))

    @property
    def deepest_at(self) -> Spot:
        """Where that is."""
        return self._most_at(self.added)

    @property
    def thinnest(self) -> float:
        """The least that is added where anything is added at all, mm; 0 where it feathers out."""
        return float(max(self.added[self._on].min(initial=np.inf), 0.0)) if len(self._on) else 0.0

    @property
    def most_removed(self) -> float:
        """The most that is taken off anywhere, mm."""
        return float(max(self.removed[self._on].max(initial=0.0), 0.0))

    @property
    def most_removed_at(self) -> Spot:
        """Where that is."""
        return self._most_at(self.removed)

    def _most_at(self, values: Numbers) -> Spot:
        x, y = self.ground.mesh.places[self._on[np.argmax(values[self._on])]].tolist()
        return x, y

    @property
    def change(self) -> Numbers:
        """By how much (v,) the surface comes up at the corners of the mesh; below nought it goes down."""
        return np.maximum(self.added, 0.0) - np.maximum(self.removed, 0.0)

    def depths_at(self, points: Points) -> Numbers:
        """Return how much is added (p,) at points (p, 2), nan beside the survey."""
        return np.maximum(self.ground.mesh.heights_at(points, self.added), 0.0)


def level_fill(ground: Ground, heights: Numbers) -> Fill:
    """Bring the whole surface level with its highest point; `heights` (v,) of the mesh's corners."""
    return Fill(ground, float(heights.max()) - heights, np.zeros(len(heights)))


def fill_to(ground: Ground, heights: Numbers, target: Numbers) -> Fill:
    """Bring the surface to `target` (v,): add where it lies below, take off where it stands above."""
    return Fill(ground, target - heights, heights - target)


@dataclass(frozen=True)
class Prices:
    """What a mm3 of fill and of grinding costs, in any one unit, and how much may be ground off at most."""

    fill: float = 1.0
    grind: float = 5.0
    most_ground: float = 3.0


def least_fill(ground: Ground, readings: Numbers, limits: Limits) -> Fill:
    """Return the least that has to be added for every limit to be kept; `readings` (n,) heights."""
    return _last(preparing(ground, readings, limits))


def grind_and_fill(ground: Ground, readings: Numbers, limits: Limits, prices: Prices) -> Fill:
    """Return the cheapest mix of adding and taking off. SurveyError if what may be ground is not enough."""
    return _last(preparing(ground, readings, limits, prices))


def _last(steps: Iterator[Fill]) -> Fill:
    for fill in steps:
        last = fill
    return last


def preparing(
    ground: Ground, readings: Numbers, limits: Limits, prices: Prices | None = None
) -> Iterator[Fill]:
    """Yield better and better preparations; the last keeps to every limit, those before do not yet."""
    costs = ground.of_readings(len(readings))
    costs = np.maximum(costs, _LEAST_COST * costs.mean())
    if prices is None:
        program = Preparation(readings, costs)
    else:
        program = Preparation(readings, prices.fill * costs, prices.grind * costs, prices.most_ground)
    added = removed = np.zeros(len(readings))
    grid = grid_of(ground.mesh.places[: len(readings)])
    if grid is not None and ground.mesh.is_convex:
        added, removed = kept_on_grid(program, grid, readings, limits)
        yield _fill(ground, added, removed)
    rays = rays_for(ground.mesh, [over for over, _ in limits])
    watched = Watched(ground.mesh, limits, rays)
    for _ in range(_MOST_ROUNDS):
        heights = ground.mesh.heights(readings + added - removed)
        so_far = _fill(ground, added, removed)
        broken = yield from telling(so_far, _looking(watched, heights, limits, rays))
        if broken is None:
            break
        program.add(broken.sums)
        if broken.is_between and broken.worst <= _NEARLY:
            program.tighten(2.0 * broken.worst)
        added, removed = program.solved()
        yield _fill(ground, added, removed)
    yield _fill(ground, added, removed)


def _fill(ground: Ground, added: Numbers, removed: Numbers) -> Fill:
    mesh = ground.mesh
    return Fill(ground, mesh.heights(added), mesh.heights(removed))


def kept_on_grid(
    program: Preparation, grid: Grid, readings: Numbers, limits: Limits
) -> tuple[Numbers, Numbers]:
    """Solve for the straightedges along eight directions of the grid, adding rows as they are broken."""
    added = removed = np.zeros(len(readings))
    for _ in range(_MOST_ROUNDS):
        heights = (readings + added - removed)[grid.number]
        found = [(worst_rows(grid, heights, over, limit + _BROKEN), limit) for over, limit in limits]
        if not any(len(rows.at) for rows, _ in found):
            break
        for rows, limit in found:
            if len(rows.at):
                program.add(sums_of_rows(rows, limit))
        added, removed = program.solved()
    return added, removed


def _looking(
    watched: Watched, heights: Numbers, limits: Limits, rays: Rays
) -> Generator[object, None, Broken | None]:
    """Look for chords that break a limit; those between corners only once none from a corner does."""
    found = yield from watched.broken_steps(heights, _BROKEN / 2.0)
    found = found or _from_kept(watched, heights, limits)
    if found is not None:
        return found
    overs = [over for over, _ in limits]
    return _between_corners(
        (yield from gathering(watched.mesh, heights, overs, rays, _FOLLOWED.starts)), limits
    )


def _from_kept(watched: Watched, heights: Numbers, limits: Limits) -> Broken | None:
    """Follow the deepest of the kept chords of full length; trifles are left to the search over all."""
    plain, broken = without_plane(watched.mesh, heights), []
    for kind, starts in enumerate(watched.full_length(heights, _FOLLOWED.starts)):
        (over, limit), sign = limits[kind // 2], 1.0 - 2.0 * (kind % 2)
        if starts:
            chords = followed(watched.mesh, sign * plain, over, starts, _FOLLOWED.rounds)
            broken += [(chord, sign, limit) for chord in chords if chord.depth > limit + _NEARLY]
    return _between(watched.mesh, broken) if broken else None


def _between_corners(gathered: Gathered, limits: Limits) -> Broken | None:
    """Follow chords between corners, quickly first, and return those that break a limit."""
    bounds = tuple(limit + _BROKEN / 2.0 for _, limit in limits)
    for search in (replace(_FOLLOWED, only_above=bounds), Search(only_above=bounds)):
        found = gathered.searched(search)
        broken = [row for k, one in enumerate(found) for row in _over_limit(one, bounds[k // 2])]
        if broken:
            return _between(gathered.mesh, broken)
    return None


def _between(mesh: Mesh, broken: list[tuple[Chord, float, float]]) -> Broken:
    worst = max(chord.depth - limit for chord, _, limit in broken)
    return Broken(sums_of_chords(mesh, broken), worst, is_between=True)


def _over_limit(found: Deepest, limit: float) -> Iterator[tuple[Chord, float, float]]:
    sign = -1.0 if found.is_rise else 1.0
    for chord in found.chords:
        if chord.depth > limit:
            yield chord, sign, limit
