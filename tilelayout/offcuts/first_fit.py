"""A plan at once: the largest pieces first, each in the first offcut on hand or tile that has room for it.

Known as first-fit decreasing. It is seldom more than a tile above the fewest, takes milliseconds, needs no
solver and gives the same plan on every machine; it stands wherever it is proved to be best.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tilelayout.offcuts.sets import PieceSet, Sets, bits_of
from tilelayout.offcuts.supplies import WHOLE, Filled, Supply

_MOST_TILES_TRIED = 60
"""Where pieces may slide, so many tiles are tried before a new one is opened."""


@dataclass(eq=False)
class _Opened:
    """A tile or an offcut that pieces are put into."""

    supply: int
    sets: Sets
    held: PieceSet


def first_fit(supplies: Sequence[Supply]) -> list[Filled]:
    """Return what is opened; the offcuts on hand come first, the smallest before the larger."""
    opened = _on_hand(supplies)
    unfilled = list(range(len(opened)))
    for kind, count in enumerate(supplies[WHOLE].sets.counts):
        found = 0
        for _ in range(count):
            found = _put_down(supplies[WHOLE].sets, opened, unfilled, kind, found)
        unfilled = [at for at in unfilled if opened[at].held.shared & opened[at].sets.from_kind(kind + 1)]
    return [Filled(each.supply, each.held.places) for each in opened if each.held.places]


def _on_hand(supplies: Sequence[Supply]) -> list[_Opened]:
    opened = [
        _Opened(number, supply.sets, supply.sets.nothing())
        for number, supply in enumerate(supplies)
        for _ in range(supply.count or 0)
    ]
    return sorted(opened, key=lambda each: each.held.left)


def _put_down(sets: Sets, opened: list[_Opened], unfilled: list[int], kind: int, start: int) -> int:
    """Put a piece down in the first tile that has room for it from the `start`-th of the unfilled on.

    Return at which of them; those before have none for another of its kind either.
    """
    tries = 0
    for at in range(start, len(unfilled)):
        tile = opened[unfilled[at]]
        wanted = tile.held.shared & sets.of_kind(kind)
        if not wanted:
            continue
        tries += 1
        bigger = next(_fitting(tile, wanted), None)
        if bigger is not None:
            tile.held = bigger
            return at
        if tries > _MOST_TILES_TRIED:
            break
    opened.append(_Opened(WHOLE, sets, sets.begun(next(sets.first_places(kind)))))
    unfilled.append(len(opened) - 1)
    return len(unfilled) - 1


def _fitting(tile: _Opened, wanted: int) -> Iterator[PieceSet]:
    """Yield the pieces of the tile and one more, at any of the wanted places."""
    for place in bits_of(wanted):
        bigger = tile.sets.extended(tile.held, place)
        if tile.sets.fitting.moves(bigger.places) is not None:
            yield bigger
