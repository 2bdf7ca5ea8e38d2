"""Numbers and sizes on cut pieces, only where they fit.

Where a text may stand is found from the piece's own outline: the widest stretch through its middle, level
or upright. The places are kept for a zoom, so that panning costs only the writing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from tilelayout.app.board.layers.poles import stick_number
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours
from tilelayout.base.units import LengthStyle, cut_size
from tilelayout.layout.values import Piece
from tilelayout.planning.plan import Plan
from tilelayout.planning.saw_sizes import saw_style

Points = NDArray[np.float64]

_LEAST_SIDE = 15.0
"""A piece with a side under this many px is not even tried."""

_PAD = 8.0


@dataclass(frozen=True)
class Spot:
    """Where a piece can be written on: the middle, and how far it reaches there level and upright (mm)."""

    x: float
    y: float
    level: float
    upright: float


@dataclass(frozen=True)
class Label:
    """Lines of text centred on a surface point; upright ones are read from the right."""

    x: float
    y: float
    lines: tuple[str, ...]
    is_upright: bool


class LabelLayer:
    """Writes on the cut pieces of one plan."""

    def __init__(self, plan: Plan) -> None:
        self._style = plan.style
        self._laid = plan.laid
        outlines = plan.laid.cut_parts.outlines
        self._low, self._high = (
            reach.reduceat(outlines.points, outlines.starts[:-1], axis=0)
            if len(outlines)
            else outlines.points
            for reach in (np.minimum, np.maximum)
        )
        self._spots: dict[int, Spot] = {}
        self._sizes: dict[int, str] = {}
        self._made: tuple[object, dict[int, Label | None]] = (None, {})

    def paint(self, painter: QPainter, rect: QRectF, view: View, colours: Colours) -> None:
        """Write on the pieces within the screen rectangle `rect`."""
        font = painter.font()
        metrics = QFontMetricsF(font)
        made = self._kept((view.scale, font.key()))
        inks = (colours.colour("ink"), colours.colour("faint_ink"))
        for at in self._large_within(view, rect):
            if at not in made:
                made[at] = self._label(at, view.scale, metrics)
            label = made[at]
            if label is not None:
                _write(painter, label, view.to_screen(label.x, label.y), metrics, inks)

    def _kept(self, key: object) -> dict[int, Label | None]:
        """Return the labels made so far for a zoom."""
        if self._made[0] != key:
            self._made = (key, {})
        return self._made[1]

    def _large_within(self, view: View, rect: QRectF) -> list[int]:
        """Return which pieces are in sight and large enough to try."""
        left, bottom, right, top = view.surface_rect(rect)
        sides = (self._high - self._low) * view.scale
        is_large = (sides.min(axis=1) >= _LEAST_SIDE * 0.8) & (sides.max(axis=1) >= _LEAST_SIDE * 1.6)
        is_large &= (self._low <= (right, top)).all(axis=1) & (self._high >= (left, bottom)).all(axis=1)
        return [int(at) for at in np.flatnonzero(is_large)]

    def _label(self, at: int, scale: float, metrics: QFontMetricsF) -> Label | None:
        piece = self._laid.cut_piece(at)
        spot = self._spots.get(at) or self._spots.setdefault(at, spot_of(piece))
        level, upright = spot.level * scale - _PAD, spot.upright * scale - _PAD
        line = metrics.capHeight()
        for lines in _choices(piece.id, self._size(at)):
            width = max(map(metrics.horizontalAdvance, lines))
            height = line * (1.0 if len(lines) == 1 else 2.6)
            if width <= level and height <= upright:
                return Label(spot.x, spot.y, lines, False)
            if width <= upright and height <= level:
                return Label(spot.x, spot.y, lines, True)
        return None

    def _size(self, at: int) -> str:
        return self._sizes.get(at) or self._sizes.setdefault(
            at, size_words(self._laid.cut_piece(at), self._style)
        )


def _choices(id: str, size: str) -> list[tuple[str, ...]]:
    return [(id, size), (f"{id}  {size}",), (id,)]


def size_words(piece: Piece, style: LengthStyle) -> str:
    """Return the length and width of a piece as for the saw, without a unit where that is metric."""
    outline = piece.in_tile(piece.outline)
    length, width = np.ptp(outline, axis=0)
    style = saw_style(style)
    return " x ".join(stick_number(cut_size(float(side), style), style) for side in (length, width))


def spot_of(piece: Piece) -> Spot:
    """Return where to write on a piece."""
    x, y = _middle(piece)
    level = _stretch(piece.outline, x, y, 0)
    upright = _stretch(piece.outline, x, y, 1)
    return Spot(x, y, level, upright)


def _middle(piece: Piece) -> tuple[float, float]:
    """Return the centroid, or for a piece bent around it the middle of a stretch of the piece."""
    shape = shapely.Polygon(piece.outline, piece.holes)
    middle = shape.centroid
    clear = 0.35 * piece.narrowest
    if not shape.contains(middle) or shape.boundary.distance(middle) < clear:
        middle = shape.representative_point()
    return float(middle.x), float(middle.y)


def _stretch(outline: Points, x: float, y: float, axis: int) -> float:
    """Return twice the distance from (x, y) to the nearer crossing along an axis."""
    here, level = (x, y) if axis == 0 else (y, x)
    crossings = _crossings(outline[:, axis].tolist(), outline[:, 1 - axis].tolist(), level)
    before = max((c for c in crossings if c <= here), default=here)
    after = min((c for c in crossings if c > here), default=here)
    return 2.0 * min(here - before, after - here)


def _crossings(along: list[float], across: list[float], level: float) -> list[float]:
    found = []
    for at in range(len(along)):
        a, b = across[at - 1], across[at]
        if (a > level) != (b > level):
            share = (level - a) / (b - a)
            found.append(along[at - 1] + share * (along[at] - along[at - 1]))
    return found


def _write(
    painter: QPainter, label: Label, at: QPointF, metrics: QFontMetricsF, inks: tuple[QColor, QColor]
) -> None:
    line = metrics.capHeight()
    offset = (len(label.lines) - 1) * line * 0.8
    if label.is_upright:
        painter.save()
        painter.translate(at)
        painter.rotate(-90.0)
        at = QPointF()
    for count, words in enumerate(label.lines):
        painter.setPen(inks[min(count, 1)])
        x = at.x() - metrics.horizontalAdvance(words) / 2
        painter.drawText(QPointF(x, at.y() + line / 2 - offset + count * line * 1.6), words)
    if label.is_upright:
        painter.restore()
