"""What pieces may be sawn from: whole tiles, as many as are wanted, and offcuts on hand, which are free."""

from __future__ import annotations

from dataclasses import dataclass

from tilelayout.offcuts.sets import Sets

WHOLE = 0
"""The number of the whole tiles among the supplies; every other is a kind of offcut on hand."""


@dataclass(frozen=True, eq=False)
class Supply:
    """The sets of pieces that a tile or an offcut gives, and how many there are; None for no end of them."""

    sets: Sets
    count: int | None = None


@dataclass(frozen=True, order=True)
class Filled:
    """One tile or offcut of a supply, by its number, with the places of the pieces in it."""

    supply: int
    places: tuple[int, ...]
