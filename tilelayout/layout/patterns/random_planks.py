"""Random planks: rows whose shifts are drawn, so that no end joint comes near one in the row beside.

The shifts are drawn by a seed (`drawn_shifts`). Planks of two or three lengths are mixed in every row
(`mixed_rows`). That no row of a room ends in a piece that is too short (`least_end`) depends on the room,
which a pattern does not know: `row_ends` draws for it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Annotated

import msgspec
import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import LARGEST_LENGTH, SAME_PLACE
from tilelayout.job.values import Length, RectangleTile, Tile
from tilelayout.layout.drawn_shifts import apart, drawn
from tilelayout.layout.mixed_rows import Planks, Row, mixed_rows, nearest_joints, shuffled
from tilelayout.layout.placing import face_with_corner
from tilelayout.layout.roles import NO_MORE, SAME_SIZE, MoreTiles, Role, Size, size_of
from tilelayout.layout.values import Cell

NAME = "Random planks"
SUMMARY = "Rows with drawn shifts: no end joint comes nearer than the least stagger to one in the next row."
SHAPES = frozenset({"rectangle"})
FREE = frozenset({"seed", "least_stagger", "least_end", "mix", "rows", "shifts"})
USUAL = {
    "Random planks": {"seed": 1},
    "Planks of two lengths": {"seed": 1, "lengths": 2},
    "Planks of three lengths": {"seed": 1, "lengths": 3},
}

USUAL_STAGGER = 150.0
"""End joints of neighbouring rows stand no nearer, in mm. Common practice (six inches), from memory."""

LARGEST_SEED = 999_999

_HALVINGS = 6
_SHOWN = 0.001
"""Shifts are written to the thousandth of a millimetre, and may miss the stagger by no more."""


class Settings(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """`seed`: which of the draws. `least_stagger`: the least distance in mm along the row between the end
    joints of neighbouring rows; the usual one, or a quarter of a short plank, if not given. `least_end`: no
    piece of a row is to be shorter. `lengths`: of how many lengths the planks are, up to three, and `mix`:
    how many of each make up a row before it repeats. `rows`: after so many the floor repeats. `shifts`: how
    far each row is shifted in mm, if they were drawn for a room and are not to be drawn here.
    """

    seed: Annotated[int, msgspec.Meta(ge=0, le=LARGEST_SEED)] = 1
    least_stagger: Length | None = None
    least_end: Length | None = None
    lengths: Annotated[int, msgspec.Meta(ge=1, le=3)] = 1
    mix: Annotated[tuple[Annotated[int, msgspec.Meta(ge=1, le=12)], ...], msgspec.Meta(max_length=3)] = ()
    rows: Annotated[int, msgspec.Meta(ge=2, le=200)] = 24
    shifts: Annotated[tuple[Length, ...], msgspec.Meta(max_length=200)] = ()

    def __post_init__(self) -> None:
        if self.mix and len(self.mix) != self.lengths:
            raise ValueError("mix has one count for each length of plank")
        if self.least_end is not None and not 0 <= self.least_end <= LARGEST_LENGTH:
            raise ValueError("least_end must be nothing or more, and less than a kilometre")


_ROLES = (Role("plank-2", "plank of a second length"), Role("plank-3", "plank of a third length"))
_USUAL_MIX = {2: (3, 3), 3: (2, 2, 2)}
_USUAL_SHARES = {"plank-2": 2 / 3, "plank-3": 1 / 2}
"""Further lengths that go well with one, as shares of it. Common practice, no source."""


def roles(settings: Settings) -> tuple[Role, ...]:
    """Return the roles of the further lengths."""
    return _ROLES[: settings.lengths - 1]


def cell(tile: RectangleTile, joint: float, settings: Settings, more: MoreTiles = NO_MORE) -> Cell:
    """Return the planks of every row once; LayoutError if they are too short for what is to be kept."""
    _check_least_end([tile, *more.values()], settings)
    if settings.lengths > 1:
        return _mixed_cell(tile, joint, settings, more)
    along, up = tile.length + joint, tile.width + joint
    shifts = shifts_of(tile, joint, settings)
    faces = tuple(
        face_with_corner(tile, 0.0, (shift, row * up), course=row) for row, shift in enumerate(shifts)
    )
    return Cell(np.array([(along, 0.0), (0.0, len(shifts) * up)]), faces, joint)


def more_sizes(tile: RectangleTile, joint: float, settings: Settings) -> Mapping[str, Size]:
    """Return usual sizes for the further lengths: any length goes, the width must be that of the others."""
    shares = {role.name: _USUAL_SHARES[role.name] for role in roles(settings)}
    return {name: (float(round(tile.length * share)), tile.width) for name, share in shares.items()}


def planks_of(tile: RectangleTile, joint: float, settings: Settings, more: MoreTiles) -> Planks:
    """Return the lengths of the planks and how many of each make up a row."""
    lengths = (tile.length, *(size_of(more[role.name])[0] for role in roles(settings)))
    mix = settings.mix or _USUAL_MIX[settings.lengths]
    return Planks(tuple(length + joint for length in lengths), mix)


def rows_of(tile: RectangleTile, joint: float, settings: Settings, more: MoreTiles) -> tuple[Row, ...]:
    """Return the rows of planks of several lengths, as drawn; shifts drawn for a room go before.

    LayoutError, with a stagger that works, if the least one cannot be kept.
    """
    planks, stagger = planks_of(tile, joint, settings, more), mixed_stagger(tile, joint, settings, more)
    if settings.shifts:
        orders = orders_of(planks, settings.seed, len(settings.shifts))
        rows = tuple(Row(order, shift) for order, shift in zip(orders, settings.shifts, strict=True))
        _check_rows(planks, rows, stagger)
        return rows
    found = mixed_rows(planks, settings.seed, settings.rows, stagger)
    if found is None:
        raise _no_stagger(planks, settings, stagger)
    return found


def orders_of(planks: Planks, seed: int, rows: int) -> list[tuple[int, ...]]:
    """Return the orders of the planks in rows that are shifted for a room."""
    return [shuffled(planks, seed, row, 0) for row in range(rows)]


def _check_rows(planks: Planks, rows: Sequence[Row], stagger: float) -> None:
    """Raise LayoutError, naming the row, if one that was drawn for a room does not keep the stagger."""
    for number, (below, row) in enumerate(pairwise(rows), start=2):
        least = nearest_joints(planks, below, row)
        if least < stagger - _SHOWN:
            raise LayoutError(
                f"An end joint of row {number} is {least:.0f} mm from one of row {number - 1}, "
                f"and the least stagger is {stagger:g} mm.",
                "Draw the rows again, or allow a smaller stagger.",
            )


def _mixed_cell(tile: RectangleTile, joint: float, settings: Settings, more: MoreTiles) -> Cell:
    tiles = (tile, *(more[role.name] for role in roles(settings)))
    for other in tiles[1:]:
        if abs(size_of(other)[1] - tile.width) > SAME_SIZE:
            what = (
                f'"{other.title}" is {size_of(other)[1]:.5g} mm wide, and "{tile.title}" {tile.width:.5g} mm.'
            )
            raise LayoutError(what, "Planks of several lengths in one row are of one width.")
    planks, up = planks_of(tile, joint, settings, more), tile.width + joint
    rows = rows_of(tile, joint, settings, more)
    faces = []
    for number, row in enumerate(rows):
        for kind, start in zip(row.order, planks.joints(row.order).tolist(), strict=True):
            turn = 0.0 if _lies_along(tiles[kind]) else 90.0
            faces.append(face_with_corner(tiles[kind], turn, (row.shift + start, number * up), course=number))
    return Cell(np.array([(planks.repeat, 0.0), (0.0, len(rows) * up)]), tuple(faces), joint)


def _lies_along(tile: Tile) -> bool:
    return not isinstance(tile, RectangleTile) or tile.length >= tile.width


def mixed_stagger(tile: RectangleTile, joint: float, settings: Settings, more: MoreTiles) -> float:
    """Return the least stagger asked for; of planks of several lengths the shortest decides."""
    shortest = min(planks_of(tile, joint, settings, more).along) - joint
    return least_stagger_of(msgspec.structs.replace(tile, length=shortest), joint, settings)


def _no_stagger(planks: Planks, settings: Settings, stagger: float) -> LayoutError:
    """Return the error that names a stagger which works, found by halving what is left."""
    low, high = 0.0, stagger
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        fits = mixed_rows(planks, settings.seed, settings.rows, middle) is not None
        low, high = (middle, high) if fits else (low, middle)
    return LayoutError(
        f"Planks of these lengths are drawn with no stagger of {stagger:g} mm in every row.",
        f"A stagger of {np.floor(low):g} mm works.",
    )


def _check_least_end(tiles: Sequence[Tile], settings: Settings) -> None:
    shortest = min(size_of(tile)[0] for tile in tiles)
    if settings.least_end is not None and settings.least_end > shortest + SAME_PLACE:
        what = f"No piece can be {settings.least_end:g} mm long where a plank is {shortest:g} mm."
        raise LayoutError(what, f"Ask for an end size of {shortest:g} mm or less.")


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
