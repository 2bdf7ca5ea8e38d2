"""What the floor meets at one place, to fill in: a floor and a door, a flange, an appliance."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFormLayout, QHBoxLayout, QLabel, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import Tick
from tilelayout.app.heights.layer_rows import LayerRows
from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import STEP
from tilelayout.base.heights import height_style
from tilelayout.job.edits import heights as edits
from tilelayout.job.ground import Layer
from tilelayout.job.kinds import CutoutKind, LayerRole
from tilelayout.job.values import Job, Surface

_Edit = Callable[[Job, str, int], Job]


def place_form(parent: QWidget) -> QFormLayout:
    """Return an empty form whose rows wrap where it is narrow."""
    form = QFormLayout(parent)
    form.setContentsMargins(0, 0, 0, 0)
    form.setHorizontalSpacing(3 * STEP)
    form.setVerticalSpacing(STEP)
    form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
    form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
    return form


def form_label(words: str) -> QLabel:
    """Return a label as wide as those of all forms on the sheet, so that the fields line up."""
    label = QLabel(words)
    label.setMinimumWidth(36 * STEP)
    label.setMinimumHeight(7 * STEP)
    label.setAlignment(Qt.AlignmentFlag.AlignTop)
    label.setContentsMargins(0, 2 * STEP, 0, 0)
    return label


def beside(first: QWidget, words: str, second: QWidget) -> QWidget:
    """Return two fields in one line with words between them."""
    row = QWidget()
    line = QHBoxLayout(row)
    line.setContentsMargins(0, 0, 0, 0)
    line.setSpacing(2 * STEP)
    for widget, stretch in ((first, 1), (QLabel(words), 0), (second, 1)):
        line.addWidget(widget, stretch)
    return row


class PlaceRows(QWidget):
    """Rows about one edge or one cutout."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._at = 0
        self._form = place_form(self)

    def show_place(self, surface: Surface, at: int) -> None:
        """Show edge or cutout `at` of a surface."""
        self._at = at

    def _apply(self, label: str, edit: _Edit) -> None:
        surface, at = self._bench.surface, self._at
        if surface is not None:
            self._bench.apply(label, lambda job: edit(job, surface.id, at))


class EdgeRows(PlaceRows):
    """The floor beyond an edge, as a height or in layers; whether a step is bevelled; the door."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.next_floor = LengthBox("Height of the floor beyond", least=None, is_optional=True)
        self.door = LengthBox("Height of the door's underside", least=None, is_optional=True)
        self.bevelled = Tick("A step here is bevelled 1:2")
        self.beyond = LayerRows("beyond", LayerRole.COVERING)
        self._form.addRow(form_label("Floor beyond"), beside(self.next_floor, "door's underside", self.door))
        self._form.addRow(form_label("or in layers"), self.beyond)
        self._form.addRow(form_label(""), self.bevelled)
        self.next_floor.entered.connect(self._set_next_floor)
        self.beyond.entered.connect(self._set_beyond)
        self.bevelled.chosen.connect(self._set_bevelled)
        self.door.entered.connect(self._set_door)

    def show_place(self, surface: Surface, at: int) -> None:
        """Show edge `at`."""
        super().show_place(surface, at)
        edge, style = surface.edge(at), self._bench.job.show_lengths
        self.next_floor.show_length(edge.meets, height_style(style))
        self.beyond.show_layers(edge.beyond, style)
        self.bevelled.show_value(edge.bevelled)
        self.door.show_length(edge.door, height_style(style))

    def _set_next_floor(self, height: float | None) -> None:
        self._apply("Set floor beyond", lambda job, id, at: edits.set_next_floor(job, id, at, height))

    def _set_beyond(self, layers: tuple[Layer, ...]) -> None:
        self._apply("Set floor beyond", lambda job, id, at: edits.set_floor_beyond(job, id, at, layers))

    def _set_bevelled(self, is_on: bool) -> None:
        self._apply("Set bevel", lambda job, id, at: edits.set_bevelled(job, id, at, is_on))

    def _set_door(self, height: float | None) -> None:
        self._apply("Set door", lambda job, id, at: edits.set_door(job, id, at, height))


class CutoutRows(PlaceRows):
    """The top of a flange, or the worktop over an appliance and how tall that is."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, parent)
        self.top = LengthBox("Height of the top of the flange", least=None, is_optional=True)
        self.worktop = LengthBox("Height of the worktop's underside", is_optional=True)
        self.tall = LengthBox("How tall the appliance is on its lowest feet", is_optional=True)
        self._form.addRow(form_label("Top of the flange"), self.top)
        self._form.addRow(form_label("Worktop's underside"), self.worktop)
        self._form.addRow(form_label("Appliance is tall"), self.tall)
        self.top.entered.connect(lambda meets: self._set(meets=meets))
        self.worktop.entered.connect(lambda meets: self._set(meets=meets))
        self.tall.entered.connect(lambda tall: self._set(tall=tall))

    def show_place(self, surface: Surface, at: int) -> None:
        """Show cutout `at`."""
        super().show_place(surface, at)
        cutout, style = surface.cutouts[at], height_style(self._bench.job.show_lengths)
        is_flange = cutout.kind is CutoutKind.FLANGE
        for box, value in ((self.top, cutout.meets), (self.worktop, cutout.meets), (self.tall, cutout.tall)):
            box.show_length(value, style)
            self._form.setRowVisible(box, is_flange == (box is self.top))

    def _set(self, **changes: float | None) -> None:
        surface = self._bench.surface
        if surface is not None:
            cutout = surface.cutouts[self._at]
            both = {"meets": cutout.meets, "tall": cutout.tall} | changes
            self._apply("Set height", lambda job, id, at: edits.set_cutout_heights(job, id, at, **both))
