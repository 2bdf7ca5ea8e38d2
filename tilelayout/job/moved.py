"""The parts of a job moved by (x, y) mm."""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.job.values import Cutout, Edge, Layout, Point, Surface, Survey


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
    """Return the layout with its start moved."""
    return replace(layout, start=moved_point(layout.start, by))


def moved_survey(survey: Survey, by: Point) -> Survey:
    """Return the survey with its readings moved; heights stay."""
    points = tuple((*moved_point((x, y), by), height) for x, y, height in survey.points)
    return replace(survey, points=points)
