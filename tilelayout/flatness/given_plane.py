"""The plane that meets given heights and takes the least: a linear program in what they leave free.

One given height leaves the plane two tilts, two leave it one, none leaves it all three; three decide it. Of
the planes left the one is taken that nothing stands above and that takes the least volume. Where something
may be ground off, or has to be since every plane that meets the heights runs below the surface somewhere,
the volume ground off counts as so many times the volume filled.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tilelayout.flatness.mesh import Numbers, Places, Points
from tilelayout.flatness.programs import silent_solver

_SAME = 1e-9
"""Heights given at places in one line decide no tilt across it: singular values below this share are none."""

_UNDER = 1e-8
"""How much deeper than the least may be ground off (mm) while the volumes are made small."""


@dataclass(frozen=True, eq=False)
class GivenPlane:
    """A plane of `tilt` (2,) and `height` at the place `at` (2,).

    `missed` (k,) is how far it runs above each given height: nought unless they lie in no one plane.
    """

    tilt: Numbers
    at: Points
    height: float
    missed: Numbers

    def heights(self, points: Points) -> Numbers:
        """Return the height (p,) of the plane at points (p, 2)."""
        return np.asarray((points - self.at) @ self.tilt + self.height)


@dataclass(frozen=True)
class Grinding:
    """How deep may be ground off, mm, if need be deeper; and how many times it counts beside filling."""

    most: float = 0.0
    counts: float = 5.0


NO_GRINDING = Grinding()


def plane_meeting(
    given: Sequence[tuple[float, float, float]],
    places: Points,
    heights: Numbers,
    weights: Numbers,
    grinding: Grinding = NO_GRINDING,
) -> GivenPlane:
    """Return the plane through `given` (x, y, height) over a surface of `heights` (n,) at `places` (n, 2).

    `weights` (n,) is the volume that a mm more at each place takes; where it is nought the surface does not
    count. Given heights that lie in no one plane are missed by as little as can be, by least squares.
    """
    on = weights > 0.0
    places, heights, weights = places[on], heights[on], weights[on] / weights[on].sum()
    middle = weights @ places
    size = float(np.abs(places - middle).max())
    met = np.array(given, dtype=float).reshape(-1, 3)
    fixed, free = _left_free(_level(met[:, :2], middle, size), met[:, 2])
    level = _level(places, middle, size)
    plane = fixed + free @ _least(level @ free, heights - level @ fixed, weights, grinding)
    missed = _level(met[:, :2], middle, size) @ plane - met[:, 2]
    return GivenPlane(plane[:2] / size, middle, float(plane[2]), missed)


def _level(points: Points, middle: Points, size: float) -> Numbers:
    """The rows (p, 3) that a plane's two tilts (over `size`) and height at the middle are multiplied by."""
    return np.column_stack([(points - middle) / size, np.ones(len(points))])


def _left_free(rows: Numbers, heights: Numbers) -> tuple[Numbers, Numbers]:
    """A plane (3,) nearest to the given heights, and the ways (3, f) in which it may still be moved."""
    if not len(rows):
        return np.zeros(3), np.eye(3)
    _, values, ways = np.linalg.svd(rows)
    rank = int(np.sum(values > _SAME * values[0]))
    nearest = np.linalg.lstsq(rows, heights, rcond=_SAME)[0]
    return np.asarray(nearest), np.asarray(ways[rank:].T, dtype=float)


def _least(ways: Numbers, above: Numbers, weights: Numbers, grinding: Grinding) -> Numbers:
    """How far (f,) to go each free way so that no more stands above than may or must be, at least volume.

    `ways` (n, f) lift each place, by which it should come up to `above` (n,).
    """
    count, nothing = ways.shape[1], np.zeros(len(ways), dtype=np.intp)
    if not count:
        return np.empty(0)
    deepest = float(_solved(ways, above, nothing, np.zeros(count), np.ones(1), np.inf)[count])
    most = max(deepest, grinding.most)
    if most <= _UNDER:
        return _solved(ways, above, nothing, weights @ ways, np.zeros(1), _UNDER)[:count]
    each = np.arange(len(ways))
    ground_off = (1.0 + grinding.counts) * weights
    return _solved(ways, above, each, weights @ ways, ground_off, most + _UNDER)[:count]


def _solved(
    ways: Numbers, above: Numbers, lowered: Places, costs: Numbers, lowering_costs: Numbers, most: float
) -> Numbers:
    """Return the free ways (f,), then how much each group of places is lowered, at least cost.

    Place i is lowered with group `lowered[i]`, by 0 to `most`, and has to come up to `above[i]` less that.
    """
    (rows, count), groups = ways.shape, len(lowering_costs)
    solver = silent_solver()
    for cost in costs.tolist():
        solver.addCol(cost, -np.inf, np.inf, 0, [], [])
    for cost in lowering_costs.tolist():
        solver.addCol(cost, 0.0, most, 0, [], [])
    columns = np.column_stack([np.tile(np.arange(count), (rows, 1)), count + lowered]).astype(np.int32)
    shares = np.column_stack([ways, np.ones(rows)])
    first = np.arange(rows, dtype=np.int32) * (count + 1)
    ceiling = np.full(rows, np.inf)
    solver.addRows(rows, above, ceiling, shares.size, first, columns.ravel(), shares.ravel())
    solver.run()
    return np.array(solver.getSolution().col_value[: count + groups])
