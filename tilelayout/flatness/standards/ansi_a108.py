"""ANSI A108.01 and A108.02, flatness of what tile is set on in a thin bed (United States).

The limits depend on the longest edge of the tile: 15 in or longer, the tighter pair; all shorter, the wider.
The standard prints inches and rounded metric figures beside them, which are not the same: 1.5875 mm
and 2 mm over 24 in, 3.175 mm and 3 mm over 10 ft. The inch figures decide here; the metric ones are for
comparison, so that it is seen where the two part.
"""

from __future__ import annotations

from tilelayout.flatness.standards import FlatnessLimit, Grade, Source
from tilelayout.job.values import SurfaceKind

NAME = "ANSI A108.02"
PROFILES = frozenset({"us"})
TRAPS = (
    "Here a tile is large from 15 in on, 15 in included; the rules for offsets and joints begin above 15 in.",
    "The limit is a gap under a straightedge on the high points; a uniform slope is no fault.",
    "Thin-bed mortar must not be used to make a surface flat: patch or level first.",
)

LARGE_EDGE = 15 * 25.4
"""A tile with an edge this long or longer is large."""

_LARGE = Source(
    "ANSI A108.01/A108.02, an edge of 15 in or longer: 1/8 in in 10 ft and 1/16 in in 24 in",
    "quoted by the Ceramic Tile Education Foundation in a floor covering trade magazine",
    Grade.QUOTED,
)
_SMALL = Source(
    "ANSI A108.02, all edges under 15 in: 1/4 in in 10 ft and 1/16 in in 12 in",
    "quoted from the Tile Council handbook of 2011 and in a contractors' journal of 2018",
    Grade.QUOTED,
)
_INCH, _METRIC = "in inches", "in rounded mm"


def limits(kind: SurfaceKind, longest_edge: float) -> tuple[FlatnessLimit, ...]:
    """Return the limits for tiles whose longest edge is so many mm; floors and walls alike."""
    if longest_edge >= LARGE_EDGE - 1e-6:
        return (
            FlatnessLimit(3048.0, 3.175, _LARGE, _INCH),
            FlatnessLimit(609.6, 1.5875, _LARGE, _INCH),
            FlatnessLimit(3000.0, 3.0, _LARGE, _METRIC, advises=True),
            FlatnessLimit(610.0, 2.0, _LARGE, _METRIC, advises=True),
        )
    return (
        FlatnessLimit(3048.0, 6.35, _SMALL, _INCH),
        FlatnessLimit(304.8, 1.5875, _SMALL, _INCH),
        FlatnessLimit(3000.0, 6.0, _SMALL, _METRIC, advises=True),
        FlatnessLimit(300.0, 1.6, _SMALL, _METRIC, advises=True),
    )
