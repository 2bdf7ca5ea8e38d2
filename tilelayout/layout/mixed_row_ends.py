"""Shifts chosen for a room for rows in which planks of several lengths are mixed.

The order of the planks in a row is the seed's, and stays. All rows together are laid at evenly spaced shifts,
which tells of every row of the room how many short pieces each shift would leave; then the cheapest way
through the rows that keeps the least stagger is found, row by row.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
from msgspec.structs import replace

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.values import Layout, RectangleTile, Surface
from tilelayout.layout.drawn_shifts import share
from tilelayout.layout.kernel.arrays import Whole
from tilelayout.layout.laid import Laid
from tilelayout.layout.laying import lay
from tilelayout.layout.mixed_rows import Planks, are_apart
from tilelayout.layout.patterns import settings_of
from tilelayout.layout.patterns.random_planks import Settings, mixed_stagger, orders_of, planks_of
from tilelayout.layout.roles import MoreTiles
from tilelayout.layout.values import Points, Region

SHIFTS_TRIED = 144
MOST_ROWS = 190

_SHORT = 1000.0
"""What a short piece costs; what the seed adds to a shift is under 1."""


def steps(
    surface: Surface, tile: RectangleTile, layout: Layout, region: Region, least_end: float, more: MoreTiles
) -> Iterator[tuple[Layout, int, int] | float]:
    """Yield the part done (0 to 1), and at last the layout with its shifts, its rows and those still short.

    LayoutError if the stagger cannot be kept or the room has too many rows.
    """
    settings = settings_of(layout)
    assert isinstance(settings, Settings)
    planks, stagger = (
        planks_of(tile, layout.joint, settings, more),
        mixed_stagger(tile, layout.joint, settings, more),
    )
    many = _rows_in(surface, tile, layout, region, more)
    short: dict[int, Points] = {row: np.zeros(SHIFTS_TRIED) for row in many}
    for tried in range(SHIFTS_TRIED):
        shift = tried / SHIFTS_TRIED * planks.repeat
        laid = _laid(surface, tile, layout, region, more, (shift,) * _repeat(many))
        for row, count in short_by_row(laid, least_end).items():
            short[row][tried] = count
        yield (tried + 1) / (SHIFTS_TRIED + 1)
    table = np.stack([short[row] for row in many])
    orders = orders_of(planks, settings.seed, _repeat(many))
    path = _cheapest(table, [orders[row % _repeat(many)] for row in many], planks, settings.seed, stagger)
    shifts = np.zeros(_repeat(many))
    shifts[np.array(many) % _repeat(many)] = path / SHIFTS_TRIED * planks.repeat
    own = {**layout.settings, "shifts": tuple(shifts.round(4).tolist())}
    yield replace(layout, settings=own), len(many), int(np.count_nonzero(table[np.arange(len(many)), path]))


def short_by_row(laid: Laid, least_end: float) -> dict[int, int]:
    """Return every row of the room, counted from the start, with its number of pieces that are too short."""
    counts = dict.fromkeys(_rows(laid, laid.overlap.whole.face, laid.overlap.whole.row).tolist(), 0)
    parts = laid.cut_parts
    rows = _rows(laid, parts.face, parts.row)
    counts |= {row: 0 for row in rows.tolist() if row not in counts}
    if len(parts):
        along = float(np.hypot(*laid.placed.vectors[0]))
        u = laid.placed.in_lattice(parts.outlines.points)[:, 0]
        begins = parts.outlines.starts[:-1]
        lengths = (np.maximum.reduceat(u, begins) - np.minimum.reduceat(u, begins)) * along
        for row in rows[lengths < least_end - SAME_PLACE].tolist():
            counts[row] += 1
    return counts


def _rows(laid: Laid, face: Whole, row: Whole) -> Whole:
    courses = np.array([each.course for each in laid.cell.faces])
    return np.asarray(row * laid.cell.courses + courses[face])


def _rows_in(
    surface: Surface, tile: RectangleTile, layout: Layout, region: Region, more: MoreTiles
) -> list[int]:
    """Return the numbers of the room's rows, from the lowest to the highest."""
    rows = short_by_row(_laid(surface, tile, layout, region, more, (0.0, 0.0)), 0.0)
    many = list(range(min(rows), max(rows) + 1)) if rows else [0, 1]
    if len(many) > MOST_ROWS:
        what = f"The ends of {len(many)} rows cannot be chosen at once."
        raise LayoutError(what, f"Up to {MOST_ROWS} rows can be.")
    return many


def _repeat(many: list[int]) -> int:
    """After so many rows the floor repeats: no row of the room is another's repeat."""
    return max(2, len(many))


def _laid(
    surface: Surface,
    tile: RectangleTile,
    layout: Layout,
    region: Region,
    more: MoreTiles,
    shifts: tuple[float, ...],
) -> Laid:
    own: Mapping[str, object] = {**layout.settings, "shifts": shifts, "least_stagger": 0.0}
    return lay(surface, tile, replace(layout, settings=dict(own), border=None), region, more)


def _cheapest(
    table: Points, orders: list[tuple[int, ...]], planks: Planks, seed: int, stagger: float
) -> Whole:
    """Return the shift (by its number) of each row that costs least in all; `table` (rows, shifts)."""
    seeded = [[share(seed, row, number) for number in range(SHIFTS_TRIED)] for row in range(len(table))]
    own = _SHORT * table + np.array(seeded)
    cost, came_from = own[0], []
    numbers = np.arange(SHIFTS_TRIED)
    for row in range(1, len(table)):
        apart = are_apart(planks, orders[row - 1], orders[row], stagger, SHIFTS_TRIED)
        allowed = apart[(numbers[None, :] - numbers[:, None]) % SHIFTS_TRIED]
        costs = np.where(allowed, cost[:, None], np.inf)
        came_from.append(costs.argmin(axis=0))
        cost = costs.min(axis=0) + own[row]
    if not np.isfinite(cost.min()):
        what = f"In this draw no shifts keep a stagger of {stagger:g} mm in every row."
        raise LayoutError(what, "Draw again, or allow a smaller stagger.")
    path = [int(cost.argmin())]
    for back in reversed(came_from):
        path.append(int(back[path[-1]]))
    return np.array(path[::-1], dtype=np.int64)
