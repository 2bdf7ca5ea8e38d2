"""Small pictures of offcuts, painted from the same figure as any drawing of ours."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap

from tilelayout.app.look import STEP, Look
from tilelayout.app.paint.figure_painter import paint_figure
from tilelayout.job.stock import OffcutOnHand
from tilelayout.job.values import Tile
from tilelayout.reports.figures.offcut_figure import offcut_figure

ROW_PICTURE = QSize(16 * STEP, 12 * STEP)
LARGE_PICTURE = QSize(60 * STEP, 36 * STEP)
_PX_PER_MM = 3.2
"""How large a mm of the figure's paper is at most, so that lines have the weight of the other drawings."""


def offcut_pixmap(tile: Tile, offcut: OffcutOnHand, look: Look, size: QSize, ratio: float) -> QPixmap:
    """Return the picture, `size` device-independent px on a screen of that pixel ratio."""
    pixmap = QPixmap(size * ratio)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    figure = offcut_figure(tile, offcut, (size.width() / _PX_PER_MM, size.height() / _PX_PER_MM))
    with QPainter(pixmap) as painter:
        area = QRectF(0.0, 0.0, size.width(), size.height())
        paint_figure(painter, figure, area, look, largest=_PX_PER_MM)
    return pixmap


def offcut_icon(tile: Tile, offcut: OffcutOnHand, look: Look, ratio: float) -> QIcon:
    """Return the picture for a row of a list; it looks the same when the row is chosen."""
    pixmap = offcut_pixmap(tile, offcut, look, ROW_PICTURE, ratio)
    icon = QIcon(pixmap)
    icon.addPixmap(pixmap, QIcon.Mode.Selected)
    return icon
