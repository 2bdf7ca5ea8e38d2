"""The sheet that lists what an earlier job left, to take some or all of it into this one."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QScrollArea, QVBoxLayout, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import Tick
from tilelayout.app.look import STEP
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.job.edits.stock import take_stock
from tilelayout.job.same_tile import may_be_laid_together, same_tile
from tilelayout.job.stock_files import Stock
from tilelayout.job.values import Job, Tile
from tilelayout.planning.stock_words import stock_summary
from tilelayout.planning.tile_words import tile_size

_WORDS = "Tick what you take. It is laid before anything is bought."
_INDENT = 6 * STEP


class TakeSheet(Sheet):
    """A tick for each tile of a stock; what is ticked is taken in one step of undo."""

    def __init__(self, window: QWidget, bench: Bench, stock: Stock, file: str) -> None:
        choices = (Choice("Take what is ticked", self.take, is_next=True, keeps_open=True), Choice("Cancel"))
        where = f" ({stock.title})" if stock.title else ""
        super().__init__(window, bench.look, f"Take from {file}{where}", _WORDS, choices)
        self._bench, self._tiles = bench, stock.tiles
        self.ticks = [Tick(_title(tile, bench.job)) for tile in stock.tiles]
        self._place([_about(tile, bench.job) for tile in stock.tiles])
        self._refresh()
        if self.ticks:
            self.ticks[0].setFocus()

    @property
    def ticked(self) -> tuple[Tile, ...]:
        """The tiles that are ticked."""
        rows = zip(self._tiles, self.ticks, strict=True)
        return tuple(tile for tile, tick in rows if tick.isChecked())

    def take(self) -> None:
        """Take what is ticked and close."""
        taken = self.ticked
        if taken and self._bench.apply("Take from stock", lambda job: take_stock(job, taken)):
            self.accept()

    def _place(self, notes: list[str]) -> None:
        column = QWidget(self)
        column.setObjectName("column")
        rows = QVBoxLayout(column)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(STEP)
        for tick, words in zip(self.ticks, notes, strict=True):
            tick.show_value(True)
            tick.chosen.connect(lambda _is_on: self._refresh())
            note = QLabel(words, column)
            note.setObjectName("faint")
            note.setWordWrap(True)
            note.setIndent(_INDENT)
            rows.addWidget(tick)
            rows.addWidget(note)
        if not notes:
            rows.addWidget(QLabel("Nothing is in it.", column))
        rows.addStretch(1)
        scroll = QScrollArea(self)
        scroll.setObjectName("cardScroll")
        scroll.setWidgetResizable(True)
        scroll.setWidget(column)
        scroll.setMinimumSize(110 * STEP, 40 * STEP)
        self.body.addWidget(scroll, 1)

    def _refresh(self) -> None:
        self.buttons[0].setEnabled(bool(self.ticked))


def _title(tile: Tile, job: Job) -> str:
    return f"{tile.title}, {tile_size(tile, job.show_lengths)}"


def _about(tile: Tile, job: Job) -> str:
    own = same_tile(tile, (each for each in job.tiles if may_be_laid_together(each, tile)))
    goes = f"added to the {own.title} of this job" if own is not None else "comes as one more tile"
    return f"{stock_summary(tile)}; {goes}"
