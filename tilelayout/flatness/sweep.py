"""Straightedges laid from all corners of an even grid at once: from which corners a deep chord can start.

On an even grid the fans of all readings are one fan, moved, and those of all middles of cells another. So
each ray is drawn once, and its crossings are read from the whole grid as shifted arrays. What comes out is,
for every corner, how deep the deepest chord of its fan is: fans need to be drawn only where that matters.
Where the survey has a hole or leaves the grid it is no less than the truth, which is all that is needed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np

from tilelayout.flatness.fans import fan
from tilelayout.flatness.lattice import Lattice, Window, lattice_of
from tilelayout.flatness.mesh import Mesh, Numbers, Places, mesh_of

_NEAR = 1e-7
_SAME = 1e-9
_HERE = np.zeros(2, dtype=np.intp)


@dataclass(frozen=True, eq=False)
class Bounds:
    """For each length below, then above: how deep a chord from each corner can be.

    `any_length` and `full_length` (2 o, v); `at_most` (2 o,) for chords longer by two sides of a triangle.
    """

    any_length: Numbers
    full_length: Numbers
    at_most: Numbers


@dataclass(frozen=True, eq=False)
class Line:
    """A ray: at `far` (k,) it meets sides, `share` (k,) of the way from what `low` sees to what `high` does.

    Corners stand on it at `corner_far` (q,), seen by `corners`.
    """

    far: Numbers
    low: tuple[Window, ...]
    high: tuple[Window, ...]
    share: Numbers
    corner_far: Numbers
    corners: tuple[Window, ...]


def lines_from(lattice: Lattice, kind: int, reach: float, margin: int) -> Iterator[Line]:
    """Yield the rays from a reading (kind 0), or from the middle of a cell (1), to every corner in reach."""
    across, up = np.meshgrid(*(np.arange(-margin, margin + 1) * step for step in lattice.step))
    patch = mesh_of(np.column_stack([across.ravel(), up.ravel()]))
    centre = kind * np.array(lattice.step) / 2.0
    drawn = fan(patch, int(np.argmin(np.hypot(*(patch.places - centre).T))), reach)
    moves = np.round(2.0 * (patch.places - centre) / lattice.step).astype(np.intp)

    def windows(corners: Places) -> tuple[Window, ...]:
        return tuple(lattice.window(kind, move, margin) for move in moves[corners])

    _, first, line = np.unique(np.round(drawn.directions, 7), axis=0, return_index=True, return_inverse=True)
    for number, ray in enumerate(first):
        met = np.flatnonzero(drawn.ray == ray)
        met = met[np.append(True, np.diff(drawn.far[met]) > _NEAR)]
        on = np.flatnonzero(line.ravel() == number)
        on = on[np.argsort(drawn.reach[on])]
        sides = windows(drawn.low[met]), windows(drawn.high[met])
        yield Line(drawn.far[met], *sides, drawn.share[met], drawn.reach[on], windows(drawn.target[on]))


class Sweep:
    """Rays over the lattice of a mesh, as far as the lengths ask."""

    def __init__(self, mesh: Mesh, lattice: Lattice, overs: Sequence[float]) -> None:
        self._lattice, self._overs, self._longer = lattice, tuple(overs), 2.0 * mesh.longest
        reach = max(overs) + self._longer
        self._margin = ceil((reach + mesh.longest) / min(lattice.step)) + 1
        self._lines = tuple(tuple(lines_from(lattice, kind, reach, self._margin)) for kind in (0, 1))
        self._unknown = lattice.beside_odd(mesh, reach + self._longer)

    def bounds(self, heights: Numbers) -> Bounds:
        """Return how deep chords from each corner can be for heights (v,) of the mesh's corners."""
        padded = self._lattice.padded(heights, self._margin)
        any_length, full = (np.zeros((2 * len(self._overs), len(heights))) for _ in range(2))
        at_most = np.zeros(2 * len(self._overs))
        for kind, number in enumerate(self._lattice.numbers):
            here = padded[kind][self._lattice.window(kind, _HERE, self._margin)[1:]]
            found = _Deepest(self._overs, self._longer, padded, here)
            for line in self._lines[kind]:
                found.lay(line)
            known = number >= 0
            any_length[:, number[known]] = found.any_length[:, known]
            full[:, number[known]] = found.full_length[:, known]
            at_most = np.maximum(at_most, found.at_most)
        any_length[:, self._unknown] = full[:, self._unknown] = np.inf
        return Bounds(any_length, full, at_most)


_MOST_UNKNOWN = 0.7
"""A sweep that leaves so large a share of the corners to fans saves nothing."""


def sweep_for(mesh: Mesh, overs: Sequence[float]) -> Sweep | None:
    """Return the sweep of a mesh; None if it has no even grid, or leaves it nearly everywhere."""
    lattice = lattice_of(mesh)
    if lattice is None:
        return None
    odd = lattice.beside_odd(mesh, max(overs) + 4.0 * mesh.longest)
    return None if odd.mean() > _MOST_UNKNOWN else Sweep(mesh, lattice, overs)


