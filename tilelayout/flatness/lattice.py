"""The even grid that a mesh stands on: readings in rows and columns, the middles of cells between them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.flatness.mesh import Flags, Mesh, Numbers, Places, Points

_EVEN = 1e-6
"""Steps of a grid that differ by no more than this share are one."""

Window = tuple[int, slice, slice]
"""The kind of the corners there, and which part of their padded array is seen from all of one kind."""


@dataclass(frozen=True, eq=False)
class Lattice:
    """Numbers of the mesh's corners: `numbers[0]` (rows, columns) of readings, `numbers[1]` of middles.

    -1 stands where there is none. `odd` (f,) tells the triangles that are no quarter of a cell.
    """

    step: tuple[float, float]
    numbers: tuple[Places, Places]
    odd: Flags

    @property
    def longest(self) -> float:
        """The longest side of a quarter of a cell, mm."""
        return max(*self.step, float(np.hypot(*self.step)) / 2.0)

    def window(self, kind: int, move: Places, margin: int) -> Window:
        """Return what is seen from all readings (kind 0) or middles (1), moved by half steps (across, up)."""
        rows, columns = self.numbers[kind].shape
        (across, is_off), (up, _) = (divmod(int(part) + kind, 2) for part in move)
        low, left = margin + up, margin + across
        return is_off, slice(low, low + rows), slice(left, left + columns)

    def padded(self, heights: Numbers, margin: int) -> tuple[Numbers, Numbers]:
        """Return heights (v,) of readings and of middles in rows and columns, `margin` more on every side.

        Where there is no corner the height is nan.
        """
        laid_out = (np.where(number >= 0, heights[number], np.nan) for number in self.numbers)
        readings, middles = (np.pad(each, margin, constant_values=np.nan) for each in laid_out)
        return readings, middles

    def beside_odd(self, mesh: Mesh, reach: float) -> Flags:
        """Return which corners (v,) lie within `reach` of a triangle that is no quarter of a cell."""
        if not self.odd.any():
            return np.zeros(len(mesh.places), dtype=bool)
        ground = shapely.union_all(mesh.shapes[self.odd])
        shapely.prepare(ground)
        return np.asarray(shapely.dwithin(shapely.points(mesh.places), ground, reach))


def lattice_of(mesh: Mesh) -> Lattice | None:
    """Return the even grid of a mesh; None if its readings stand in none.

    Beside an inside corner of a room there may be middles of other figures than cells: they are odd.
    """
    count = int(mesh.parents.max()) + 1
    places, middles = mesh.places[:count], mesh.places[count:]
    lines = [_even(places[:, axis]) for axis in (0, 1)]
    if any(line is None for line in lines) or not len(middles):
        return None
    (x, across), (y, up) = (line for line in lines if line is not None)
    step = (x, y)
    low = places.min(axis=0)
    shape = (up, across)
    at = np.round((middles - low) / step - 0.5).astype(np.intp)
    is_cell = np.abs(middles - low - (at + 0.5) * step).max(axis=1) <= _EVEN * max(step)
    if not is_cell.any():
        return None
    on_cell = np.append(np.zeros(count, dtype=bool), is_cell)
    readings = _numbered(np.round((places - low) / step).astype(np.intp), shape, np.arange(count))
    cells = _numbered(at[is_cell], (up - 1, across - 1), np.flatnonzero(on_cell))
    return Lattice(step, (readings, cells), np.asarray(~on_cell[mesh.triangles].any(axis=1)))


def _even(values: Points) -> tuple[float, int] | None:
    """The step and the number of the values that stand along one axis; None if the steps differ."""
    found = np.unique(values)
    steps = np.diff(found)
    if len(found) < 3 or np.ptp(steps) > _EVEN * steps.max():
        return None
    return float(steps.mean()), len(found)


def _numbered(at: Places, shape: tuple[int, int], numbers: Places) -> Places:
    found = np.full(shape, -1)
    found[at[:, 1], at[:, 0]] = numbers
    return found
