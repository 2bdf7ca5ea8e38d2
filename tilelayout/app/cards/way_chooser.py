"""Small pictures of the ways of laying, each drawn from the pattern's real cell, to choose one from."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

import numpy as np
from msgspec import structs
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QWidget

from tilelayout.app.cards.ways import Way
from tilelayout.app.flow import Flow
from tilelayout.app.look import STEP, Look, TextSize
from tilelayout.base.errors import LayoutError
from tilelayout.geometry.rings import area
from tilelayout.job.values import Layout, MosaicSheet, RectangleTile, Tile
from tilelayout.layout.chips import chip_of
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.patterns import cell_to_show
from tilelayout.layout.values import Cell, Points

_ACROSS = 3.4
"""How many tile widths a picture shows from side to side."""


def faces_in(cell: Cell, half: float) -> list[Points]:
    """Return the faces of a cell's lattice that reach into the square of half side `half` about (0, 0)."""
    least = min(np.linalg.norm(cell.vectors[0]), np.linalg.norm(cell.vectors[1]))
    skew = abs(np.linalg.det(cell.vectors)) / np.prod(np.linalg.norm(cell.vectors, axis=1))
    reach = ceil(2 * half / (least * max(skew, 0.2))) + 2
    steps = np.arange(-reach, reach + 1)
    shifts = np.stack(np.meshgrid(steps, steps), -1).reshape(-1, 2) @ cell.vectors
    placed = [face.outline + shift for face in cell.faces for shift in shifts]
    return [face for face in placed if np.all(face.max(0) > -half) and np.all(face.min(0) < half)]


def shown_tile(tile: Tile) -> Tile:
    """Return the tile as the pictures show it: its own shape, but no longer than three times its width."""
    if isinstance(tile, RectangleTile):
        long = min(max(tile.length, tile.width / 3), tile.width * 3)
        return structs.replace(tile, length=long)
    return tile


class WayButton(QAbstractButton):
    """One way: its picture and its name. The chosen one has a thick double outline."""

    def __init__(self, way: Way, tile: Tile, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.way = way
        self._look = look
        self._tile = shown_tile(tile)
        self.setText(way.words)
        self.setAccessibleName(way.words)
        self.setToolTip(way.words)
        self.setCheckable(True)
        self.setFont(look.font(TextSize.SMALL))
        self._faces, self._half = self._drawn()

    def sizeHint(self) -> QSize:
        """A picture above two short lines of text, wide enough for the longest word in bold."""
        bold = QFont(self.font())
        bold.setBold(True)
        words = QFontMetrics(bold)
        side = max(
            18 * STEP, *(words.horizontalAdvance(word) for word in ("Herringbone", *self.text().split()))
        )
        return QSize(side, side * 3 // 4 + 2 * words.lineSpacing() + STEP)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint faces, outline and name."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        side = (self.width() - 1.0) * 3 / 4
        picture = QRectF(2, 2, self.width() - 5, side - 4)
        self._paint_faces(painter, picture)
        self._paint_frame(painter, picture)
        painter.setPen(self._look.colour("panel_ink"))
        font = self.font()
        font.setBold(self.isChecked())
        painter.setFont(font)
        words = QRectF(0, side + 2, self.width(), self.height() - side - 2)
        flags = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap
        painter.drawText(words, int(flags), self.text())

    def _paint_faces(self, painter: QPainter, picture: QRectF) -> None:
        painter.save()
        painter.setClipRect(picture)
        painter.fillRect(picture, self._look.colour("tile_joint"))
        painter.translate(picture.center())
        scale = picture.width() / (2 * self._half)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._look.colour("tile_face"))
        for face in self._faces:
            painter.drawPolygon(QPolygonF([QPointF(x * scale, -y * scale) for x, y in face]))
        painter.restore()

    def _paint_frame(self, painter: QPainter, picture: QRectF) -> None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if self.isChecked():
            painter.setPen(QPen(self._look.colour("accent"), 3.0))
            painter.drawRect(picture.adjusted(0.5, 0.5, -0.5, -0.5))
            painter.setPen(QPen(self._look.colour("panel"), 1.0))
            painter.drawRect(picture.adjusted(3, 3, -3, -3))
        elif self.underMouse():
            painter.setPen(QPen(self._look.colour("line"), 1.5))
            painter.drawRect(picture)
        if self.hasFocus():
            painter.setPen(QPen(self._look.colour("accent"), 2.0, Qt.PenStyle.DotLine))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _drawn(self) -> tuple[list[Points], float]:
        tile, pattern = self._tile, self.way.pattern
        if isinstance(tile, MosaicSheet):
            tile = chip_of(tile)
            pattern = "rows" if isinstance(tile, RectangleTile) else pattern
        wide = area(tile_outline(tile)) ** 0.5
        layout = Layout(id="", surface="", tile="", pattern=pattern, settings=self.way.keys, joint=wide / 14)
        half = wide * _ACROSS / 2
        try:
            return faces_in(cell_to_show(layout, tile), half), half
        except LayoutError:  # a drawn tile that fills the plane with a joint of its own only stands alone
            return [tile_outline(tile) - tile_outline(tile).max(axis=0) / 2], half


class WayChooser(QWidget):
    """The pictures side by side. `chosen(way)` follows a press; arrow keys move between them."""

    chosen = Signal(object)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Pattern")
        self._look = look
        self._flow = Flow(self, STEP)
        self._group = QButtonGroup(self)
        self._shown: tuple[Sequence[Way], Tile | None] = ((), None)
        self.buttons: list[WayButton] = []
        look.changed.connect(self.update)

    def offer(self, ways: Sequence[Way], tile: Tile) -> None:
        """Offer ways of laying a tile."""
        if self._shown != (ways, tile):
            self._shown = (ways, tile)
            self._clear()
            for way in ways:
                self._add(WayButton(way, tile, self._look, self))
            self.updateGeometry()

    def show_way(self, way: Way | None) -> None:
        """Show which way is in force; None if it is none of these."""
        self._group.setExclusive(False)
        for button in self.buttons:
            button.setChecked(button.way == way)
        self._group.setExclusive(way is not None)

    def _add(self, button: WayButton) -> None:
        self._group.addButton(button)
        self._flow.addWidget(button)
        self.buttons.append(button)
        button.clicked.connect(lambda: self.chosen.emit(button.way))
        button.show()

    def _clear(self) -> None:
        for button in self.buttons:
            self._group.removeButton(button)
            self._flow.removeWidget(button)
            button.hide()
            button.deleteLater()
        self.buttons = []
