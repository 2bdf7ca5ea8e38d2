"""Random planks: rows whose shifts are drawn, so that no end joint comes near one in the row beside.

The draw is a small integer hash of the seed, the row and the try, so a seed gives the same floor on every
machine. Each row is drawn from the shifts that keep the least stagger to the row below and from which the
last row can still come back to the first, since the rows repeat. Of a few such draws the one is taken that
looks least like a pattern: no joint in line with one two rows on (an H), no two equal steps (a stair).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

import msgspec
import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.values import Length, RectangleTile
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.values import Cell

NAME = "Random planks"
SUMMARY = "Rows with drawn shifts: no end joint comes nearer than the least stagger to one in the next row."
SHAPES = frozenset({"rectangle"})
FREE = frozenset({"seed", "least_stagger", "rows", "shifts"})
USUAL = {"Random planks": {"seed": 1}}

USUAL_STAGGER = 150.0
"""End joints of neighbouring rows stand no nearer, in mm. Common practice (six inches), from memory."""

LARGEST_SEED = 999_999

_TRIES = 24
_SHOWN = 0.001
"""Shifts are written to the thousandth of a millimetre, and may miss the stagger by no more."""
_MASK = (1 << 64) - 1


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`seed`: which of the draws. `least_stagger`: the least distance in mm along the row between the end
    joints of neighbouring rows; the usual one, or a quarter of a short plank, if not given. `rows`: after so
    many the floor repeats. `shifts`: how far each row is shifted in mm, if they were drawn for a room and
    are not to be drawn here.
    """

    seed: Annotated[int, msgspec.Meta(ge=0, le=LARGEST_SEED)] = 1
    least_stagger: Length | None = None
    rows: Annotated[int, msgspec.Meta(ge=2, le=200)] = 24
    shifts: Annotated[tuple[Length, ...], msgspec.Meta(max_length=200)] = ()


def cell(tile: RectangleTile, joint: float, settings: Settings) -> Cell:
    """Return one plank of each row; LayoutError if the planks are too short for the stagger."""
    along, up = tile.length + joint, tile.width + joint
    shifts = shifts_of(tile, joint, settings)
    faces = tuple(
        face_with_corner(tile, 0.0, (shift, row * up), course=row) for row, shift in enumerate(shifts)
    )
    return Cell(np.array([(along, 0.0), (0.0, len(shifts) * up)]), faces, joint)


def least_stagger_of(tile: RectangleTile, joint: float, settings: Settings) -> float:
    """Return the least stagger that is asked for, in mm."""
    if settings.least_stagger is not None:
        return settings.least_stagger
    return min(USUAL_STAGGER, (tile.length + joint) / 4)


def greatest_stagger(along: float, rows: int) -> float:
    """Return the greatest least stagger (mm) that so many rows, repeated, can keep.

    From row to row a joint can move by half a coordinating length `along` at most, and an odd number of such
    steps does not lead back to the first row.
    """
    return along / 2 if rows % 2 == 0 else along * (rows - 1) / (2 * rows)


def shifts_of(tile: RectangleTile, joint: float, settings: Settings) -> tuple[float, ...]:
    """Return how far each row is shifted, in mm; LayoutError if the stagger cannot be kept."""
    along, stagger = tile.length + joint, least_stagger_of(tile, joint, settings)
    most = greatest_stagger(along, len(settings.shifts) or settings.rows)
    if not 0 <= stagger <= most + SAME_PLACE:
        raise LayoutError(
            f"Planks of {tile.length:g} mm cannot keep a stagger of {stagger:g} mm.",
            f"The largest that works is {np.floor(most * 10) / 10:g} mm.",
        )
    if settings.shifts:
        return _checked(settings.shifts, along, stagger)
    return drawn(settings.seed, settings.rows, along, min(stagger, most))


def apart(one: float, other: float, along: float) -> float:
    """Return how far apart the end joints of two rows are, which repeat by `along`.

    >>> apart(100.0, 1100.0, 1200.0)
    200.0
    """
    away = abs(one - other) % along
    return min(away, along - away)


