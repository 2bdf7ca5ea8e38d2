"""Long work off the window's thread: a generator of steps is pulled by a thread that looks at a flag between
pulls.

Steps are reported at most twenty times a second, so that reporting never costs more than the work. A
cancelled generator is closed, which lets it take its half-made files away.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Generator, Iterator

from PySide6.QtCore import QObject, Signal

_EVERY_S = 0.05


class Pull(QObject):
    """Work under way. `stepped(step)`, then one of `done()`, `failed(error)`, `cancelled()`."""

    stepped = Signal(object)
    done = Signal()
    failed = Signal(object)
    cancelled = Signal()

    def __init__(self, steps: Callable[[], Iterator[object]], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._steps = steps
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name="long work", daemon=True)

    @property
    def is_working(self) -> bool:
        """True from the start until the work has ended."""
        return self._thread.is_alive()

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def cancel(self) -> None:
        """Stop at the next step."""
        self._stop.set()

    def wait(self) -> None:
        """Wait until the work has ended, one way or the other."""
        if self.is_working:
            self._thread.join()

    def _run(self) -> None:
        try:
            is_finished = self._pull(self._steps())
        except Exception as error:  # whatever it is belongs to the window's thread
            self.failed.emit(error)
        else:
            (self.done if is_finished else self.cancelled).emit()

    def _pull(self, steps: Iterator[object]) -> bool:
        reported = 0.0
        for step in steps:
            if self._stop.is_set():
                if isinstance(steps, Generator):
                    steps.close()
                return False
            if time.monotonic() - reported >= _EVERY_S:
                reported = time.monotonic()
                self.stepped.emit(step)
        return True
