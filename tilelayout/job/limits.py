"""How large and how small the sizes of a job may be: one object for one limit.

The limits are wide, and catch the slip of a keyboard or a wrong unit, not bad practice: a tile of 5 m, a
joint of 100 mm. Reading a file and every edit hold to the same ones.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilelayout.base.tolerance import LARGEST_LENGTH


@dataclass(frozen=True)
class Problem:
    """What is wrong with a job, where ("outline[2]"), and what to do about it."""

    place: str
    what: str
    mend: str

    def inside(self, place: str) -> Problem:
        """Return the same problem seen from the value that holds this one at `place`."""
        return Problem(f"{place}.{self.place}" if self.place else place, self.what, self.mend)


def inside(place: str, problems: Iterator[Problem]) -> Iterator[Problem]:
    """Return the problems seen from the value that holds theirs at `place`."""
    return (problem.inside(place) for problem in problems)


@dataclass(frozen=True)
class Limit:
    """From `least` to `most`, both allowed, in `unit`; `name` begins a sentence."""

    name: str
    least: float
    most: float
    unit: str = " mm"

    def problems(self, value: float | None, place: str) -> Iterator[Problem]:
        """Say so if the value is outside the limit or is no number; None is nothing to judge."""
        if value is not None and not self.least <= value <= self.most:
            what = f"{self.name} is {value:g}{self.unit}."
            yield Problem(place, what, f"It can be {self.least:g} to {self.most:g}{self.unit}.")


TILE_SIZE = Limit("The size of the tile", 1.0, 5000.0)
TILE_ANGLE = Limit("The angle of the tile", 15.0, 165.0, " degrees")
TILE_CORNERS = Limit("The number of corners of the tile", 3, 40, "")
SHARPEST_CORNER = Limit("The corner of the tile", 10.0, 180.0, " degrees")
TILE_THICKNESS = Limit("The thickness of the tile", 0.5, 200.0)
PER_BOX = Limit("The number of tiles in a box", 1, 100_000, "")
PRICE_PER_BOX = Limit("The price of a box", 0, 10_000_000, "")
WHOLE_ON_HAND = Limit("The number of whole tiles on hand", 0, 1_000_000, "")
JOINT = Limit("The joint", 0.0, 100.0)
ANGLE = Limit("The angle", -360.0, 360.0, " degrees")
GAP = Limit("The gap", 0.0, 500.0)
LEAST_PIECE = Limit("The least piece", 0.0, 500.0)
KERF = Limit("The kerf of the saw", 0.0, 20.0)
CLEARANCE = Limit("The clearance of the cutout", 0.0, 500.0)
DIAMETER = Limit("The diameter of the cutout", 1.0, LARGEST_LENGTH)
COORDINATE = Limit("The coordinate", -LARGEST_LENGTH, LARGEST_LENGTH)

SMALLEST_SURFACE = 100.0
"""A surface or cutout of less area (mm2) is a slip: no piece of it could be held."""

FLATTEST_ARC = 0.01
"""An arc that rises less than this (mm) over its chord is a straight edge drawn by mistake."""

LARGEST_FILE = 16 * 1024 * 1024
"""A job file of more bytes is not read: a room takes a few thousand."""

DEEPEST_NESTING = 32
"""Lists and groups in a job file stand no deeper inside each other."""
