"""Prints the sheets: to a PDF off the window's thread, or to a printer the system knows.

Both are the same pages. The PDF is written by `reports`; for a printer the same marks are painted on its
page at full size. Where no printer is set up, the sheet says so and offers the PDF.
"""

from __future__ import annotations

import datetime
from pathlib import Path

from PySide6.QtCore import QLocale, QObject, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QFormLayout, QLabel, QProgressBar, QWidget

from tilelayout.app.background import Pull
from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.look import STEP
from tilelayout.app.settings import Settings
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.values import Job

PAPER_WORDS = {"letter": "Letter, 8 1/2 × 11 in", "a4": "A4, 210 × 297 mm"}


class Printing(QObject):
    """The way to paper of one window."""

    def __init__(self, bench: Bench, settings: Settings, window: QWidget) -> None:
        super().__init__(window)
        self._bench = bench
        self._settings = settings
        self._window = window
        self.sheet: PrintSheet | None = None

    def ask(self) -> None:
        """Open the sheet on which paper and layouts are chosen."""
        if self._bench.layout is None:
            self._bench.refused.emit(
                "Nothing is laid yet, so there is nothing to print. Choose a tile first."
            )
            return
        self.sheet = PrintSheet(self._bench, self._settings, self._window)
        self.sheet.finished.connect(self._forget)
        self.sheet.open()

    def _forget(self) -> None:
        self.sheet = None


class PrintSheet(Sheet):
    """Paper, layouts, progress."""

    def __init__(self, bench: Bench, settings: Settings, window: QWidget) -> None:
        choices = (
            Choice("Save as PDF…", self.ask_for_file, is_next=True, keeps_open=True),
            Choice("Send to a printer…", self.send, keeps_open=True),
            Choice("Close", self.stop_or_close, keeps_open=True),
        )
        super().__init__(window, bench.look, "Sheets on paper", _words(), choices)
        self._bench = bench
        self._settings = settings
        self.pull: Pull | None = None
        self.paper = ChoiceBox("Paper", [(words, name) for name, words in PAPER_WORDS.items()])
        self.paper.show_value(settings.paper or usual_paper())
        self.layouts = ChoiceBox("Layouts", self._layout_choices(), self)
        self.progress = QProgressBar(self)
        self.progress.setAccessibleName("Progress")
        self.progress.setTextVisible(False)
        self.progress.hide()
        self.said = QLabel(self)
        self.said.setWordWrap(True)
        self.said.hide()
        form = QFormLayout()
        form.setSpacing(3 * STEP)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        form.addRow("Paper", self.paper)
        if self.layouts.count() > 1:
            form.addRow("Layouts", self.layouts)
        else:
            self.layouts.hide()
        self.body.addLayout(form)
        for widget in (self.progress, self.said):
            self.body.addWidget(widget)
        self.body.setSpacing(4 * STEP)
        self.buttons[1].setEnabled(_has_printer())

    def ask_for_file(self) -> None:
        """Ask where the PDF should go and write it there."""
        start = self._bench.session.path or Path.home() / (self._bench.job.title or "Tile plan")
        text, _ = QFileDialog.getSaveFileName(
            self, "Save the sheets as", str(start.with_suffix(".pdf")), "PDF (*.pdf)"
        )
        if text:
            path = Path(text)
            self.write(path if path.suffix else path.with_suffix(".pdf"))

    def write(self, path: Path) -> None:
        """Write the PDF off the window's thread."""
        from tilelayout.reports.to_pdf import print_job

        job, paper, ids = self._bench.job, self._paper(), self._ids()
        name = self._bench.session.path.name if self._bench.session.path else ""
        self.pull = Pull(lambda: print_job(job, path, paper, ids, datetime.date.today(), name), self)
        self.pull.stepped.connect(self._on_step)
        self.pull.done.connect(lambda: self._on_done(job, path))
        self.pull.failed.connect(self._on_failure)
        self.pull.cancelled.connect(self._on_stop)
        self._go(True)
        self.pull.start()

    def send(self) -> None:
        """Let the person choose a printer and paint the pages on it."""
        from tilelayout.app.paper import print_pages

        try:
            count = print_pages(self, self._bench.job, self._ids(), self._paper())
        except TileLayoutError as error:
            self._on_failure(error)
            return
        if count:
            self._bench.mark_printed(self._bench.job)
            self._say(f"{count} pages were sent to the printer.")

    def stop_or_close(self) -> None:
        """Stop the work under way; with none, leave."""
        if self.pull is not None and self.pull.is_working:
            self.pull.cancel()
        else:
            self.reject()

    def reject(self) -> None:
        """Leave: work under way is stopped first."""
        if self.pull is not None:
            self.pull.cancel()
            self.pull.wait()
        super().reject()

    def _layout_choices(self) -> list[tuple[str, object]]:
        layout = self._bench.layout
        ids = tuple(each.id for each in self._bench.job.layouts)
        choices: list[tuple[str, object]] = []
        if layout is not None:
            choices.append(
                (f"{layout.title}, on {self._bench.job.surface(layout.surface).title}", (layout.id,))
            )
        return [*choices, (f"All {len(ids)} layouts", ids)] if len(ids) > 1 else choices

    def _paper(self) -> str:
        self._settings.paper = str(self.paper.value)
        return str(self.paper.value)

    def _ids(self) -> tuple[str, ...]:
        ids = self.layouts.value
        return ids if isinstance(ids, tuple) else ()

    def _on_step(self, step: object) -> None:
        self.progress.setMaximum(getattr(step, "total", 0))
        self.progress.setValue(getattr(step, "done", 0))
        self._say(str(step))

    def _on_done(self, job: Job, path: Path) -> None:
        self._go(False)
        self._bench.mark_printed(job)
        self._say(f"Saved as {path}")
        self.buttons[0].setText("&Open the PDF")
        self.buttons[0].clicked.disconnect()
        self.buttons[0].clicked.connect(lambda: QDesktopServices.openUrl(QUrl.fromLocalFile(str(path))))

    def _on_stop(self) -> None:
        self._go(False)
        self._say("Stopped. The file is as it was before.")

    def _on_failure(self, error: object) -> None:
        self._go(False)
        if not isinstance(error, TileLayoutError):
            assert isinstance(error, Exception)
            raise error
        self._say(str(error))

    def _go(self, is_working: bool) -> None:
        self.progress.setVisible(is_working)
        self.buttons[0].setEnabled(not is_working)
        self.buttons[1].setEnabled(not is_working and _has_printer())
        self.buttons[2].setText("&Stop" if is_working else "&Close")

    def _say(self, words: str) -> None:
        self.said.setText(words)
        self.said.setAccessibleName(words)
        self.said.show()


def _has_printer() -> bool:
    from tilelayout.app.paper import has_printer

    return has_printer()


def usual_paper() -> str:
    """Return the paper that is usual where the system says it is."""
    is_metric = QLocale.system().measurementSystem() is QLocale.MeasurementSystem.MetricSystem
    return "a4" if is_metric else "letter"


def _words() -> str:
    words = (
        "The plan to scale with its start lines, and the cut list for the saw. "
        "Print at 100 %, not “fit to page”."
    )
    return (
        words
        if _has_printer()
        else f"{words} No printer is set up on this machine: save a PDF and print that."
    )
