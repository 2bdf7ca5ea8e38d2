"""A cell as a person draws it: outlines and two vectors; whether they fill the plane, and what would.

Nothing is refused here: a draft is half drawn most of the time. What is wrong is measured as a person would
measure it, between two tiles that stand side by side, and vectors that would do are looked for near the drawn
ones before they are looked for anywhere.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.growing import grown
from tilelayout.geometry.overlays import polygons_of
from tilelayout.geometry.rings import area, counter_clockwise, cross, without_straight_corners
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import Point
from tilelayout.layout.lattices import free_ways, lattice_of, repeat_of
from tilelayout.layout.tiling import GRID, misfit, tiles_by_lattice, touching_slack
from tilelayout.layout.values import Points

LEAST_CELL = 1.0
"""Two vectors that span less, in mm2, lead in one direction."""

_MOST_COPIES = 600
"""Vectors so short that more copies of the outlines lie on each other are only said to be too short."""

_HALVINGS = 50

_TOUCHING = 1e-4
"""What outlines that come to touch have in common at the most, in mm2: what the grid rounds."""


@dataclass(frozen=True)
class Draft:
    """Outlines, the two `vectors` by which they repeat, joints included, and the `joint` they are to keep."""

    outlines: tuple[tuple[Point, ...], ...]
    vectors: tuple[Point, Point]
    joint: float

    @property
    def rings(self) -> list[Points]:
        """The outlines (n, 2), counter-clockwise."""
        return [
            without_straight_corners(counter_clockwise(np.array(each, dtype=float))) for each in self.outlines
        ]

    @property
    def way(self) -> Points:
        """The vectors as rows (2, 2)."""
        return np.array(self.vectors, dtype=float)


@dataclass(frozen=True)
class Pair:
    """Two tiles side by side: `second` is that of the cell which is `steps` of the vectors on.

    They are `apart` in mm; less than nothing is how deep they lie in each other.
    """

    first: int
    second: int
    steps: tuple[int, int]
    apart: float


@dataclass(frozen=True, eq=False)
class Fit:
    """How a draft fills the plane: `gaps` and `overlaps` of three by three cells, as rings (n, 2).

    `worst` are two tiles that do not keep the joint, if it can be told by two. `mended` are vectors with
    which the outlines fill the plane. `is_too_tight` claims that there is nothing to measure: an outline
    with no room for the joint in a notch, vectors in one direction or far too short.
    """

    gaps: tuple[Points, ...] = ()
    overlaps: tuple[Points, ...] = ()
    worst: Pair | None = None
    mended: tuple[Point, Point] | None = None
    is_too_tight: bool = False

    @property
    def fills(self) -> bool:
        """Whether nothing is wrong."""
        return not (self.gaps or self.overlaps or self.is_too_tight)


def fit_of(draft: Draft) -> Fit:
    """Return how a draft of one outline or more fills the plane."""
    rings = [grown(ring, draft.joint / 2) for ring in draft.rings]
    if not all(shapely.Polygon(ring).is_valid for ring in rings):
        return Fit(is_too_tight=True)
    if _is_too_short(rings, draft.way):
        return Fit(mended=_as_pair(lattice_of(rings)), is_too_tight=True)
    if not misfit(rings, draft.way).is_there:
        return Fit()
    overlaps, gaps = tuple(_overlaps(rings, draft.way)), tuple(_gaps(rings, draft.way))
    return Fit(gaps, overlaps, _worst(draft, rings, gaps), _mended(rings, draft.way))


def completed(draft: Draft) -> Draft | None:
    """Return a draft with the plainest vectors by which its outlines fill the plane; None if none is found.

    An outline that does not fill it alone is tried together with a copy turned by half.
    """
    rings = [grown(ring, draft.joint / 2) for ring in draft.rings]
    if not all(shapely.Polygon(ring).is_valid for ring in rings):
        return None
    found = _as_pair(lattice_of(rings))
    if found is not None:
        return replace(draft, vectors=found)
    return _with_half_turned_copy(draft) if len(rings) == 1 else None


def _with_half_turned_copy(draft: Draft) -> Draft | None:
    (ring,) = draft.rings
    repeat = repeat_of(ring, draft.joint)
    vectors = _as_pair(repeat.vectors) if repeat is not None else None
    if repeat is None or repeat.pivot is None or vectors is None:
        return None
    (outline,) = draft.outlines
    copy = (2 * repeat.pivot - np.array(outline, dtype=float)).round(6) + 0.0
    return replace(draft, outlines=(outline, tuple((float(x), float(y)) for x, y in copy)), vectors=vectors)


def touching_vectors(draft: Draft) -> tuple[Point, ...]:
    """Return the vectors by which a draft's tiles come to lie beside each other with their joint."""
    rings = [grown(ring, draft.joint / 2) for ring in draft.rings]
    if not all(shapely.Polygon(ring).is_valid for ring in rings):
        return ()
    ways = free_ways(rings, touching_slack(rings)).round(6)
    return tuple((float(x), float(y)) for x, y in np.vstack([ways, -ways]) + 0.0)


