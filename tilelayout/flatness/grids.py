"""Readings in an even grid, and straightedges along its 4, 8 or 16 directions: quick enough to follow a hand.

For each direction, span and inner place one slice of the grid against two others tells the gap of every
straightedge there is, so a map of the whole floor takes a few dozen array operations. Ends and places are
readings only: what it finds is never more than what `straightedge` finds, which tries every direction.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

import numpy as np

from tilelayout.flatness.mesh import Numbers, Places, Points

DIRECTIONS = {
    4: ((1, 0), (0, 1), (1, 1), (1, -1)),
    8: ((1, 0), (0, 1), (1, 1), (1, -1), (2, 1), (1, 2), (2, -1), (1, -2)),
    16: (
        *((1, 0), (0, 1), (1, 1), (1, -1), (2, 1), (1, 2), (2, -1), (1, -2)),
        *((3, 1), (1, 3), (3, -1), (1, -3), (3, 2), (2, 3), (3, -2), (2, -3)),
    ),
}
"""Directions by how many there are, in steps to the right and up; each stands for both ways along it."""


@dataclass(frozen=True, eq=False)
class Grid:
    """An even grid of readings: rows of y, columns of x. `number` (rows, columns) is the reading's number."""

    number: Places
    step_x: float
    step_y: float


def grid_of(places: Points) -> Grid | None:
    """Return the even grid that readings (n, 2) stand in, None if they do not fill one along x and y."""
    xs, ys = np.unique(places[:, 0]), np.unique(places[:, 1])
    if min(len(xs), len(ys)) < 2 or len(xs) * len(ys) != len(places):
        return None
    steps = np.diff(xs), np.diff(ys)
    if any(np.ptp(step) > 1e-6 * step.max() for step in steps):
        return None
    order = np.lexsort((places[:, 0], places[:, 1]))
    return Grid(order.reshape(len(ys), len(xs)), float(steps[0].mean()), float(steps[1].mean()))


@dataclass(frozen=True)
class Chords:
    """Every chord of one direction, span and place: slices of the grid for its ends and the place."""

    start: tuple[slice, slice]
    end: tuple[slice, slice]
    at: tuple[slice, slice]
    share: float


def chords_of(grid: Grid, over: float, directions: int = 8) -> Iterator[Chords]:
    """Yield the chords no longer than `over` along 4, 8 or 16 directions."""
    rows, columns = grid.number.shape
    for right, up in DIRECTIONS[directions]:
        length = hypot(right * grid.step_x, up * grid.step_y)
        for span in range(2, int((over + 1e-6) / length) + 1):
            if span * right >= columns or span * abs(up) >= rows:
                break
            places = [_moved((rows, columns), (right, up), span, steps) for steps in range(span + 1)]
            for inner in range(1, span):
                yield Chords(places[0], places[span], places[inner], inner / span)


def _moved(shape: tuple[int, int], step: tuple[int, int], span: int, steps: int) -> tuple[slice, slice]:
    """The part of the grid in which chords of a span have the place so many steps from their start."""
    (rows, columns), (right, up) = shape, step
    row, column = steps * up + max(span * -up, 0), steps * right
    return slice(row, row + rows - span * abs(up)), slice(column, column + columns - span * right)


def depth_map(grid: Grid, heights: Numbers, over: float, directions: int = 8) -> Numbers:
    """Return how far each reading (rows, columns) lies below the worst straightedge; `heights` as the grid.

    For what stands above, give the heights with the other sign.
    """
    worst = np.zeros(grid.number.shape)
    for chords, depth in _depths(grid, heights, over, directions):
        at = worst[chords.at]
        np.maximum(at, depth, out=at)
    return worst


def _depths(
    grid: Grid, heights: Numbers, over: float, directions: int = 8
) -> Iterator[tuple[Chords, Numbers]]:
    """Yield the chords with how far the surface lies below each; the array is overwritten by the next."""
    ends: tuple[slice, slice] | None = None
    for chords in chords_of(grid, over, directions):
        if chords.end is not ends:
            start, ends = heights[chords.start], chords.end
            rise = heights[ends] - start
            depth = np.empty_like(rise)
        np.multiply(rise, chords.share, out=depth)
        np.add(depth, start, out=depth)
        np.subtract(depth, heights[chords.at], out=depth)
        yield chords, depth


