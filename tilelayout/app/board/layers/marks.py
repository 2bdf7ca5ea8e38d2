"""The shapes of handles and snap markers: every kind has its own, so none depends on its colour."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

from tilelayout.app.paint.paths import rings_path
from tilelayout.drawing.preview import HandleShape, SnapKind

_M = 7.0
"""Half the size of a marker in px."""


def _square(at: QPointF, half: float) -> QPainterPath:
    path = QPainterPath()
    path.addRect(QRectF(at.x() - half, at.y() - half, 2 * half, 2 * half))
    return path


def _round(at: QPointF, radius: float) -> QPainterPath:
    path = QPainterPath()
    path.addEllipse(at, radius, radius)
    return path


def _polygon(at: QPointF, radius: float, corners: int, turn: float) -> QPainterPath:
    angles = np.radians(np.arange(corners) * 360.0 / corners + turn)
    points = np.stack((np.cos(angles), np.sin(angles)), axis=1) * radius + (at.x(), at.y())
    return rings_path([points])


def _strokes(at: QPointF, *strokes: tuple[float, float, float, float]) -> QPainterPath:
    path = QPainterPath()
    for x0, y0, x1, y1 in strokes:
        path.moveTo(at.x() + x0, at.y() + y0)
        path.lineTo(at.x() + x1, at.y() + y1)
    return path


def _plus(at: QPointF) -> QPainterPath:
    path = _round(at, 5.0)
    path.addPath(_strokes(at, (-8, 0, 8, 0), (0, -8, 0, 8)))
    return path


def _target(at: QPointF) -> QPainterPath:
    path = _round(at, _M + 2.0)
    path.addPath(_round(at, 3.0))
    return path


def _polygon_pair(at: QPointF) -> QPainterPath:
    """Two triangles tip to tip."""
    return _strokes(at, (-_M, -_M, _M, -_M), (_M, -_M, -_M, _M), (-_M, _M, _M, _M), (_M, _M, -_M, -_M))


def _brick(at: QPointF) -> QPainterPath:
    path = QPainterPath()
    path.addRect(QRectF(at.x() - _M - 2.0, at.y() - 5.0, 2 * _M + 4.0, 10.0))
    path.addPath(_strokes(at, (0, -5, 0, 5)))
    return path


HANDLES: dict[HandleShape, Callable[[QPointF], QPainterPath]] = {
    HandleShape.CORNER: lambda at: _square(at, 5.0),
    HandleShape.MIDDLE: lambda at: _polygon(at, 5.5, 4, 0.0),
    HandleShape.CENTRE: _plus,
    HandleShape.SIZE: lambda at: _round(at, 5.0),
}

MARKERS: dict[SnapKind, Callable[[QPointF], QPainterPath]] = {
    SnapKind.FIRST: _target,
    SnapKind.END: lambda at: _square(at, _M),
    SnapKind.CENTRE: lambda at: _round(at, _M),
    SnapKind.INTERSECTION: lambda at: _strokes(at, (-_M, -_M, _M, _M), (-_M, _M, _M, -_M)),
    SnapKind.MIDDLE: lambda at: _polygon(at, _M + 1.0, 3, -90.0),
    SnapKind.TYPED: lambda at: _polygon(at, _M, 4, 0.0),
    SnapKind.SQUARE: lambda at: _strokes(
        at, (-_M, -_M, -_M, _M), (-_M, _M, _M, _M), (-_M, 1, -1, 1), (-1, 1, -1, _M)
    ),
    SnapKind.LEVEL: lambda at: _strokes(at, (-_M - 3, 0, _M + 3, 0), (0, -_M - 3, 0, _M + 3)),
    SnapKind.PARALLEL: lambda at: _strokes(at, (-_M, _M - 3, _M - 3, -_M), (3 - _M, _M, _M, 3 - _M)),
    SnapKind.ALIGNED: lambda at: _strokes(at, (-_M, 0, -2, 0), (2, 0, _M, 0), (0, -_M, 0, -2), (0, 2, 0, _M)),
    SnapKind.ON_LINE: _polygon_pair,
    SnapKind.TILE: _brick,
    SnapKind.GRID: lambda at: _strokes(at, (-4, 0, 4, 0), (0, -4, 0, 4)),
}