class _Deepest:
    """Gathers the deepest chords from the corners of one kind, whose heights are `here` (rows, columns)."""

    def __init__(
        self, overs: tuple[float, ...], longer: float, padded: tuple[Numbers, Numbers], here: Numbers
    ) -> None:
        self._overs, self._longer, self._padded, self._here = overs, longer, padded, here
        self.any_length, self.full_length = (np.zeros((2 * len(overs), *here.shape)) for _ in range(2))
        self._beyond = np.zeros(2 * len(overs))

    @property
    def at_most(self) -> Numbers:
        """The deepest (2 o,) of chords that may be longer by two sides of a triangle."""
        return np.asarray(np.maximum(self._beyond, self.any_length.max(axis=(1, 2))))

    def lay(self, line: Line) -> None:
        """Lay straightedges of every length along a ray, from all corners at once."""
        met, corners = self._met(line), [self._seen(window) for window in line.corners]
        for far, there in zip(line.corner_far.tolist(), corners, strict=True):
            before = int(np.searchsorted(line.far, far - _NEAR))
            self._take(self._under(there, line.far[:before] / far) - met[:before], np.full(before, far))
            after = line.far[int(np.searchsorted(line.far, far + _NEAR, "right")) :]
            rise = (met[len(met) - len(after) :] - self._here) * (far / after)[:, None, None]
            self._take(rise + (self._here - there), after)
        for at in range(len(self._overs)):
            self._lay_full(line, met, corners, at)

    def _seen(self, window: Window) -> Numbers:
        kind, rows, columns = window
        return self._padded[kind][rows, columns]

    def _met(self, line: Line) -> Numbers:
        """The heights (k, rows, columns) at the crossings, seen from all corners."""
        met = np.empty((len(line.far), *self._here.shape))
        for at, share in enumerate(line.share.tolist()):
            if _SAME < share < 1.0 - _SAME:
                low = self._seen(line.low[at])
                np.subtract(self._seen(line.high[at]), low, out=met[at])
                met[at] *= share
                met[at] += low
            else:
                met[at] = self._seen((line.low if share < 0.5 else line.high)[at])
        return met

    def _under(self, there: Numbers, shares: Numbers) -> Numbers:
        """The height (k, rows, columns) of the straight line from here to there at shares (k,) of the way."""
        return np.asarray(self._here + shares[:, None, None] * (there - self._here))

    def _lay_full(self, line: Line, met: Numbers, corners: list[Numbers], at: int) -> None:
        """Lay the straightedge of length `at`, and look at it over every crossing and every corner."""
        over = self._overs[at]
        beyond = int(np.searchsorted(line.far, over, "right"))
        if beyond == len(line.far):
            return
        end = self._height_at(line, met, over, beyond)
        inside = line.far[: int(np.searchsorted(line.far, over - _NEAR))]
        on = line.corner_far[line.corner_far < over - _NEAR]
        over_corners = np.array(corners[: len(on)]).reshape(-1, *end.shape)
        looked_at = np.concatenate([met[: len(inside)], over_corners])
        depth = self._under(end, np.concatenate([inside, on]) / over) - looked_at
        self._take(depth, np.full(len(depth), over))
        self._keep(self.full_length, at, depth)

    def _height_at(self, line: Line, met: Numbers, far: float, beyond: int) -> Numbers:
        """The height (rows, columns) so far along the ray, between the crossing `beyond` it and the last."""
        last_far, last = (line.far[beyond - 1], met[beyond - 1]) if beyond else (0.0, self._here)
        share = (far - last_far) / max(line.far[beyond] - last_far, _SAME)
        return np.asarray(last + share * (met[beyond] - last))

    def _take(self, depth: Numbers, ends: Numbers) -> None:
        """Take chords of lengths (k,), short ones first, with the depths under each (k, rows, columns)."""
        for at, over in enumerate(self._overs):
            fits = int(np.searchsorted(ends, over + _NEAR, "right"))
            self._keep(self.any_length, at, depth[:fits])
            longer = depth[fits : int(np.searchsorted(ends, over + self._longer, "right"))]
            if len(longer):
                most, least = np.fmax.reduce(longer, axis=None), np.fmin.reduce(longer, axis=None)
                self._beyond[2 * at : 2 * at + 2] = np.fmax(self._beyond[2 * at : 2 * at + 2], (most, -least))

    def _keep(self, kept: Numbers, at: int, depth: Numbers) -> None:
        if len(depth):
            np.fmax(kept[2 * at], np.fmax.reduce(depth, axis=0), out=kept[2 * at])
            np.fmax(kept[2 * at + 1], -np.fmin.reduce(depth, axis=0), out=kept[2 * at + 1])
