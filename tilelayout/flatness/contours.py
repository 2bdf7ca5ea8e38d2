"""Contours of a surface of flat triangles: a line of equal height is exactly straight pieces there.

A corner at the very height counts as above it, so that a line through a corner is found once.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.flatness.mesh import Mesh, Numbers, Points


@dataclass(frozen=True, eq=False)
class Contour:
    """The straight pieces (k, 2, 2) along which the surface has the height `level`."""

    level: float
    pieces: Points


def levels_between(low: float, high: float, step: float) -> list[float]:
    """Return the whole multiples of a step strictly between two heights.

    >>> levels_between(-1.2, 2.0, 1.0)
    [-1.0, 0.0, 1.0]
    """
    first, last = int(np.floor(low / step + 1e-9)) + 1, int(np.ceil(high / step - 1e-9))
    return [count * step for count in range(first, last)]


def contours(mesh: Mesh, heights: Numbers, levels: Iterable[float]) -> tuple[Contour, ...]:
    """Return the contour at each level; `heights` (v,) of the mesh's corners."""
    corners, at = mesh.places[mesh.triangles], heights[mesh.triangles]
    return tuple(Contour(level, _crossing(corners, at - level)) for level in levels)


def _crossing(corners: Points, over: Numbers) -> Points:
    """Where triangles (f, 3, 2) with heights (f, 3) over a level cross it: pieces (k, 2, 2)."""
    is_above = over >= 0.0
    met = (is_above.sum(axis=1) % 3) != 0
    corners, over, is_above = corners[met], over[met], is_above[met]
    lone = np.argmax(is_above == (is_above.sum(axis=1) == 1)[:, None], axis=1)
    rows = np.arange(len(lone))
    ends = []
    for step in (1, 2):
        other = (lone + step) % 3
        share = over[rows, lone] / (over[rows, lone] - over[rows, other])
        ends.append(corners[rows, lone] + share[:, None] * (corners[rows, other] - corners[rows, lone]))
    pieces = np.stack(ends, axis=1) if len(rows) else np.empty((0, 2, 2))
    return np.asarray(pieces[np.hypot(*(pieces[:, 1] - pieces[:, 0]).T) > 1e-9])


def label_place(contour: Contour, clear_of: Points) -> Points | None:
    """Return where (2,) the height is best written: on the line, as far as can be from points (n, 2)."""
    if not len(contour.pieces):
        return None
    middles = contour.pieces.mean(axis=1)
    off = middles[:, None] - clear_of[None]
    nearest = np.hypot(off[..., 0], off[..., 1]).min(axis=1, initial=np.inf)
    return np.asarray(middles[int(np.argmax(np.round(nearest, 6)))])


def ground_over(mesh: Mesh, heights: Numbers, level: float) -> shapely.Geometry:
    """Return the ground on which heights (v,) of the mesh's corners are over a level."""
    corners, over = mesh.places[mesh.triangles], heights[mesh.triangles] - level
    parts = [_over(ring, each) for ring, each in zip(corners, over, strict=True) if each.max() > 0.0]
    return shapely.union_all([shapely.Polygon(part) for part in parts if len(part) > 2], grid_size=1e-6)


def _over(ring: Points, over: Numbers) -> list[Points]:
    """The part of a triangle (3, 2) that is over nought, as corners in order."""
    found = []
    for k in range(3):
        nxt = (k + 1) % 3
        if over[k] >= 0.0:
            found.append(ring[k])
        if (over[k] >= 0.0) != (over[nxt] >= 0.0):
            found.append(ring[k] + over[k] / (over[k] - over[nxt]) * (ring[nxt] - ring[k]))
    return found
