"""Parts the pieces of one tile by straight cuts, each from edge to edge of the part in hand.

A wet saw cuts across what lies on its table. So there must be a line that leaves every piece whole and has
some on either side, a kerf apart; then again one for each of the two parts, until every piece is by itself.
Notches, holes and curves come after that, inside the part.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import ON_EDGE, SAME_PLACE
from tilelayout.geometry.halves import half_of
from tilelayout.geometry.rings import following
from tilelayout.layout.values import Points

_MOST_TO_TRY = 8
"""With more pieces only strips along their own sides are looked for: the halves of more are too many."""


@dataclass(frozen=True, eq=False)
class Parting:
    """One straight cut: `line` (2, 2) is the middle of the blade's run, in tile coordinates.

    It is None where the parts have come apart already, as in a tile that bends inwards.
    `sides` are the two parts: the number of the only piece in it, or the next cut of it.
    """

    line: Points | None
    sides: tuple[Parting | int, Parting | int]

    def in_order(self) -> Iterator[Parting]:
        """Yield the cuts in the order of the saw: this one, then those of either part."""
        yield self
        for side in self.sides:
            if isinstance(side, Parting):
                yield from side.in_order()


@dataclass(frozen=True, eq=False)
class _Strip:
    """A free strip from `low` to `high` along unit vector `way`, and what lies before and beyond it."""

    way: Points
    low: float
    high: float
    below: tuple[int, ...]
    above: tuple[int, ...]


def can_be_parted(hulls: Sequence[Points], kerf: float) -> bool:
    """Tell whether straight cuts part convex outlines (n, 2)."""
    return _parts(hulls, tuple(range(len(hulls))), kerf)


def parted(hulls: Sequence[Points], kerf: float, tile: shapely.Polygon) -> Parting | int:
    """Return the cuts that part convex outlines in a tile, the first at the root. ValueError if none do."""
    return _parting(hulls, tuple(range(len(hulls))), kerf, tile)


def _parts(hulls: Sequence[Points], chosen: tuple[int, ...], kerf: float) -> bool:
    if len(chosen) == 1:
        return True
    strip = _strip(hulls, chosen, kerf)
    return strip is not None and all(_parts(hulls, side, kerf) for side in (strip.below, strip.above))


def _parting(
    hulls: Sequence[Points], chosen: tuple[int, ...], kerf: float, part: BaseGeometry
) -> Parting | int:
    if len(chosen) == 1:
        return chosen[0]
    strip = _strip(hulls, chosen, kerf)
    if strip is None:
        raise ValueError("no straight cut parts the pieces")
    at = _blade(hulls, strip, kerf)
    below = _parting(hulls, strip.below, kerf, half_of(part, strip.way, at - kerf / 2))
    above = _parting(hulls, strip.above, kerf, half_of(part, -strip.way, -at - kerf / 2))
    return Parting(_across(part, strip.way, at), (below, above))


def _strip(hulls: Sequence[Points], chosen: tuple[int, ...], kerf: float) -> _Strip | None:
    """Return a strip along a side of a piece, else one between two halves of the pieces.

    Which one does not matter: the cuts that part all of the pieces also part those on one side of any strip.
    """
    along_sides, of_halves = _along_sides(hulls, chosen, kerf), _of_halves(hulls, chosen, kerf)
    return next(along_sides, None) or next(of_halves, None)


def _along_sides(hulls: Sequence[Points], chosen: tuple[int, ...], kerf: float) -> Iterator[_Strip]:
    for way in _ways(hulls, chosen):
        spans = [hulls[k] @ way for k in chosen]
        lows, highs = np.array([s.min() for s in spans]), np.array([s.max() for s in spans])
        order = np.argsort(lows, kind="stable")
        tops = np.maximum.accumulate(highs[order])
        free = lows[order][1:] - tops[:-1]
        at = int(np.argmax(free))
        if free[at] > kerf - SAME_PLACE:
            numbers = np.array(chosen)[order]
            yield _Strip(
                way,
                float(tops[at]),
                float(lows[order][at + 1]),
                tuple(sorted(numbers[: at + 1].tolist())),
                tuple(sorted(numbers[at + 1 :].tolist())),
            )


def _ways(hulls: Sequence[Points], chosen: tuple[int, ...]) -> Iterator[Points]:
    """Yield the directions square to the sides of the pieces, those along or across the tile first."""
    sides = np.concatenate([following(hulls[k]) - hulls[k] for k in chosen])
    normals = np.column_stack([sides[:, 1], -sides[:, 0]]) / np.hypot(sides[:, 0], sides[:, 1])[:, None]
    yield from (np.array([1.0, 0.0]), np.array([0.0, 1.0]))
    yield from normals


def _of_halves(hulls: Sequence[Points], chosen: tuple[int, ...], kerf: float) -> Iterator[_Strip]:
    if len(chosen) > _MOST_TO_TRY:
        return
    for count in range(1, len(chosen) // 2 + 1):
        for below in combinations(chosen, count):
            above = tuple(k for k in chosen if k not in below)
            line = shapely.shortest_line(_hull(hulls, below), _hull(hulls, above))
            start, end = shapely.get_coordinates(line)
            width = float(np.hypot(*(end - start)))
            if width > max(kerf - SAME_PLACE, SAME_PLACE):
                way = (end - start) / width
                yield _Strip(way, float(start @ way), float(end @ way), below, above)


def _hull(hulls: Sequence[Points], chosen: tuple[int, ...]) -> BaseGeometry:
    return shapely.MultiPoint(np.concatenate([hulls[k] for k in chosen])).convex_hull


def _blade(hulls: Sequence[Points], strip: _Strip, kerf: float) -> float:
    """Return where along the strip's way the middle of the blade runs: beside a side that it saws, if any."""
    for numbers, edge, beside in (
        (strip.below, strip.low, strip.low + kerf / 2),
        (strip.above, strip.high, strip.high - kerf / 2),
    ):
        if any(np.sum(np.abs(hulls[k] @ strip.way - edge) < ON_EDGE) > 1 for k in numbers):
            return beside
    return (strip.low + strip.high) / 2


def _across(part: BaseGeometry, way: Points, at: float) -> Points | None:
    """Return the line square to `way` from edge to edge of a part (2, 2); None if it does not meet it."""
    along = np.array([-way[1], way[0]])
    reach = 4.0 * float(np.abs(part.bounds).max() + abs(at) + 1.0)
    line = shapely.LineString([at * way - reach * along, at * way + reach * along])
    places = shapely.get_coordinates(part.intersection(line)) @ along
    if not len(places):
        return None
    return np.array([at * way + places.min() * along, at * way + places.max() * along])
