"""The parts that a shrinking polygon falls into, by the circles they vanish to.

A part vanishes at a point as far from three sides whose normals surround it, which the strip of no other side
has reached. Two sides that meet in an inward corner, or belong to one inward curve, hold no circle together:
past their corner it could always slip to one side.
"""

from __future__ import annotations

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.curves import Curves
from tilelayout.geometry.inscribed import triple_radii, triples
from tilelayout.geometry.sides import Sides

Numbers = NDArray[np.float64]
Places = NDArray[np.intp]

_SLACK = 1e-7


def part_radii(sides: Sides, curves: Curves) -> Numbers:
    """Return the radii of the circles to which parts of one polygon vanish."""
    chosen = _facing_triples(sides, curves)
    radii = triple_radii(sides.normals, sides.offsets, chosen)
    chosen = chosen[:, (radii > _SLACK) & np.isfinite(radii)]
    if not chosen.size:
        return np.empty(0)
    normals = np.moveaxis(sides.normals[chosen], 0, 1)
    equations = np.concatenate([normals, -np.ones((*normals.shape[:2], 1))], axis=2)
    solved = np.linalg.solve(equations, sides.offsets[chosen].T[..., None])[..., 0]
    centres, radii = solved[:, :2], solved[:, 2]
    depths = sides.depths(centres)
    beside = sides.meets(centres, depths, _SLACK)
    held = np.take_along_axis(beside, chosen.T, axis=1).all(axis=1)
    reached = np.any(beside & (depths > -_SLACK) & (depths < radii[:, None] - _SLACK), axis=1)
    free = np.flatnonzero(held & ~reached)
    return np.asarray(radii[free[sides.contain(centres[free])]])


def _facing_triples(sides: Sides, curves: Curves) -> Places:
    """Return the triples of sides (3, t) that may hold a circle."""
    curved = (curves.owner >= 0) & (sides.bends_in | sides.bends_in[sides.before])
    plain = np.flatnonzero(~curved)
    groups = [np.flatnonzero(curved & (curves.owner == curve)) for curve in range(len(curves.radii))]
    groups = [group for group in groups if len(group)]
    found = [plain[triples(len(plain))], *_with_curves(plain, groups)]
    chosen = np.concatenate(found, axis=1)
    apart = np.ones((len(curved), len(curved)), dtype=bool)
    corners = np.flatnonzero(sides.bends_in)
    apart[corners, sides.next[corners]] = apart[sides.next[corners], corners] = False
    i, j, k = chosen
    return chosen[:, apart[i, j] & apart[j, k] & apart[i, k]]


def _with_curves(plain: Places, groups: list[Places]) -> list[Places]:
    """Triples that take at most one side from each group, and at least one from any."""
    pairs = plain[np.array(list(combinations(range(len(plain)), 2)), dtype=np.intp).reshape(-1, 2).T]
    found = [_each_with(pairs, group) for group in groups]
    for first, second in combinations(groups, 2):
        both = _each_with(first[None], second)
        found.append(_each_with(both, plain))
    for first, second, third in combinations(groups, 3):
        found.append(_each_with(_each_with(first[None], second), third))
    return found


def _each_with(tuples: Places, more: Places) -> Places:
    """Join every column of `tuples` (s, t) with each of `more` (m,): (s + 1, t * m)."""
    return np.concatenate([np.repeat(tuples, len(more), axis=1), np.tile(more, tuples.shape[1])[None]])
