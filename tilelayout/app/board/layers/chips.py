"""The joints between the chips of mosaic sheets: light, once the chips are large enough to see.

Chips in rows and columns have lines between them. Of hexagons and round chips all that is left between them
in a sheet is filled: what the sheet covers and the chips do not.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QLineF
from PySide6.QtGui import QColor, QPainter, QPainterPath

from tilelayout.app.board.layers.sight import count_in_sight
from tilelayout.app.board.view import Bounds
from tilelayout.app.paint.palette import Colours, mixed
from tilelayout.app.paint.paths import rings_path
from tilelayout.app.paint.strokes import line_pen
from tilelayout.geometry.turns import turning
from tilelayout.job.values import MosaicTile, OffsetSheet
from tilelayout.layout.chips import chip_outlines
from tilelayout.layout.faces import tile_outline, tile_width
from tilelayout.layout.laying import Laid
from tilelayout.layout.mosaic import LaidMosaic
from tilelayout.layout.whole_near import whole_near

LEAST_CHIP = 5.0
"""Chips under this many px are not told apart."""

_MOST_CHIPS = 20_000
"""Nor are more of them than this in sight, unless they lie in rows and columns."""

_LIGHT = 0.45

Points = NDArray[np.float64]


class ChipJoints:
    """Paints the joints within the sheets of one lattice; nothing if its tile is no mosaic."""

    def __init__(self, laid: Laid) -> None:
        self._laid = laid if isinstance(laid, LaidMosaic) else None
        self._in_parts: dict[int, QPainterPath] = {}

    def paint(self, painter: QPainter, bounds: Bounds, scale: float, colours: Colours) -> None:
        """Paint them within `bounds`; the painter's measure is mm, `scale` px to one."""
        laid = self._laid
        if laid is None or tile_width(laid.mosaic) * scale < LEAST_CHIP:
            return
        colour = mixed(colours.colour("tile_face"), colours.colour("tile_joint"), _LIGHT)
        if isinstance(laid.mosaic, MosaicTile):
            painter.setPen(line_pen(colour, max(laid.mosaic.chip_joint, 1.0 / scale)))
            painter.drawLines([QLineF(*line.ravel().tolist()) for line in laid.joint_lines])
        elif isinstance(laid.mosaic, OffsetSheet) and count_in_sight(laid.chips, bounds) < _MOST_CHIPS:
            self._fill_between(painter, laid, laid.mosaic, bounds, colour)

    def _fill_between(
        self, painter: QPainter, laid: LaidMosaic, tile: OffsetSheet, bounds: Bounds, colour: QColor
    ) -> None:
        low, high = np.array([bounds.left, bounds.bottom]), np.array([bounds.right, bounds.top])
        sheet = _between(laid, tile)
        for x, y in whole_near(laid, low, high)[0].tolist():
            painter.translate(x, y)
            painter.fillPath(sheet, colour)
            painter.translate(-x, -y)
        for part in _in_sight(laid, low, high):
            if part not in self._in_parts:
                outline, holes = laid.cut_parts.outlines[part], laid.cut_parts.holes.get(part, ())
                self._in_parts[part] = rings_path([outline, *holes, *laid.chip_outlines(part)])
            painter.fillPath(self._in_parts[part], colour)


def _between(laid: LaidMosaic, tile: OffsetSheet) -> QPainterPath:
    """Return what the chips leave of the first sheet of the lattice."""
    turn, face = turning(laid.layout.angle), laid.placed_faces[0]
    corner = face[0] - tile_outline(tile)[0] @ turn
    return rings_path([face, *(chip @ turn + corner for chip in chip_outlines(tile))])


def _in_sight(laid: LaidMosaic, low: Points, high: Points) -> list[int]:
    outlines = laid.cut_parts.outlines
    if not len(outlines):
        return []
    lowest, highest = (
        extreme.reduceat(outlines.points, outlines.starts[:-1], axis=0)
        for extreme in (np.minimum, np.maximum)
    )
    return [int(k) for k in np.flatnonzero(((lowest <= high) & (highest >= low)).all(axis=1))]
