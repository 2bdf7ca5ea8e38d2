"""What is raced over: an L-shaped room with four holes, scaled to the number of tiles, in five patterns."""

from __future__ import annotations

from math import cos, pi, sin, sqrt

import numpy as np

from tests.benchmarks.rivals import Course
from tests.rooms import HEXAGON, PLANK, SQUARE, layout_of
from tilelayout.job.values import Cutout, Layout, Point, Surface, Tile
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of

SIZES = (60, 250, 1_000, 4_000, 16_000, 100_000)

PATTERNS: dict[str, tuple[Tile, Layout]] = {
    "grid": (SQUARE, layout_of(SQUARE)),
    "third bond": (PLANK, layout_of(PLANK, row_offsets=(0, 1 / 3, 2 / 3))),
    "herringbone": (PLANK, layout_of(PLANK, "herringbone")),
    "hexagon": (HEXAGON, layout_of(HEXAGON, "hexagon")),
    "diagonal": (SQUARE, layout_of(SQUARE, angle=45)),
}

_OUTLINE = ((0, 0), (1, 0), (1, 0.6), (0.55, 0.6), (0.55, 1), (0, 1))
_BOXES = ((0.2, 0.2, 0.13, 0.1), (0.7, 0.35, 0.1, 0.12), (0.62, 0.1, 0.05, 0.08))
_ROUND = (0.3, 0.7, 0.07)
_COVERED = 0.82 - 0.029 - pi * 0.07**2


def course(pattern: str, tiles: int) -> Course:
    """Return the room that takes about so many tiles of the pattern."""
    tile, layout = PATTERNS[pattern]
    cell = cell_of(layout, tile)
    one = abs(float(np.linalg.det(cell.vectors))) / len(cell.faces)
    side = sqrt(tiles * one / _COVERED)
    return Course(region_of(_room(side), 0.0), cell, layout.angle, (17.3, -8.1))


def _room(side: float) -> Surface:
    x, y, radius = (size * side for size in _ROUND)
    circle = tuple((x + radius * cos(k * pi / 32), y + radius * sin(k * pi / 32)) for k in range(64))
    boxes = tuple(_box(*(size * side for size in box)) for box in _BOXES)
    outline = tuple((x * side, y * side) for x, y in _OUTLINE)
    return Surface(id="hall", outline=outline, cutouts=(*boxes, Cutout(polygon=circle)))


def _box(x: float, y: float, width: float, depth: float) -> Cutout:
    corners: tuple[Point, ...] = ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth))
    return Cutout(polygon=corners)
