"""Layers to fill in, as they lie: the uppermost first, a row for each, and a button for one more."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec.structs import replace
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from tilelayout.app.cards.fields import ChoiceBox, TextBox
from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import STEP
from tilelayout.base.heights import height_style
from tilelayout.base.units import LengthStyle
from tilelayout.job.ground import Layer
from tilelayout.job.kinds import LayerRole

LAYER_WORDS: dict[LayerRole | None, str] = {
    None: "Other layer",
    LayerRole.PREPARATION: "Levelling, filling",
    LayerRole.BOARD: "Board",
    LayerRole.MEMBRANE: "Membrane",
    LayerRole.BED: "Mortar bed",
    LayerRole.TILE: "Tile",
    LayerRole.COVERING: "Floor covering",
}

_USUAL = {LayerRole.MEMBRANE: 0.5, LayerRole.PREPARATION: 3.0, LayerRole.BED: 30.0, LayerRole.TILE: 10.0}
"""How thick a new layer is taken to be until it is measured; any other 6 mm. Common practice."""


class LayerRow(QWidget):
    """One layer. `changed(layer)`, `removed` and `raised` say what a person did."""

    changed = Signal(object)
    removed = Signal()
    raised = Signal()

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._layer = Layer(thickness=1.0)
        self.role = ChoiceBox(f"{name}: what it is", [(words, role) for role, words in LAYER_WORDS.items()])
        self.name = TextBox(f"{name}: called")
        self.name.line.setPlaceholderText("called")
        self.thickness = LengthBox(f"{name}: thickness")
        self.up, self.remove = QPushButton("Up"), QPushButton("Remove")
        self.up.setAccessibleName(f"{name}: one place up")
        self.remove.setAccessibleName(f"{name}: remove")
        line = QHBoxLayout(self)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(2 * STEP)
        for widget, stretch in ((self.role, 3), (self.name, 3), (self.thickness, 2)):
            line.addWidget(widget, stretch)
        for button in (self.up, self.remove):
            button.setAutoDefault(False)
            line.addWidget(button)
        self.role.chosen.connect(lambda role: self._change(role=role))
        self.name.entered.connect(lambda text: self._change(name=text))
        self.thickness.entered.connect(lambda thickness: self._change(thickness=thickness))
        self.up.clicked.connect(self.raised)
        self.remove.clicked.connect(self.removed)

    def show_layer(self, layer: Layer, style: LengthStyle, *, is_top: bool) -> None:
        """Show a layer."""
        self._layer = layer
        self.role.show_value(layer.role)
        self.name.show_text(layer.name)
        self.thickness.show_length(layer.thickness, height_style(style))
        self.up.setEnabled(not is_top)

    def _change(self, **changes: object) -> None:
        self.changed.emit(replace(self._layer, **changes))


class LayerRows(QWidget):
    """All layers of one floor. `entered(layers)` carries them anew, lowest first, after each change."""

    entered = Signal(object)

    def __init__(self, name: str, new_role: LayerRole, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._name, self._new_role = name, new_role
        self._layers: tuple[Layer, ...] = ()
        self.rows: list[LayerRow] = []
        self.add = QPushButton(f"Add a layer {name}", self)
        self.add.setAccessibleName(self.add.text())
        self.add.setAutoDefault(False)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(STEP)
        self._column.addWidget(self.add)
        self.add.clicked.connect(self._add)

    def show_layers(self, layers: Sequence[Layer], style: LengthStyle) -> None:
        """Show layers, given the lowest first."""
        self._layers = tuple(layers)
        while len(self.rows) > len(layers):
            row = self.rows.pop()
            row.hide()
            row.deleteLater()
        while len(self.rows) < len(layers):
            self._add_row(len(self.rows))
        for at, row in enumerate(self.rows):
            row.show_layer(layers[self._layer_at(at)], style, is_top=at == 0)

    def _layer_at(self, row: int) -> int:
        """Return which layer stands in a row: the uppermost in the first."""
        return len(self._layers) - 1 - row

    def _add_row(self, at: int) -> None:
        row = LayerRow(f"Layer {at + 1} {self._name}", self)
        row.changed.connect(lambda layer: self._edit(at, lambda layers, one: layers.__setitem__(one, layer)))
        row.removed.connect(lambda: self._edit(at, lambda layers, one: layers.pop(one)))
        row.raised.connect(lambda: self._edit(at, _swap_up))
        self.rows.append(row)
        self._column.insertWidget(at + 1, row)
        before: QWidget = self.rows[at - 1].remove if at else self.add
        for widget in (row.role, row.name.line, row.thickness.line, row.up, row.remove):
            QWidget.setTabOrder(before, widget)
            before = widget

    def _edit(self, row: int, change: Callable[[list[Layer], int], object]) -> None:
        layers = list(self._layers)
        change(layers, self._layer_at(row))
        self.entered.emit(tuple(layers))

    def _add(self) -> None:
        """Put one more layer on top, and go to its thickness, which is to be measured."""
        new = Layer(role=self._new_role, thickness=_USUAL.get(self._new_role, 6.0))
        before = len(self.rows)
        self.entered.emit((*self._layers, new))
        if len(self.rows) > before:
            self.rows[0].thickness.setFocus()


def _swap_up(layers: list[Layer], at: int) -> None:
    layers[at], layers[at + 1] = layers[at + 1], layers[at]
