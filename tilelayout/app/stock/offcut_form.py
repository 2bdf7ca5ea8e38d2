"""The fields of one offcut below its picture: how many, how large, which edges are factory edges, its lot."""

from __future__ import annotations

from functools import partial

from msgspec.structs import replace
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFormLayout, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from tilelayout.app.cards.fields import TextBox, Tick
from tilelayout.app.length_box import LengthBox, NumberBox
from tilelayout.app.look import STEP, Look
from tilelayout.app.stock.corners_box import CornersBox
from tilelayout.app.stock.pictures import LARGE_PICTURE, offcut_pixmap
from tilelayout.base.units import LengthStyle
from tilelayout.job.offcut_sizes import measured, with_edge
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.values import RectangleTile, Tile
from tilelayout.planning.stock_words import SIDE_WORDS, offcut_words


class OffcutForm(QWidget):
    """Shows an offcut; `changed(offcut)` follows each entry with what it makes of the offcut."""

    changed = Signal(object)

    def __init__(self, look: Look, tile: Tile, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self._tile = look, tile
        self._offcut: OffcutOnHand | None = None
        self.picture = QLabel(self)
        self.picture.setFixedSize(LARGE_PICTURE)
        self.count = NumberBox("How many of it", is_allowed=_is_count, example="3")
        self.length = LengthBox("Length, along that of the tile", least=1.0)
        self.width_ = LengthBox("Width, across the tile", least=1.0)
        self.edges = {side: Tick(words.capitalize()) for side, words in SIDE_WORDS.items()}
        self.corners = CornersBox("Corners, across and up from the tile's lower left")
        self.lot = TextBox("Lot")
        self.labels: list[QLabel] = []
        self._place()
        self._connect()

    def show_offcut(self, tile: Tile, offcut: OffcutOnHand | None, style: LengthStyle) -> None:
        """Show an offcut; with None nothing can be entered."""
        self._tile, self._offcut = tile, offcut
        self.setVisible(offcut is not None)
        if offcut is None:
            return
        pixmap = offcut_pixmap(tile, offcut, self._look, LARGE_PICTURE, self.devicePixelRatioF())
        self.picture.setPixmap(pixmap)
        self.picture.setAccessibleName(f"Picture: {offcut_words(offcut, style)}")
        self.count.show_number(offcut.count)
        self.length.show_length(offcut.length, style)
        self.width_.show_length(offcut.width, style)
        self.corners.show_corners(offcut.outline, style)
        self.lot.show_text(offcut.lot)
        for side, tick in self.edges.items():
            tick.show_value(side in offcut.factory)
        for row, is_of_outlines in self._rows.items():
            self._form.setRowVisible(row, bool(offcut.outline) is is_of_outlines)

    def _place(self) -> None:
        self._form = QFormLayout()
        self._form.setHorizontalSpacing(3 * STEP)
        self._form.setVerticalSpacing(2 * STEP)
        ticks = QWidget(self)
        line = QHBoxLayout(ticks)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(3 * STEP)
        for tick in self.edges.values():
            tick.setAccessibleName(f"{tick.text()} edge is a factory edge")
            line.addWidget(tick)
        self._add("Count", self.count)
        sized = [
            self._add("Length", self.length),
            self._add("Width", self.width_),
            self._add("Factory", ticks),
        ]
        outlined = [self._add("Corners", self.corners)]
        self._add("Lot", self.lot)
        self._rows = dict.fromkeys(sized, False) | dict.fromkeys(outlined, True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4 * STEP)
        column.addWidget(self.picture, 0, Qt.AlignmentFlag.AlignHCenter)
        column.addLayout(self._form)
        column.addStretch(1)

    def _add(self, words: str, field: QWidget) -> int:
        label = QLabel(words, self)
        label.setBuddy(field.focusProxy() or field)
        self._form.addRow(label, field)
        if field is not self.edges[TileSide.LEFT].parentWidget():
            self.labels.append(label)
        return self._form.rowCount() - 1

    def _connect(self) -> None:
        self.count.entered.connect(lambda count: self._change(count=int(count)))
        self.length.entered.connect(partial(self._measure, "length"))
        self.width_.entered.connect(partial(self._measure, "width"))
        self.corners.entered.connect(lambda corners: self._change(outline=corners))
        self.lot.entered.connect(lambda lot: self._change(lot=lot.strip()))
        for side, tick in self.edges.items():
            tick.chosen.connect(partial(self._turn, side))

    def _change(self, **changes: object) -> None:
        if self._offcut is not None:
            self.changed.emit(replace(self._offcut, **changes))

    def _measure(self, key: str, size: float) -> None:
        if self._offcut is not None and isinstance(self._tile, RectangleTile):
            self.changed.emit(measured(self._offcut, self._tile, key, size))

    def _turn(self, side: TileSide, is_factory: bool) -> None:
        if self._offcut is not None and isinstance(self._tile, RectangleTile):
            self.changed.emit(with_edge(self._offcut, self._tile, side, is_factory))


def _is_count(number: float) -> bool:
    return number >= 1 and number == int(number)
