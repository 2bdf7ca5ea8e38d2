"""Long work as a generator: what it yields tells how far it is, what it returns is its result."""

from __future__ import annotations

from collections.abc import Generator
from typing import TypeVar

Result = TypeVar("Result")
Told = TypeVar("Told")


def last_of(work: Generator[object, None, Result]) -> Result:
    """Return the result of work that nobody watches.

    >>> def work():
    ...     yield 0.5
    ...     return "done"
    >>> last_of(work())
    'done'
    """
    while True:
        try:
            next(work)
        except StopIteration as end:
            result: Result = end.value
            return result


def telling(told: Told, work: Generator[object, None, Result]) -> Generator[Told, None, Result]:
    """Do the work; at each of its steps yield what is to be told meanwhile.

    >>> def work():
    ...     yield 0.5
    ...     return "done"
    >>> list(telling("wait", work()))
    ['wait']
    """
    while True:
        try:
            next(work)
        except StopIteration as end:
            result: Result = end.value
            return result
        yield told
