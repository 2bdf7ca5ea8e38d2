"""The straight cuts of one opened tile: first those that part its pieces, then those that finish each piece.

A fence lies along a side of what is sawn, parallel to the blade, and is set to the distance between the two.
What must come out true lies between fence and blade, so that a tile a little too large or too small does no
harm; a distance is taken from the other side only if there is no such side, or too narrow a strip before it.
Without any side to go by the cut runs along a line that is marked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import NO_AREA, ON_EDGE
from tilelayout.base.units import LengthStyle, cut_size
from tilelayout.geometry.rings import counter_clockwise, following
from tilelayout.layout.bordering import is_sawn
from tilelayout.layout.values import Cut, Piece, Points
from tilelayout.offcuts.leavings import LEAST_USEFUL
from tilelayout.offcuts.opened import OpenedTile, SawnPiece
from tilelayout.offcuts.parting import Parting
from tilelayout.planning.saw_sizes import at_least

_PARALLEL = 0.05
"""By so many mm may a side drift from the blade's line over its length and still lie along the fence."""

_LEAST_REST = 15.0
"""A side shorter than this in mm does not lie steadily against a fence. Common practice, no source."""

LEAST_AT_FENCE = LEAST_USEFUL
"""No strip narrower than this in mm lies between fence and blade: it would jam, and no hand can hold it.

Common practice, no source; what a saw can do beyond that stands in its own manual.
"""


@dataclass(frozen=True, eq=False)
class Rest:
    """One way to set the fence: `distance` mm, as set, to the side from `side[0]` to `side[1]` (2, 2).

    `is_kept` claims that what is wanted lies between fence and blade, `is_factory` that the side is the
    tile's own.
    """

    distance: float
    side: Points
    is_kept: bool
    is_factory: bool


@dataclass(frozen=True, eq=False)
class StraightCut:
    """One straight cut of a tile: `line` (2, 2) is the middle of the blade's run, in the tile's coordinates.

    `rests` are the ways to set the fence, none for an oblique cut. `after` is the place in the tile's cuts
    of the one that must be made before. `pieces` are those in the part that is sawn, `makes` those of them
    that get a side by it, `borders` what those sides fit.
    """

    line: Points
    rests: tuple[Rest, ...]
    after: int | None
    pieces: tuple[str, ...]
    makes: tuple[str, ...]
    borders: tuple[str, ...]


def in_opened(points: Points, sawn: SawnPiece, piece: Piece, opened: OpenedTile) -> Points:
    """Return points (n, 2) of a piece's tile as laid in the coordinates of the tile it is sawn from."""
    blank = opened.blank
    first = blank.turned(piece.in_tile(piece.outline[:1]), sawn.turned)
    return np.asarray(blank.turned(points, sawn.turned) + sawn.outline[0] - first[0])


def is_straight(cut: Cut) -> bool:
    """Claim that a cut runs straight from edge to edge."""
    return len(cut.line) == 2 and not cut.stops


def straight_cuts(
    opened: OpenedTile,
    pieces: Mapping[str, Piece],
    cuts: Mapping[str, tuple[Cut, ...]],
    style: LengthStyle,
) -> tuple[StraightCut, ...]:
    """Return the straight cuts of a tile, each after those it waits for."""
    sawing = _Sawing(opened, pieces, cuts, style)
    sawing.part(opened.parting or 0, opened.blank.shape, None)
    return tuple(sawing.made)


@dataclass(frozen=True, eq=False)
class _Blade:
    """The run of a blade: unit vector `way` is square to it, `at` how far along that its middle lies."""

    line: Points
    way: Points
    at: float

    @staticmethod
    def along(line: Points) -> _Blade:
        along = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
        way = np.array([-along[1], along[0]])
        return _Blade(line, way, float(line[0] @ way))


