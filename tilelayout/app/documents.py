"""New, open, save: which file the job on the bench lives in, and never losing what is not yet in it.

Leaving unsaved work cannot be undone, so it is the one thing that is asked about, once: save, leave without
saving, or stay.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.recovery import Leftover, Recovery, remove
from tilelayout.app.settings import Settings
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.files import write_job
from tilelayout.job.values import Job
from tilelayout.planning.open_job import open_job

SUFFIX = ".tilejob"
_FILTER = f"Tile jobs (*{SUFFIX})"


class Documents(QObject):
    """The files of one window. `state_changed` follows whenever name or modified mark may have changed."""

    state_changed = Signal()

    def __init__(self, bench: Bench, settings: Settings, window: QWidget) -> None:
        super().__init__(window)
        self._bench = bench
        self._settings = settings
        self._window = window
        self.recovery = Recovery(bench, settings.folder, self)
        bench.job_changed.connect(self.state_changed)

    @property
    def name(self) -> str:
        """What to call the job in the title of the window."""
        session = self._bench.session
        return session.path.name if session.path else session.job.title or "New job"

    def new(self) -> None:
        """Begin an empty job."""
        self.leave(lambda: self._begin(Job(show_lengths=self._bench.job.show_lengths)))

    def open(self) -> None:
        """Ask for a job file and open it."""
        path, _ = QFileDialog.getOpenFileName(self._window, "Open a job", self._folder(), _FILTER)
        if path:
            self.open_path(Path(path))

    def open_path(self, path: Path) -> None:
        """Open a job file; what is wrong with it is said on a sheet and nothing else changes."""
        self.leave(lambda: self._open(path))

    def open_sample(self, job: Job) -> None:
        """Open a sample room as a job without a file, so that the sample stays as it is."""
        self.leave(lambda: self._begin(job))

    def save(self) -> bool:
        """Save to the job's own file; asks for one if it has none. False if it was not saved."""
        path = self._bench.session.path
        return self._write(path) if path is not None else self.save_as()

    def save_as(self) -> bool:
        """Ask for a file and save to it. False if it was not saved."""
        start = str(Path(self._folder()) / (Path(self.name).stem + SUFFIX))
        text, _ = QFileDialog.getSaveFileName(self._window, "Save the job as", start, _FILTER)
        if not text:
            return False
        path = Path(text)
        return self._write(path if path.suffix else path.with_suffix(SUFFIX))

    def leave(self, then: Callable[[], object]) -> None:
        """Call `then` once nothing unsaved is lost by it."""
        if not self._bench.session.is_modified:
            then()
            return
        choices = (
            Choice("Save", lambda: self.save() and then(), is_next=True),
            Choice("Leave without saving", lambda: self._give_up(then)),
            Choice("Stay"),
        )
        words = f"“{self.name}” has changes that are not saved."
        Sheet(self._window, self._bench.look, "Save before you leave?", words, choices).open()

    def offer_leftovers(self) -> None:
        """Offer the newest work that a crash left behind. Nothing is removed before the person chose."""
        left = self.recovery.leftovers()
        if not left:
            return
        newest = left[0]
        when = newest.when.strftime("%d %B, %H:%M")
        words = f"“{newest.name}” was not saved when the program ended. The copy is of {when}."
        choices = (
            Choice("Open the copy", lambda: self._recover(newest), is_next=True),
            Choice("Remove the copy", lambda: self._remove(newest)),
            Choice("Decide later"),
        )
        Sheet(self._window, self._bench.look, "Unsaved work was found", words, choices).open()

    def _recover(self, left: Leftover) -> None:
        try:
            job = open_job(left.copy)
        except TileLayoutError as error:
            self.say("The copy cannot be opened", str(error))
            return
        self._begin(Job())
        self._bench.apply("Recover unsaved work", lambda _old: job)
        if self.recovery.keep() is not None:
            remove(left.copy)

    def _remove(self, left: Leftover) -> None:
        remove(left.copy)
        self.offer_leftovers()

    def say(self, title: str, words: str) -> None:
        """Say something on a sheet."""
        Sheet(self._window, self._bench.look, title, words, (Choice("Close", is_next=True),)).open()

    def _begin(self, job: Job) -> None:
        self._bench.session.replace(job, None)
        self._settings.forget_last()
        self.recovery.drop()
        self.state_changed.emit()

    def _open(self, path: Path) -> None:
        try:
            job = open_job(path)
        except TileLayoutError as error:
            self.say("This job cannot be opened", str(error))
            return
        self._bench.session.replace(job, path.resolve())
        self._settings.remember(path.resolve())
        self.recovery.drop()
        self.state_changed.emit()

    def _write(self, path: Path) -> bool:
        try:
            write_job(self._bench.job, path)
        except TileLayoutError as error:
            self.say("The job could not be saved", str(error))
            return False
        self._bench.session.mark_saved(path.resolve())
        self._settings.remember(path.resolve())
        self.recovery.drop()
        self.state_changed.emit()
        return True

    def _give_up(self, then: Callable[[], object]) -> None:
        self.recovery.drop()
        self._bench.session.replace(self._bench.job, self._bench.session.path)
        then()

    def _folder(self) -> str:
        path = self._bench.session.path or self._settings.last
        return str(path.parent if path is not None else Path.home())
