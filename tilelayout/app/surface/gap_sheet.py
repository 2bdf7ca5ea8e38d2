"""A sheet for a gap felt under a straightedge: where its ends lay, where along it the gap was, how wide."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QFormLayout, QHBoxLayout, QLabel, QWidget

from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import STEP, Look
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.base.heights import height_style
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import StraightedgeReading

_WORDS = "Lay the straightedge on the high points and slide a wedge or coins under it."


class GapSheet(Sheet):
    """`taken(gap)` is called with what was entered and says whether it could be."""

    def __init__(
        self, parent: QWidget, look: Look, style: LengthStyle, taken: Callable[[StraightedgeReading], bool]
    ) -> None:
        choices = (Choice("Enter this gap", self.take, is_next=True, keeps_open=True), Choice("Close"))
        super().__init__(parent, look, "A gap under a straightedge", _WORDS, choices)
        self._taken = taken
        self.boxes: dict[str, LengthBox] = {}
        self._values: dict[str, float] = {}
        self._form = QFormLayout()
        self._form.setHorizontalSpacing(3 * STEP)
        self._form.setVerticalSpacing(2 * STEP)
        self._add_line("From (across, up)", style, "from across", "from up")
        self._add_line("To (across, up)", style, "to across", "to up")
        self._add_line("Gap at, from the first end", style, "along")
        self._add_line("Gap", height_style(style), "gap")
        self.body.addLayout(self._form)
        self.wrong = QLabel(self)
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.setVisible(False)
        self.body.addWidget(self.wrong)

    def take(self) -> None:
        """Enter the gap; the sheet stays for the next one, or says what is missing."""
        missing = [name for name in self.boxes if name not in self._values]
        if missing:
            self._say(f"Say {missing[0]} too.")
            self.boxes[missing[0]].setFocus()
            return
        v = self._values
        gap = StraightedgeReading(
            start=(v["from across"], v["from up"]),
            end=(v["to across"], v["to up"]),
            along=v["along"],
            gap=v["gap"],
        )
        self._say("" if self._taken(gap) else "This gap cannot be: see the line at the foot of the window.")

    def _add_line(self, label: str, style: LengthStyle, *names: str) -> None:
        row = QHBoxLayout()
        row.setSpacing(2 * STEP)
        for name in names:
            box = LengthBox(name[:1].upper() + name[1:], least=None if " " in name else 0.0)
            box.show_length(None, style)
            box.entered.connect(lambda value, name=name, style=style: self._keep(name, value, style))
            self.boxes[name] = box
            row.addWidget(box)
        self._form.addRow(label, row)

    def _keep(self, name: str, value: float, style: LengthStyle) -> None:
        self._values[name] = value
        self.boxes[name].show_length(value, style)

    def _say(self, words: str) -> None:
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))
