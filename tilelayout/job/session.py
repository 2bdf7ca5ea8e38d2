"""The one thing that changes: which job is open, what was done to it, and where it is saved.

Whoever shows the job watches the session and is told of every change with the job before and after.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from tilelayout.job.history import History
from tilelayout.job.values import Job

Watcher = Callable[[Job, Job, str], None]


class Session:
    """An open job with its undo history, its file and those who watch it."""

    def __init__(self, job: Job, path: Path | None = None) -> None:
        self._history = History(job)
        self._saved = job
        self._path = path
        self._watchers: list[Watcher] = []

    @property
    def job(self) -> Job:
        """The job as it is now."""
        return self._history.job

    @property
    def path(self) -> Path | None:
        """The file the job was opened from or saved to last; None if it has none yet."""
        return self._path

    @property
    def is_modified(self) -> bool:
        """Whether the job differs from what was opened or saved last; undoing to that point clears it."""
        return self.job is not self._saved and self.job != self._saved

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to undo."""
        return bool(self._history.past)

    @property
    def can_redo(self) -> bool:
        """Whether there is an undone step to do again."""
        return bool(self._history.future)

    @property
    def undo_label(self) -> str | None:
        """The name of the step that undo takes back; None if there is none."""
        return self._history.past[-1].label if self._history.past else None

    @property
    def redo_label(self) -> str | None:
        """The name of the step that redo does again; None if there is none."""
        return self._history.future[-1].label if self._history.future else None

    def apply(self, label: str, edit: Callable[[Job], Job], gesture: object | None = None) -> None:
        """Change the job by `edit` as one step that undo calls `label`.

        Steps with an equal `gesture` that follow each other are undone as one. What `edit` raises
        (EditError) passes through and changes nothing.
        """
        self._move_to(self._history.recorded(label, edit(self.job), gesture), label)

    def undo(self) -> None:
        """Take the last step back; nothing happens if there is none."""
        self._move_to(self._history.undone(), self.undo_label or "")

    def redo(self) -> None:
        """Do the step undone last again; nothing happens if there is none."""
        self._move_to(self._history.redone(), self.redo_label or "")

    def watch(self, watcher: Watcher) -> Callable[[], None]:
        """Call `watcher(before, after, label)` after every change; return what ends that."""
        self._watchers.append(watcher)

        def unwatch() -> None:
            if watcher in self._watchers:
                self._watchers.remove(watcher)

        return unwatch

    def mark_saved(self, path: Path) -> None:
        """Note that the job as it is now stands in the file `path`."""
        self._saved = self.job
        self._path = path

    def replace(self, job: Job, path: Path | None = None) -> None:
        """Open another job, with nothing to undo; those who watch are told."""
        self._saved = job
        self._path = path
        self._move_to(History(job), "Open")

    def _move_to(self, history: History, label: str) -> None:
        before = self.job
        self._history = history
        if history.job is before:
            return
        for watcher in tuple(self._watchers):
            watcher(before, history.job, label)
