"""Saves the comparison as a PDF of its own, off the window's thread, on the paper that was chosen last."""

from __future__ import annotations

import datetime
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from tilelayout.app.background import Pull
from tilelayout.app.bench import Bench
from tilelayout.app.compare.beside import Beside
from tilelayout.app.printing import usual_paper
from tilelayout.app.settings import Settings
from tilelayout.base.errors import TileLayoutError


class ComparePaper(QObject):
    """The way of the comparison to paper.

    `saved(path)` when it is there, `said(words)` in words; `refused(words)` says why it could not be written.
    """

    said = Signal(str)
    refused = Signal(str)
    saved = Signal(object)

    def __init__(self, bench: Bench, beside: Beside, settings: Settings, window: QWidget) -> None:
        super().__init__(window)
        self._bench, self._beside, self._settings, self._window = bench, beside, settings, window
        self.pull: Pull | None = None

    def ask_for_file(self) -> None:
        """Ask where the PDF should go and write it there."""
        start = self._bench.session.path or Path.home() / (self._bench.job.title or "Tile plan")
        usual = start.with_name(f"{start.stem} compared.pdf")
        text, _ = QFileDialog.getSaveFileName(
            self._window, "Save the comparison as", str(usual), "PDF (*.pdf)"
        )
        if text:
            path = Path(text)
            self.write(path if path.suffix else path.with_suffix(".pdf"))

    def write(self, path: Path) -> None:
        """Write the PDF of the layouts that stand side by side."""
        from tilelayout.reports.to_pdf import print_comparison

        job, ids = self._beside.job, tuple(layout.id for layout in self._beside.shown)
        paper = self._settings.paper or usual_paper()
        name = self._bench.session.path.name if self._bench.session.path else ""
        today = datetime.date.today()
        self.pull = Pull(lambda: print_comparison(job, path, ids, paper, today, name), self)
        self.pull.done.connect(lambda: self._end(path))
        self.pull.failed.connect(self._fail)
        self.pull.start()

    def stop(self) -> None:
        """Wait for what is under way: the window closes."""
        if self.pull is not None:
            self.pull.cancel()
            self.pull.wait()

    def _end(self, path: Path) -> None:
        self.said.emit(f"The comparison is saved as {path}")
        self.saved.emit(path)

    def _fail(self, error: object) -> None:
        if not isinstance(error, TileLayoutError):
            assert isinstance(error, Exception)
            raise error
        self.refused.emit(str(error))
