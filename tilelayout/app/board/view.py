"""Where the board looks: how millimetres of the surface become pixels of the screen.

A view is a frozen value, so that panning and zooming cannot touch the job and every law of it can be tested
without a window. The y axis points up on the surface and down on the screen; it is turned over here and
nowhere else.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform

from tilelayout.base.tolerance import LARGEST_LENGTH

Points = NDArray[np.float64]

FINEST = 24.0
"""Largest scale in px per mm: a millimetre as wide as a thumb shows every joint and saw kerf."""

LEAST_ON_SCREEN = 48.0
"""Content is never zoomed smaller than this many px, nor panned out further than to leave this much of it."""


@dataclass(frozen=True)
class View:
    """Screen point = (left + scale x, top - scale y); `scale` is px per mm."""

    scale: float
    left: float
    top: float

    @property
    def transform(self) -> QTransform:
        """The same mapping for a painter."""
        return QTransform(self.scale, 0.0, 0.0, -self.scale, self.left, self.top)

    def to_screen(self, x: float, y: float) -> QPointF:
        """Return the screen point of a surface point."""
        return QPointF(self.left + self.scale * x, self.top - self.scale * y)

    def to_surface(self, point: QPointF) -> tuple[float, float]:
        """Return the surface point (mm) under a screen point."""
        return (point.x() - self.left) / self.scale, (self.top - point.y()) / self.scale

    def all_to_screen(self, points: Points) -> Points:
        """Return the screen points of surface points (n, 2)."""
        return points * (self.scale, -self.scale) + (self.left, self.top)

    def surface_rect(self, rect: QRectF) -> tuple[float, float, float, float]:
        """Return what a screen rectangle shows as (least x, least y, greatest x, greatest y)."""
        left, bottom = self.to_surface(rect.bottomLeft())
        right, top = self.to_surface(rect.topRight())
        return left, bottom, right, top

    def panned(self, dx: float, dy: float) -> View:
        """Return the view after the paper was pushed by (dx, dy) px."""
        return replace(self, left=self.left + dx, top=self.top + dy)

    def zoomed(self, factor: float, about: QPointF) -> View:
        """Return the view with its scale times `factor`; the surface point under `about` stays there."""
        return View(
            self.scale * factor,
            about.x() + (self.left - about.x()) * factor,
            about.y() + (self.top - about.y()) * factor,
        )


@dataclass(frozen=True)
class Bounds:
    """A rectangle on the surface, in mm."""

    left: float
    bottom: float
    right: float
    top: float

    @classmethod
    def of(cls, points: Points) -> Bounds:
        """Return the bounds of points (n, 2)."""
        (left, bottom), (right, top) = points.min(axis=0), points.max(axis=0)
        return cls(float(left), float(bottom), float(right), float(top))

    @property
    def middle(self) -> tuple[float, float]:
        """The point in the middle."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    @property
    def width(self) -> float:
        """Width, at least one mm so that a scale can be taken from it."""
        return max(self.right - self.left, 1.0)

    @property
    def height(self) -> float:
        """Height, at least one mm."""
        return max(self.top - self.bottom, 1.0)


BARE_SHEET = Bounds(-300.0, -300.0, 4500.0, 3300.0)
"""What is shown while nothing is drawn: paper enough for a room of about 12 ft by 8 ft."""


def fitted(bounds: Bounds, rect: QRectF, margin: float) -> View:
    """Return the view that shows all of `bounds` in the middle of `rect` with `margin` px around it."""
    scale = min(
        max(rect.width() - 2 * margin, 16.0) / bounds.width,
        max(rect.height() - 2 * margin, 16.0) / bounds.height,
    )
    return centred(bounds, rect, min(max(scale, LEAST_ON_SCREEN / LARGEST_LENGTH), FINEST))


def centred(bounds: Bounds, rect: QRectF, scale: float) -> View:
    """Return the view at `scale` with the middle of `bounds` in the middle of `rect`."""
    middle = rect.center()
    return View(
        scale,
        middle.x() - scale * (bounds.left + bounds.right) / 2,
        middle.y() + scale * (bounds.bottom + bounds.top) / 2,
    )


def allowed_factor(view: View, bounds: Bounds, factor: float) -> float:
    """Return `factor`, or the part of it that keeps the scale between a speck and a thumb-wide millimetre."""
    coarsest = LEAST_ON_SCREEN / max(bounds.width, bounds.height)
    wanted = min(max(view.scale * factor, min(coarsest, view.scale)), max(FINEST, view.scale))
    return wanted / view.scale


def kept_in_sight(view: View, bounds: Bounds, rect: QRectF) -> View:
    """Return the view pushed back so far that a strip of `bounds` remains within `rect`."""
    lower_left, upper_right = (
        view.to_screen(bounds.left, bounds.bottom),
        view.to_screen(bounds.right, bounds.top),
    )
    keep_x = min(LEAST_ON_SCREEN, upper_right.x() - lower_left.x())
    keep_y = min(LEAST_ON_SCREEN, lower_left.y() - upper_right.y())
    dx = _push(lower_left.x(), upper_right.x(), rect.left() + keep_x, rect.right() - keep_x)
    dy = _push(upper_right.y(), lower_left.y(), rect.top() + keep_y, rect.bottom() - keep_y)
    return view.panned(dx, dy) if dx or dy else view


def _push(first: float, last: float, least: float, greatest: float) -> float:
    if last < least:
        return least - last
    return min(greatest - first, 0.0)
