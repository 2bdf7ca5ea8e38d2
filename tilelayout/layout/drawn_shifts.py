"""Shifts of rows of planks drawn by a seed, so that no end joint comes near one in the row beside.

The draw is a small integer hash of the seed, the row and the try, so a seed gives the same floor on every
machine. Each row is drawn from the shifts that keep the least stagger to the row below and from which the
last row can still come back to the first, since the rows repeat. Of a few such draws the one is taken that
looks least like a pattern: no joint in line with one two rows on (an H), no two equal steps (a stair).
"""

from __future__ import annotations

from collections.abc import Sequence

from tilelayout.base.tolerance import SAME_PLACE

_TRIES = 24
_MASK = (1 << 64) - 1


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
