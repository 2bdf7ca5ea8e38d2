"""The sheet for offcuts on hand of the tile in front: a list with pictures, the one chosen measured beside.

Every entry is one change of the job and so one step of undo. Size and factory edges belong together, so one
brings the other along.
"""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from tilelayout.app.access_keys import give_keys, key_of
from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import TextBox, Tick
from tilelayout.app.look import STEP
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.app.stock.offcut_form import OffcutForm
from tilelayout.app.stock.pictures import ROW_PICTURE, offcut_icon
from tilelayout.job.edits.stock import add_offcut, remove_offcut, replace_offcut
from tilelayout.job.edits.tiles import replace_tile
from tilelayout.job.stock import OffcutOnHand
from tilelayout.job.values import Job, Tile
from tilelayout.offcuts.half import half_tile
from tilelayout.planning.stock_words import offcut_words

_WORDS = (
    "Measure each offcut face up, its tile's length from left to right. Heavy edges are the tile's own; "
    "only these may stand at a joint."
)


class OffcutsSheet(Sheet):
    """Shows and changes the offcuts of one tile of the job."""

    def __init__(self, window: QWidget, bench: Bench, tile: Tile) -> None:
        super().__init__(window, bench.look, f"Offcuts of {tile.title}", _WORDS, (Choice("Close"),))
        self._bench, self._id = bench, tile.id
        self.list = QListWidget(self)
        self.list.setAccessibleName("Offcuts on hand")
        self.list.setIconSize(ROW_PICTURE)
        self.list.setMinimumSize(100 * STEP, 70 * STEP)
        self.list.setWordWrap(True)
        self.list.installEventFilter(self)
        self.none = QLabel("There is none yet: add one, then say how large it is.", self)
        self.none.setObjectName("faint")
        self.none.setWordWrap(True)
        self.add, self.remove = QPushButton("Add an offcut", self), QPushButton("Remove it", self)
        self.form = OffcutForm(bench.look, tile, self)
        self.lot = TextBox("Lot of the whole tiles and of those to be bought")
        self.mixed = Tick("Offcuts of other lots may be laid with them")
        self.wrong = QLabel(self)
        self.wrong.setObjectName("wrong")
        self.wrong.setWordWrap(True)
        self._place()
        self._connect()
        give_keys([self.add, self.remove, *self.form.labels], [key_of(each.text()) for each in self.buttons])
        self._show()
        self.list.setCurrentRow(0)
        (self.list if self.tile.offcuts else self.add).setFocus()

    @property
    def tile(self) -> Tile:
        """The tile as it is now."""
        return self._bench.job.tile(self._id)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Delete removes the offcut that is chosen in the list."""
        if (
            watched is self.list
            and isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.key() == Qt.Key.Key_Delete
        ):
            self._remove()
            return True
        return super().eventFilter(watched, event)

    def _place(self) -> None:
        left = QVBoxLayout()
        left.addWidget(self.none)
        left.addWidget(self.list, 1)
        buttons = QHBoxLayout()
        for button in (self.add, self.remove):
            button.setAutoDefault(False)
            button.setAccessibleName(button.text())
            buttons.addWidget(button)
        buttons.addStretch(1)
        left.addLayout(buttons)
        lot = QHBoxLayout()
        lot.addWidget(QLabel("Whole tiles are of lot", self))
        lot.addWidget(self.lot)
        left.addLayout(lot)
        left.addWidget(self.mixed)
        across = QHBoxLayout()
        across.setSpacing(6 * STEP)
        across.addLayout(left, 1)
        across.addWidget(self.form)
        self.body.addLayout(across, 1)
        self.body.addWidget(self.wrong)

    def _connect(self) -> None:
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self.list.currentRowChanged.connect(lambda _row: self._show_chosen())
        self.form.changed.connect(self._change)
        self.lot.entered.connect(lambda lot: self._change_tile("Set lot", lot=lot.strip()))
        self.mixed.chosen.connect(lambda is_on: self._change_tile("Mix lots", mixed_lots=is_on))
        self._bench.job_changed.connect(self._show)
        self._bench.refused.connect(self._say)

    def _add(self) -> None:
        tile = self.tile
        before = len(tile.offcuts)
        half = replace(half_tile(tile), lot=tile.lot)
        self._apply("Add offcut", lambda job: add_offcut(job, tile.id, half))
        if len(self.tile.offcuts) > before:
            self.list.setCurrentRow(before)
        self.form.count.setFocus()

    def _remove(self) -> None:
        at = self.list.currentRow()
        if 0 <= at < len(self.tile.offcuts):
            self._apply("Remove offcut", lambda job: remove_offcut(job, self._id, at))
            self.list.setFocus()

    def _change(self, offcut: OffcutOnHand) -> None:
        at = self.list.currentRow()
        if 0 <= at < len(self.tile.offcuts):
            self._apply("Change offcut", lambda job: replace_offcut(job, self._id, at, offcut))
        self._show_chosen()

    def _change_tile(self, label: str, **changes: object) -> None:
        changed: Tile = replace(self.tile, **changes)
        self._apply(label, lambda job: replace_tile(job, self._id, changed))

    def _apply(self, label: str, edit: Callable[[Job], Job]) -> None:
        self._say("")
        self._bench.apply(label, edit)

    def _show(self) -> None:
        if all(tile.id != self._id for tile in self._bench.job.tiles):
            self.reject()
            return
        tile, style, at = self.tile, self._bench.job.show_lengths, self.list.currentRow()
        self.list.blockSignals(True)
        self.list.clear()
        for offcut in tile.offcuts:
            icon = offcut_icon(tile, offcut, self._bench.look, self.devicePixelRatioF())
            self.list.addItem(QListWidgetItem(icon, offcut_words(offcut, style)))
        self.list.setCurrentRow(min(max(at, 0), len(tile.offcuts) - 1))
        self.list.blockSignals(False)
        self.none.setVisible(not tile.offcuts)
        self.lot.show_text(tile.lot)
        self.mixed.show_value(tile.mixed_lots)
        self._show_chosen()

    def _show_chosen(self) -> None:
        tile, at = self.tile, self.list.currentRow()
        offcut = tile.offcuts[at] if 0 <= at < len(tile.offcuts) else None
        self.remove.setEnabled(offcut is not None)
        self.form.show_offcut(tile, offcut, self._bench.job.show_lengths)

    def _say(self, words: str) -> None:
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))