@dataclass(eq=False)
class _Sawing:
    """A tile being sawn; cuts are added to `made` one by one."""

    opened: OpenedTile
    pieces: Mapping[str, Piece]
    cuts: Mapping[str, tuple[Cut, ...]]
    style: LengthStyle
    made: list[StraightCut] = field(default_factory=list)

    @property
    def kerf(self) -> float:
        return self.opened.blank.saw.kerf

    def part(self, parting: Parting | int, hand: BaseGeometry, after: int | None) -> None:
        """Part the pieces in a part of the tile, then finish each."""
        if not isinstance(parting, Parting):
            self._finish(self.opened.pieces[parting], hand, after)
            return
        if parting.line is None:
            for side in parting.sides:
                self.part(side, hand, after)
            return
        blade = _Blade.along(parting.line)
        here, there = self._halves(hand, blade)
        sides = parting.sides
        if self._lies_beyond(sides[0], blade):
            sides = (sides[1], sides[0])
        self._add(blade, hand, after, (_numbers(sides[0]), _numbers(sides[1])))
        number = len(self.made) - 1
        self.part(sides[0], here, number)
        self.part(sides[1], there, number)

    def _lies_beyond(self, side: Parting | int, blade: _Blade) -> bool:
        outline = self.opened.pieces[_numbers(side)[0]].outline
        return float((outline @ blade.way).mean()) > blade.at

    def _halves(self, hand: BaseGeometry, blade: _Blade) -> tuple[BaseGeometry, BaseGeometry]:
        half = self.kerf / 2
        return (
            _beyond(hand, -blade.way, -blade.at + half),
            _beyond(hand, blade.way, blade.at + half),
        )

    def _add(
        self, blade: _Blade, hand: BaseGeometry, after: int | None, numbers: tuple[list[int], list[int]]
    ) -> None:
        """Add a cut that parts pieces: the fence lies beside a piece that gets its side by it."""
        sides = [blade, _Blade(blade.line, -blade.way, -blade.at)]
        made = [self._made_at(numbers[k], sides[k]) for k in (0, 1)]
        true_to = [side for side, fitted in zip(sides, made, strict=True) if fitted] or sides
        rests = self._rests_true_to(true_to, hand)
        found = made[0] + made[1]
        borders = tuple(dict.fromkeys(border for _, border in found if border))
        makes = tuple(piece for piece, _ in found)
        pieces = tuple(self.opened.pieces[number].piece for number in sorted((*numbers[0], *numbers[1])))
        self.made.append(StraightCut(blade.line, _best(rests), after, pieces, makes, borders))

    def _made_at(self, numbers: list[int], blade: _Blade) -> list[tuple[str, str]]:
        """Return which pieces get a side from a blade that runs beyond them, and what the side fits."""
        edge = blade.at - self.kerf / 2
        found = []
        for sawn in (self.opened.pieces[number] for number in numbers):
            if np.sum(np.abs(sawn.outline @ blade.way - edge) < ON_EDGE) > 1:
                found.append((sawn.piece, self._border_at(sawn, blade.way, edge)))
        return found

    def _border_at(self, sawn: SawnPiece, way: Points, edge: float) -> str:
        for cut, line in self._own(sawn):
            if np.all(np.abs(line @ way - edge) < ON_EDGE):
                return cut.border
        return ""

    def _own(self, sawn: SawnPiece) -> Iterator[tuple[Cut, Points]]:
        """Yield the straight cuts of a piece with their lines in this tile."""
        for cut in self.cuts[sawn.piece]:
            if is_straight(cut):
                yield cut, in_opened(cut.line, sawn, self.pieces[sawn.piece], self.opened)

    def _finish(self, sawn: SawnPiece, hand: BaseGeometry, after: int | None) -> None:
        """Add the cuts of one piece that its part still needs.

        A cut whose fence lies on a side that stays waits for none of the others; the rest are made in turn.
        """
        waiting: list[tuple[Cut, _Blade]] = []
        for cut, line in self._own(sawn):
            blade = self._beside(line, sawn)
            if not _beyond(hand, blade.way, blade.at - self.kerf / 2).area > NO_AREA:
                continue
            stays = [rest for rest in self._rests(hand, blade, True) if _is_side_of(sawn.outline, rest.side)]
            if stays:
                self.made.append(self._own_cut(sawn, cut, blade, hand, stays, after))
            else:
                waiting.append((cut, blade))
        self._finish_in_turn(sawn, waiting, hand, after)

    def _finish_in_turn(
        self, sawn: SawnPiece, waiting: list[tuple[Cut, _Blade]], hand: BaseGeometry, after: int | None
    ) -> None:
        for cut, blade in waiting:
            rests = self._rests_true_to([blade], hand)
            self.made.append(self._own_cut(sawn, cut, blade, hand, rests, after))
            after = len(self.made) - 1
            hand = _beyond(hand, -blade.way, -blade.at + self.kerf / 2)

    def _own_cut(
        self,
        sawn: SawnPiece,
        cut: Cut,
        blade: _Blade,
        hand: BaseGeometry,
        rests: list[Rest],
        after: int | None,
    ) -> StraightCut:
        borders = (cut.border,) if cut.border else ()
        line = _chord(hand, blade)
        return StraightCut(line, _best(rests), after, (sawn.piece,), (sawn.piece,), borders)

    def _beside(self, line: Points, sawn: SawnPiece) -> _Blade:
        """Return the blade beside a sawn side of a piece, its way leading to the waste."""
        blade = _Blade.along(line)
        depths = sawn.outline @ blade.way - blade.at
        way = -blade.way if depths[np.argmax(np.abs(depths))] > 0 else blade.way
        at = float(line[0] @ way) + self.kerf / 2
        return _Blade(line + way * self.kerf / 2, way, at)

    def _rests_true_to(self, blades: list[_Blade], hand: BaseGeometry) -> list[Rest]:
        """Return the sides before the blades' lines; those beyond them if none of these will do."""
        kept = [rest for blade in blades for rest in self._rests(hand, blade, True)]
        return kept or [rest for blade in blades for rest in self._rests(hand, blade, False)]

    def _rests(self, hand: BaseGeometry, blade: _Blade, is_kept: bool) -> Iterator[Rest]:
        """Yield the sides of a part before the blade's line; beyond it if what lies there is waste."""
        way, at = (blade.way, blade.at) if is_kept else (-blade.way, -blade.at)
        ring = counter_clockwise(_ring(hand))
        ends = following(ring)
        along = ends - ring
        outward = np.column_stack([along[:, 1], -along[:, 0]]) @ way
        drift = np.abs((ends - ring) @ way)
        is_long = np.hypot(along[:, 0], along[:, 1]) >= _LEAST_REST
        is_factory = ~is_sawn(ring, self.opened.blank.outline)
        places = (ring + ends) @ way / 2
        is_outmost = places < places.min() + ON_EDGE
        for k in np.flatnonzero(is_long & (drift < _PARALLEL) & (outward < 0) & is_outmost):
            exact = at - self.kerf / 2 - float(places[k])
            distance = cut_size(exact, self.style) if is_kept else at_least(exact, self.style)
            if distance >= LEAST_AT_FENCE:
                yield Rest(distance, np.array([ring[k], ends[k]]), is_kept, bool(is_factory[k]))


