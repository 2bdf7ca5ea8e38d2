"""How many tiles to allow for breakage: by what is cut, and not by a percentage of everything.

Each cut piece counts once, under the most delicate of its cuts. Of how many such pieces one breaks is common
practice and has no published source (overall 2 to 3 % is named from memory); a person who knows saw and tile
better sets it, or says outright how many tiles.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from tilelayout.job.ground import Breakage
from tilelayout.layout.values import CutKind

_ROUNDING = 1e-9


class Delicacy(StrEnum):
    """What makes a piece likely to break, the most delicate first."""

    HOLE = "hole"
    NOTCH = "notch"
    NARROW = "narrow"
    STRAIGHT = "straight"


_POCKETS = frozenset({CutKind.NOTCH, CutKind.SLOT, CutKind.CURVE})

WORDS = {
    Delicacy.HOLE: ("hole", "holes"),
    Delicacy.NOTCH: ("notch", "notches"),
    Delicacy.NARROW: ("narrow piece", "narrow pieces"),
    Delicacy.STRAIGHT: ("straight cut", "straight cuts"),
}


@dataclass(frozen=True)
class BreakageShare:
    """Of `count` pieces of one kind one in `one_in` is taken to break."""

    kind: Delicacy
    count: int
    one_in: int

    @property
    def expected(self) -> float:
        """How many tiles that comes to, in parts of a tile."""
        return self.count / self.one_in if self.one_in else 0.0


@dataclass(frozen=True)
class BreakageAllowance:
    """So many `tiles`, either `is_set` by a person or what the shares come to, rounded up.

    `percent` is what a person set it to be of all tiles laid whole and opened, if it is set so.
    """

    tiles: int
    shares: tuple[BreakageShare, ...]
    is_set: bool = False
    percent: float | None = None


def delicacy_of(kinds: Iterable[CutKind], is_narrow: bool) -> Delicacy:
    """Return what makes a piece with these cuts likely to break; `is_narrow` claims that it is a sliver."""
    made = set(kinds)
    if CutKind.HOLE in made:
        return Delicacy.HOLE
    if made & _POCKETS:
        return Delicacy.NOTCH
    return Delicacy.NARROW if is_narrow else Delicacy.STRAIGHT


def counted(kinds: Iterable[Delicacy]) -> Mapping[Delicacy, int]:
    """Return how many pieces there are of each kind, the most delicate first."""
    counts = Counter(kinds)
    return {kind: counts[kind] for kind in Delicacy if counts[kind]}


def allowance(
    counts: Mapping[Delicacy, int], breakage: Breakage | None = None, needed: int = 0
) -> BreakageAllowance:
    """Return how many tiles to allow for; `breakage` None stands for the usual shares.

    `needed` are the tiles laid whole and opened, of which a percentage is taken if one is set.

    >>> allowance({Delicacy.NOTCH: 14, Delicacy.STRAIGHT: 14}).tiles
    2
    """
    rates = breakage or Breakage()
    shares = tuple(
        BreakageShare(kind, counts[kind], int(getattr(rates, kind.value)))
        for kind in Delicacy
        if counts.get(kind)
    )
    if rates.tiles is not None:
        return BreakageAllowance(rates.tiles, shares, is_set=True)
    if rates.percent is not None:
        tiles = math.ceil(needed * rates.percent / 100.0 - _ROUNDING)
        return BreakageAllowance(tiles, shares, is_set=True, percent=rates.percent)
    return BreakageAllowance(math.ceil(sum(share.expected for share in shares) - _ROUNDING), shares)
