"""What lies on one side of a straight line."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

Points = NDArray[np.float64]


def half_of(part: BaseGeometry, way: Points, most: float) -> BaseGeometry:
    """Return the points of a part that lie no farther than `most` along the unit vector `way`.

    >>> half_of(shapely.box(0, 0, 4, 3), np.array([1.0, 0.0]), 1.0).area
    3.0
    """
    reach = 4.0 * float(np.abs(part.bounds).max() + abs(most) + 1.0)
    along = np.array([-way[1], way[0]])
    edge = most * way
    corners = [edge + reach * along, edge - reach * along]
    box = shapely.Polygon([*corners, corners[1] - 2 * reach * way, corners[0] - 2 * reach * way])
    return part.intersection(box)
