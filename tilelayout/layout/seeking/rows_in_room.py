"""Rows of tiles between straight walls: which depths there are, along x and along y, for any start.

Along y all rows are alike, so level walls give one set of depths. Along x a row is shifted by its own
offset, so the depths at an upright wall depend on which rows it meets; that changes only where a row begins
or ends to meet it, at a breakpoint of y. For each stretch of y there is therefore one problem along x, and
many of them are the same.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Layout, RectangleTile, Tile
from tilelayout.layout.patterns import rows, settings_of, stack
from tilelayout.layout.seeking.sawteeth import Axis, Stretches, Teeth, Whole, stretches_of
from tilelayout.layout.seeking.walls import StraightWalls, straight_walls
from tilelayout.layout.values import Cell, Points, Region


@dataclass(frozen=True, eq=False)
class RowsInRoom:
    """The axes of a laying in rows, in the directions of the rows; `repeat` rows up it begins anew.

    Columns are rows seen from the side. `corner` is where in the first tile, in the directions of the rows,
    the start of the layout lies.
    """

    walls: StraightWalls
    x: Axis
    y: Axis
    offsets: Points
    repeat: int
    angle: float
    corner: tuple[float, float]
    _solved: dict[bytes, Stretches] = field(default_factory=dict)

    @property
    def is_exact(self) -> bool:
        """Whether every width of every piece is one of the depths here, or constant."""
        return self.walls.are_all and self.walls.narrowest >= self.x.least

    @cached_property
    def level(self) -> Stretches:
        """The stretches of y over one row."""
        walls = self.walls.level
        is_sure = walls.high - walls.low >= self.x.module - self.x.size + 2.0 * self.x.least
        zero = np.where(walls.inward > 0, walls.at - self.y.size, walls.at)
        return stretches_of(Teeth(zero, walls.inward, walls.seen & is_sure, walls.necks), self.y)

    @cached_property
    def floors(self) -> tuple[Stretches, ...]:
        """The stretches of y over all rows that differ."""
        return tuple(self.level.moved(row * self.y.module) for row in range(self.repeat))

    def upright(self, y: float) -> Stretches:
        """Return the stretches of x for starts at this y, which must be the middle of a stretch of y."""
        met = self._met(y)
        state = (met > SAME_PLACE).astype(np.int64) + (met >= max(self.y.least - SAME_PLACE, SAME_PLACE))
        key = state.tobytes()
        if key not in self._solved:
            self._solved[key] = self._upright(state)
        return self._solved[key]

    @cached_property
    def any_upright(self) -> Stretches:
        """The stretches of x if every row met every upright wall."""
        return self._upright(np.full((len(self.walls.upright.at), len(self.offsets)), 2))

    def on_surface(self, x: float, y: float) -> tuple[float, float]:
        """Return a start, given in the directions of the rows, in surface coordinates."""
        start = (np.array([x, y]) + self.corner) @ turning(self.angle)
        return float(start[0]), float(start[1])

    def _upright(self, state: Whole) -> Stretches:
        """Solve along x. `state` (walls, offsets): 0 if no row meets the wall, 2 where one surely does."""
        walls = self.walls.upright
        wall, row = np.nonzero(state)
        inward, shift = walls.inward[wall], self.offsets[row] * self.x.module
        zero = walls.at[wall] - shift - np.where(inward > 0, self.x.size, 0.0)
        counts = walls.seen[wall] & (state[wall, row] == 2)
        return stretches_of(Teeth(zero, inward, counts, tuple(walls.necks[k] for k in wall)), self.x)

    def _met(self, y: float) -> Points:
        """Return the longest stretch that a row of each offset shares with each upright wall."""
        walls, up, count = self.walls.upright, self.y.module, len(self.offsets)
        first = int(np.floor((walls.low.min() - y) / up)) - 1
        rows = np.arange(first, int(np.ceil((walls.high.max() - y) / up)) + 1)
        low = y + rows * up
        shared = np.minimum(walls.high[:, None], low + self.y.size) - np.maximum(walls.low[:, None], low)
        met = np.full((len(walls.at), count), -np.inf)
        for row in range(count):
            met[:, row] = shared[:, rows % count == row].max(axis=1, initial=-np.inf)
        return met


def rows_in_room(region: Region, tile: Tile, layout: Layout, cell: Cell) -> RowsInRoom | None:
    """Return the axes of rows or columns along straight walls; None for other patterns and angles."""
    if not isinstance(tile, RectangleTile) or layout.angle % 90.0:
        return None
    settings, up = settings_of(layout), tile.width + layout.joint
    if isinstance(settings, rows.Settings):
        offsets, angle, corner = np.array(settings.row_offsets), layout.angle, (0.0, 0.0)
        repeat = round(float(cell.vectors[1, 1]) / up)
    elif isinstance(settings, stack.Settings):
        offsets, angle, corner = -np.array(settings.column_offsets), layout.angle - 90.0, (tile.length, 0.0)
        repeat = round(float(cell.vectors[0, 0]) / up)
    else:
        return None
    walls = straight_walls(region, angle, (tile.length, tile.width))
    if not len(walls.upright.at) or not len(walls.level.at):
        return None
    along = Axis(tile.length, tile.length + layout.joint, layout.least_piece)
    return RowsInRoom(
        walls, along, Axis(tile.width, up, layout.least_piece), offsets % 1.0, repeat, angle, corner
    )
