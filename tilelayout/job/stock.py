"""What is on hand of a tile beside whole ones: offcuts of an earlier room."""

from __future__ import annotations

from enum import StrEnum

from tilelayout.job.value import Length, Point, Value


class TileSide(StrEnum):
    """A side of a rectangular tile that lies face up, its length from left to right."""

    LEFT = "left"
    RIGHT = "right"
    LOWER = "lower"
    UPPER = "upper"


class OffcutOnHand(Value, frozen=True, kw_only=True):
    """An offcut that is kept: its size with the sides that are still factory edges, or its outline.

    `length` and `width` lie along those of its tile. An `outline` is in the coordinates of the tile (lower
    left corner 0, 0, face up) and has factory edges where it lies on the sides of the tile. There are `count`
    of it.
    """

    length: Length | None = None
    width: Length | None = None
    factory: tuple[TileSide, ...] = ()
    outline: tuple[Point, ...] = ()
    lot: str = ""
    count: int = 1
