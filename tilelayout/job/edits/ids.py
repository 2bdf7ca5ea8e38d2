"""Finds ids that are free: what a person points at keeps its id for as long as it is there."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import count
from string import ascii_uppercase


def free_id(taken: Iterable[str], base: str) -> str:
    """Return `base`, or the first of base-2, base-3 … that is not taken.

    A single capital letter is followed by the next letters, which is how layouts are named.

    >>> free_id(["floor", "floor-2"], "floor"), free_id(["A", "B"], "A")
    ('floor-3', 'C')
    """
    used = set(taken)
    letters = ascii_uppercase[ascii_uppercase.find(base) :] if len(base) == 1 else ""
    for letter in letters if base in ascii_uppercase else "":
        if letter not in used:
            return letter
    if base not in used:
        return base
    return next(id for number in count(2) if (id := f"{base}-{number}") not in used)
