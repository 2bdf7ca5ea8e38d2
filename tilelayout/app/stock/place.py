"""Opens the sheets about stock over the window, and reads and writes stock files."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.settings import Settings
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.app.stock.buying_sheet import BuyingSheet
from tilelayout.app.stock.fit_sheet import FitSheet
from tilelayout.app.stock.left_sheet import LeftSheet
from tilelayout.app.stock.offcuts_sheet import OffcutsSheet
from tilelayout.app.stock.take_sheet import TakeSheet
from tilelayout.base.counts import so_many
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.stock_files import STOCK_SUFFIX, Stock, read_stock, write_stock
from tilelayout.planning.what_is_left import with_the_rest

_FILTER = f"Tile stock (*{STOCK_SUFFIX})"


class StockPlace(QObject):
    """What a person may ask for about stock."""

    def __init__(self, bench: Bench, settings: Settings, window: QWidget) -> None:
        super().__init__(window)
        self._bench, self._settings, self._window = bench, settings, window

    def show_offcuts(self) -> None:
        """Open the offcuts on hand of the tile in front."""
        if self._bench.tile is not None:
            OffcutsSheet(self._window, self._bench, self._bench.tile).open()

    def show_what_to_buy(self) -> None:
        """Open what to buy for the layout in front."""
        if self._bench.plan is not None:
            BuyingSheet(self._window, self._bench).open()

    def make_it_fit(self) -> None:
        """Try what would make the layout in front fit the tiles on hand."""
        if self._bench.plan is not None and self._bench.layout is not None:
            FitSheet(self._window, self._bench, self._bench.layout).open()

    def show_what_is_left(self) -> None:
        """Open what is left when the whole job is laid."""
        LeftSheet(self._window, self._bench, self._ask_where_to_keep).open()

    def ask_what_to_take(self) -> None:
        """Ask for a stock file and open what is in it."""
        path, _ = QFileDialog.getOpenFileName(self._window, "Take from stock", self._folder(), _FILTER)
        if path:
            self.take_from(Path(path))

    def take_from(self, path: Path) -> None:
        """Open what is in a stock file; what is wrong with it is said on a sheet."""
        try:
            stock = read_stock(path)
        except TileLayoutError as error:
            self._say("This stock cannot be opened", str(error))
            return
        TakeSheet(self._window, self._bench, stock, path.name).open()

    def keep_in(self, left: Stock, path: Path) -> str:
        """Write what is left to a file, beside what it holds of other tiles; return what was done, in words.

        "" if it could not be done, which is said on a sheet.
        """
        path = path if path.suffix else path.with_suffix(STOCK_SUFFIX)
        try:
            before = read_stock(path) if path.exists() else Stock()
            kept = with_the_rest(left, self._bench.job, before)
            write_stock(kept, path)
        except TileLayoutError as error:
            self._say("What is left could not be kept", str(error))
            return ""
        others = len(kept.tiles) - len(left.tiles)
        beside = f" beside {so_many(others, 'tile')} of other jobs" if others else ""
        return f"Kept in {path.name}{beside}."

    def stop(self) -> None:
        """Work no longer: the window closes."""
        for work in self._window.findChildren(LatestWork):
            work.stop()

    def _ask_where_to_keep(self, left: Stock) -> str:
        start = str(Path(self._folder()) / f"left{STOCK_SUFFIX}")
        text, _ = QFileDialog.getSaveFileName(self._window, "Keep what is left", start, _FILTER)
        return self.keep_in(left, Path(text)) if text else ""

    def _folder(self) -> str:
        path = self._bench.session.path or self._settings.last
        return str(path.parent if path is not None else Path.home())

    def _say(self, title: str, words: str) -> None:
        Sheet(self._window, self._bench.look, title, words, (Choice("Close", is_next=True),)).open()
