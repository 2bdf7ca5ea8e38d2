"""In which order the places of a grid are read: rows to and fro, as a person walks them with a level.

Rows and places are spread evenly between the walls, no further apart than the step, so that the last does
not stand a hand's breadth beside the one before. The grid is one for the whole surface, arms included: it
is even, which is what straightedges are laid on quickest. Its steps are rounded down to what a tape shows;
the little that this leaves over is left at the far wall.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import ceil

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.base.units import FOOT, INCH, LengthStyle
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
    """A grid of at most `step` mm, `from_wall` mm in from the walls, read from a corner in rows to and fro.

    The steps it comes out at are multiples of `mark` mm.
    """

    step: float = 300.0
    from_wall: float = 50.0
    corner: StartCorner = StartCorner.LOWER_LEFT
    direction: Direction = Direction.ACROSS
    mark: float = 1.0


def usual_walk(style: LengthStyle) -> Walk:
    """Return the walk for a person who measures in these lengths: round in them, and marked on the tape.

    >>> usual_walk(LengthStyle.FEET).step
    304.8
    """
    inch = float(INCH)
    return Walk() if style.is_metric else Walk(float(FOOT), 2 * inch, mark=inch / 16)


MOST_PLACES = 5000
"""A grid that has more places than anyone reads is given up."""

_FULL = 1e-6
"""A last step that is over by this (mm) is rounding."""


def places_of(surface: Surface, walk: Walk) -> tuple[Point, ...]:
    """Return the places to read on a surface, in order; none where there would be too many."""
    ring = np.asarray(outline_ring(surface))
    low, high = ring.min(axis=0) + walk.from_wall, ring.max(axis=0) - walk.from_wall
    if np.any(high <= low) or np.prod((high - low) / walk.step + 2.0) > MOST_PLACES:
        return ()
    xs = _stops(float(low[0]), float(high[0]), walk, from_high="right" in walk.corner)
    ys = _stops(float(low[1]), float(high[1]), walk, from_high="upper" in walk.corner)
    ground = _ground(surface, ring, walk.from_wall)
    return tuple(point for point in _to_and_fro(xs, ys, walk.direction) if _is_on(ground, point))


def steps_of(surface: Surface, walk: Walk) -> tuple[float, float]:
    """Return how far apart the places come out across and up, mm; 0 where the margins meet."""
    spans = np.ptp(np.asarray(outline_ring(surface)), axis=0) - 2.0 * walk.from_wall
    across, up = (_even_step(float(span), walk)[1] if span > 0.0 else 0.0 for span in spans)
    return across, up


def _even_step(span: float, walk: Walk) -> tuple[int, float]:
    """How many steps lead over a span, and how long each is."""
    count = max(1, ceil((span - _FULL) / walk.step))
    even = span / count
    return count, int((even + _FULL) / walk.mark) * walk.mark or even


def _stops(low: float, high: float, walk: Walk, *, from_high: bool) -> list[float]:
    """Return the stops from one end to the other."""
    count, step = _even_step(high - low, walk)
    return [high - step * k if from_high else low + step * k for k in range(count + 1)]


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