def drawn(seed: int, rows: int, along: float, stagger: float) -> tuple[float, ...]:
    """Return the shifts of `rows` rows, from 0 to `along`; neighbours, last and first too, are `apart` by
    `stagger` or more."""
    shifts = [share(seed, 0, 0) * along]
    for row in range(1, rows):
        tries = (_draw(shifts, row, rows, along, stagger, share(seed, row, k)) for k in range(_TRIES))
        best, least = shifts[0], -1.0
        for shift in tries:
            freedom = _freedom(shifts, shift, rows, along)
            if freedom > least:
                best, least = shift, freedom
            if freedom >= min(stagger, along / 8):
                break
        shifts.append(best)
    return tuple(shifts)


def ways_back(shifts: Sequence[float], seed: int, along: float, stagger: float) -> tuple[float, ...]:
    """Return the shifts of the fewest further rows that lead back from the last row to the first."""
    free, further = along / 2 - stagger, 0
    while abs(_way_home(list(shifts), further + 1, along)) > (further + 1) * free + SAME_PLACE:
        further += 1
    rows, found = len(shifts) + further, list(shifts)
    for row in range(len(shifts), rows):
        found.append(_draw(found, row, rows, along, stagger, share(seed, row, 0)))
    return tuple(found[len(shifts) :])


def share(seed: int, row: int, attempt: int) -> float:
    """Return a number from 0 up to 1 that nobody would guess: three rounds of a multiply-and-shift hash."""
    mixed = ((seed << 24) ^ (row << 12) ^ attempt) + 0x9E3779B97F4A7C15
    for factor in (0xBF58476D1CE4E5B9, 0x94D049BB133111EB, 0xD6E8FEB86659FD93):
        mixed = ((mixed ^ (mixed >> 31)) * factor) & _MASK
    return ((mixed ^ (mixed >> 29)) >> 11) / float(1 << 53)


def _draw(
    shifts: list[float], row: int, rows: int, along: float, stagger: float, drawn_share: float
) -> float:
    """Return a shift that keeps the stagger to the row below and leaves a way back to the first row.

    One step leads to within `free` of half a length on; the steps that are left, taken together, must
    lead to the first row.
    """
    free, left = along / 2 - stagger, rows - row
    home = _way_home(shifts, left + 1, along)
    low, high = max(-free, home - left * free), min(free, home + left * free)
    if left * free >= along / 2:
        low, high = -free, free
    return (shifts[-1] + along / 2 + low + drawn_share * max(high - low, 0.0)) % along


def _way_home(shifts: list[float], steps: int, along: float) -> float:
    """Return how far off the first row one comes by so many steps of half a length from the last one."""
    away = (shifts[0] - shifts[-1] - steps * along / 2) % along
    return away - along if away > along / 2 else away


def _freedom(shifts: list[float], shift: float, rows: int, along: float) -> float:
    """Return how far a new row is from making an H or a stair, the rows after the last being the first."""
    found = [along / 2]
    if len(shifts) > 1:
        found += [apart(shift, shifts[-2], along), apart(shift - shifts[-1], shifts[-1] - shifts[-2], along)]
    if len(shifts) >= rows - 2 and rows > 3:
        found.append(apart(shift, shifts[len(shifts) + 2 - rows], along))
    return min(found)


def _checked(shifts: Sequence[float], along: float, stagger: float) -> tuple[float, ...]:
    for row, shift in enumerate(shifts):
        if apart(shift, shifts[row - 1], along) < stagger - _SHOWN:
            below = "the last row" if row == 0 else f"row {row}"
            raise LayoutError(
                f"Row {row + 1} is shifted {apart(shift, shifts[row - 1], along):.0f} mm from {below}, "
                f"and the least stagger is {stagger:g} mm.",
                "Draw the rows again, or allow a smaller stagger.",
            )
    return tuple(shift % along for shift in shifts)
