"""Readings that look mistyped: far from what their neighbours say, and alone in it.

A reading is compared with the plane through its neighbours, and theirs, without it: the one nearest by
absolute distance, which a single bad neighbour does not move. If it is out by far more than readings here are
on the whole (six times the median), and its neighbours are not, it is named, with what would fit: the same
digits with the point elsewhere, or two swapped. It is never changed and never left out: only a person can
tell a slip from a lump of mortar.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tilelayout.flatness.mesh import Mesh, Numbers, Places, Points

_TIMES_USUAL = 6.0
_LEAST = 3.0
"""Less out than this (mm) could be any rough patch."""

_TIMES_NEIGHBOURS = 2.5
"""It is alone if no neighbour is out by more than this part of what it is."""

_ROUNDS = 12
_SMALLEST = 1e-3
"""Rounds and smallest distance (mm) of the search for the plane nearest by absolute distance."""

_FITS = 3.0
"""A corrected reading fits if it is out by less than so many times the usual."""


@dataclass(frozen=True)
class Mistyped:
    """Reading `index` of the survey looks mistyped.

    `low` and `high` are what its neighbours say, and `fits` is a likely slip put right, if there is one.
    """

    index: int
    x: float
    y: float
    height: float
    low: float
    high: float
    fits: float | None


def mistyped(mesh: Mesh, readings: Numbers) -> tuple[Mistyped, ...]:
    """Return the readings that look mistyped, in order."""
    places = mesh.places[: len(readings)]
    close = _neighbours(mesh, len(readings))
    around = [_further(close, at) for at in range(len(close))]
    off = np.array([_off(places, readings, at, near) for at, near in enumerate(around)])
    limit = max(_TIMES_USUAL * float(np.median(np.abs(off))), _LEAST)
    worst_near = np.array([np.abs(off[near]).max(initial=0.0) for near in close])
    alone = np.abs(off) > np.maximum(limit, _TIMES_NEIGHBOURS * worst_near)
    return tuple(
        _told(places, readings, int(at), around[at], close[at], limit) for at in np.flatnonzero(alone)
    )


def _further(close: list[Places], at: int) -> Places:
    """The neighbours and their neighbours, without the reading itself."""
    near = np.unique(np.concatenate([close[at], *(close[each] for each in close[at])]))
    return np.asarray(near[near != at])


def _neighbours(mesh: Mesh, count: int) -> list[Places]:
    """The readings that share a triangle or a cell with each."""
    near: list[set[int]] = [set() for _ in range(count)]
    for corners in mesh.triangles:
        of_cell = {int(p) for c in corners for p in mesh.parents[c][mesh.shares[c] > 0]}
        for at in of_cell:
            near[at] |= of_cell - {at}
    return [np.array(sorted(each), dtype=np.intp) for each in near]


def _off(places: Points, readings: Numbers, at: int, around: Places) -> float:
    """How far a reading is above the plane through those around it."""
    return float(readings[at] - _said(places, readings, at, around)[0]) if len(around) > 3 else 0.0


def _said(places: Points, readings: Numbers, at: int, around: Places) -> tuple[float, Numbers]:
    """What the plane through those around says at the place, and what each says, carried along the plane."""
    off = places[around] - places[at]
    level = np.column_stack([off, np.ones(len(around))])
    weights = np.ones(len(around))
    for _ in range(_ROUNDS):
        plane = np.linalg.lstsq(level * weights[:, None], readings[around] * weights, rcond=None)[0]
        weights = 1.0 / np.sqrt(np.maximum(np.abs(readings[around] - level @ plane), _SMALLEST))
    return float(plane[2]), np.asarray(readings[around] - off @ plane[:2])


def _told(
    places: Points, readings: Numbers, at: int, around: Places, close: Places, limit: float
) -> Mistyped:
    middle, said = _said(places, readings, at, around)
    said, height = said[np.isin(around, close)], float(readings[at])
    slips = [slip for slip in _slips(height) if abs(slip - middle) <= limit / _TIMES_USUAL * _FITS]
    nearest = min(slips, key=lambda slip: abs(slip - middle), default=None)
    x, y = places[at].tolist()
    return Mistyped(at, x, y, height, float(said.min()), float(said.max()), nearest)


def _slips(height: float) -> Iterator[float]:
    """What may have been meant: the point elsewhere, another sign, two digits swapped."""
    yield from (height / 10.0, height * 10.0, height / 100.0, -height, -height / 10.0)
    digits = f"{height:g}"
    for k, (first, second) in enumerate(pairwise(digits)):
        if first.isdigit() and second.isdigit():
            yield float(digits[:k] + second + first + digits[k + 2 :])