def copies(draft: Draft) -> Iterator[tuple[int, tuple[int, int], Points]]:
    """Yield the outlines of three by three cells: the number of each, its steps, and where it lies (n, 2)."""
    for steps in product((-1, 0, 1), (-1, 0, 1)):
        for number, ring in enumerate(draft.rings):
            yield number, steps, ring + np.array(steps) @ draft.way


def _is_too_short(rings: Sequence[Points], vectors: Points) -> bool:
    cell = abs(float(cross(vectors[0], vectors[1])))
    low, high = np.vstack(rings).min(axis=0), np.vstack(rings).max(axis=0)
    return cell < LEAST_CELL or float(np.prod(high - low)) / cell * len(rings) > _MOST_COPIES


def _near(rings: Sequence[Points], vectors: Points) -> Iterator[tuple[int, int, tuple[int, int]]]:
    """Yield which outlines may meet: the first in the cell, the second so many steps on; each pair once."""
    low = np.array([ring.min(axis=0) for ring in rings])
    high = np.array([ring.max(axis=0) for ring in rings])
    reach = (high.max(axis=0) - low.min(axis=0)) @ np.abs(np.linalg.inv(vectors))
    across, up = (int(count) for count in np.ceil(reach + 1.0))
    for steps in product(range(-across, across + 1), range(-up, up + 1)):
        by = np.array(steps) @ vectors
        for first, second in product(range(len(rings)), repeat=2):
            is_once = steps > (0, 0) or (steps == (0, 0) and first < second)
            gap = np.maximum(low[second] + by - high[first], low[first] - high[second] - by)
            if is_once and float(gap.max()) <= float(np.ptp(rings[first], axis=0).max()):
                yield first, second, steps


def _overlaps(rings: Sequence[Points], vectors: Points) -> Iterator[Points]:
    """Yield what two of the tiles of three by three cells have in common."""
    slack = touching_slack(rings)
    for first, second, steps in _near(rings, vectors):
        moved = shapely.Polygon(rings[second] + np.array(steps) @ vectors)
        common = shapely.intersection(shapely.Polygon(rings[first]), moved, grid_size=GRID)
        if common.area > slack:
            yield from (ring + by @ vectors for by in _both_shown(steps) for ring in _rings_of(common))


def _both_shown(steps: tuple[int, int]) -> Iterator[Points]:
    """Yield the steps to those of three by three cells from which so many steps lead to another of them."""
    for by in product((-1, 0, 1), repeat=2):
        if all(abs(own + more) <= 1 for own, more in zip(by, steps, strict=True)):
            yield np.array(by)


def _gaps(rings: Sequence[Points], vectors: Points) -> Iterator[Points]:
    """Yield what is covered by nothing of three by three cells about the middle of the outlines.

    More cells are laid than looked at, so that nothing is a gap for want of a neighbour.
    """
    middle = np.vstack(rings).mean(axis=0)
    looked_at = middle + 1.5 * np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) @ vectors
    reach = np.ceil(np.ptp(np.vstack(rings), axis=0) @ np.abs(np.linalg.inv(vectors))).astype(int) + 2
    steps = product(*(range(-int(count), int(count) + 1) for count in reach))
    laid = [shapely.Polygon(ring + np.array(each) @ vectors) for each in steps for ring in rings]
    left = shapely.difference(
        shapely.Polygon(looked_at), shapely.union_all(laid, grid_size=GRID), grid_size=GRID
    )
    yield from (ring for ring in _rings_of(left) if area(ring) > touching_slack(rings))


