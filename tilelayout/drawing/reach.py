"""How far the pointer reaches, and the small sums that every kind of snapping shares.

The tolerance is a number of screen pixels turned into mm, so snapping feels the same at every zoom.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.events import Pointer
from tilelayout.drawing.grid import grid_step, to_step
from tilelayout.drawing.preview import SnapMarker
from tilelayout.drawing.scene import Array, SnapLine
from tilelayout.job.values import Point


@dataclass(frozen=True)
class Snapped:
    """The point to use, and the marker to show; no marker if the pointer is free."""

    point: Point
    marker: SnapMarker | None = None


@dataclass(frozen=True)
class Reach:
    """How far the pointer reaches in mm, in steps of what grid, and whether it snaps at all."""

    tolerance: float
    step: float
    style: LengthStyle
    snaps: bool = True
    has_grid: bool = True

    @classmethod
    def of(cls, pointer: Pointer, style: LengthStyle, snap_px: float, *, has_grid: bool = True) -> Reach:
        """Return the reach of a pointer at its zoom."""
        step = grid_step(style, pointer.px_per_mm)
        snaps = not pointer.snaps_suspended
        return cls(snap_px / pointer.px_per_mm, step, style, snaps, has_grid)


def along(point: Point, line: SnapLine) -> float:
    """Return t of the foot of a point on a line."""
    dx, dy = point[0] - line.origin[0], point[1] - line.origin[1]
    return dx * line.direction[0] + dy * line.direction[1]


def evened(distances: Array) -> Array:
    """Return distances with those that differ by a hair made equal, so that ties are ties."""
    return np.asarray(np.round(distances / SAME_PLACE))


def stepped(foot: float, zeros: tuple[float, ...], reach: Reach) -> float:
    """Return the round step along a line nearest to `foot`, if within reach and not of no length."""
    if not reach.has_grid:
        return foot
    steps = (zero + to_step(foot - zero, reach.step) for zero in zeros)
    usable = [t for t in steps if abs(t - foot) <= reach.tolerance and t not in zeros]
    return min(usable, key=lambda t: abs(t - foot), default=foot)
