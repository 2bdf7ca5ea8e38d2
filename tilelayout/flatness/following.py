"""Follows deep chords to where they lie deepest, when the straightedge's length keeps them off the corners.

A chord of full length may lie deepest with its ends inside triangles. From several good ones the near end
and the looked-at place are moved a step in many directions at once, the far end keeping the full length; the
best move is taken, and the step is halved when none is better. The directions are the same on every run. The
distance found is always that of a real chord.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.flatness.mesh import Mesh, Numbers, Points
from tilelayout.flatness.values import Chord

_SMALLEST_STEP = 1e-5
_LARGEST_STEP = 0.25
"""The first step, as a share of the longest side of a triangle."""

_MOVES = 36


def followed(mesh: Mesh, heights: Numbers, over: float, starts: Sequence[Chord], rounds: int) -> list[Chord]:
    """Return, for each start, the chord of length `over` found from it that lies deepest below.

    `heights` (v,) are those of the mesh's corners. A chord may be no deeper than its start. The search ends
    after so many rounds.
    """
    now = np.array([(*start.start, *start.at) for start in starts])
    depth = _depths(mesh, heights, over, now)
    step = np.full(len(now), _LARGEST_STEP * mesh.longest)
    directions = np.random.default_rng(1)
    for _ in range(rounds):
        moving = np.flatnonzero((step > _SMALLEST_STEP) & np.isfinite(depth))
        if not len(moving):
            break
        tried = now[moving, None, :] + step[moving, None, None] * _moves(directions)
        depths = _depths(mesh, heights, over, tried.reshape(-1, 4)).reshape(len(moving), -1)
        best = np.argmax(depths, axis=1)
        is_better = depths[np.arange(len(moving)), best] > depth[moving] + 1e-10
        better = moving[is_better]
        now[better] = tried[is_better, best[is_better]]
        depth[better] = depths[is_better, best[is_better]]
        step[moving[~is_better]] /= 2.0
    ends = _ends(now, over)
    return [_chord(*row) for row in zip(now.tolist(), ends.tolist(), depth.tolist(), strict=True)]


def _moves(directions: np.random.Generator) -> Numbers:
    """Moves (k, 4) of the start and the place, in steps: along the axes, together, and in all directions."""
    axes = np.concatenate([np.eye(4), -np.eye(4)])
    together = axes + np.roll(axes, 2, axis=1)
    turned = directions.normal(size=(_MOVES, 4)) * np.geomspace(0.25, 1.5, _MOVES)[:, None]
    return np.concatenate([axes, together[:4], -together[:4], turned])


def _chord(now: list[float], end: list[float], depth: float) -> Chord:
    return Chord((now[0], now[1]), (end[0], end[1]), (now[2], now[3]), depth)


def _ends(tried: Numbers, over: float) -> Points:
    """The far ends (k, 2) of chords of length `over` from a start through a place."""
    along = tried[:, 2:] - tried[:, :2]
    far = np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-9)
    return np.asarray(tried[:, :2] + along * (over / far)[:, None])


def _depths(mesh: Mesh, heights: Numbers, over: float, tried: Numbers) -> Numbers:
    """How far the surface lies below each chord at its place; minus infinity where there is no such chord."""
    ends = _ends(tried, over)
    share = np.hypot(*(tried[:, 2:] - tried[:, :2]).T) / over
    count = len(tried)
    known = mesh.heights_at(np.concatenate([tried[:, :2], tried[:, 2:], ends]), heights)
    first, here, last = known[:count], known[count : 2 * count], known[2 * count :]
    depths = first + share * (last - first) - here
    good: NDArray[np.bool_] = (share > 0.0) & (share < 1.0) & ~np.isnan(depths)
    if not mesh.is_convex and good.any():
        lines = np.asarray(shapely.linestrings(np.stack([tried[good, :2], ends[good]], axis=1)))
        good[good] = mesh.covers(lines)
    return np.where(good, depths, -np.inf)