def _rings_of(shape: BaseGeometry) -> Iterator[Points]:
    for part in polygons_of(shape):
        yield counter_clockwise(shapely.get_coordinates(part.exterior)[:-1])


def _worst(draft: Draft, rings: Sequence[Points], gaps: Sequence[Points]) -> Pair | None:
    """Return the pair deepest in each other or nearest; else the nearest with a gap between them."""
    shapes, slack = [shapely.Polygon(ring) for ring in draft.rings], touching_slack(rings)
    holes = [shapely.Polygon(gap) for gap in gaps]
    near, wide = [], []
    for first, second, steps in _near(rings, draft.way):
        by = np.array(steps) @ draft.way
        moved, outer = shapely.Polygon(draft.rings[second] + by), shapely.Polygon(rings[second] + by)
        inner = shapely.Polygon(rings[first])
        pair = Pair(first, second, steps, _apart(shapes[first], moved))
        if shapely.intersection(inner, outer, grid_size=GRID).area > slack:
            near.append(pair)
        elif pair.apart > draft.joint + ON_EDGE and _look_at_one_hole(inner, outer, holes):
            wide.append(pair)
    return min(near or wide, key=lambda pair: (pair.apart, pair.steps), default=None)


def _look_at_one_hole(one: shapely.Polygon, other: shapely.Polygon, holes: Sequence[shapely.Polygon]) -> bool:
    """Whether something that stays empty reaches from one tile to the other."""
    return any(hole.dwithin(one, ON_EDGE) and hole.dwithin(other, ON_EDGE) for hole in holes)


def _apart(one: shapely.Polygon, other: shapely.Polygon) -> float:
    """Return how far two outlines are apart; if they lie in each other, how deep, less than nothing."""
    depths = [narrowest(ring) for ring in _rings_of(one.intersection(other)) if area(ring) > ON_EDGE]
    return -max(depths) if depths else float(one.distance(other))


def _mended(rings: Sequence[Points], vectors: Points) -> tuple[Point, Point] | None:
    """Return vectors that do: one of the drawn ones longer or shorter, then both, then any."""
    for tried in _beside(rings, vectors):
        if tiles_by_lattice(rings, tried):
            return _as_pair(_plainest(rings, tried))
    found = lattice_of(rings)
    return None if found is None else _as_pair(_plainest(rings, _nearest(found, vectors)))


def _nearest(lattice: Points, vectors: Points) -> Points:
    """Return the two vectors of a lattice nearest to the drawn ones, or its own if those do not span it."""
    steps = np.round(vectors @ np.linalg.inv(lattice))
    return np.asarray(steps @ lattice) if abs(round(float(np.linalg.det(steps)))) == 1 else lattice


def _plainest(rings: Sequence[Points], vectors: Points) -> Points:
    """Return the vectors to as few decimals as they still do with."""
    rounded = (vectors.round(places) + 0.0 for places in (1, 2, 4))
    return next((each for each in rounded if tiles_by_lattice(rings, each)), vectors)


def _beside(rings: Sequence[Points], vectors: Points) -> Iterator[Points]:
    wanted, has = sum(area(ring) for ring in rings), abs(float(cross(vectors[0], vectors[1])))
    by_area = wanted / has
    yield vectors * [[1.0], [by_area]]
    yield vectors * [[by_area], [1.0]]
    shares = [_touching_share(rings, vector) for vector in vectors]
    for first, second in ((shares[0], None), (None, shares[1])):
        share = np.array([first or by_area / (second or 1.0), second or by_area / (first or 1.0)])
        yield vectors * share[:, None]


def _touching_share(rings: Sequence[Points], vector: Points) -> float:
    """Return the share of a vector by which the outlines, moved, come to touch where they were."""
    shapes = [shapely.Polygon(ring) for ring in rings]
    low, high = 0.0, float(np.hypot(*np.ptp(np.vstack(rings), axis=0)) / np.hypot(*vector)) + 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        moved = [shapely.Polygon(ring + middle * vector) for ring in rings]
        is_over = any(
            shapely.intersection(one, other, grid_size=GRID).area > _TOUCHING
            for one, other in product(shapes, moved)
        )
        low, high = (middle, high) if is_over else (low, middle)
    return high


def _as_pair(vectors: Points | None) -> tuple[Point, Point] | None:
    if vectors is None:
        return None
    (a, b), (c, d) = (vectors.round(6) + 0.0).tolist()
    return (a, b), (c, d)