def _best(rests: list[Rest]) -> tuple[Rest, ...]:
    """Return the ways to set the fence along factory sides if there are any, each distance once."""
    chosen = [rest for rest in rests if rest.is_factory] or rests
    return tuple({rest.distance: rest for rest in chosen}.values())


def _numbers(side: Parting | int) -> list[int]:
    """Return the pieces on one side of a cut."""
    if not isinstance(side, Parting):
        return [side]
    return [number for each in side.sides for number in _numbers(each)]


def _is_side_of(outline: Points, side: Points) -> bool:
    """Claim that a stretch of a side also bounds the outline, long enough to lie steadily."""
    run = shapely.LineString(side).buffer(ON_EDGE, cap_style="flat")
    ring = shapely.LinearRing(outline)
    return bool(ring.intersection(run).length >= _LEAST_REST)


def _ring(hand: BaseGeometry) -> Points:
    """Return the outline of a part; of several the largest's."""
    part = max(shapely.get_parts(hand), key=lambda part: part.area)
    return shapely.get_coordinates(part.exterior)[:-1]


def _beyond(hand: BaseGeometry, way: Points, least: float) -> BaseGeometry:
    """Return the points of a part that lie at least so far along `way`."""
    reach = 4.0 * float(np.abs(hand.bounds).max() + abs(least) + 1.0)
    along = np.array([-way[1], way[0]])
    edge = least * way
    corners = [edge - reach * along, edge + reach * along]
    box = shapely.Polygon([*corners, corners[1] + 2 * reach * way, corners[0] + 2 * reach * way])
    return hand.intersection(box)


def _chord(hand: BaseGeometry, blade: _Blade) -> Points:
    """Return the run of the blade from edge to edge of a part (2, 2); beside a part, that of its side."""
    along = np.array([-blade.way[1], blade.way[0]])
    reach = 4.0 * float(np.abs(hand.bounds).max() + abs(blade.at) + 1.0)
    middle = blade.at * blade.way
    line = shapely.LineString([middle - reach * along, middle + reach * along])
    places = shapely.get_coordinates(hand.intersection(line)) @ along
    if not len(places):
        return blade.line
    return np.array([middle + places.min() * along, middle + places.max() * along])
