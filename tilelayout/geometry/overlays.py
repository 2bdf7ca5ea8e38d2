"""Overlays of areas that may be flush: what two have in common, what one has beyond the other, all together.

A general overlay works with the rounding of its coordinates, and where a side of one area lies on a side of
the other but for that rounding it now and then answers grossly wrong: a cutout flush with an oblique wall is
not taken away at all, or two tiles that only touch share a whole tile. On a grid far above the rounding of a
kilometre and far below everything measured it does not. What comes back are areas alone: a line or point in
which two areas touch is nothing, and the next overlay would stumble over it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

FINEST = 1e-8
"""The grid of overlays, in mm."""

_Overlay = Callable[..., Any]


def common(one: shapely.Geometry, other: shapely.Geometry, grid: float = FINEST) -> BaseGeometry:
    """Return the area that two areas share; empty if they only touch.

    >>> common(shapely.box(0, 0, 2, 2), shapely.box(2, 0, 3, 2)).is_empty
    True
    """
    return _overlaid(shapely.intersection, one, other, grid)


def beyond(one: shapely.Geometry, other: shapely.Geometry, grid: float = FINEST) -> BaseGeometry:
    """Return what `one` covers and `other` does not.

    >>> beyond(shapely.box(0, 0, 2, 2), shapely.box(1, 0, 2, 2)).area
    2.0
    """
    return _overlaid(shapely.difference, one, other, grid)


def covered(areas: Iterable[shapely.Geometry], grid: float = FINEST) -> BaseGeometry:
    """Return what any of the areas covers; empty if there are none.

    >>> covered([shapely.box(0, 0, 2, 2), shapely.box(2, 0, 3, 2)]).area
    6.0
    """
    found = np.array(list(areas), dtype=object)
    try:
        return areas_of(shapely.union_all(found, grid_size=grid))
    except shapely.GEOSException:
        return areas_of(shapely.union_all([areas_of(area) for area in found], grid_size=grid))


def stretches_in(lines: Iterable[shapely.LineString], area: shapely.Geometry) -> list[shapely.LineString]:
    """Return the stretches of lines that lie in an area or along its border."""
    found = shapely.intersection(np.array(list(lines), dtype=object), area, grid_size=FINEST)
    parts = shapely.get_parts(shapely.get_parts(found))
    return [part for part in parts if isinstance(part, shapely.LineString) and not part.is_empty]


def shared_by_each(shapes: NDArray[np.object_], area: shapely.Geometry) -> NDArray[np.object_]:
    """Return the area that each of many shapes (n,) has in common with one.

    >>> shapely.area(shared_by_each(shapely.box([0, 3], 0, [2, 5], 2), shapely.box(0, 0, 4, 1))).tolist()
    [2.0, 1.0]
    """
    try:
        return np.asarray(shapely.intersection(shapes, area, grid_size=FINEST))
    except shapely.GEOSException:
        return np.array([common(shape, area) for shape in shapes], dtype=object)


def lost_areas(shapes: NDArray[np.object_], others: NDArray[np.object_]) -> NDArray[np.float64]:
    """Return how many mm2 of each shape (n,) the other of the same place does not cover."""
    try:
        return np.asarray(shapely.area(shapely.difference(shapes, others, grid_size=FINEST)))
    except shapely.GEOSException:
        return np.array([beyond(*pair).area for pair in zip(shapes, others, strict=True)])


def areas_of(shape: shapely.Geometry) -> BaseGeometry:
    """Return the areas alone of any shape, mended where its border crosses itself."""
    sound = shape if shapely.is_valid(shape) else shapely.make_valid(shape)
    if isinstance(sound, shapely.Polygon | shapely.MultiPolygon):
        return sound
    found = shapely.get_parts(shapely.get_parts(sound))
    parts = [part for part in found if isinstance(part, shapely.Polygon)]
    return parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)


def polygons_of(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the polygons of any shape, none of them empty."""
    parts = shapely.get_parts(areas_of(shape))
    return [part for part in parts if isinstance(part, shapely.Polygon) and not part.is_empty]


def _overlaid(overlay: _Overlay, one: shapely.Geometry, other: shapely.Geometry, grid: float) -> BaseGeometry:
    try:
        return areas_of(overlay(one, other, grid_size=grid))
    except shapely.GEOSException:
        return areas_of(overlay(areas_of(one), areas_of(other), grid_size=grid))
