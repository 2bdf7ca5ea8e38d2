"""Keeps a copy of unsaved work beside the program's settings, so that a crash costs seconds.

A copy is written a moment after a change, aside and then swapped in. While its window lives it holds a
lock, so a live window's copy is never taken for one left by a crash. Nothing is removed until the person
chose, or saved.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from uuid import uuid4

from PySide6.QtCore import QLockFile, QObject, QTimer

from tilelayout.app.bench import Bench
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.files import write_job

SAVE_AFTER_MS = 2000
"""A change is safe this long after it was made."""


@dataclass(frozen=True)
class Leftover:
    """Unsaved work of a window that is no longer there."""

    copy: Path
    name: str
    when: datetime


class Recovery(QObject):
    """The copy of one window. `folder` is shared by all windows of the person."""

    def __init__(self, bench: Bench, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._folder = folder / "recovery"
        self._folder.mkdir(parents=True, exist_ok=True)
        self.copy = self._folder / f"{uuid4().hex}.tilejob"
        self._lock = QLockFile(str(_lock_of(self.copy)))
        self._lock.setStaleLockTime(0)
        self._lock.tryLock(0)
        self._soon = QTimer(self, singleShot=True, interval=SAVE_AFTER_MS)
        self._soon.timeout.connect(self.keep)
        bench.job_changed.connect(self._soon.start)

    def keep(self) -> Path | None:
        """Write the copy now, or take it away if nothing is unsaved; return it if it was written."""
        session = self._bench.session
        if not session.is_modified:
            self.drop()
            return None
        try:
            write_job(session.job, self.copy)
            _name_of(self.copy).write_text(str(session.path or session.job.title or "New job"), "utf-8")
        except (OSError, TileLayoutError) as error:
            self._bench.refused.emit(f"No copy of the unsaved work could be kept: {error}")
            return None
        return self.copy

    def drop(self) -> None:
        """Take the copy away: the work is saved, or was given up."""
        remove(self.copy)

    def end(self) -> None:
        """The window goes in good order: copy and lock go with it."""
        self._soon.stop()
        self.drop()
        self._lock.unlock()

    def leftovers(self) -> list[Leftover]:
        """Return the copies left by windows that are gone, newest first."""
        found = [copy for copy in self._folder.glob("*.tilejob") if copy != self.copy and _is_left(copy)]
        found.sort(key=lambda copy: copy.stat().st_mtime, reverse=True)
        return [_leftover(copy) for copy in found]


def remove(copy: Path) -> None:
    """Take a copy and what belongs to it away."""
    for path in (copy, _name_of(copy)):
        path.unlink(missing_ok=True)


def _is_left(copy: Path) -> bool:
    lock = QLockFile(str(_lock_of(copy)))
    lock.setStaleLockTime(0)
    is_free = lock.tryLock(0)
    if is_free:
        lock.unlock()
    return is_free


def _leftover(copy: Path) -> Leftover:
    name = _name_of(copy)
    words = name.read_text("utf-8") if name.exists() else "New job"
    return Leftover(copy, Path(words).name, datetime.fromtimestamp(copy.stat().st_mtime))


def _lock_of(copy: Path) -> Path:
    return copy.with_suffix(".lock")


def _name_of(copy: Path) -> Path:
    return copy.with_suffix(".name")