@dataclass(frozen=True, eq=False)
class Rows:
    """Chords as rows of numbers of readings: start, end, place (k,), the share, the sign, the depth now."""

    start: Places
    end: Places
    at: Places
    share: Numbers
    sign: Numbers
    depth: Numbers


def all_rows(grid: Grid, heights: Numbers, over: float, directions: int = 8) -> Rows:
    """Return every chord of the grid, below and above; `heights` (rows, columns)."""
    parts = [
        _rows(grid, chords, heights, sign) for chords in chords_of(grid, over, directions) for sign in _SIGNS
    ]
    return together(parts)


_SIGNS = (1.0, -1.0)


def _rows(grid: Grid, chords: Chords, heights: Numbers, sign: float) -> Rows:
    depth = heights[chords.start] * (1.0 - chords.share) + heights[chords.end] * chords.share
    depth = (sign * (depth - heights[chords.at])).ravel()
    share, signs = np.full(len(depth), chords.share), np.full(len(depth), sign)
    start, end, at = (grid.number[where].ravel() for where in (chords.start, chords.end, chords.at))
    return Rows(start, end, at, share, signs, depth)


def together(parts: Sequence[Rows]) -> Rows:
    """Return several sets of rows as one."""
    if not parts:
        none = np.empty(0, dtype=np.intp)
        return Rows(none, none, none, np.empty(0), np.empty(0), np.empty(0))
    return Rows(*(np.concatenate([getattr(part, name) for part in parts]) for name in Rows.__annotations__))


def worst_rows(grid: Grid, heights: Numbers, over: float, limit: float, most: int = 2) -> Rows:
    """Return at each reading the `most` chords, below and above, that are worst beyond the limit."""
    broken = [
        (chords, depth.copy())
        for chords, depth in _depths(grid, heights, over)
        if depth.max() > limit or depth.min() < -limit
    ]
    found = [rows for sign in _SIGNS for rows in _worst_of_sign(grid, broken, limit, sign, most)]
    return together(found)


def _worst_of_sign(
    grid: Grid, broken: list[tuple[Chords, Numbers]], limit: float, sign: float, most: int
) -> Iterator[Rows]:
    """The worst at each reading, then the next, as often as asked."""
    barred = np.full(grid.number.shape, np.inf)
    for _ in range(most):
        worst, which = np.full(grid.number.shape, limit), np.full(grid.number.shape, -1)
        for k, (chords, depth) in enumerate(broken):
            below = sign * depth
            better = (below > worst[chords.at]) & (below < barred[chords.at])
            worst[chords.at][better] = below[better]
            which[chords.at][better] = k
        if not (which >= 0).any():
            return
        barred = np.where(which >= 0, worst, -np.inf)
        yield _picked(grid, [chords for chords, _ in broken], which, worst, sign)


def _picked(grid: Grid, all_chords: list[Chords], which: Places, worst: Numbers, sign: float) -> Rows:
    row, column = np.nonzero(which >= 0)
    chosen = which[row, column]
    to_start, to_end = (np.array(ends)[chosen] for ends in zip(*map(_ends, all_chords), strict=True))
    return Rows(
        grid.number[row + to_start[:, 0], column + to_start[:, 1]],
        grid.number[row + to_end[:, 0], column + to_end[:, 1]],
        grid.number[row, column],
        np.array([chords.share for chords in all_chords])[chosen],
        np.full(len(row), sign),
        worst[row, column],
    )


def _ends(chords: Chords) -> tuple[tuple[int, int], tuple[int, int]]:
    """Rows and columns from the place of a chord to its start and to its end."""
    row, column = chords.at[0].start, chords.at[1].start
    start, end = chords.start, chords.end
    return (start[0].start - row, start[1].start - column), (end[0].start - row, end[1].start - column)
