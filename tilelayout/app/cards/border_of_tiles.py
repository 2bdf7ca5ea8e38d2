"""The rows of the third card that put a border of tiles round the field: its tile, rows, corners, place."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QLabel

from tilelayout.app.cards.card import Card
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.length_box import EntryBox, LengthBox, NumberBox
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits import borders as edits
from tilelayout.job.kinds import BorderBegin, BorderCorners
from tilelayout.job.limits import BORDER_ROWS
from tilelayout.job.values import Border, Layout, RectangleTile

_CORNERS = (("Mitred", BorderCorners.MITRED), ("Butted", BorderCorners.BUTTED))
_BEGIN = (("Equal ends", BorderBegin.BALANCED), ("Whole tile first", BorderBegin.CORNER))
_NONE = ("No border", None)


class EdgesBox(EntryBox):
    """A box for numbers of edges, which people count from one. `entered` carries them counted from 0."""

    def read(self, text: str) -> tuple[int, ...]:
        """Return the edges, lowest first; a TileLayoutError with an example if it is no list of numbers."""
        words = text.replace(",", " ").replace(";", " ").split()
        if not all(word.isdigit() and int(word) > 0 for word in words):
            raise TileLayoutError(f"“{text}” is no list of edges.", "Write for example 2, 5.")
        return tuple(sorted({int(word) - 1 for word in words}))


class BorderOfTiles:
    """Rows on a card. `show` shows the border of the layout in front."""

    def __init__(self, card: Card) -> None:
        self._bench = card.bench
        self.tile = ChoiceBox("Tile of the border")
        self.rows = NumberBox("Rows of the border", is_allowed=_is_count, example="2")
        self.corners = ChoiceBox("Corners of the border", _CORNERS)
        self.begin = ChoiceBox("Ends of the border", _BEGIN)
        self.inset = LengthBox("Border from the wall gap")
        self.left_out = EdgesBox("Edges without a border")
        self.row = card.add_row("Border", self.tile)
        card.group = "border"
        further_in = QLabel("further in by", card)
        self._rows = [
            card.add_row("In rows", self.rows, self.corners),
            card.add_row("", self.begin),
            card.add_row("", further_in, self.inset),
            card.add_row("Not along", self.left_out),
        ]
        card.group = ""
        self._connect()

    def show(self, layout: Layout | None, style: LengthStyle) -> None:
        """Show the border of a layout."""
        border = None if layout is None else layout.border
        self.row.setVisible(layout is not None)
        for row in self._rows:
            row.setVisible(border is not None)
        tiles = (each for each in self._bench.job.tiles if isinstance(each, RectangleTile))
        self.tile.offer([_NONE, *((each.title, each.id) for each in tiles)])
        self.tile.show_value(None if border is None else border.tile)
        if border is not None:
            self._show_border(border, style)

    def _show_border(self, border: Border, style: LengthStyle) -> None:
        self.rows.show_number(border.rows)
        self.corners.show_value(border.corners)
        self.begin.show_value(border.begin)
        self.inset.show_length(border.inset, style)
        self.left_out.show_text(", ".join(str(edge + 1) for edge in border.left_out))

    def _connect(self) -> None:
        self.tile.chosen.connect(self._choose)
        self.rows.entered.connect(lambda rows: self._change(rows=int(rows)))
        self.corners.chosen.connect(lambda corners: self._change(corners=corners))
        self.begin.chosen.connect(lambda begin: self._change(begin=begin))
        self.inset.entered.connect(lambda inset: self._change(inset=inset))
        self.left_out.entered.connect(lambda edges: self._change(left_out=edges))

    def _choose(self, tile: object) -> None:
        layout = self._bench.layout
        if layout is None:
            return
        if isinstance(tile, str):
            self._bench.apply("Lay border", lambda job: edits.give_border(job, layout.id, tile))
        elif layout.border is not None:
            self._bench.apply("Remove border", lambda job: edits.take_border(job, layout.id))

    def _change(self, **changes: Any) -> None:
        layout = self._bench.layout
        if layout is not None:
            self._bench.apply("Change border", lambda job: edits.change_border(job, layout.id, **changes))


def _is_count(number: float) -> bool:
    return number.is_integer() and BORDER_ROWS.least <= number <= BORDER_ROWS.most
