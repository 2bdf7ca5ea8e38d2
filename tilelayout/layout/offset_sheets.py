"""Mosaic sheets of hexagons and round chips: where their chips lie, and the zigzag outline of any of them.

The chips lie on a lattice of triangles: from the sheet's first chip, (column, row) stands `column` steps to
the right and `row` steps up and half a step over. Round each lies a cell, a hexagon half a joint larger, and
the cells fill the plane. The knife runs along their sides, so some chips that are kept together are outlined
by the sides that no two of them share, drawn back by half the joint. Those are sides of the hexagons
themselves; a round chip touches them in their middles, and from middle to middle the outline follows it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from math import ceil, cos, pi, radians, sin, sqrt

import numpy as np

from tilelayout.base.tolerance import CHORD, SAME_PLACE
from tilelayout.geometry.rings import following
from tilelayout.job.values import HexagonMosaicTile, OffsetSheet
from tilelayout.layout.kernel.arrays import Whole
from tilelayout.layout.values import Points

Chip = tuple[int, int]

_WAYS: tuple[Chip, ...] = ((1, 0), (0, 1), (-1, 1), (-1, 0), (0, -1), (1, -1))
"""From a chip to those beside it, counter-clockwise from the right: side k of a cell faces the k-th."""

_FEWEST_CHORDS = 4


def chip_across(tile: OffsetSheet) -> float:
    """Return how wide a chip is: a hexagon across its flats, a round one its diameter."""
    return tile.across_flats if isinstance(tile, HexagonMosaicTile) else tile.diameter


def offset_vectors(tile: OffsetSheet) -> Points:
    """Return the ways (2, 2) to the next chip of the row, and to the one above and half a step over."""
    pitch = chip_across(tile) + tile.chip_joint
    return np.array([(pitch, 0.0), (pitch / 2, pitch * sqrt(3) / 2)])


def sheet_vectors(tile: OffsetSheet) -> Points:
    """Return the ways (2, 2) to the next sheet of a course and to the one above.

    After an odd number of rows that stands half a chip over.
    """
    (pitch, _), (half, up) = offset_vectors(tile)
    return np.array([(tile.chips_across * pitch, 0.0), (tile.chips_up % 2 * half, tile.chips_up * up)])


def chips_of_sheet(tile: OffsetSheet) -> list[Chip]:
    """Return the chips of a sheet, row by row."""
    return [(at - row // 2, row) for row in range(tile.chips_up) for at in range(tile.chips_across)]


def places_in_sheets(tile: OffsetSheet, column: Whole, row: Whole) -> tuple[Whole, Whole, Whole, Whole]:
    """Return column and row of the sheet that each chip belongs to, and its place along and up in it."""
    sheet_row, up = np.divmod(row, tile.chips_up)
    along = column + sheet_row * (tile.chips_up // 2) + up // 2
    sheet_column, along = np.divmod(along, tile.chips_across)
    return sheet_column, sheet_row, along, up


def outlines_of_chips(tile: OffsetSheet, chips: Iterable[Chip]) -> list[Points]:
    """Return the rings (n, 2) round chips, outer ones counter-clockwise, holes clockwise.

    The first chip of the sheet has its centre at (0, 0).
    """
    outward, inward = _corners(tile)
    vectors = offset_vectors(tile)
    rings = []
    for sides in _traced(frozenset(chips)):
        centres = np.array([chip for chip, _, _ in sides]) @ vectors
        corners = [(outward if turns_out else inward)[side] for _, side, turns_out in sides]
        ring = np.concatenate([corner + centre for corner, centre in zip(corners, centres, strict=True)])
        rings.append(_without_repeats(ring))
    return rings


def _traced(chips: frozenset[Chip]) -> Iterator[list[tuple[Chip, int, bool]]]:
    """Yield for each ring the sides of cells in order, and whether the outline turns outwards after each."""
    left = dict.fromkeys(
        (chip, side) for chip in sorted(chips) for side in range(6) if _beside(chip, side) not in chips
    )
    while left:
        at, sides = next(iter(left)), []
        while at in left:
            del left[at]
            chip, side = at
            other = _beside(chip, (side + 1) % 6)
            turns_out = other not in chips
            sides.append((chip, side, turns_out))
            at = (chip, (side + 1) % 6) if turns_out else (other, (side - 1) % 6)
        yield sides


def _beside(chip: Chip, side: int) -> Chip:
    return chip[0] + _WAYS[side][0], chip[1] + _WAYS[side][1]


@lru_cache(maxsize=16)
def _corners(tile: OffsetSheet) -> tuple[list[Points], list[Points]]:
    """Return the points that lead round the corner after each of the six sides, seen from the chip's centre.

    First where the outline turns outwards, round the chip; then where it turns in, towards the chip beside.
    """
    across, joint = chip_across(tile), tile.chip_joint
    out = _hexagon_corner(across) if isinstance(tile, HexagonMosaicTile) else _arc(across / 2)
    into = (across + joint) / sqrt(3) * _way(30.0) + joint / sqrt(3) * _way(150.0)
    return [_turned(out, 60.0 * side) for side in range(6)], [
        _turned(into[None], 60.0 * side) for side in range(6)
    ]


def _hexagon_corner(across: float) -> Points:
    return across / sqrt(3) * _way(30.0)[None]


def _arc(radius: float) -> Points:
    """Return points on a sixth of a circle, whose chords leave the sector its area.

    The ends, where the chip touches its cell's sides drawn back, lie on the circle itself.
    """
    chord = 2.0 * float(np.arccos(max(1.0 - CHORD / radius, 0.5)))
    count = max(_FEWEST_CHORDS, ceil(pi / 3 / chord))
    step = pi / 3 / count
    square, plain = (count - 2) * sin(step) / 2, sin(step)
    outer = (-plain + sqrt(plain**2 + 4 * square * pi / 6)) / (2 * square)
    angles = np.arange(count + 1) * step
    reach = np.full(count + 1, outer * radius)
    reach[[0, -1]] = radius
    return np.asarray(reach[:, None] * np.column_stack([np.cos(angles), np.sin(angles)]))


def _way(degrees: float) -> Points:
    return np.array([cos(radians(degrees)), sin(radians(degrees))])


def _turned(points: Points, degrees: float) -> Points:
    along = _way(degrees)
    return np.asarray(points @ np.array([along, (-along[1], along[0])]))


def _without_repeats(ring: Points) -> Points:
    return np.asarray(ring[np.abs(ring - following(ring)).max(axis=1) > SAME_PLACE])
