"""Shifts for random planks chosen for a room, so that as few rows as can be end in a short piece.

Every row is tried at evenly spaced shifts, all rows at once: a plain grid laid at each shift says of each row
how many short pieces it would have. Then the cheapest way through the rows is found, row by row, that keeps
the least stagger; a short piece costs more than an H or a stair, and among equals the seed decides.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from msgspec.structs import replace

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.values import Layout, RectangleTile, Surface
from tilelayout.layout import mixed_row_ends
from tilelayout.layout.drawn_shifts import share, ways_back
from tilelayout.layout.kernel.arrays import Whole
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.patterns import settings_of
from tilelayout.layout.patterns.random_planks import Settings, greatest_stagger, least_stagger_of
from tilelayout.layout.roles import NO_MORE, MoreTiles
from tilelayout.layout.values import Points, Region

SHIFTS_TRIED = 48
MOST_ROWS = 190

_SHORT, _LIKE_A_PATTERN = 1000.0, 10.0
"""What a short piece and what an H or a stair cost; what the seed adds to a shift is under 1."""


@dataclass(frozen=True)
class DrawnRows:
    """The layout with its shifts, and how many rows of the room still have a piece under `least_end`."""

    layout: Layout
    least_end: float
    rows: int
    rows_short: int


def steps(
    surface: Surface,
    tile: RectangleTile,
    layout: Layout,
    region: Region,
    least_end: float,
    more: MoreTiles = NO_MORE,
) -> Iterator[DrawnRows | float]:
    """Yield the part done (0 to 1), and at last the rows drawn so that none has a piece under `least_end`.

    `more` are the planks of further lengths. LayoutError if the stagger cannot be kept, or if the room has
    too many rows.
    """
    settings = settings_of(layout)
    assert isinstance(settings, Settings)
    if settings.lengths > 1:
        for step in mixed_row_ends.steps(surface, tile, layout, region, least_end, more):
            yield step if isinstance(step, float) else DrawnRows(step[0], least_end, *step[1:])
        return
    along = tile.length + layout.joint
    stagger = _possible(tile, layout.joint, settings)
    short: dict[int, Points] = {}
    for tried in range(SHIFTS_TRIED):
        plain = replace(layout, pattern="rows", settings={"row_offsets": (tried / SHIFTS_TRIED,)})
        for row, count in _short_by_row(lay(surface, tile, plain, region), along, least_end):
            short.setdefault(row, np.zeros(SHIFTS_TRIED))[tried] = count
        yield (tried + 1) / (SHIFTS_TRIED + 1)
    yield _drawn(layout, settings, short, along, stagger, least_end)


def _possible(tile: RectangleTile, joint: float, settings: Settings) -> float:
    """Return the least stagger, which must be one that shifts tried so far apart can keep."""
    stagger, most = least_stagger_of(tile, joint, settings), greatest_stagger(tile.length + joint, 2)
    if stagger > most + SAME_PLACE:
        what = f"Planks of {tile.length:g} mm cannot keep a stagger of {stagger:g} mm."
        raise LayoutError(what, f"The largest that works is {np.floor(most * 10) / 10:g} mm.")
    return min(stagger, most)


def _short_by_row(laid: Laid, along: float, least_end: float) -> Iterator[tuple[int, int]]:
    """Return every row of the room with its number of pieces that are too short."""
    parts = laid.cut_parts
    rows = np.concatenate((laid.overlap.whole.row, parts.row))
    counts = dict.fromkeys(np.unique(rows).tolist(), 0)
    if len(parts):
        u = laid.placed.in_lattice(parts.outlines.points)[:, 0]
        begins = parts.outlines.starts[:-1]
        lengths = (np.maximum.reduceat(u, begins) - np.minimum.reduceat(u, begins)) * along
        for row in parts.row[lengths < least_end - SAME_PLACE].tolist():
            counts[row] += 1
    yield from counts.items()


def _drawn(
    layout: Layout, settings: Settings, short: dict[int, Points], along: float, stagger: float, least: float
) -> DrawnRows:
    lowest, count = min(short), max(short) - min(short) + 1
    if count > MOST_ROWS:
        raise LayoutError(
            f"The ends of {count} rows cannot be chosen at once.", f"Up to {MOST_ROWS} rows can be."
        )
    none = np.zeros(SHIFTS_TRIED)
    table = np.stack([short.get(row, none) for row in range(lowest, lowest + count)])
    path = _cheapest(table, settings.seed, along, stagger)
    found = path / SHIFTS_TRIED * along
    shifts = np.roll([*found, *ways_back(found.tolist(), settings.seed, along, stagger)], lowest)
    own = {**layout.settings, "shifts": tuple(round(float(shift), 4) for shift in shifts)}
    rows_short = int(np.count_nonzero(table[np.arange(count), path]))
    return DrawnRows(replace(layout, settings=own), least, count, rows_short)


def _cheapest(table: Points, seed: int, along: float, stagger: float) -> Whole:
    """Return the shift (by its number) of each row that costs least in all; `table` (rows, shifts)."""
    numbers = np.arange(SHIFTS_TRIED)
    before, at, after = numbers[:, None, None], numbers[None, :, None], numbers[None, None, :]
    wanted = min(stagger, along / 8)
    makes_an_h = _apart(after - before, along) < wanted
    makes_a_stair = _apart(after - 2 * at + before, along) < wanted
    alike = np.asarray(_LIKE_A_PATTERN * (1.0 * makes_an_h + makes_a_stair), dtype=np.float64)
    too_near = np.where(_apart(after[0] - at[0], along) < stagger - SAME_PLACE, np.inf, 0.0)
    seeded = [[share(seed, row, number) for number in range(SHIFTS_TRIED)] for row in range(len(table))]
    return _way_through(_SHORT * table + np.array(seeded), too_near, alike)


def _apart(numbers: Whole, along: float) -> Points:
    """Return how far apart in mm the end joints are of rows whose shifts differ by so many steps."""
    around = numbers % SHIFTS_TRIED
    return np.asarray(np.minimum(around, SHIFTS_TRIED - around) * (along / SHIFTS_TRIED))


def _way_through(own: Points, beside: Points, alike: Points) -> Whole:
    """Return the number chosen in each row, so that the sum of three costs is least.

    `own` (rows, n) is of a choice by itself, `beside` (n, n) of it after the last one, `alike` (n, n, n)
    of it after the last two.
    """
    if len(own) == 1:
        return np.array([int(own[0].argmin())])
    cost = own[0][:, None] + own[1] + beside
    came_from = []
    for row in own[2:]:
        costs = cost[:, :, None] + alike + beside
        came_from.append(costs.argmin(axis=0))
        cost = costs.min(axis=0) + row
    path = list(np.unravel_index(int(cost.argmin()), cost.shape))[::-1]
    for back in reversed(came_from):
        path.append(back[path[-1], path[-2]])
    return np.array(path[::-1], dtype=np.int64)
