"""The widest narrowest cut by trying every start on a raster: plain, and without a word of the program's.

In rooms of right angles without a least piece, a start is as good as its least cut, and the cuts at upright
walls depend on x and on the rows that the wall meets, those at level walls on y. So x and y are scanned one
after the other, each over all its values.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
FLUSH = 1e-6


@dataclass(frozen=True)
class Wall:
    """A straight wall at `at`, from `low` to `high` across; `side` is +1 if the floor lies beyond it."""

    at: float
    low: float
    high: float
    side: int


@dataclass(frozen=True)
class Rows:
    """Tiles `length` by `width` a joint apart, row k shifted by `offsets[k mod n]` coordinating lengths."""

    length: float
    width: float
    joint: float
    offsets: tuple[float, ...]


def walls_of(rings: list[list[tuple[float, float]]]) -> tuple[list[Wall], list[Wall]]:
    """Return the upright and the level walls of rings that have the floor on their left."""
    upright, level = [], []
    for ring in rings:
        for (x, y), (to_x, to_y) in zip(ring, ring[1:] + ring[:1], strict=True):
            if abs(x - to_x) < FLUSH:
                upright.append(Wall(x, min(y, to_y), max(y, to_y), 1 if to_y < y else -1))
            else:
                level.append(Wall(y, min(x, to_x), max(x, to_x), 1 if to_x > x else -1))
    return upright, level


def widest(rings: list[list[tuple[float, float]]], rows: Rows, step: float, least: float = 0.0) -> float:
    """Return the widest narrowest cut over all starts of a raster; a tile's own where nothing is cut."""
    upright, level = walls_of(rings)
    along, up = rows.length + rows.joint, rows.width + rows.joint
    xs, ys = np.arange(0.0, along, step), np.arange(0.0, up * len(rows.offsets), step)
    heights = np.full(len(ys), min(rows.length, rows.width))
    for wall in level:
        heights = np.minimum(heights, _cut(wall, ys, rows.width, up, least))
    best: dict[frozenset[tuple[int, int]], float] = {}
    found = 0.0
    for y, height in zip(ys, heights, strict=True):
        if height > found:
            met = _met(upright, float(y), rows)
            if met not in best:
                best[met] = _best_along(upright, met, xs, rows, least)
            found = max(found, min(height, best[met]))
    return found


def _best_along(
    upright: list[Wall], met: frozenset[tuple[int, int]], xs: Numbers, rows: Rows, least: float
) -> float:
    along, widths = rows.length + rows.joint, np.full(len(xs), np.inf)
    for at, row in met:
        starts = xs + rows.offsets[row] * along
        widths = np.minimum(widths, _cut(upright[at], starts, rows.length, along, least))
    return float(widths.max())


def _cut(wall: Wall, starts: Numbers, size: float, module: float, least: float) -> Numbers:
    """What is left of the tile that a wall runs through; infinite if there is none or no piece is left."""
    into = (wall.at - starts) - np.floor((wall.at - starts) / module) * module
    left = size - into if wall.side > 0 else into
    uncut = (into < FLUSH) | (into > size - FLUSH) | (left < least - FLUSH)
    return np.where(uncut, np.inf, left)


def _met(upright: list[Wall], y: float, rows: Rows) -> frozenset[tuple[int, int]]:
    """Which walls meet which of the differing rows."""
    up, met = rows.width + rows.joint, set()
    for at, wall in enumerate(upright):
        for k in range(int((wall.low - y) // up) - 1, int((wall.high - y) // up) + 2):
            low = y + k * up
            if min(low + rows.width, wall.high) - max(low, wall.low) > FLUSH:
                met.add((at, k % len(rows.offsets)))
    return frozenset(met)
