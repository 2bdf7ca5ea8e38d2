"""What it takes to make a surface flat: level it, fill the least, fill to a plane, or grind and fill.

The least preparation is a linear program over the readings (see `programs`). On an even grid it is first
solved for straightedges from reading to reading in eight directions, which is quick; then the whole verdict
is run on the prepared surface, and every chord that still breaks a limit becomes a row, until none does. So
the answer is one that the verdict passes, and no cheaper one keeps to the same chords.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from tilelayout.flatness.fans import Fans
from tilelayout.flatness.grids import Grid, grid_of, worst_rows
from tilelayout.flatness.mesh import Mesh, Numbers, Points, SurveyError
from tilelayout.flatness.programs import Preparation, sums_of_chords, sums_of_rows
from tilelayout.flatness.straightedge import Deepest, Search, deeper_than, deepest, fans_for
from tilelayout.flatness.values import Chord, Spot
from tilelayout.flatness.volumes import Ground

Limits = Sequence[tuple[float, float]]
"""Pairs (over, limit) in mm."""

_BROKEN = 1e-6
_MOST_ROUNDS = 60
_CHORDS_EACH = 8
_FOLLOWED = Search(starts=32, rounds=24)
"""Many chords between corners, each followed only as far as a row of the program needs it."""

_NEARLY = 0.005
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

    @property
    def deepest(self) -> float:
        """The most that is added anywhere on the surface, mm."""
        return float(max(self.added.max(initial=0.0), 0.0))

    @property
    def deepest_at(self) -> Spot:
        """Where that is."""
        x, y = self.ground.mesh.places[int(np.argmax(self.added))].tolist()
        return x, y

    @property
    def thinnest(self) -> float:
        """The least that is added where anything is added at all, mm; 0 where it feathers out."""
        return float(max(self.added.min(initial=np.inf), 0.0)) if len(self.added) else 0.0

    @property
    def most_removed(self) -> float:
        """The most that is taken off anywhere, mm."""
        return float(max(self.removed.max(initial=0.0), 0.0))

    def depths_at(self, points: Points) -> Numbers:
        """Return how much is added (p,) at points (p, 2), nan beside the survey."""
        return np.maximum(self.ground.mesh.heights_at(points, self.added), 0.0)


def level_fill(ground: Ground, heights: Numbers) -> Fill:
    """Bring the whole surface level with its highest point; `heights` (v,) of the mesh's corners."""
    return Fill(ground, float(heights.max()) - heights, np.zeros(len(heights)))


def plane_fill(ground: Ground, heights: Numbers, fixed: Sequence[tuple[float, float, float]]) -> Fill:
    """Bring the surface to the plane through fixed heights: (x, y, height) at a door, along a drain.

    Three that are not in one line decide a plane; with more, the nearest by least squares; one means a level
    plane. Where the surface stands above the plane, so much has to be taken off. SurveyError if they do not
    decide a plane.
    """
    places = ground.mesh.places
    given = np.array(fixed, dtype=float).reshape(-1, 3)
    columns = np.column_stack([given[:, :2] - places.mean(axis=0), np.ones(len(given))])
    if len(given) == 1:
        plane = np.array([0.0, 0.0, given[0, 2]])
    elif np.linalg.matrix_rank(columns, tol=1e-6 * np.abs(columns).max()) < 3:
        raise SurveyError("These heights decide no plane.", "Give one, or three that are not in one line.")
    else:
        plane = np.linalg.lstsq(columns, given[:, 2], rcond=None)[0]
    to_add = np.column_stack([places - places.mean(axis=0), np.ones(len(places))]) @ plane - heights
    return Fill(ground, to_add, -to_add)


def plane_with_fall(
    ground: Ground, heights: Numbers, low: tuple[float, float, float], toward: Spot, fall: float
) -> Fill:
    """Bring the surface to a plane through `low` that rises by `fall` (a share: 0.02 is 1 in 50) `toward`."""
    direction = np.array(toward) / max(float(np.hypot(*toward)), 1e-9)
    across = np.array([-direction[1], direction[0]])
    foot = np.array(low[:2])
    spots = [foot, foot + 1000.0 * direction, foot + 1000.0 * across]
    rises = (0.0, 1000.0 * fall, 0.0)
    fixed = [(float(p[0]), float(p[1]), low[2] + rise) for p, rise in zip(spots, rises, strict=True)]
    return plane_fill(ground, heights, fixed)


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
    fans = fans_for(ground.mesh, [over for over, _ in limits])
    for _ in range(_MOST_ROUNDS):
        broken = _broken(ground.mesh, readings + added - removed, limits, fans)
        if not broken:
            break
        program.add(sums_of_chords(ground.mesh, broken))
        worst = max(chord.depth - limit for chord, _, limit in broken)
        if worst <= _NEARLY:
            program.tighten(2.0 * worst)
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


def _broken(mesh: Mesh, readings: Numbers, limits: Limits, fans: Fans) -> list[tuple[Chord, float, float]]:
    """Return chords that break a limit on the whole surface, some from each corner of the mesh.

    Chords between corners are followed only once none from a corner breaks a limit.
    """
    heights = mesh.heights(readings)
    least = [(over, limit + _BROKEN / 2.0) for over, limit in limits]
    broken = deeper_than(mesh, heights, least, fans, _CHORDS_EACH)
    overs, bounds = [over for over, _ in limits], tuple(limit for _, limit in least)
    for search in (replace(_FOLLOWED, only_above=bounds), Search(only_above=bounds)):
        found = [] if broken else deepest(mesh, heights, overs, fans, search)
        broken += [row for k, one in enumerate(found) for row in _over_limit(one, least[k // 2][1])]
    return broken


def _over_limit(found: Deepest, limit: float) -> Iterator[tuple[Chord, float, float]]:
    sign = -1.0 if found.is_rise else 1.0
    for chord in found.chords:
        if chord.depth > limit:
            yield chord, sign, limit
