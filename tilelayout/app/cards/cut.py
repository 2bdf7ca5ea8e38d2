"""The last card: which pieces to saw. Each row is drawn, counted and sized; a press lights its pieces."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QLabel, QListView, QPushButton, QSizePolicy, QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.cut_rows import CutRowPainter, CutRows
from tilelayout.drawing.picks import Pick, PickKind


class CutCard(Card):
    """The cut list beside the board. `lit(ids)` says which pieces the chosen row makes."""

    question = "Which pieces to saw?"
    next_step = "Save the sheets as PDF…"

    lit = Signal(object)
    print_wanted = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, ("pieces", "kinds of cut", "slivers"), parent)
        self.invite = QLabel("Nothing is laid yet, so there is nothing to saw.", self)
        self.invite.setObjectName("faint")
        self.invite.setWordWrap(True)
        self.column.addWidget(self.invite)
        self.rows = CutRows(self)
        self.list = QListView(self)
        self.list.setAccessibleName("Cut list")
        self.list.setModel(self.rows)
        self.list.setItemDelegate(CutRowPainter(self.rows, bench.look, self.list))
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setMinimumHeight(160)
        self.list.setLayoutMode(QListView.LayoutMode.Batched)  # rows are as high as their drawings
        self.list.setBatchSize(12)
        self.list.setResizeMode(QListView.ResizeMode.Adjust)
        self.column.addWidget(self.list, 1)
        self.print = QPushButton("Print…", self)
        self.add(self.print)
        self.list.selectionModel().currentChanged.connect(self._light)
        bench.chosen_changed.connect(self._follow)
        self.print.clicked.connect(self.print_wanted)
        self.finish(is_filled=True)

    def go_on(self) -> None:
        """To paper."""
        self.print_wanted.emit()

    def refresh(self) -> None:
        """Show the cut list of the plan in front."""
        plan = self.bench.plan
        self.rows.show_plan(plan)
        has_rows = bool(self.rows.rows)
        self.list.setVisible(has_rows)
        self.invite.setVisible(not has_rows)
        if plan is not None:
            self.invite.setText("Every tile is whole: nothing is to be sawn.")
        else:
            self.invite.setText("Nothing is laid yet, so there is nothing to saw.")
        self.fill_up(not has_rows)
        self.lead(plan is not None, "choose the tile", Stage.TILE)
        self.print.setVisible(plan is not None)
        values = ("–", "–", "–")
        if plan is not None:
            values = (str(plan.cut), str(len(plan.cut_rows)), str(len(plan.slivers)))
        for figure, value in zip(self.figures, values, strict=True):
            figure.show_value(value)

    def _light(self) -> None:
        at = self.list.currentIndex().row()
        if 0 <= at < len(self.rows.rows):
            self.lit.emit(tuple(piece.id for piece in self.rows.rows[at].pieces))

    def _follow(self, pick: object) -> None:
        """A piece chosen on the board brings its row into sight."""
        if not (self.isVisible() and isinstance(pick, Pick) and pick.kind is PickKind.PIECE):
            return
        at = self.rows.row_of(pick.id)
        if at is not None:
            with QSignalBlocker(self.list.selectionModel()):
                index = self.rows.index(at)
                flags = QItemSelectionModel.SelectionFlag.ClearAndSelect
                self.list.selectionModel().setCurrentIndex(index, flags)
            self.list.scrollTo(index)
            self.list.viewport().update()
            self._light()
