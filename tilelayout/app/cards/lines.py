"""The rows of the third card about reference lines: each with how far it is missed, to add and to take away.

A line is added by pointing on the board; the card only says which kind.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from msgspec.structs import replace
from PySide6.QtCore import QObject, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QPushButton, QSizePolicy

from tilelayout.app.cards.card import Card
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import STEP
from tilelayout.job.edits import lines as edits
from tilelayout.job.kinds import Centred, LineKind
from tilelayout.job.values import Job, ReferenceLine
from tilelayout.planning.plan import Plan
from tilelayout.planning.reference_lines import line_misses

_ADD = "Add a line…"
TOOL_WORDS = {
    "centre_on": "Centre on a feature",
    "joint_on_line": "Joint on a line",
    "full_tile_at": "Full tiles at a wall",
    "no_joint_near": "No joint near a cutout",
}
"""The tools that add a line, and what they ask of the layout."""

_PUT_WORDS = (("Tile or joint", Centred.EITHER), ("Tile", Centred.TILE), ("Joint", Centred.JOINT))


class LineList(QListWidget):
    """The lines in words, as high as all of them are."""

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the words anew."""
        super().resizeEvent(event)
        self.take_height()

    def take_height(self) -> None:
        """Be as high as all rows are at this width."""
        self.doItemsLayout()
        rows = (self.visualItemRect(self.item(at)).height() for at in range(self.count()))
        self.setFixedHeight(sum(rows) + STEP)


class LineRows(QObject):
    """Rows on a card. `tool_wanted(name)` when a line is to be pointed at on the board."""

    tool_wanted = Signal(str)

    def __init__(self, card: Card) -> None:
        super().__init__(card)
        self._card, self._bench = card, card.bench
        self._lines: tuple[ReferenceLine, ...] = ()
        card.add_rule()
        self._add_list(card)
        self._add_row_of_one(card)
        self.list.currentRowChanged.connect(lambda _row: self._show_one())

    def refresh(self) -> None:
        """Show the lines of the layout in front, with how far each is missed."""
        plan = self._bench.plan
        self.adding.setVisible(plan is not None)
        self._lines = plan.layout.lines if plan is not None else ()
        self._show_rows(plan)
        self._show_one()

    # --- parts -----------------------------------------------------------------------------------------

    def _add_list(self, card: Card) -> None:
        self.kind = ChoiceBox("Add a reference line")
        self.kind.offer([(_ADD, ""), *((words, tool) for tool, words in TOOL_WORDS.items())])
        self.adding = card.add_row("Keep to", self.kind)
        self.list = LineList(card)
        self.list.setWordWrap(True)
        self.list.setAccessibleName("Reference lines")
        self.list.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        card.column.addWidget(self.list)
        self.kind.chosen.connect(self._want)

    def _add_row_of_one(self, card: Card) -> None:
        card.group = "line"
        self.put = ChoiceBox("What is centred there", _PUT_WORDS)
        self.within = LengthBox("How far joints keep away", least=0.0)
        self.remove = QPushButton("Take away")
        self.one = card.add_row("This line", self.put, self.within, self.remove)
        card.group = ""
        self.put.chosen.connect(lambda put: self._change(put=put))
        self.within.entered.connect(lambda within: self._change(within=within))
        self.remove.clicked.connect(self._remove)

    # --- what is shown ---------------------------------------------------------------------------------

    def _show_rows(self, plan: Plan | None) -> None:
        rows = [f"{at}  {miss.words}" for at, miss in enumerate(line_misses(plan), start=1)] if plan else []
        with QSignalBlocker(self.list):
            while self.list.count() > len(rows):
                self.list.takeItem(self.list.count() - 1)
            for at, words in enumerate(rows):
                if at >= self.list.count():
                    self.list.addItem(QListWidgetItem(words))
                self.list.item(at).setText(words)
        self.list.setVisible(bool(rows))
        self.list.take_height()

    def _show_one(self) -> None:
        line = self._chosen()
        self.one.setVisible(line is not None)
        if line is not None:
            self.put.setVisible(line.kind is LineKind.CENTRE)
            self.put.show_value(line.put)
            self.within.setVisible(line.kind is LineKind.NO_JOINT)
            self.within.show_length(line.within, self._bench.job.show_lengths)

    def _chosen(self) -> ReferenceLine | None:
        at = self.list.currentRow()
        return self._lines[at] if 0 <= at < len(self._lines) else None

    # --- what is done ----------------------------------------------------------------------------------

    def _want(self, tool: object) -> None:
        self.kind.show_value("")
        if tool:
            self.tool_wanted.emit(str(tool))

    def _change(self, **changes: Any) -> None:
        line, at = self._chosen(), self.list.currentRow()
        if line is not None:
            new = replace(line, **changes)
            self._edit("Change a reference line", lambda job, id: edits.replace_line(job, id, at, new))

    def _remove(self) -> None:
        at = self.list.currentRow()
        if self._chosen() is not None:
            self._edit("Take a reference line away", lambda job, id: edits.remove_line(job, id, at))

    def _edit(self, label: str, edit: Callable[[Job, str], Job]) -> None:
        layout = self._bench.layout
        if layout is not None:
            self._bench.apply(label, lambda job: edit(job, layout.id))
