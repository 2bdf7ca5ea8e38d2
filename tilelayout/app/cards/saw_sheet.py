"""A sheet for the saw and for how offcuts may be used: kerf, sawn edges at a joint, the least offcut."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import Tick
from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import STEP
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.job.edits import jobs as edits
from tilelayout.job.values import Job

_WORDS = "Each change shares the tiles anew. What is ticked stays ticked where the piece is cut the same."
_KERF = "What the blade takes away. Pieces sawn from one tile lie so far apart."
_DRESSED = (
    "Off: the sides of a piece that stand at a joint are the tile's own, and sawn sides go to the wall. "
    "On: a sawn side may stand at a joint, since you grind it to look like the tile's own; more pieces then "
    "come from one tile."
)
_LEAST = (
    "Of the pieces sawn from one tile at most one is narrower than this, and no offcut so narrow is kept for "
    "another. 0 uses every offcut that a piece fits in."
)


class SawSheet(Sheet):
    """Each entry is one step to undo; the sheet stays open."""

    def __init__(self, parent: QWidget, bench: Bench) -> None:
        super().__init__(parent, bench.look, "The saw, and offcuts", _WORDS, (Choice("Close"),))
        self._bench = bench
        self.kerf = LengthBox("Kerf of the saw")
        self.dressed = Tick("Sawn edges are ground and may stand at a joint", self)
        self.least = LengthBox("Least offcut to use")
        rows = QGridLayout()
        rows.setHorizontalSpacing(3 * STEP)
        rows.setVerticalSpacing(2 * STEP)
        for at, (label, field, words) in enumerate(
            (
                ("Kerf", self.kerf, _KERF),
                ("", self.dressed, _DRESSED),
                ("Least offcut", self.least, _LEAST),
            )
        ):
            rows.addWidget(QLabel(label, self), 2 * at, 0)
            rows.addWidget(field, 2 * at, 1)
            rows.addWidget(self._faint(words), 2 * at + 1, 1)
        self.wrong = QLabel(self)
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self.wrong.setVisible(False)
        self.body.addLayout(rows)
        self.body.addWidget(self.wrong)
        self.kerf.entered.connect(lambda mm: self._change("Set kerf", lambda job: edits.set_kerf(job, mm)))
        self.dressed.chosen.connect(
            lambda is_on: self._change("Set sawn edges", lambda job: edits.set_dressed(job, is_on))
        )
        self.least.entered.connect(
            lambda mm: self._change("Set least offcut", lambda job: edits.set_least_offcut(job, mm))
        )
        bench.job_changed.connect(self._show)
        bench.refused.connect(self._say)
        self._show()
        self.kerf.setFocus()

    def _show(self) -> None:
        saw, style = self._bench.job.saw, self._bench.job.show_lengths
        self.kerf.show_length(saw.kerf, style)
        self.dressed.show_value(saw.dressed)
        self.least.show_length(saw.least_offcut, style)

    def _change(self, label: str, edit: Callable[[Job], Job]) -> None:
        self._say("")
        self._bench.apply(label, edit)

    def _say(self, words: str) -> None:
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))

    def _faint(self, words: str) -> QLabel:
        label = QLabel(words, self)
        label.setObjectName("faint")
        label.setWordWrap(True)
        return label
