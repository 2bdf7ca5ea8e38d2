"""What makes a surface one that cannot be: too few corners, an outline that crosses itself, a lost cutout.

Each check presumes that the ones before it found nothing, so only the first problem is to be believed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import dist

import shapely

from tilelayout.base.tolerance import NO_AREA, SAME_PLACE
from tilelayout.job import limits
from tilelayout.job.limits import Problem, inside
from tilelayout.job.practice_checks import ground_problems
from tilelayout.job.shapes import height_over_chord, outline_ring
from tilelayout.job.values import Circle, Cutout, Edge, Point, Surface


def surface_problems(surface: Surface) -> Iterator[Problem]:
    """Return what is wrong with the surface, with places inside it ("outline[2]")."""
    yield from _corner_problems(surface.outline, "outline")
    yield from _edge_problems(surface)
    shape = shapely.Polygon(outline_ring(surface))
    yield from _shape_problems(shape, "outline", "The outline")
    for index, cutout in enumerate(surface.cutouts):
        name = f"The cutout “{cutout.name}”" if cutout.name else f"Cutout {index + 1}"
        yield from inside(f"cutouts[{index}]", _cutout_problems(cutout, name, shape))
    yield from ground_problems(surface)


def polygon_problems(corners: tuple[Point, ...], place: str, name: str) -> Iterator[Problem]:
    """Return what is wrong with a closed outline: its corners, what it encloses, where it crosses itself.

    `name` begins a sentence.
    """
    yield from _corner_problems(corners, place)
    yield from _shape_problems(shapely.Polygon(corners), place, name)


def _corner_problems(corners: tuple[Point, ...], place: str) -> Iterator[Problem]:
    if len(corners) < 3:
        yield Problem(place, f"There are {len(corners)} corners here.", "Give three corners or more.")
    for index, corner in enumerate(corners):
        yield from _point_problems(corner, f"{place}[{index}]")
    for index, corner in enumerate(corners):
        following = (index + 1) % len(corners)
        if dist(corner, corners[following]) < SAME_PLACE:
            what = "This corner stands where the one before it does."
            yield Problem(f"{place}[{following}]", what, "Leave one of the two out.")


def _point_problems(point: Point, place: str) -> Iterator[Problem]:
    for axis, value in enumerate(point):
        yield from limits.COORDINATE.problems(value, f"{place}[{axis}]")


def _edge_problems(surface: Surface) -> Iterator[Problem]:
    count = len(surface.outline)
    seen: set[int] = set()
    for index, edge in enumerate(surface.edges):
        place = f"edges[{index}]"
        if not 0 <= edge.at < count:
            mend = f"The edges of this outline are 0 to {count - 1}."
            yield Problem(f"{place}.at", f"There is no edge {edge.at}.", mend)
        if edge.at in seen:
            yield Problem(f"{place}.at", f"Edge {edge.at} is described twice.", "Keep one of the two.")
        seen.add(edge.at)
        yield from inside(place, _arc_problems(edge, surface.outline))


def _arc_problems(edge: Edge, outline: tuple[Point, ...]) -> Iterator[Problem]:
    if edge.through is None:
        return
    yield from _point_problems(edge.through, "through")
    start, end = outline[edge.at], outline[(edge.at + 1) % len(outline)]
    if height_over_chord(start, edge.through, end) < limits.FLATTEST_ARC:
        what = "The point that the arc runs through lies in line with its ends."
        yield Problem("through", what, "Move it off the straight line, or leave it out.")


def _shape_problems(shape: shapely.Polygon, place: str, name: str) -> Iterator[Problem]:
    if shape.convex_hull.area < limits.SMALLEST_SURFACE:
        what = f"{name} encloses {shape.convex_hull.area:g} mm² or less, which is next to nothing."
        yield Problem(place, what, "Check its corners: lengths are in mm.")
    if not shape.is_valid:
        where = re.search(r"\[(\S+) (\S+)\]", shapely.is_valid_reason(shape))
        near = f" near ({float(where[1]):.6g}, {float(where[2]):.6g})" if where else ""
        yield Problem(place, f"{name} crosses or touches itself{near}.", "Give its corners in order.")


def _cutout_problems(cutout: Cutout, name: str, surface: shapely.Polygon) -> Iterator[Problem]:
    if (cutout.circle is None) == (cutout.polygon is None):
        what = "no shape" if cutout.circle is None else "two shapes"
        yield Problem("", f"{name} has {what}.", "Give a circle or a polygon, one of the two.")
    yield from limits.CLEARANCE.problems(cutout.clearance, "clearance")
    if cutout.circle is not None:
        yield from _round_problems(cutout.circle, name, surface)
    if cutout.polygon is not None:
        yield from _polygon_problems(cutout.polygon, name, surface)


def _round_problems(circle: Circle, name: str, surface: shapely.Polygon) -> Iterator[Problem]:
    yield from inside("circle", limits.DIAMETER.problems(circle.diameter, "diameter"))
    yield from inside("circle", _point_problems(circle.centre, "centre"))
    if surface.distance(shapely.Point(circle.centre)) >= circle.diameter / 2:
        yield _outside("circle", name)


def _polygon_problems(corners: tuple[Point, ...], name: str, surface: shapely.Polygon) -> Iterator[Problem]:
    yield from polygon_problems(corners, "polygon", name)
    if surface.intersection(shapely.Polygon(corners)).area < NO_AREA:
        yield _outside("polygon", name)


def _outside(place: str, name: str) -> Problem:
    return Problem(place, f"{name} lies outside the outline.", "Move it inside, or leave it out.")
