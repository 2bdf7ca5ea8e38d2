"""A surface that falls to its drains: every straight line to the nearest of them falls by the same share.

To a point drain that is a cone, to a channel two planes with a half cone at each end. Of several drains the
one whose fall lies lower decides, so that the ridge between them is where they meet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.flatness.mesh import Numbers, Points
from tilelayout.flatness.values import Spot


@dataclass(frozen=True)
class Drain:
    """A point, or a line from `start` to `end`, `across` mm wide: its rim is at `height` all round.

    The surface rises from the rim by `fall` (a share: 0.02 is 2 in 100) of the distance. Without a height it
    lies as low as the surface lets it.
    """

    start: Spot
    end: Spot
    across: float
    fall: float
    height: float | None

    def rises(self, points: Points) -> Numbers:
        """Return how far (p,) the surface stands above the rim at points (p, 2)."""
        line = shapely.LineString([self.start, self.end])
        distance = shapely.distance(shapely.points(points), line)
        return np.asarray(self.fall * np.maximum(distance - self.across / 2.0, 0.0))


def falling_to(drains: Sequence[Drain], places: Points, heights: Numbers) -> tuple[Drain, ...]:
    """Return the drains with the heights that were left open: as low as the surface below lets them.

    `heights` (n,) are those of the surface at `places` (n, 2). All that are left open get the same one.
    """
    open_ones = [drain for drain in drains if drain.height is None]
    if not open_ones:
        return tuple(drains)
    rises = np.min([drain.rises(places) for drain in open_ones], axis=0)
    low = float(np.max(heights - rises))
    return tuple(
        Drain(each.start, each.end, each.across, each.fall, low) if each.height is None else each
        for each in drains
    )


def fallen_heights(drains: Sequence[Drain], points: Points) -> Numbers:
    """Return the height (p,) of the surface that falls to drains of known height at points (p, 2)."""
    return np.asarray(np.min([drain.rises(points) + (drain.height or 0.0) for drain in drains], axis=0))
