"""Progress lines, and stopping from the keyboard between them.

Python turns the keyboard's stop into an error wherever it happens to be, and a library in the middle of its
own clean-up may swallow that error. So the wish to stop is also remembered, and the next line of progress
keeps to it.
"""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

_stop_is_wanted = threading.Event()

_LEAST_TOLD = 0.1


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


def tell_changes(lines: Iterable[str]) -> None:
    """Print each line that says something new."""
    last = ""
    for words in lines:
        if words != last:
            tell_progress(words)
        last = words


def tell_shares(words: str, shares: Iterable[float]) -> None:
    """Print in tenths how far work is that yields which share of it is done."""
    tell_changes(f"{words}: {int(share * 10) * 10} %" for share in shares if share >= _LEAST_TOLD)


def _stop(_number: int, _frame: object) -> None:
    _stop_is_wanted.set()
    raise KeyboardInterrupt
