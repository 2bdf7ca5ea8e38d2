"""Floors for the tests of flatness: grids of readings, and plain ways to measure them."""

from __future__ import annotations

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from tilelayout.flatness.mesh import Mesh

Numbers = NDArray[np.float64]

SLAB = {
    0: "418.617 419.938 421.894 423.748 425.221 424.739 423.799 424.307 425.425 424.688 423.164 422.758 "
    "420.472 416.738",
    2: "418.338 419.659 419.227 419.227 418.668 418.186 418.973 419.379 420.141 419.532 418.643 418.719 "
    "416.763 414.782",
    3: "418.617 418.973 419.100 420.878 419.989 419.227 419.684 420.751 420.065 421.259 421.386 418.846 "
    "419.887 418.363",
}
"""Elevations in mm at 300 mm steps along three lines of a concrete slab of 3.36 m x 6.11 m, as published on a
sheet of the Stanford accelerator laboratory, "SPEAR3 concrete test pad"."""


def slab(line: int) -> Numbers:
    return np.array([float(text) for text in SLAB[line].split()])


def grid(columns: int, rows: int, step: float = 300.0) -> Numbers:
    """Places (n, 2) of an even grid, row by row."""
    x, y = np.meshgrid(np.arange(columns) * step, np.arange(rows) * step)
    return np.column_stack([x.ravel(), y.ravel()])


def rough(count: int, seed: int, size: float = 1.0) -> Numbers:
    return np.random.default_rng(seed).normal(size=count) * size


def turned(places: Numbers, angle: float) -> Numbers:
    c, s = np.cos(angle), np.sin(angle)
    return np.asarray(places @ np.array([[c, s], [-s, c]]) + [412.7, -93.1])


def deepest_between_readings(places: Numbers, heights: Numbers, over: float) -> float:
    """Every three readings in one line, one by one: how far the middle one lies below the outer two."""
    worst = 0.0
    for i, k in combinations(range(len(places)), 2):
        along = places[k] - places[i]
        length = float(np.hypot(*along))
        if length > over + 1e-6:
            continue
        for j in range(len(places)):
            to = places[j] - places[i]
            share = float(to @ along) / length**2
            if 0 < share < 1 and abs(float(along[0] * to[1] - along[1] * to[0])) < 1e-6 * length:
                chord = heights[i] + share * (heights[k] - heights[i])
                worst = max(worst, float(chord - heights[j]))
    return worst


def deepest_at_random(mesh: Mesh, heights: Numbers, over: float, count: int, seed: int = 3) -> float:
    """The deepest of many straightedges thrown on the surface."""
    rng = np.random.default_rng(seed)
    low, high = mesh.places.min(axis=0), mesh.places.max(axis=0)
    starts = rng.uniform(low, high, (count, 2))
    angle = rng.uniform(0, 2 * np.pi, count)
    length = np.minimum(rng.uniform(0, 1.5 * float((high - low).max()), count), over)
    ends = starts + np.column_stack([np.cos(angle), np.sin(angle)]) * length[:, None]
    share = rng.uniform(0, 1, count)
    at = starts + share[:, None] * (ends - starts)
    first, last, here = (mesh.heights_at(points, heights) for points in (starts, ends, at))
    return float(np.nanmax(first + share * (last - first) - here))
