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
CHIPS = Limit("The number of chips", 1, 200, "")
TILE_ANGLE = Limit("The angle of the tile", 15.0, 165.0, " degrees")
TILE_CORNERS = Limit("The number of corners of the tile", 3, 40, "")
SHARPEST_CORNER = Limit("The corner of the tile", 10.0, 180.0, " degrees")
TILE_THICKNESS = Limit("The thickness of the tile", 0.5, 200.0)
PER_BOX = Limit("The number of tiles in a box", 1, 100_000, "")
PRICE_PER_BOX = Limit("The price of a box", 0, 10_000_000, "")
WHOLE_ON_HAND = Limit("The number of whole tiles on hand", 0, 1_000_000, "")
OFFCUTS = Limit("The number of these offcuts", 1, 10_000, "")
OFFCUT_SIZE = Limit("The size of the offcut", 1.0, 5000.0)
JOINT = Limit("The joint", 0.0, 100.0)
ANGLE = Limit("The angle", -360.0, 360.0, " degrees")
GAP = Limit("The gap", 0.0, 500.0)
BORDER_ROWS = Limit("The number of rows of the border", 1, 20, "")
INSET = Limit("The distance of the border from the wall", 0.0, 5000.0)
LEAST_PIECE = Limit("The least piece", 0.0, 500.0)
KERF = Limit("The kerf of the saw", 0.0, 20.0)
LEAST_OFFCUT = Limit("The least offcut", 0.0, 5000.0)
CLEARANCE = Limit("The clearance of the cutout", 0.0, 500.0)
DIAMETER = Limit("The diameter of the cutout", 1.0, LARGEST_LENGTH)
HEIGHT = Limit("The height", -1000.0, 5000.0)
LAYER_THICKNESS = Limit("The thickness of the layer", 0.0, 1000.0)
BED = Limit("The bed of the adhesive", 0.0, 100.0)
NOTCH = Limit("The notch of the trowel", 0.5, 50.0)
TRIM_HEIGHT = Limit("The height of the trim", 5.0, 2000.0)
TILE_WEIGHT = Limit("The weight of the tile", 0.0001, 1000.0, " kg")
TILE_WEIGHT_PER_M2 = Limit("The weight of the tile", 0.5, 500.0, " kg to the square metre")
ABSORPTION = Limit("The water absorption of the tile", 0.0, 60.0, " %")
WARPAGE = Limit("The warpage of the tile", 0.0, 50.0)
SPREAD = Limit("The spread of the tile's sizes", 0.0, 200.0)
SPARE = Limit("The number of spare tiles", 0, 100_000, "")
ONE_BREAKS_IN = Limit("The number of cuts of which one breaks", 0, 100_000, "")
BREAKAGE = Limit("The number of tiles that break", 0, 100_000, "")
BREAKAGE_PERCENT = Limit("The share of tiles that break", 0, 100, " %")
READING_HEIGHT = Limit("The height of the reading", -20_000.0, 20_000.0)
RESOLUTION = Limit("The resolution of the tool", 0.001, 50.0)
STRAIGHTEDGE = Limit("The length of the straightedge", 50.0, 20_000.0)
KEPT_AWAY = Limit("The distance of a joint", 0.0, 500.0)
COORDINATE = Limit("The coordinate", -LARGEST_LENGTH, LARGEST_LENGTH)

SMALLEST_SURFACE = 100.0
"""A surface or cutout of less area (mm2) is a slip: no piece of it could be held."""

FLATTEST_ARC = 0.01
"""An arc that rises less than this (mm) over its chord is a straight edge drawn by mistake."""

NEAREST_READINGS = 1.0
"""Two readings of a survey nearer than this (mm) are one reading taken twice."""

LARGEST_FILE = 16 * 1024 * 1024
"""A job file of more bytes is not read: a room takes a few thousand."""

DEEPEST_NESTING = 32
"""Lists and groups in a job file stand no deeper inside each other."""
