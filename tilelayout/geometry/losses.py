"""When one polygon, shrunk more and more, first loses something: by looking at what is lost.

What is given back changes only when an inward corner's side or a whole part shrinks to nothing, so it is
looked at just after each time that may happen, the earliest first.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import NO_AREA, SAME_PLACE
from tilelayout.geometry.curves import curves_of
from tilelayout.geometry.inscribed import inscribed_radii
from tilelayout.geometry.meetings import TOOTH, first_meetings
from tilelayout.geometry.overlays import beyond, polygons_of
from tilelayout.geometry.parts import part_radii
from tilelayout.geometry.regrown import lost_of
from tilelayout.geometry.rings import is_convex
from tilelayout.geometry.sides import sides_of
from tilelayout.geometry.tidied import tidied

Points = NDArray[np.float64]

_MOMENT = 1e-3
"""How much more a polygon is shrunk to look at it just after something happens, in mm."""

HAIRLINE = 0.01
"""What only a strip of this width holds together is two parts: an arc strays by more from its chords."""


def first_loss(rings: Sequence[Points]) -> float:
    """Return half the narrowest place of a polygon: outer ring counter-clockwise, holes clockwise, tidy."""
    if len(rings) == 1 and is_convex(rings[0]):
        return float(inscribed_radii(rings[0][None])[0])
    sides = sides_of([rings])
    curves = curves_of(sides)
    meetings = first_meetings(sides, curves)
    parting = float(meetings.radii[meetings.parts].min(initial=np.inf))
    surely = float(meetings.radii[meetings.closes_surely].min(initial=np.inf))
    shape = shapely.Polygon(rings[0], rings[1:])
    tooth = min(TOOTH, shape.area / 2.0)
    parts = part_radii(sides, curves)
    last = float(parts.max(initial=0.0))
    for radius in np.unique(np.append(meetings.radii[meetings.closes], parts)).tolist():
        if surely <= radius <= parting or (radius + _MOMENT > last > 0.0 and _is_all_lost(shape, radius)):
            return float(radius)
        lost = lost_of(shape, sides, radius + _MOMENT)
        if lost.area > tooth and radius > HAIRLINE / 2.0:
            return float(radius)
        if lost.area > NO_AREA and radius <= parting and (smoother := _with_fewer_corners(shape, lost)):
            return max(float(radius), min(map(first_loss, smoother)))
    return float(shapely.maximum_inscribed_circle(shape).length)


def _is_all_lost(shape: shapely.Polygon, radius: float) -> bool:
    """Tell whether a polygon surely shrinks to nothing: even rounded corners, which take less, leave none."""
    with np.errstate(divide="ignore", invalid="ignore"):  # the library divides by sides without length
        return bool(shapely.is_empty(shapely.buffer(shape, -radius - _MOMENT)))


def _with_fewer_corners(shape: shapely.Polygon, rough: BaseGeometry) -> list[list[Points]]:
    """Return the rings of what a polygon leaves without its roughness; nothing unless each has fewer corners.

    A polygon that only a hairline held together leaves several; a crumb is none unless all are.
    """
    parts = sorted(polygons_of(beyond(shape, rough, SAME_PLACE)), key=lambda part: -part.area)
    found = [_tidy_rings(part) for k, part in enumerate(parts) if k == 0 or part.area > TOOTH]
    corners = shapely.get_num_coordinates(shape) - 1 - len(shape.interiors)
    return found if all(sum(map(len, rings)) < corners for rings in found) else []


def _tidy_rings(part: shapely.Polygon) -> list[Points]:
    rings = [shapely.get_coordinates(ring)[:-1] for ring in (part.exterior, *part.interiors)]
    return tidied(rings, np.arange(len(rings)) > 0)
