"""The marks on the map: the start, the best one, the cursor; light on a dark edge."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

_LIGHT, _DARK = QColor("#FFFFFF"), QColor("#101418")


def start_mark(at: QPointF, size: float = 7.0) -> QPainterPath:
    """A ring with a dot: the start as it is."""
    path = QPainterPath()
    path.addEllipse(at, size, size)
    path.addEllipse(at, 1.5, 1.5)
    return path


def best_mark(at: QPointF, size: float = 8.0) -> QPainterPath:
    """A diamond: the best start."""
    path = QPainterPath(at + QPointF(0, -size))
    for x, y in ((size, 0), (0, size), (-size, 0), (0, -size)):
        path.lineTo(at + QPointF(x, y))
    return path


def cursor_mark(at: QPointF, size: float = 11.0) -> QPainterPath:
    """A cross, open in the middle: what is pointed at."""
    path = QPainterPath()
    for x, y in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        path.moveTo(at + QPointF(x, y) * 3.0)
        path.lineTo(at + QPointF(x, y) * size)
    return path


Mark = Callable[[QPointF], QPainterPath]


def paint_mark(painter: QPainter, path: QPainterPath) -> None:
    """Paint a mark so that it stands out from any tone."""
    for colour, width in ((_DARK, 4.0), (_LIGHT, 1.8)):
        painter.strokePath(path, QPen(colour, width))
