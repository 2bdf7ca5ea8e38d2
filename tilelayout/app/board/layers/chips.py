"""The joints between the chips of mosaic sheets: light lines, once the chips are large enough to see."""

from __future__ import annotations

from PySide6.QtCore import QLineF
from PySide6.QtGui import QPainter

from tilelayout.app.paint.palette import Colours, mixed
from tilelayout.app.paint.strokes import line_pen
from tilelayout.layout.faces import tile_width
from tilelayout.layout.laying import Laid
from tilelayout.layout.mosaic import LaidMosaic

LEAST_CHIP = 5.0
"""Chips under this many px are not told apart."""

_LIGHT = 0.45


def paint_chip_joints(painter: QPainter, laid: Laid, scale: float, colours: Colours) -> None:
    """Paint the joints between chips; the painter's measure is mm, `scale` px to one."""
    if not isinstance(laid, LaidMosaic) or tile_width(laid.mosaic) * scale < LEAST_CHIP:
        return
    colour = mixed(colours.colour("tile_face"), colours.colour("tile_joint"), _LIGHT)
    painter.setPen(line_pen(colour, max(laid.mosaic.chip_joint, 1.0 / scale)))
    painter.drawLines([QLineF(*line.ravel().tolist()) for line in laid.joint_lines])
