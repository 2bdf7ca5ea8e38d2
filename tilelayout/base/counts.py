"""Counted things in words, so that one is one and several are several."""

from __future__ import annotations


def so_many(count: int, one: str, several: str = "") -> str:
    """Return a count with its word; `several` if more than an "s" makes it many.

    >>> so_many(1, "tile"), so_many(0, "tile"), so_many(2, "box", "boxes")
    ('1 tile', '0 tiles', '2 boxes')
    """
    return f"{count} {one if count == 1 else several or f'{one}s'}"
