"""The map itself: what each start of one cell gives, coarse first and finer with every step.

Starts that differ by a repeat of the pattern give the same laying, so one cell of them says all. It is
sampled at equal steps along the two vectors of the repeat; each finer grid keeps the starts of the last.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import sqrt
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.offset_map.rating import Rater, Rating
from tilelayout.layout.values import Points

FIRST = 144
"""About how many starts the first picture has."""

LEVELS = 3
"""How many grids there are, each with four times the starts of the one before."""

_CHUNK = 64

G = TypeVar("G", bound=np.generic)


class Measure(StrEnum):
    """What a start is judged by."""

    NARROWEST = "narrowest cut"
    SLIVERS = "slivers"
    CUTS = "cut pieces"


@dataclass(frozen=True, eq=False)
class OffsetMap:
    """What start (i / n) of the first of `vectors` + (j / m) of the second gives, from (0, 0): (n, m) each.

    `vectors` (2, 2) are in surface coordinates. `narrowest` is the narrowest cut in mm, `worst` the border
    where it is, a place in `borders` ("edge 3"), -1 if nothing is cut. `is_rated` tells which starts were
    laid (the others stand between their neighbours), `is_exact` where no width was estimated.
    """

    vectors: Points
    narrowest: Points
    slivers: Whole
    cuts: Whole
    worst: Whole
    is_rated: Flags
    is_exact: Flags
    borders: tuple[str, ...]

    @property
    def is_finished(self) -> bool:
        """Whether nothing is left to refine."""
        return bool(self.is_rated.all() and self.is_exact.all())

    @property
    def share_done(self) -> float:
        """How much of the starts shown is laid and exact, 0 to 1."""
        return float((self.is_rated & self.is_exact).mean())

    def starts(self, places: Whole) -> Points:
        """Return the starts (k, 2) at flat places (k,) of the grid."""
        size = np.array(self.narrowest.shape)
        return np.asarray(np.column_stack(np.divmod(places, size[1])) / size @ self.vectors)

    def places(self, starts: Points) -> Points:
        """Return where starts (..., 2) lie in the grid, in steps of it and within it: (..., 2)."""
        cells = starts @ np.linalg.inv(self.vectors)
        return np.asarray((cells - np.floor(cells)) * self.narrowest.shape)


def steps(rater: Rater, vectors: Points) -> Iterator[OffsetMap]:
    """Yield the map again and again, each time better; `vectors` are the repeat, turned with the layout.

    The first is complete, if coarse. The last is exact at every start.
    """
    latest = _empty(rater, vectors)
    for step in _rated(rater, latest, latest.is_rated, is_quick=True):
        latest = step
    yield latest
    for _level in range(1, LEVELS):
        latest = _finer(latest)
        for step in _rated(rater, latest, latest.is_rated, is_quick=True):
            latest = step
            yield latest
        for step in _rated(rater, latest, latest.is_exact, is_quick=False):
            latest = step
            yield latest


def _empty(rater: Rater, vectors: Points) -> OffsetMap:
    along, up = np.hypot(vectors[:, 0], vectors[:, 1]).tolist()
    columns = min(max(round(sqrt(FIRST * along / up)), 4), FIRST // 4)
    size = (columns, max(round(FIRST / columns), 4))
    borders = tuple(dict.fromkeys(rater.sources))
    no, none = np.zeros(size, dtype=bool), np.zeros(size, dtype=np.int64)
    return OffsetMap(vectors, np.zeros(size), none, none, none - 1, no, no, borders)


def _rated(rater: Rater, made: OffsetMap, known: Flags, *, is_quick: bool) -> Iterator[OffsetMap]:
    """Yield the map with more and more of the starts that are not known rated."""
    places = np.flatnonzero(~known)
    for at in range(0, len(places), _CHUNK):
        chunk = places[at : at + _CHUNK]
        made = _with(made, chunk, rater.rate(made.starts(chunk), is_quick=is_quick), rater)
        yield made


def _with(made: OffsetMap, places: Whole, ratings: list[Rating], rater: Rater) -> OffsetMap:
    """Return the map with these starts rated."""
    number = {source: at for at, source in enumerate(made.borders)}
    worst = [number[rater.sources[each.worst]] if each.worst >= 0 else -1 for each in ratings]
    return replace(
        made,
        narrowest=_put(made.narrowest, places, [each.narrowest for each in ratings]),
        slivers=_put(made.slivers, places, [each.slivers for each in ratings]),
        cuts=_put(made.cuts, places, [each.cuts for each in ratings]),
        worst=_put(made.worst, places, worst),
        is_rated=_put(made.is_rated, places, True),
        is_exact=_put(made.is_exact, places, [each.is_exact for each in ratings]),
    )


def _put(array: NDArray[G], places: Whole, values: Sequence[float] | bool) -> NDArray[G]:
    changed = array.copy()
    changed.ravel()[places] = values
    return changed


def _finer(made: OffsetMap) -> OffsetMap:
    """Return the map with twice the starts along both vectors; new ones stand between their neighbours."""
    return replace(
        made,
        narrowest=_between(made.narrowest),
        slivers=_repeated(made.slivers),
        cuts=_repeated(made.cuts),
        worst=_repeated(made.worst),
        is_rated=_spaced(made.is_rated),
        is_exact=_spaced(made.is_exact),
    )


def _spaced(array: NDArray[G]) -> NDArray[G]:
    """Return an array twice as large both ways, with zeros between the values."""
    spaced = np.zeros((2 * array.shape[0], 2 * array.shape[1]), dtype=array.dtype)
    spaced[::2, ::2] = array
    return spaced


def _repeated(array: NDArray[G]) -> NDArray[G]:
    return array.repeat(2, axis=0).repeat(2, axis=1)


def _between(array: Points) -> Points:
    """Return an array twice as large both ways, with the means of neighbours between the values."""
    found = _spaced(array)
    found[1::2, ::2] = (array + np.roll(array, -1, axis=0)) / 2
    found[:, 1::2] = (found[:, ::2] + np.roll(found[:, ::2], -1, axis=1)) / 2
    return found
