"""The lines on the map where the narrowest cut passes from one border to another.

Between neighbouring starts of different borders the line runs through the middle of the grid's edge. In a
square of four starts two such middles are joined; three or four meet in the middle of the square.
"""

from __future__ import annotations

import numpy as np

from tilelayout.layout.kernel.arrays import Whole
from tilelayout.layout.values import Points

_MIDDLES = np.array([(0.5, 0.0), (1.0, 0.5), (0.5, 1.0), (0.0, 0.5)])


def handovers(worst: Whole) -> Points:
    """Return the lines as pieces (k, 2, 2) in steps of the grid; `worst` (n, m) repeats all round."""
    right, above = np.roll(worst, -1, axis=0), np.roll(worst, -1, axis=1)
    across = np.roll(right, -1, axis=1)
    differs = np.stack([worst != right, right != across, above != across, worst != above], axis=-1)
    count = differs.sum(axis=-1)
    squares = np.argwhere(count == 2)
    sides = np.argwhere(differs[count == 2])[:, 1].reshape(-1, 2)
    through = squares[:, None] + _MIDDLES[sides]
    i, j, side = np.nonzero(differs & (count > 2)[..., None])
    corners = np.column_stack([i, j])
    to_middle = np.stack([corners + _MIDDLES[side], corners + 0.5], axis=1)
    return np.concatenate([through, to_middle])
