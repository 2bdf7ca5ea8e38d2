"""The pieces that are sawn, while the cut list is in front: faded, each with a tick in its corner."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter

from tilelayout.app.board.layers.groups import pieces_path
from tilelayout.app.board.shown import Shown
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.strokes import line_pen
from tilelayout.layout.values import Piece

_REACH = 8.0
"""How far the disc behind a tick reaches in px."""

_TICK = ((-4.0, 0.5), (-1.0, 3.5), (4.5, -3.5))


def paint_sawn(painter: QPainter, ids: Iterable[str], shown: Shown, view: View, colours: Colours) -> None:
    """Mark the pieces with these ids as sawn; ids that are no longer there are left out."""
    if shown.plan is None:
        return
    wanted = set(ids)
    pieces = [piece for piece in shown.plan.laid.cut if piece.id in wanted] if wanted else []
    painter.fillPath(view.transform.map(pieces_path(pieces)), faded(colours.colour("paper"), 0.45))
    for piece in pieces:
        _paint_tick(painter, _corner(piece, view), colours)


def _paint_tick(painter: QPainter, at: QPointF, colours: Colours) -> None:
    painter.setBrush(colours.colour("paper"))
    painter.setPen(line_pen(colours.colour("ink"), 1.2))
    painter.drawEllipse(at, _REACH, _REACH)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(line_pen(colours.colour("ink"), 2.0, is_round=True))
    painter.drawPolyline([at + QPointF(x, y) for x, y in _TICK])


def _corner(piece: Piece, view: View) -> QPointF:
    """Return where the tick stands: in from the upper left corner, in the middle of a small piece."""
    corner = piece.outline[np.argmin(piece.outline[:, 0] - piece.outline[:, 1])]
    start, middle = (view.to_screen(*map(float, at)) for at in (corner, piece.outline.mean(axis=0)))
    way = middle - start
    length = float(np.hypot(way.x(), way.y()))
    return start + way * min(1.0, 1.5 * _REACH / length) if length > 0 else middle
