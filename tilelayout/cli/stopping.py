"""Progress lines, and stopping from the keyboard between them.

Python turns the keyboard's stop into an error wherever it happens to be, and a library in the middle of its
own clean-up may swallow that error. So the wish to stop is also remembered, and the next line of progress
keeps to it.
"""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager

_stop_is_wanted = threading.Event()


@contextmanager
def stoppable() -> Iterator[None]:
    """Remember a stop from the keyboard for as long as this lasts; only the main thread gets one."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    _stop_is_wanted.clear()
    before = signal.signal(signal.SIGINT, _stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


def tell_progress(words: str) -> None:
    """Print how far the work is on standard error; KeyboardInterrupt if a stop was wanted meanwhile."""
    if _stop_is_wanted.is_set():
        raise KeyboardInterrupt
    print(words, file=sys.stderr)


def _stop(_number: int, _frame: object) -> None:
    _stop_is_wanted.set()
    raise KeyboardInterrupt
