"""The shape of a tile and the sizes that measure it: a row of boxes for each kind of size, shown as they
apply.

A drawn tile is measured by its outline; the card says how large it is over all, and opens the sheet on which
it is drawn.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tilelayout.app.cards.fields import ChoiceBox, Tick
from tilelayout.app.draw_tile.opening import draw_tile
from tilelayout.app.first_layouts import CHIP_SHAPES, OTHER_SHAPES
from tilelayout.app.length_box import LengthBox, NumberBox
from tilelayout.app.look import GRAB, STEP
from tilelayout.base.units import LengthStyle
from tilelayout.job.limits import CHIPS, TILE_ANGLE
from tilelayout.job.values import HexagonMosaicTile, MosaicSheet, OffsetSheet, Tile
from tilelayout.layout.offset_sheets import chip_across
from tilelayout.layout.patterns import shape_of
from tilelayout.planning.tile_words import tile_size

if TYPE_CHECKING:
    from tilelayout.app.cards.tile import TileCard

DRAWN = ("Drawn…", "polygon")
"""Stands last among the shapes: choosing it opens the sheet to draw on."""


class SizesOfTile:
    """The choice of a shape, and the rows for its sizes."""

    def __init__(self, card: TileCard) -> None:
        self._card = card
        self.shape = ChoiceBox("Shape", (*OTHER_SHAPES, DRAWN))
        self.lengths = {
            "length": LengthBox("Length of the tile", least=1.0),
            "width": LengthBox("Width", least=1.0),
            "across_flats": LengthBox("Across the flats", least=1.0),
            "side": LengthBox("Side", least=1.0),
            "point": LengthBox("Height of a point", least=1.0),
            "chip_length": LengthBox("Length of a chip", least=1.0),
            "chip_width": LengthBox("Width of a chip", least=1.0),
            "chip_joint": LengthBox("Joint between the chips"),
        }
        self.counts = {
            "chips_across": NumberBox("Chips across", is_allowed=_is_count, example="12"),
            "chips_up": NumberBox("Chips up", is_allowed=_is_count, example="12"),
        }
        self.chip_across = LengthBox("Size of a chip across", least=1.0)
        self._of_rectangles: list[QWidget] = []
        self.chips = ChoiceBox("Shape of the chips", CHIP_SHAPES)
        self.angle = NumberBox("Angle of the tile", unit="°", is_allowed=_is_angle, example="60")
        self.both_hands = Tick("Left and right tile&s")
        self.both_hands.setAccessibleName("Left and right tiles")
        self.drawn = QLabel(card)
        self.drawn.setWordWrap(True)
        self.draw = QPushButton("Draw…", card)
        self._sized: list[tuple[tuple[str, ...], QWidget]] = []

    def add_rows(self) -> None:
        """Add the rows of sizes to the card; those that may be on screen together differ in their keys."""
        boxes, counts = self.lengths, self.counts
        self._add("", ("length", "width"), "Long × wide", boxes["length"], self._by(), boxes["width"])
        self._add("mosaic", ("chip_joint",), "", self.chips)
        self._add("hexagon", ("across_flats",), "Across flats", boxes["across_flats"])
        self._add("hexagon", ("side",), "Side", boxes["side"])
        self._add("point", ("point",), "Points", boxes["point"])
        self._add("angle", ("angle",), "Angle", self.angle)
        self._add("hands", ("left_and_right",), "", self.both_hands)
        self._add("outline", ("outline",), "Size", self.drawn, self.draw)
        self._of_rectangles = [boxes["chip_length"], self._by(), boxes["chip_width"]]
        self._add("mosaic", ("chip_joint",), "Size of a chip", *self._of_rectangles, self.chip_across)
        number = counts["chips_across"], self._by(), counts["chips_up"]
        self._add("mosaic", ("chips_across", "chips_up"), "Chips to a sheet", *number)
        self._add("mosaic", ("chip_joint",), "Joint between chips", boxes["chip_joint"])
        self._connect()

    def show(self, tile: Tile, style: LengthStyle) -> None:
        """Show the shape and the sizes of a tile."""
        self._show_shape(tile)
        for keys, row in self._sized:
            is_of_chips = keys[0].startswith("chip") == isinstance(tile, MosaicSheet)
            row.setVisible(is_of_chips and all(hasattr(tile, key) for key in keys))
        self._show_chip(tile, style)
        for key, box in self.lengths.items():
            if hasattr(tile, key):
                box.show_length(getattr(tile, key), style)
        for key, count in self.counts.items():
            count.show_number(getattr(tile, key, None))
        self.angle.show_number(getattr(tile, "angle", None))
        self.both_hands.show_value(getattr(tile, "left_and_right", False))
        self.drawn.setText(tile_size(tile, style))

    def _show_chip(self, tile: Tile, style: LengthStyle) -> None:
        """Show the boxes that measure a chip: two sizes of a rectangle, one of a hexagon or a round one."""
        is_across = isinstance(tile, OffsetSheet)
        for box in self._of_rectangles:
            box.setVisible(not is_across)
        self.chip_across.setVisible(is_across)
        if isinstance(tile, OffsetSheet):
            self.chip_across.show_length(chip_across(tile), style)

    def _resize_chip(self, size: float) -> None:
        is_hexagon = isinstance(self._card.bench.tile, HexagonMosaicTile)
        self._card.change("Size tile", **{"across_flats" if is_hexagon else "diameter": size})

    def _show_shape(self, tile: Tile) -> None:
        self.shape.show_value("mosaic" if isinstance(tile, MosaicSheet) else shape_of(tile))
        self.chips.show_value(shape_of(tile))

    def hide(self) -> None:
        """Show no sizes: there is no tile."""
        for _, row in self._sized:
            row.hide()

    def _by(self) -> QLabel:
        by = QLabel("×", self._card)
        by.setMinimumHeight(GRAB + STEP)
        return by

    def _add(self, group: str, keys: tuple[str, ...], label: str, *widgets: QWidget) -> None:
        """Add a row for tiles that have all of `keys`."""
        self._card.group = group
        self._sized.append((keys, self._card.add_row(label, *widgets)))
        self._card.group = ""

    def _connect(self) -> None:
        for key, box in self.lengths.items():
            box.entered.connect(lambda size, key=key: self._card.change("Size tile", **{key: size}))
        self.chip_across.entered.connect(self._resize_chip)
        for key, count in self.counts.items():
            count.entered.connect(
                lambda number, key=key: self._card.change("Size tile", **{key: int(number)})
            )
        self.angle.entered.connect(lambda angle: self._card.change("Size tile", angle=angle))
        self.both_hands.chosen.connect(lambda on: self._card.change("Set hands", left_and_right=on))
        self.shape.chosen.connect(self._reshape)
        self.chips.chosen.connect(self._reshape)
        self.draw.clicked.connect(lambda _on=False: self._draw())

    def _reshape(self, shape: object) -> None:
        if shape == DRAWN[1]:
            self._draw()
        elif isinstance(shape, str):
            self._card.reshape(shape)

    def _draw(self) -> None:
        """Open the sheet to draw the tile on; until it is used, the tile has the shape it had."""
        tile = self._card.bench.tile
        if tile is not None:
            self._show_shape(tile)
            draw_tile(self._card.bench, self._card)


def _is_angle(degrees: float) -> bool:
    return TILE_ANGLE.least <= degrees <= TILE_ANGLE.most


def _is_count(number: float) -> bool:
    return number == int(number) and CHIPS.least <= number <= CHIPS.most
