"""Draws what the tile meets: walls as thick bands, doorways as openings, cutouts as filled shapes.

A band stands outside the outline, so the outline itself is the face of the wall and can be measured on the
paper. What an edge is shows without colour: a wall is solid, a hidden wall is an empty dashed band, a
doorway is a gap with jambs and a sill, a tub is hatched and an open edge is a chain line.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.geometry.arcs import arc_through, circle_points, lies_straight
from tilelayout.geometry.overlays import beyond, common, covered
from tilelayout.geometry.rings import signed_area
from tilelayout.job.values import Cutout, EdgeRole, Surface, Visibility
from tilelayout.reports.figure import Mark, Path, Pen, Points, Role
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import HAIRLINE, MEDIUM, THIN, filled, hatch

BAND = 1.8
"""Thickness of a wall on the paper in mm."""

_DASHED = (1.6, 1.0)
_CHAIN = (4.0, 1.0, 0.6, 1.0)
_IN_THE_WAY = {EdgeRole.WALL, EdgeRole.TUB}


@dataclass(frozen=True, eq=False)
class EdgeLine:
    """Edge `at` of a surface as points (n, 2) with the surface to its left, arcs as chords."""

    at: int
    role: EdgeRole
    is_hidden: bool
    points: Points


def edge_lines(surface: Surface) -> tuple[EdgeLine, ...]:
    """Return the edges in order, counter-clockwise round the surface."""
    corners = np.array(surface.outline, dtype=float)
    found = [_edge_line(surface, at) for at in range(len(corners))]
    if signed_area(np.concatenate([line.points[:-1] for line in found])) > 0:
        return tuple(found)
    return tuple(EdgeLine(e.at, e.role, e.is_hidden, e.points[::-1].copy()) for e in reversed(found))


def _edge_line(surface: Surface, at: int) -> EdgeLine:
    start, end = surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]
    edge = surface.edge(at)
    if edge.through is None or lies_straight(start, edge.through, end):
        points = np.array([start, end], dtype=float)
    else:
        points = arc_through(start, edge.through, end).points()
    return EdgeLine(at, edge.role, edge.seen is Visibility.HIDDEN, points)


def outline_of(surface: Surface) -> Points:
    """Return the outline as one ring (n, 2), counter-clockwise, arcs as chords."""
    return np.concatenate([line.points[:-1] for line in edge_lines(surface)])


def surface_marks(surface: Surface, view: View) -> tuple[Mark, ...]:
    """Return the walls, doorways and other edges of a surface, and its cutouts."""
    lines = [EdgeLine(e.at, e.role, e.is_hidden, view.on_paper(e.points)) for e in edge_lines(surface)]
    inside = shapely.Polygon(np.concatenate([e.points[:-1] for e in lines]))
    band = beyond(inside.buffer(BAND, join_style="mitre", mitre_limit=2.0), inside)
    solid = [e for e in lines if e.role in _IN_THE_WAY]
    others = [_outward(e) for e in lines if e.role not in _IN_THE_WAY]
    standing = beyond(band, covered(others))
    marks: list[Mark] = []
    for edge in solid:
        marks += _band_marks(edge, _share(edge, standing, solid))
    for edge in lines:
        marks += _edge_marks(edge)
    for cutout in surface.cutouts:
        marks += _cutout_marks(cutout, view)
    return tuple(marks)


def _outward(edge: EdgeLine) -> shapely.Geometry:
    return shapely.LineString(edge.points).buffer(-BAND * 1.5, single_sided=True, join_style="mitre")


def _share(edge: EdgeLine, standing: shapely.Geometry, solid: list[EdgeLine]) -> shapely.Geometry:
    """Return the part of the band that belongs to one edge; plain walls keep the mitred corners."""
    if _is_plain(edge):
        others = [_outward(other) for other in solid if not _is_plain(other)]
        near = shapely.LineString(edge.points).buffer(BAND * 2.0, cap_style="square")
        return beyond(common(standing, near), covered(others))
    return common(standing, _outward(edge))


def _is_plain(edge: EdgeLine) -> bool:
    return edge.role is EdgeRole.WALL and not edge.is_hidden


def _band_marks(edge: EdgeLine, part: shapely.Geometry) -> list[Mark]:
    rings = [_rings(polygon) for polygon in shapely.get_parts(part) if polygon.geom_type == "Polygon"]
    if _is_plain(edge):
        return [filled(ring, Role.WALL) for ring in rings]
    pen = Pen(Role.WALL, THIN, _DASHED if edge.is_hidden else ())
    marks: list[Mark] = [Path(tuple(ring), pen, is_closed=True) for ring in rings]
    if edge.role is EdgeRole.TUB:
        marks += [hatch(ring, spacing=0.9) for ring in rings]
    return marks


def _rings(polygon: shapely.Polygon) -> list[Points]:
    return [shapely.get_coordinates(ring)[:-1] for ring in (polygon.exterior, *polygon.interiors)]


def _edge_marks(edge: EdgeLine) -> list[Mark]:
    if edge.role is EdgeRole.DOORWAY:
        return _doorway_marks(edge.points)
    if edge.role is EdgeRole.OPEN:
        return [Path((edge.points,), Pen(Role.WALL, MEDIUM, _CHAIN))]
    return [Path((edge.points,), Pen(Role.WALL, MEDIUM if edge.role is EdgeRole.OUTSIDE_CORNER else THIN))]


def _doorway_marks(points: Points) -> list[Mark]:
    """Draw the sill as two thin lines and the jambs as strokes across the band."""
    outer = shapely.get_coordinates(shapely.LineString(points).offset_curve(-BAND))
    if len(outer) < 2:
        return [Path((points,), Pen(Role.WALL, THIN))]
    jambs = (np.array([points[0], outer[0]]), np.array([points[-1], outer[-1]]))
    return [Path((points, outer), Pen(Role.WALL, HAIRLINE)), Path(jambs, Pen(Role.WALL, MEDIUM))]


def cutout_ring(cutout: Cutout) -> Points:
    """Return the outline (n, 2) of a cutout on the surface, without its clearance."""
    if cutout.circle:
        return np.asarray(circle_points(cutout.circle.centre, cutout.circle.diameter / 2))
    return np.array(cutout.polygon or (), dtype=float)


def _cutout_marks(cutout: Cutout, view: View) -> list[Mark]:
    ring = view.on_paper(cutout_ring(cutout))
    marks: list[Mark] = [Path((ring,), Pen(Role.INK, MEDIUM), Role.CUTOUT, is_closed=True)]
    if cutout.circle:
        x, y = view.place(cutout.circle.centre)
        reach = view.length(cutout.circle.diameter) / 2 + 1.2
        cross = (np.array([(x - reach, y), (x + reach, y)]), np.array([(x, y - reach), (x, y + reach)]))
        marks.append(Path(cross, Pen(Role.INK, HAIRLINE)))
    return marks
