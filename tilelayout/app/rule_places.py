"""Where in the window a finding is mended: its question, what is chosen there, and the field to go to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from tilelayout.app.bench import Stage
from tilelayout.app.cards.fields import Tick
from tilelayout.app.rule_keys import key_of
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.practice.finding import Finding

if TYPE_CHECKING:
    from tilelayout.app.window import Window


@dataclass(frozen=True)
class Field:
    """Where a key of the job is entered: `folded` is the tick it is folded away under."""

    stage: Stage
    of: Callable[[Window], QWidget]
    folded: Callable[[Window], Tick] | None = None


def _under_the_tile(of: Callable[[Window], QWidget]) -> Field:
    return Field(Stage.MEASURE, of, lambda window: window.measure.ground.unfold)


def _of_tile(of: Callable[[Window], QWidget]) -> Field:
    return Field(Stage.TILE, of, lambda window: window.tile.more.unfold)


FIELDS = {
    "surface.background": _under_the_tile(lambda window: window.measure.ground.background),
    "surface.wetness": _under_the_tile(lambda window: window.measure.ground.wetness),
    "surface.exposure": _under_the_tile(lambda window: window.measure.ground.exposure),
    "surface.adhesive.class": _under_the_tile(lambda window: window.measure.ground.grade),
    "surface.adhesive.bed": _under_the_tile(lambda window: window.measure.ground.least),
    "surface.adhesive.notch": _under_the_tile(lambda window: window.measure.ground.notch),
    "surface.layers": Field(Stage.MEASURE, lambda window: window.measure.heights),
    "edge.meets": Field(Stage.MEASURE, lambda window: window.measure.edge.next_floor),
    "edge.door": Field(Stage.MEASURE, lambda window: window.measure.edge.heights),
    "cutout.meets": Field(Stage.MEASURE, lambda window: window.measure.cutout.meets),
    "cutout.tall": Field(Stage.MEASURE, lambda window: window.measure.cutout.heights),
    "tile.absorption_percent": _of_tile(lambda window: window.tile.more.absorption),
    "tile.spread": _of_tile(lambda window: window.tile.more.spread),
    "tile.warpage": _of_tile(lambda window: window.tile.more.warpage),
    "tile.weight_kg": _of_tile(lambda window: window.tile.more.weight),
    "layout.joint": Field(Stage.TILE, lambda window: window.tile.joint),
    "layout.gap": Field(Stage.TILE, lambda window: window.tile.gap),
    "layout.row_offsets": Field(Stage.TILE, lambda window: window.tile.ways),
}
"""By the key of the job, the field of the window."""


def go_to(window: Window, finding: Finding) -> None:
    """Bring the question to the front, choose the place, unfold the field and go to it."""
    key = key_of(finding)
    if key is None:
        return
    field = FIELDS[key]
    _bring_forward(window, finding, field)
    if field.folded is not None and not field.folded(window).isChecked():
        field.folded(window).click()
    target = field.of(window)
    target.setFocus(Qt.FocusReason.ShortcutFocusReason)
    window.cards[field.stage].bring_into_sight(target)


def _bring_forward(window: Window, finding: Finding, field: Field) -> None:
    bench = window.bench
    surface = finding.subject[0] if finding.subject else None
    if len(finding.subject) > 2:
        bench.show(layout=finding.subject[2], stage=field.stage)
    else:
        bench.show(surface=surface, stage=field.stage)
    kind, _, number = finding.place.partition(" ")
    front = bench.surface
    bench.choose(Pick(PickKind(kind), front.id, int(number)) if kind and front is not None else None)
