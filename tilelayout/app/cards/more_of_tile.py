"""What else is known of a tile: thickness, edge, box, weight and so on. Folded away until it is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QWidget

from tilelayout.app.cards.card import FOLDED
from tilelayout.app.cards.fields import ChoiceBox, Tick
from tilelayout.app.length_box import LengthBox, NumberBox
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Tile, TileEdge

if TYPE_CHECKING:
    from tilelayout.app.cards.tile import TileCard

EDGE_WORDS = {
    TileEdge.RECTIFIED: "Rectified",
    TileEdge.CALIBRATED: "Calibrated",
    TileEdge.NATURAL: "Natural",
}


class MoreOfTile:
    """The rows that unfold under "More about this tile"."""

    def __init__(self, card: TileCard) -> None:
        self.unfold = Tick("More about this tile")
        card.add(self.unfold)
        self.thickness = LengthBox("Thickness", least=0.1)
        self.edge = ChoiceBox("Edge", [(words, edge) for edge, words in EDGE_WORDS.items()])
        self.directional = Tick("The face has a direction")
        self.per_box = NumberBox("Tiles in a box", is_allowed=_is_count, example="8", is_optional=True)
        self.price = NumberBox("Price of a box", is_allowed=_is_price, example="32.50", is_optional=True)
        self.weight = NumberBox(
            "Weight of one tile", unit=" kg", is_allowed=_is_price, example="2.4", is_optional=True
        )
        self.absorption = NumberBox(
            "Water absorption", unit=" %", is_allowed=_is_price, example="0.5", is_optional=True
        )
        self.warpage = LengthBox("Warpage, the most that an edge bows", is_optional=True)
        self.nominal = LengthBox("Longest side on the label", least=1.0, is_optional=True)
        self.nominal.line.setToolTip(
            "The rules for long tiles go by the size on the label, where it is known."
        )
        self.spread = LengthBox("Spread, the largest size less the smallest", is_optional=True)
        price = QLabel("at", card)
        card.group = FOLDED
        self._folded: list[QWidget] = [
            card.add_row("Thick", self.thickness, QLabel("label", card), self.nominal),
            card.add_row("Edge", self.edge),
            card.add_row("", self.directional),
            card.add_row("In a &box", self.per_box, price, self.price),
            card.add_row("Weighs", self.weight, QLabel("soaks", card), self.absorption),
            card.add_row("Bows", self.warpage, QLabel("varies", card), self.spread),
        ]
        card.group = ""
        self.rows: list[QWidget] = [self.unfold]
        self._is_open = False
        self.unfold.chosen.connect(self._fold)
        self._connect(card)

    def show(self, tile: Tile, style: LengthStyle) -> None:
        """Show the tile."""
        self.thickness.show_length(tile.thickness, style)
        self.edge.show_value(tile.edge)
        self.directional.show_value(tile.directional)
        self.per_box.show_number(tile.per_box)
        self.price.show_number(tile.price_per_box)
        self.weight.show_number(tile.weight_kg)
        self.absorption.show_number(tile.absorption_percent)
        self.warpage.show_length(tile.warpage, style)
        self.spread.show_length(tile.spread, style)
        self.nominal.show_length(tile.nominal, style)
        self._fold(self._is_open)

    def hide(self) -> None:
        """Show nothing: there is no tile."""
        for row in self._folded:
            row.hide()

    def _connect(self, card: TileCard) -> None:
        self.thickness.entered.connect(lambda thickness: card.change("Set thickness", thickness=thickness))
        self.edge.chosen.connect(lambda edge: card.change("Set edge", edge=edge))
        self.directional.chosen.connect(lambda is_on: card.change("Set direction", directional=is_on))
        self.per_box.entered.connect(
            lambda count: card.change("Set box", per_box=None if count is None else int(count))
        )
        self.price.entered.connect(lambda price: card.change("Set price", price_per_box=price))
        self.weight.entered.connect(
            lambda weight: card.change("Set weight", weight_kg=weight, weight_kg_per_m2=None)
        )
        self.absorption.entered.connect(lambda share: card.change("Set absorption", absorption_percent=share))
        self.warpage.entered.connect(lambda warpage: card.change("Set warpage", warpage=warpage))
        self.spread.entered.connect(lambda spread: card.change("Set spread", spread=spread))
        self.nominal.entered.connect(lambda side: card.change("Set label size", nominal=side))

    def _fold(self, is_open: bool) -> None:
        self._is_open = is_open
        for row in self._folded:
            row.setVisible(is_open)


def _is_count(number: float) -> bool:
    return number >= 1 and number == int(number)


def _is_price(number: float) -> bool:
    return number >= 0
