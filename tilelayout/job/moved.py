"""The parts of a job moved by (x, y) mm."""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.job.preparation import Preparation
from tilelayout.job.values import Cutout, Edge, Layout, Point, ReferenceLine, Surface, Survey


def moved_point(point: Point, by: Point) -> Point:
    """Return the point moved."""
    return (point[0] + by[0], point[1] + by[1])


def moved_edge(edge: Edge, by: Point) -> Edge:
    """Return the edge moved; only an arc has a point of its own."""
    return edge if edge.through is None else replace(edge, through=moved_point(edge.through, by))


def moved_cutout(cutout: Cutout, by: Point) -> Cutout:
    """Return the cutout moved."""
    if cutout.circle is not None:
        centre = moved_point(cutout.circle.centre, by)
        return replace(cutout, circle=replace(cutout.circle, centre=centre))
    return replace(cutout, polygon=tuple(moved_point(corner, by) for corner in cutout.polygon or ()))


def moved_surface(surface: Surface, by: Point) -> Surface:
    """Return the surface moved with its arcs and cutouts."""
    return replace(
        surface,
        outline=tuple(moved_point(corner, by) for corner in surface.outline),
        edges=tuple(moved_edge(edge, by) for edge in surface.edges),
        cutouts=tuple(moved_cutout(cutout, by) for cutout in surface.cutouts),
    )


def moved_layout(layout: Layout, by: Point) -> Layout:
    """Return the layout with its start and its reference lines moved."""
    lines = tuple(moved_line(line, by) for line in layout.lines)
    return replace(layout, start=moved_point(layout.start, by), lines=lines)


def moved_line(line: ReferenceLine, by: Point) -> ReferenceLine:
    """Return the reference line moved; one at an edge or a cutout goes with that anyway."""
    point = None if line.point is None else moved_point(line.point, by)
    ends = None if line.line is None else (moved_point(line.line[0], by), moved_point(line.line[1], by))
    return replace(line, point=point, line=ends)


def moved_survey(survey: Survey, by: Point) -> Survey:
    """Return the survey with its readings moved; heights stay."""
    points = tuple((*moved_point((x, y), by), height) for x, y, height in survey.points)
    laid = tuple(
        replace(one, start=moved_point(one.start, by), end=moved_point(one.end, by))
        for one in survey.straightedge
    )
    asked = survey.preparation and moved_preparation(survey.preparation, by)
    return replace(survey, points=points, straightedge=laid, preparation=asked)


def moved_preparation(asked: Preparation, by: Point) -> Preparation:
    """Return the preparation with the places of its given heights moved."""
    return replace(
        asked,
        meets=tuple(
            replace(each, at=moved_point(each.at, by), to=each.to and moved_point(each.to, by))
            for each in asked.meets
        ),
    )
