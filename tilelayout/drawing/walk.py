"""In which order the places of a grid are read: rows to and fro, as a person walks them with a level.

The rows start at one corner of the surface; the last place of a row and the last row stand at the far wall
even where the step does not come out, so that nothing is left out there.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.geometry.arcs import circle_points
from tilelayout.job.shapes import outline_ring
from tilelayout.job.values import Cutout, Point, Surface


class StartCorner(StrEnum):
    """Where the first reading is taken, as the surface is drawn."""

    LOWER_LEFT = "lower left"
    LOWER_RIGHT = "lower right"
    UPPER_LEFT = "upper left"
    UPPER_RIGHT = "upper right"


class Direction(StrEnum):
    """Which way the rows run."""

    ACROSS = "across"
    UP = "up"


@dataclass(frozen=True)
class Walk:
    """A grid of `step` mm, `from_wall` mm in from the walls, read from a corner in rows to and fro."""

    step: float = 300.0
    from_wall: float = 50.0
    corner: StartCorner = StartCorner.LOWER_LEFT
    direction: Direction = Direction.ACROSS


MOST_PLACES = 5000
"""A grid that has more places than anyone reads is given up."""

_LEAST_REST = 0.25
"""A rest at the far wall of less than this share of the step gets no place of its own."""


def places_of(surface: Surface, walk: Walk) -> tuple[Point, ...]:
    """Return the places to read on a surface, in order; none where there would be too many."""
    ring = np.asarray(outline_ring(surface))
    low, high = ring.min(axis=0) + walk.from_wall, ring.max(axis=0) - walk.from_wall
    if np.any(high <= low) or np.prod((high - low) / walk.step + 2.0) > MOST_PLACES:
        return ()
    xs = _stops(float(low[0]), float(high[0]), walk.step, from_high="right" in walk.corner)
    ys = _stops(float(low[1]), float(high[1]), walk.step, from_high="upper" in walk.corner)
    ground = _ground(surface, ring, walk.from_wall)
    return tuple(point for point in _to_and_fro(xs, ys, walk.direction) if _is_on(ground, point))


def _stops(low: float, high: float, step: float, *, from_high: bool) -> list[float]:
    """Return the stops from one end to the other, the far end among them."""
    count = int((high - low) / step + 1e-9)
    found = [step * k for k in range(count + 1)]
    rest = high - low - found[-1]
    if rest > _LEAST_REST * step:
        found.append(high - low)
    elif count:
        found[-1] = high - low
    return [high - each if from_high else low + each for each in found]


def _to_and_fro(xs: list[float], ys: list[float], direction: Direction) -> list[Point]:
    across = direction is Direction.ACROSS
    rows, places = (ys, xs) if across else (xs, ys)
    walked: list[Point] = []
    for at, row in enumerate(rows):
        for place in places if at % 2 == 0 else reversed(places):
            walked.append((place, row) if across else (row, place))
    return walked


def _ground(surface: Surface, ring: NDArray[np.float64], rim: float) -> shapely.Geometry:
    """The surface less its cutouts, half of `rim` in from every edge, ready to be asked."""
    inside = shapely.Polygon(ring)
    taken = [_shape(cutout) for cutout in surface.cutouts]
    free = shapely.difference(inside, shapely.union_all(taken)) if taken else inside
    ground = shapely.buffer(free, -rim / 2.0 + 1e-6, join_style="mitre")
    shapely.prepare(ground)
    return ground


def _shape(cutout: Cutout) -> shapely.Polygon:
    if cutout.circle is not None:
        return shapely.Polygon(circle_points(cutout.circle.centre, cutout.circle.diameter / 2.0))
    return shapely.Polygon(cutout.polygon)


def _is_on(ground: shapely.Geometry, point: Point) -> bool:
    return bool(shapely.intersects_xy(ground, *point))
