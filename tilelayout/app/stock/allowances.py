"""The fields for what is allowed: of how many cuts one breaks, or outright; spare tiles; the box."""

from __future__ import annotations

from functools import partial

from msgspec.structs import replace
from PySide6.QtWidgets import QFormLayout, QLabel, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.length_box import NumberBox
from tilelayout.app.look import STEP, TextSize
from tilelayout.job.edits.jobs import set_breakage
from tilelayout.job.edits.tiles import replace_tile
from tilelayout.job.ground import Breakage
from tilelayout.job.values import Tile
from tilelayout.materials.tiles import USUAL_SPARE

_KINDS = {
    "straight": "One breaks in … straight cuts",
    "notch": "… notches or curves",
    "hole": "… holes",
    "narrow": "… narrow pieces",
}
_OUTRIGHT = {"tiles": "Or so many tiles break", "percent": "Or so much of all"}


class Allowances(QWidget):
    """Each entry is one change of the job; an empty field stands for what is usual."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self.labels: list[QLabel] = []
        self._form = QFormLayout(self)
        self._form.setContentsMargins(0, 0, 0, 0)
        self._form.setHorizontalSpacing(3 * STEP)
        self._form.setVerticalSpacing(2 * STEP)
        self._head("Breakage")
        self.rates = {key: self._box(key, words, "50") for key, words in _KINDS.items()}
        self.outright = {
            "tiles": self._box("tiles", _OUTRIGHT["tiles"], "4"),
            "percent": self._box("percent", _OUTRIGHT["percent"], "10", unit=" %"),
        }
        self._head("Spare and boxes")
        self.of = ChoiceBox("Tile whose spare and boxes are set")
        self.of.chosen.connect(lambda _id: self.refresh())
        self._form.addRow(self.of)
        self.spare = self._field("Spare, for repairs", "3")
        self.per_box = self._field("Tiles in a box", "8", least=1)
        self.spare.entered.connect(lambda count: self._change_tile("Set spare tiles", spare=_whole(count)))
        self.per_box.entered.connect(lambda count: self._change_tile("Set box", per_box=_whole(count)))

    @property
    def first(self) -> NumberBox:
        """The first of the fields."""
        return self.rates["straight"]

    @property
    def _tile(self) -> Tile | None:
        return next((tile for tile in self._bench.job.tiles if tile.id == self.of.value), None)

    def refresh(self) -> None:
        """Show the job as it is now; what is usual in an empty field."""
        breakage, plan = self._bench.job.breakage, self._bench.plan
        self.of.offer((tile.title, tile.id) for tile in (plan.tiles if plan else ()))
        self.of.setVisible(self.of.count() > 1)
        tile = self._tile
        usual, is_outright = Breakage(), False
        for key, box in self.outright.items():
            set_to = getattr(breakage, key, None)
            box.show_number(set_to)
            is_outright = is_outright or set_to is not None
        for key, box in self.rates.items():
            box.show_number(getattr(breakage or usual, key))
            box.setEnabled(not is_outright)
        self.spare.show_number(None if tile is None else tile.spare)
        self.spare.line.setPlaceholderText(str(USUAL_SPARE))
        self.per_box.show_number(None if tile is None else tile.per_box)

    def _head(self, words: str) -> None:
        head = QLabel(words, self)
        head.setFont(self._bench.look.font(TextSize.TITLE))
        self._form.addRow(head)

    def _box(self, key: str, words: str, example: str, unit: str = "") -> NumberBox:
        box = self._field(words, example, unit=unit)
        box.entered.connect(partial(self._set_breakage, key))
        return box

    def _field(self, words: str, example: str, *, unit: str = "", least: int = 0) -> NumberBox:
        def is_allowed(number: float) -> bool:
            return number >= least and (bool(unit) or number == int(number))

        box = NumberBox(
            words.replace("… ", ""), unit=unit, is_allowed=is_allowed, example=example, is_optional=True
        )
        box.line.setMaximumWidth(20 * STEP)
        label = QLabel(words, self)
        label.setBuddy(box.focusProxy() or box)
        self.labels.append(label)
        self._form.addRow(label, box)
        return box

    def _set_breakage(self, key: str, number: float | None) -> None:
        usual = getattr(Breakage(), key)
        value = number if key == "percent" else _whole(number)
        old = self._bench.job.breakage or Breakage()
        outright = dict.fromkeys(_OUTRIGHT, None) if key in _OUTRIGHT else {}
        new: Breakage = replace(old, **(outright | {key: usual if value is None else value}))
        kept = None if new == Breakage() else new
        if not self._bench.apply("Set breakage", lambda job: set_breakage(job, kept)):
            self.refresh()

    def _change_tile(self, label: str, **changes: object) -> None:
        tile = self._tile
        if tile is not None:
            self._bench.apply(label, lambda job: replace_tile(job, tile.id, replace(tile, **changes)))


def _whole(number: float | None) -> int | None:
    return None if number is None else int(number)
