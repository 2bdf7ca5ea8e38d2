"""Arcs and circles, and the chords that stand for them when they are cut.

An arc is kept as three points it runs through, so that it needs no angle to agree with its ends; from them
follow centre, radius and sweep. Chords are as few as keep within a given distance of the curve.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tilelayout.base.errors import TileLayoutError
from tilelayout.base.tolerance import CHORD, SAME_PLACE

Points = NDArray[np.float64]

_FEWEST_IN_CIRCLE = 12


@dataclass(frozen=True)
class Arc:
    """Part of a circle: from `start_angle` over `sweep`, both in degrees counter-clockwise from +x."""

    centre: tuple[float, float]
    radius: float
    start_angle: float
    sweep: float

    @property
    def length(self) -> float:
        """Length along the arc."""
        return self.radius * abs(float(np.radians(self.sweep)))

    def points(self, chord: float = CHORD) -> Points:
        """Return points on the arc (n, 2), both ends included, whose chords lie within `chord` of it."""
        steps = max(2, int(np.ceil(abs(np.radians(self.sweep)) / _step(self.radius, chord))))
        angles = np.radians(self.start_angle + self.sweep * np.arange(steps + 1) / steps)
        return _on_circle(self.centre, self.radius, angles)


def arc_through(a: ArrayLike, through: ArrayLike, b: ArrayLike) -> Arc:
    """Return the arc from `a` through `through` to `b`; TileLayoutError if the three lie on a line.

    >>> arc_through((1, 0), (0, 1), (-1, 0)).sweep
    180.0
    """
    if lies_straight(a, through, b):
        raise TileLayoutError(
            "The three points of an arc lie on one line.", "Move the middle point off the line."
        )
    centre = circle_centre(a, through, b)
    from_centre = np.array([a, through, b], dtype=float) - centre
    start, middle, end = np.degrees(np.arctan2(from_centre[:, 1], from_centre[:, 0]))
    sweep = (end - start) % 360.0
    if (middle - start) % 360.0 > sweep:
        sweep -= 360.0
    radius = float(np.hypot(*from_centre[0]))
    return Arc((float(centre[0]), float(centre[1])), radius, float(start), float(sweep))


def lies_straight(a: ArrayLike, through: ArrayLike, b: ArrayLike) -> bool:
    """Tell whether the middle point is so near the line from `a` to `b` that no arc is meant."""
    p, m, q = (np.asarray(point, dtype=float) for point in (a, through, b))
    along = q - p
    length = float(np.hypot(*along))
    if length < SAME_PLACE:
        return True
    return bool(abs(along[0] * (m - p)[1] - along[1] * (m - p)[0]) / length < SAME_PLACE)


def circle_centre(a: ArrayLike, b: ArrayLike, c: ArrayLike) -> Points:
    """Return the centre (2,) of the circle through three points that do not lie on a line."""
    p, q, r = (np.asarray(point, dtype=float) for point in (a, b, c))
    sides = 2.0 * np.array([q - p, r - p])
    return p + np.linalg.solve(sides, np.sum((sides / 2.0) ** 2, axis=1))


def circle_points(centre: ArrayLike, radius: float, chord: float = CHORD) -> Points:
    """Return a ring (n, 2) that stands for a circle: counter-clockwise, first point towards +x.

    n is a multiple of four, so the ring reaches as far in all four directions. Its corners lie a little
    outside the circle and its sides a little inside, by no more than `chord`, so that its area is that of
    the circle.
    """
    count = 4 * max(_FEWEST_IN_CIRCLE // 4, int(np.ceil(np.pi / 2.0 / _step(radius, chord))))
    angle = 2.0 * np.pi / count
    corner_radius = radius * float(np.sqrt(angle / np.sin(angle)))
    return _on_circle(centre, corner_radius, angle * np.arange(count))


def _step(radius: float, chord: float) -> float:
    """Angle of the longest chord that stays within `chord` of a circle, at most a sixth of a turn."""
    return 2.0 * float(np.arccos(max(1.0 - chord / radius, np.cos(np.pi / 12.0))))


def _on_circle(centre: ArrayLike, radius: float, angles: ArrayLike) -> Points:
    return np.asarray(centre, dtype=float) + radius * np.column_stack([np.cos(angles), np.sin(angles)])
