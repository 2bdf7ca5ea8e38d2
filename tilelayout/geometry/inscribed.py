"""The largest circle in a convex polygon, for many polygons at once.

Its radius r is the largest for which a point lies r or more inside every side: a linear program in three
unknowns. By duality r is the least, over triples of sides whose inward normals n can be weighted by shares
w >= 0 to cancel out, of the weighted sum of the sides' distances from any fixed point. Such triples need no
check against the other sides, so all of them, of all polygons, are one array expression.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]

_FEW_SIDES = 12
_PARALLEL = 1e-7
_NO_SHARE = -1e-12


@lru_cache(maxsize=64)
def triples(count: int) -> NDArray[np.intp]:
    """Return all triples i < j < k of `count` things: (3, t)."""
    i, j, k = np.meshgrid(*3 * [np.arange(count)], indexing="ij")
    rising = (i < j) & (j < k)
    return np.stack([i[rising], j[rising], k[rising]])


def inward_normals(starts: Points, ends: Points) -> tuple[Points, Numbers]:
    """Return unit normals (..., 2) to the left of the sides from `starts` to `ends`, and their lengths."""
    along = ends - starts
    lengths = np.hypot(along[..., 0], along[..., 1])
    return np.stack([-along[..., 1], along[..., 0]], axis=-1) / lengths[..., None], lengths


def triple_radii(normals: Points, offsets: Numbers, chosen: NDArray[np.intp]) -> Numbers:
    """Return, for each triple of sides, the radius of the circle they hold between them: (t, ...).

    `normals` (..., n, 2) are inward, `offsets` (..., n) their products with a point of each side. A triple
    that leaves a way out (its normals do not surround the origin) holds no circle: infinity.
    """
    x, y, offset = (
        np.ascontiguousarray(np.moveaxis(values, -1, 0))
        for values in (normals[..., 0], normals[..., 1], offsets)
    )
    (xi, xj, xk), (yi, yj, yk) = ([values[side] for side in chosen] for values in (x, y))
    first, second, third = xj * yk - yj * xk, xk * yi - yk * xi, xi * yj - yi * xj
    total = first + second + third
    with np.errstate(divide="ignore", invalid="ignore"):
        first, second, third = first / total, second / total, third / total
        radii = -(first * offset[chosen[0]] + second * offset[chosen[1]] + third * offset[chosen[2]])
        holds = (np.abs(total) > _PARALLEL) & (np.minimum(np.minimum(first, second), third) >= _NO_SHARE)
    return np.asarray(np.where(holds, radii, np.inf))


def inscribed_radii(rings: Points) -> Numbers:
    """Return the radius of the largest circle in each of m convex polygons of n sides: (m, n, 2) to (m,).

    The rings run counter-clockwise and have no repeated corners.
    """
    near_origin = rings - rings[:, :1]
    normals, _ = inward_normals(near_origin, np.roll(near_origin, -1, axis=1))
    offsets = np.sum(normals * near_origin, axis=-1)
    if rings.shape[1] > _FEW_SIDES:
        return np.array([_radius_of_many_sides(*sides) for sides in zip(normals, offsets, strict=True)])
    return np.asarray(triple_radii(normals, offsets, triples(rings.shape[1])).min(axis=0))


def held_radius(normals: Points, depths: Numbers) -> float:
    """Return the radius of the largest circle that lines hold between them; infinity if they leave a way out.

    `normals` (n, 2) are inward, `depths` (n,) how far one point, any point, lies inside each line.
    """
    if len(normals) > _FEW_SIDES:
        return _radius_of_many_sides(normals, -depths)
    return float(triple_radii(normals, -depths, triples(len(normals))).min(initial=np.inf))


def _radius_of_many_sides(normals: Points, offsets: Numbers) -> float:
    """Radius for one polygon of many sides: a few sides first, then whichever the circle oversteps most."""
    sides = list(range(0, len(normals), max(1, len(normals) // 6)))
    while True:
        chosen = np.array(sides)[triples(len(sides))]
        radii = triple_radii(normals, offsets, chosen)
        best = int(np.argmin(radii))
        radius = float(radii[best])
        if np.isinf(radius) and len(sides) < len(normals):  # the few leave a way out: take all
            sides = list(range(len(normals)))
            continue
        touched = chosen[:, best]
        equations = np.column_stack([normals[touched], -np.ones(3)])
        centre = np.linalg.lstsq(equations, offsets[touched], rcond=None)[0][:2]
        room = normals @ centre - offsets
        tightest = int(np.argmin(room))
        if room[tightest] >= radius - 1e-9 * (1.0 + radius) or tightest in sides:
            return radius
        sides.append(tightest)
