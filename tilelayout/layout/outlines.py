"""The outline of a surface as sides that know their edge, and the strips left free along its walls.

The outline runs counter-clockwise whatever way round it was drawn, so that the surface lies on the left; an
arc is cut into chords. A strip is a quadrilateral along each wall side, mitred where two wall sides meet in a
corner that bends into the room; at other corners between walls the strips overlap. Beside a doorway or an
open edge a strip ends square, but where that edge leaves at an obtuse angle it runs on to meet it: a strip
that stopped at the corner would leave a wedge too thin to cut on the piece that stands there.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.arcs import Arc, arc_through, lies_straight
from tilelayout.geometry.inscribed import inward_normals
from tilelayout.geometry.rings import cross, signed_area
from tilelayout.job.values import EdgeRole, Surface
from tilelayout.layout.sources import Stretches
from tilelayout.layout.values import BorderEdge, Points


@dataclass(frozen=True, eq=False)
class Outline:
    """The sides of a surface's outline: side i runs from `corners[i]` to the next, and is `borders[i]`."""

    corners: Points
    borders: tuple[BorderEdge, ...]


def outline_of(surface: Surface) -> Outline:
    """Return the outline of a surface, counter-clockwise, arcs as chords within CHORD of them."""
    corners: list[Points] = []
    borders: list[BorderEdge] = []
    for at in range(len(surface.outline)):
        points, border = _edge(surface, at)
        corners.append(points[:-1])
        borders += [border] * (len(points) - 1)
    ring = np.concatenate(corners)
    if signed_area(ring) >= 0:
        return Outline(ring, tuple(borders))
    return Outline(np.roll(ring[::-1], 1, axis=0), tuple(borders[::-1]))


def edge_source(at: int) -> str:
    """Return how a border names edge `at`."""
    return f"edge {at}"


def border_source(edge: int) -> str:
    """Return what a piece of the field that is cut along the border names the border beside edge `edge`."""
    return f"border {edge}"


def rim_source(edge: int) -> str:
    """Return the same for a piece of the field between the border and the wall."""
    return f"rim {edge}"


def mitre_source(edge: int) -> str:
    """Return what a mitred piece of the strip along edge `edge` names its mitre."""
    return f"mitre {edge}"


def _edge(surface: Surface, at: int) -> tuple[Points, BorderEdge]:
    """The points of an edge, both corners included, and its border as it would be without a gap."""
    edge = surface.edge(at)
    start, end = surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]
    corners = np.array([start, end], dtype=float)
    border = BorderEdge(edge_source(at), edge.role, edge.seen)
    if edge.through is None or lies_straight(start, edge.through, end):
        return corners, border
    arc = arc_through(start, edge.through, end)
    points = arc.points()
    points[0], points[-1] = corners
    return points, _curved(border, arc)


def _curved(border: BorderEdge, arc: Arc) -> BorderEdge:
    return replace(border, centre=arc.centre, radius=arc.radius)


def wall_strips(outline: Outline, gap: float) -> tuple[Points, Stretches]:
    """Return the quadrilaterals (s, 4, 2) that `gap` leaves free, and their sides but for the outline's."""
    if gap <= 0:
        return np.empty((0, 4, 2)), Stretches(np.empty((0, 2)), np.empty((0, 2)), ())
    starts, ends = outline.corners, np.roll(outline.corners, -1, axis=0)
    normals, _ = inward_normals(starts, ends)
    is_wall = np.array([border.role is EdgeRole.WALL for border in outline.borders])
    starts, ends = _run_on(starts, ends, is_wall, gap)
    mitres = _mitres(normals, is_wall)
    inner_starts = starts + gap * np.where(np.isnan(mitres), normals, mitres)
    onward = np.roll(mitres, -1, axis=0)
    inner_ends = ends + gap * np.where(np.isnan(onward), normals, onward)
    quads = np.stack([starts, ends, inner_ends, inner_starts], axis=1)[is_wall]
    walls = [outline.borders[at] for at in np.flatnonzero(is_wall)]
    at_side = dict(zip(walls, quads, strict=True))
    moved = {border: _moved(border, quad, gap) for border, quad in at_side.items()}
    inner = tuple(moved[border] for border in walls)
    square = tuple(_straight(border) for border in walls)
    side_starts = np.concatenate([quads[:, 2], quads[:, 1], quads[:, 3]])
    side_ends = np.concatenate([quads[:, 3], quads[:, 2], quads[:, 0]])
    return quads, Stretches(side_starts, side_ends, inner + 2 * square)


def _run_on(starts: Points, ends: Points, is_wall: NDArray[np.bool_], gap: float) -> tuple[Points, Points]:
    """The sides; a wall is longer by up to `gap` where an edge that is no wall leaves at an obtuse angle."""
    along = ends - starts
    along = along / np.hypot(along[:, 0], along[:, 1])[:, None]
    onward = np.roll(along, -1, axis=0)
    turn, ahead = cross(along, onward), np.sum(along * onward, axis=1)
    wedge = np.where((turn > 0.0) & (ahead > 0.0), np.minimum(ahead / np.maximum(turn, SAME_PLACE), 1.0), 0.0)
    longer = gap * np.where(is_wall & ~np.roll(is_wall, -1), wedge, 0.0)
    earlier = gap * np.where(is_wall & ~np.roll(is_wall, 1), np.roll(wedge, 1), 0.0)
    return starts - earlier[:, None] * along, ends + longer[:, None] * along


def _mitres(normals: Points, is_wall: NDArray[np.bool_]) -> Points:
    """The way from the corner at each side's start to its mitre for a gap of 1; NaN where there is none."""
    before = np.roll(normals, 1, axis=0)
    mitred = is_wall & np.roll(is_wall, 1) & (cross(before, normals) < 0)
    ways = (before + normals) / np.maximum(1.0 + np.sum(before * normals, axis=1), 1e-6)[:, None]
    return np.asarray(np.where(mitred[:, None], ways, np.nan))


def _moved(border: BorderEdge, quad: Points, gap: float) -> BorderEdge:
    """The border of a strip's inner side: a curve is smaller by the gap if the surface lies within it."""
    if border.centre is None or border.radius is None:
        return border
    outer, inner = quad[:2].mean(axis=0), quad[2:].mean(axis=0)
    lies_within = np.dot(inner - outer, np.array(border.centre) - outer) > 0
    radius = border.radius - gap if lies_within else border.radius + gap
    return replace(border, radius=radius) if radius > 0 else _straight(border)


def _straight(border: BorderEdge) -> BorderEdge:
    return border if border.centre is None else replace(border, centre=None, radius=None)


def open_sides(outline: Outline, gap: float) -> Stretches:
    """Return the sides of the outline along which nothing is left free."""
    free = [gap <= 0 or border.role is not EdgeRole.WALL for border in outline.borders]
    at = np.flatnonzero(free)
    ends = np.roll(outline.corners, -1, axis=0)
    return Stretches(outline.corners[at], ends[at], tuple(outline.borders[i] for i in at))
