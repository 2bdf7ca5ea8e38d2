"""Many small tiles as one brush: a picture of one period of the pattern, repeated by the painter.

The cost of a frame then no longer depends on the number of tiles. A period is two whole-number sums of the
lattice vectors that stand square to each other; patterns that have no small one are painted as paths
instead. The picture has a whole number of pixels; the brush's transform stretches it by the rest, so joints
stay where they belong.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QTransform

from tilelayout.app.paint.paths import polygons_path

Points = NDArray[np.float64]

_REACH = 24
"""Sums of up to this many lattice vectors are tried."""

_SQUARE = 1e-7
"""How far from square a period may be: 3 mm in 30 m would be 1e-4."""

_TURNED = 5.0
"""A turned picture is blurred and slower to paint from: a level one may be so much larger instead."""

_MOST_PIXELS = 3_000_000
_LEAST_SIDE = 64
"""Short periods are repeated in the picture up to this many px, which is faster to paint from."""


@dataclass(frozen=True, eq=False)
class Period:
    """Two vectors `along` and `across` (2,), square to each other, by which the pattern repeats."""

    along: Points
    across: Points

    @property
    def lengths(self) -> tuple[float, float]:
        """Both lengths in mm."""
        return float(np.hypot(*self.along)), float(np.hypot(*self.across))

    @property
    def level(self) -> tuple[float, float] | None:
        """The lengths in mm along x and along y; None if they lie askew."""
        along, across = self.lengths
        lean = np.abs(self.along) / along
        if lean.min() > _SQUARE:
            return None
        return (along, across) if lean[0] > lean[1] else (across, along)


def period_of(vectors: Points) -> Period | None:
    """Return a small rectangular period of a lattice (2, 2), level if possible; None if there is none."""
    counts = np.array([pair for pair in product(range(-_REACH, _REACH + 1), repeat=2) if pair > (0, 0)])
    sums = counts @ vectors
    lengths = np.hypot(*sums.T)
    order = np.argsort(lengths, kind="stable")[:120]
    sums, lengths = sums[order], lengths[order]
    leaning = np.abs(sums @ sums.T) / np.outer(lengths, lengths)
    areas = np.where(leaning < _SQUARE, np.outer(lengths, lengths), np.inf)
    is_level = np.abs(sums).min(axis=1) < _SQUARE * lengths
    costs = areas * np.where(is_level, 1.0, _TURNED)[:, None]
    first, second = np.unravel_index(int(np.argmin(costs)), costs.shape)
    if not np.isfinite(costs[first, second]):
        return None
    return _right_handed(sums[first], sums[second])


def _right_handed(along: Points, across: Points) -> Period:
    turn = along[0] * across[1] - along[1] * across[0]
    return Period(along, across if turn > 0 else -across)


@dataclass(frozen=True, eq=False)
class Texture:
    """A picture of the pattern; `to_pattern` maps its pixels to mm from the first face's first corner.

    `level` are the lengths in mm by which it repeats along x and y; None if it only repeats askew.
    """

    image: QImage
    to_pattern: QTransform
    level: tuple[float, float] | None

    def brush(self, corner: Points, to_screen: QTransform) -> QBrush:
        """Return the brush for a view, the first corner of the first face standing at `corner` (2,)."""
        brush = QBrush(self.image)
        place = QTransform.fromTranslate(float(corner[0]), float(corner[1]))
        brush.setTransform(self.to_pattern * place * to_screen)
        return brush


def texture_of(
    faces: list[Points], vectors: Points, period: Period, px_per_mm: float, face: QColor, joint: QColor
) -> Texture | None:
    """Return the picture of one period at `px_per_mm` device px; None if it would be too large.

    `faces` (m, 2) are the faces of one cell, from the first one's first corner and shrunk to the joint seen.
    """
    sides = [max(round(length * px_per_mm), 1) for length in period.lengths]
    repeats = [-(-_LEAST_SIDE // side) for side in sides]
    lengths = [length * count for length, count in zip(period.lengths, repeats, strict=True)]
    across_px, up_px = (max(round(length * px_per_mm), 1) for length in lengths)
    if across_px * up_px > _MOST_PIXELS:
        return None
    to_pattern = _placement(period, lengths, (across_px, up_px))
    image = QImage(across_px, up_px, QImage.Format.Format_RGB32)
    image.fill(joint)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    to_image, _ = to_pattern.inverted()
    painter.setTransform(to_image)
    for outline in faces:
        shifts = _shifts(outline, vectors, to_pattern, (across_px, up_px))
        painter.fillPath(polygons_path(outline[None] + shifts[:, None]), face)
    painter.end()
    return Texture(image, to_pattern, period.level)


def _placement(period: Period, lengths: list[float], size: tuple[int, int]) -> QTransform:
    along, across = (
        way / np.hypot(*way) * (length / px)
        for way, length, px in zip((period.along, period.across), lengths, size, strict=True)
    )
    return QTransform(*map(float, (*along, *across, 0.0, 0.0)))


def _shifts(outline: Points, vectors: Points, to_pattern: QTransform, size: tuple[int, int]) -> Points:
    """Return the lattice sums (n, 2) that bring the outline anywhere near the picture."""
    corners = np.array(
        [to_pattern.map(float(x), float(y)) for x in (0, size[0]) for y in (0, size[1])], dtype=float
    )
    steps = np.linalg.solve(vectors.T, (corners - outline.mean(axis=0)).T).T
    low, high = np.floor(steps.min(axis=0)) - 2, np.ceil(steps.max(axis=0)) + 2
    counts = np.stack(
        np.meshgrid(np.arange(low[0], high[0] + 1), np.arange(low[1], high[1] + 1)), axis=-1
    ).reshape(-1, 2)
    return np.asarray(counts @ vectors)
