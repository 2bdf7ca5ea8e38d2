"""The sheet that says what is left when the whole job is laid, and keeps it in a file for the next job."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.look import STEP, TextSize
from tilelayout.app.sheet import Choice
from tilelayout.app.stock.pictures import ROW_PICTURE, offcut_icon
from tilelayout.app.stock.working_sheet import WorkingSheet
from tilelayout.job.stock_files import Stock
from tilelayout.job.values import Job
from tilelayout.planning.job_plan import job_plan
from tilelayout.planning.stock_words import offcut_words, stock_summary
from tilelayout.planning.what_is_left import what_is_left

_WORDS = (
    "What stays when every surface and trim is laid, whole boxes are bought and as many tiles break as is "
    "allowed for. Spare tiles for repairs are put by and not counted."
)


class LeftSheet(WorkingSheet):
    """Lists what is left as soon as it is known; `keep(stock)` writes it to a file and says so."""

    def __init__(self, window: QWidget, bench: Bench, keep: Callable[[Stock], str]) -> None:
        choices = (Choice("Keep in a file…", self.keep, is_next=True, keeps_open=True), Choice("Close"))
        super().__init__(window, bench.look, "What is left", _WORDS, choices)
        self._bench, self._keep = bench, keep
        self.stock: Stock | None = None
        self.list = QListWidget(self)
        self.list.setAccessibleName("What is left")
        self.list.setIconSize(ROW_PICTURE)
        self.list.setWordWrap(True)
        self.list.setMinimumSize(120 * STEP, 75 * STEP)
        self.body.addWidget(self.list, 1)
        self.buttons[0].setEnabled(False)
        job = bench.job
        self.work(lambda: _left_of(job), "Working out which pieces come from which tile…")

    def keep(self) -> None:
        """Ask for the file, and say so once it is written."""
        if self.stock is not None and (kept := self._keep(self.stock)):
            self.say(kept)

    def show_answer(self, answer: object) -> None:
        """List each tile and its offcuts."""
        if not isinstance(answer, Stock):
            return
        self.stock = answer
        style, ratio = self._bench.job.show_lengths, self.devicePixelRatioF()
        for tile in answer.tiles:
            head = QListWidgetItem(f"{tile.title}: {stock_summary(tile)}")
            head.setFont(self._bench.look.font(TextSize.TITLE))
            self.list.addItem(head)
            for offcut in tile.offcuts:
                icon = offcut_icon(tile, offcut, self._bench.look, ratio)
                self.list.addItem(QListWidgetItem(icon, offcut_words(offcut, style)))
        self.list.setCurrentRow(0)
        self.list.setFocus()
        self.list.setVisible(bool(answer.tiles))
        self.buttons[0].setEnabled(bool(answer.tiles))
        self.say("" if answer.tiles else "Nothing worth keeping is left.")


def _left_of(job: Job) -> Iterator[object]:
    """Yield None while the tiles are being shared, then what is left."""
    whole = job_plan(job)
    yield from (None for _ in whole.sharing_steps())
    yield what_is_left(whole)
