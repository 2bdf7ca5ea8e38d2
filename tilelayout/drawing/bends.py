"""The rise and the radius of a bent edge, and the arc that has them.

The rise is the height of the arc over the straight line between the edge's corners; outward, away from the
surface, it counts as more than nothing.
"""

from __future__ import annotations

import math
from functools import lru_cache

from tilelayout.drawing.features import middle, unit
from tilelayout.drawing.moves import ends_of
from tilelayout.drawing.placing import Direction
from tilelayout.geometry.arcs import arc_through
from tilelayout.job.values import Point, Surface


def outward(surface: Surface, at: int) -> Direction:
    """Return the unit vector square to edge `at` that points away from the surface."""
    dx, dy = unit(*ends_of(surface, at))
    return (dy, -dx) if _runs_counter_clockwise(surface.outline) else (-dy, dx)


@lru_cache(maxsize=8)
def _runs_counter_clockwise(outline: tuple[Point, ...]) -> bool:
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) > 0


def chord_length(surface: Surface, at: int) -> float:
    """Return the straight distance between the corners of edge `at`."""
    return math.dist(*ends_of(surface, at))


def rise_of(surface: Surface, at: int) -> float:
    """Return the rise of edge `at`; 0 for a straight one."""
    through = surface.edge(at).through
    if through is None:
        return 0.0
    a, b = ends_of(surface, at)
    arc = arc_through(a, through, b)
    angle = math.radians(arc.start_angle + arc.sweep / 2)
    top = (arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle))
    return rise_to(surface, at, top)


def rise_to(surface: Surface, at: int, point: Point) -> float:
    """Return the rise that a point stands at over the straight line of edge `at`."""
    x, y = middle(*ends_of(surface, at))
    dx, dy = outward(surface, at)
    return (point[0] - x) * dx + (point[1] - y) * dy


def top_of(surface: Surface, at: int, rise: float) -> Point:
    """Return the middle of the arc with this rise over edge `at`."""
    x, y = middle(*ends_of(surface, at))
    dx, dy = outward(surface, at)
    return (x + dx * rise, y + dy * rise)


def radius_for(chord: float, rise: float) -> float:
    """Return the radius of the arc with this rise over a chord: (c^2 / 4 + h^2) / 2h.

    >>> radius_for(1000.0, 500.0)
    500.0
    """
    return (chord * chord / 4 + rise * rise) / (2 * abs(rise))


def rise_for(chord: float, radius: float) -> float:
    """Return the rise of the flatter arc of this radius over a chord; the radius is at least half of it."""
    half = chord / 2
    return radius - math.sqrt(max(radius * radius - half * half, 0.0))
