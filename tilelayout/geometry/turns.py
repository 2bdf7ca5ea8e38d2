"""Turning points about the origin, exactly at quarter turns.

The cosine of ninety degrees is not quite nought in double arithmetic, which would lean a tile set at 90
degrees out of its row by a hair and turn a flush wall into a cut; quarter turns are therefore tabled.
"""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

_QUARTERS = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}


def turning(degrees: float) -> NDArray[np.float64]:
    """Return the (2, 2) matrix T for which `points @ T` are the points turned counter-clockwise.

    >>> (np.array([[2.0, 1.0]]) @ turning(90)).tolist()
    [[-1.0, 2.0]]
    """
    angle = degrees % 360.0
    c, s = _QUARTERS.get(angle, (cos(radians(angle)), sin(radians(angle))))
    return np.array([[c, s], [-s, c]])
