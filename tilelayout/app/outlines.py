"""Outlines that follow from a few typed sizes: a plain room, an edge made longer, a cutout in the middle.

A typed wall length moves the whole next wall along with it, so that a square corner stays square: that is
what a tape along one wall says.
"""

from __future__ import annotations

import math

from msgspec.structs import replace

from tilelayout.base.errors import EditError
from tilelayout.job.edits.corners import bent_along
from tilelayout.job.values import Circle, Cutout, Edge, Point, Surface


def plain_room(width: float, height: float) -> tuple[Point, ...]:
    """Return the corners of a rectangle with its lower left corner at (0, 0).

    >>> plain_room(3000.0, 2000.0)
    ((0.0, 0.0), (3000.0, 0.0), (3000.0, 2000.0), (0.0, 2000.0))
    """
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


def edge_length(surface: Surface, at: int) -> float:
    """Return the straight distance between the ends of edge `at`."""
    return math.dist(*_ends(surface.outline, at))


def with_edge_length(outline: tuple[Point, ...], at: int, length: float) -> tuple[Point, ...]:
    """Return the outline with edge `at` made `length` long; the edge that follows moves along unturned.

    >>> with_edge_length(plain_room(3000.0, 2000.0), 0, 3500.0)
    ((0.0, 0.0), (3500.0, 0.0), (3500.0, 2000.0), (0.0, 2000.0))
    """
    (x, y), (to_x, to_y) = _ends(outline, at)
    old = math.dist((x, y), (to_x, to_y))
    if old == 0:
        raise EditError("This edge has no length.", "Move one of its corners first.")
    shift_x, shift_y = ((length / old - 1) * run for run in (to_x - x, to_y - y))
    count = len(outline)
    moved = {(at + 1) % count, (at + 2) % count} - {at}
    return tuple(
        (px + shift_x, py + shift_y) if index in moved else (px, py) for index, (px, py) in enumerate(outline)
    )


def resized(surface: Surface, at: int, length: float) -> tuple[tuple[Point, ...], tuple[Edge, ...]]:
    """Return outline and edges with edge `at` made `length` long; every arc keeps its form."""
    outline = with_edge_length(surface.outline, at, length)
    return outline, tuple(bent_along(surface.edges, surface.outline, outline))


def rise_of(surface: Surface, at: int) -> float:
    """Return how far edge `at` bows out of the room from its straight run; negative: into the room."""
    through = surface.edge(at).through
    if through is None:
        return 0.0
    (x, y), (to_x, to_y) = _ends(surface.outline, at)
    run = math.dist((x, y), (to_x, to_y))
    return _side(surface) * ((through[0] - x) * (to_y - y) - (through[1] - y) * (to_x - x)) / run


def point_of_rise(surface: Surface, at: int, rise: float) -> Point:
    """Return the middle of the arc over edge `at` that bows out of the room by `rise`."""
    (x, y), (to_x, to_y) = _ends(surface.outline, at)
    out = rise * _side(surface) / math.dist((x, y), (to_x, to_y))
    return ((x + to_x) / 2 + (to_y - y) * out, (y + to_y) / 2 - (to_x - x) * out)


def _side(surface: Surface) -> float:
    """Return 1 if the outline turns counter-clockwise, so that out lies to the right; else -1."""
    corners = surface.outline
    ends = zip(corners, corners[1:] + corners[:1], strict=True)
    return 1.0 if sum(x * to_y - to_x * y for (x, y), (to_x, to_y) in ends) > 0 else -1.0


def box_at(place: Cutout, left: float, bottom: float, width: float, height: float) -> Cutout:
    """Return the cutout as a rectangle with this lower left corner and size."""
    corners = tuple((left + x, bottom + y) for x, y in plain_room(width, height))
    return replace(place, polygon=corners, circle=None)


def round_at(place: Cutout, x: float, y: float, diameter: float) -> Cutout:
    """Return the cutout as a circle about (x, y)."""
    return replace(place, circle=Circle(centre=(x, y), diameter=diameter), polygon=None)


def bounds_of(points: tuple[Point, ...]) -> tuple[float, float, float, float]:
    """Return left, bottom, width and height of points."""
    across, up = [x for x, _ in points], [y for _, y in points]
    return min(across), min(up), max(across) - min(across), max(up) - min(up)


def moved_to(cutout: Cutout, left: float, bottom: float) -> Cutout:
    """Return a polygonal cutout moved until its bounds begin at (left, bottom)."""
    corners = cutout.polygon or ()
    old_left, old_bottom, _, _ = bounds_of(corners)
    moved = tuple((x + left - old_left, y + bottom - old_bottom) for x, y in corners)
    return replace(cutout, polygon=moved)


def _ends(outline: tuple[Point, ...], at: int) -> tuple[Point, Point]:
    return outline[at], outline[(at + 1) % len(outline)]
