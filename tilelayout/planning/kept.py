"""Keeps what was worked out from parts of a job for as long as the parts are the same objects.

A job is immutable and an edit leaves what it did not touch as it was, so "is it still the same?" is a
comparison of identities, and editing the title costs no laying. The parts are held with the result, so
that an identity is never used again by another object while it is still being compared.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Generic, TypeVar

V = TypeVar("V")


class Kept(Generic[V]):
    """The latest `most` results, each under the identities of the parts it was made from."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._lock = Lock()
        self._results: OrderedDict[Hashable, tuple[tuple[object, ...], V]] = OrderedDict()

    def find(self, parts: tuple[object, ...], *figures: float) -> V | None:
        """Return the result kept for these very parts and equal figures; None if there is none."""
        with self._lock:
            kept = self._results.get((*map(id, parts), *figures))
        return None if kept is None else kept[1]

    def get(self, parts: tuple[object, ...], make: Callable[[], V], *figures: float) -> V:
        """Return the result kept for these very parts and equal figures, made first if there is none."""
        key = (*map(id, parts), *figures)
        with self._lock:
            if key in self._results:
                self._results.move_to_end(key)
                return self._results[key][1]
        result = make()
        with self._lock:
            self._results[key] = (parts, result)
            while len(self._results) > self._most:
                self._results.popitem(last=False)
        return result
