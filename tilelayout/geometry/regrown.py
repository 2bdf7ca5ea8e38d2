"""What a polygon looks like after it was shrunk and grown again, both with mitred corners.

Growing back moves every side that is left to its old line, so the corners are where the old lines of
neighbouring sides cross. That is exact at any radius, also where only a hair of a side is left. A part that
bends round may grow over itself: a place counts as covered if the rings wind round it at least once.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.overlays import beyond, covered, polygons_of
from tilelayout.geometry.rings import clockwise, counter_clockwise, cross, following
from tilelayout.geometry.sides import Sides

Points = NDArray[np.float64]

_NO_CROSSING = 1e-9
_ROUNDING = 1e-7
"""A part smaller than this, in mm2, is a slit that rounding left."""


def lost_of(shape: shapely.Polygon, sides: Sides, radius: float) -> BaseGeometry:
    """Return what of `shape` shrinking by `radius` and growing again does not give back.

    What is covered has the very sides of `shape` but for rounding, so it is compared on a grid.
    """
    strips = [shapely.Polygon(strip) for strip in _strips(sides, radius)]
    left = beyond(shape, covered(strips))
    grown = [face for part in polygons_of(left) for face in _grown_back(part, sides, radius)]
    return beyond(shape, covered(grown, SAME_PLACE), SAME_PLACE)


def _strips(sides: Sides, radius: float) -> Points:
    """The mitred strip along each side (n, 6, 2).

    At an inward corner the strips of both its sides cover the whole mitre: if each only reached to the
    bisector, rounding would leave slits between them.
    """
    is_inward = sides.bends_in[:, None]
    before, after = (sides.mitres[:, end, None] * sides.along for end in (0, 1))
    beyond_end = np.where(is_inward, sides.normals[sides.next], sides.normals)
    beyond_start = np.where(is_inward[sides.before], sides.normals[sides.before], sides.normals)
    return np.stack(
        [
            sides.starts,
            sides.ends,
            sides.ends + radius * beyond_end,
            sides.ends + radius * (sides.normals + after),
            sides.starts + radius * (sides.normals - before),
            sides.starts + radius * beyond_start,
        ],
        axis=1,
    )


def _grown_back(part: shapely.Polygon, sides: Sides, radius: float) -> list[shapely.Polygon]:
    """What one part of what was left covers, once every side of it is back on its old line."""
    if part.area < _ROUNDING:
        return []
    rings = [
        counter_clockwise(_corners(part.exterior)),
        *(clockwise(_corners(hole)) for hole in part.interiors),
    ]
    grown = [_on_old_lines(ring, sides, radius) for ring in rings]
    return _wound_round([ring for ring in grown if len(ring) >= 3])


def _corners(ring: shapely.LinearRing) -> Points:
    corners = shapely.get_coordinates(ring)[:-1]
    steps = following(corners) - corners
    return np.asarray(corners[np.hypot(steps[:, 0], steps[:, 1]) > SAME_PLACE])


def _on_old_lines(ring: Points, sides: Sides, radius: float) -> Points:
    """The ring with every side back on its old line."""
    if len(ring) < 3:
        return ring
    lines = _lines_of(ring, sides, radius)
    lines = lines[lines != np.roll(lines, 1)]
    normals, offsets = sides.normals[lines], sides.offsets[lines]
    before, before_offsets = np.roll(normals, 1, axis=0), np.roll(offsets, 1)
    turns = cross(before, normals)
    crossing = np.abs(turns) > _NO_CROSSING
    x = before_offsets * normals[:, 1] - offsets * before[:, 1]
    y = offsets * before[:, 0] - before_offsets * normals[:, 0]
    return np.asarray(np.column_stack([x, y])[crossing] / turns[crossing, None])


def _lines_of(ring: Points, sides: Sides, radius: float) -> NDArray[np.intp]:
    """Which side each edge of a shrunken ring belongs to: (m,)."""
    ends = following(ring)
    along = (ends - ring) / np.hypot(*(ends - ring).T)[:, None]
    off = np.abs(sides.depths(ring) - radius) + np.abs(sides.depths(ends) - radius)
    astray = np.abs(cross(along[:, None], sides.along[None]))
    backwards = along @ sides.along.T < 0
    return np.asarray((off + astray + np.where(backwards, np.inf, 0.0)).argmin(axis=1))


def _wound_round(rings: list[Points]) -> list[shapely.Polygon]:
    """The places that the rings together wind round at least once, counter-clockwise."""
    lines = shapely.union_all([shapely.LinearRing(ring) for ring in rings])
    faces = [
        face for face in shapely.get_parts(shapely.polygonize([lines])) if isinstance(face, shapely.Polygon)
    ]
    places = [shapely.get_coordinates(face.representative_point())[0] for face in faces]
    return [face for face, place in zip(faces, places, strict=True) if _winding(rings, place) > 0]


def _winding(rings: list[Points], place: Points) -> int:
    """How often the rings wind round a place: their upward less their downward crossings to its right."""
    total = 0
    for ring in rings:
        ends = following(ring)
        above, end_above = ring[:, 1] > place[1], ends[:, 1] > place[1]
        is_left = cross(ends - ring, place - ring) > 0
        total += int(np.sum(~above & end_above & is_left)) - int(np.sum(above & ~end_above & ~is_left))
    return total
