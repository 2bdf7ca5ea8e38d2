"""British figures for what tile is fixed to: a house-building warranty's standards, and BS 8204.

For walls the gap under a 2 m straightedge; for floors 3 mm under 3 m. The warranty's text prints the floor's
figure as plus or minus 3 mm; here it is read as 3 mm below or above a straightedge on the high points, the
stricter of the two readings. Its own chapter on finished tiling uses 2 m, so the two must not be mixed up.
The regularity classes of BS 8204 are from memory and decide nothing.
"""

from __future__ import annotations

from tilelayout.flatness.standards import FlatnessLimit, Grade, Source
from tilelayout.job.values import SurfaceKind

NAME = "NHBC standards and BS 8204"
PROFILES = frozenset({"uk"})
TRAPS = (
    "The floor's figure belongs to a 3 m straightedge, the wall's to a 2 m one.",
    "It is printed plus or minus 3 mm; it is read here as 3 mm from a straightedge on the high points.",
)

_FLOOR = Source("NHBC standards 9.3.5 (2022), 3 mm under 3 m", "nhbc-standards.co.uk", Grade.QUOTED)
_WALL = Source("NHBC standards 9.2.5, 3 mm under 2 m for a thin bed", "nhbc-standards.co.uk", Grade.QUOTED)
_CLASS = Source("BS 8204 as asked for by BS 5385-3, class SR1, 3 mm under 2 m", "no text seen", Grade.MEMORY)


def limits(kind: SurfaceKind, longest_edge: float) -> tuple[FlatnessLimit, ...]:
    """Return the limits for a thin bed on a floor or wall; the size of the tile does not matter."""
    if kind is SurfaceKind.WALL:
        return (FlatnessLimit(2000.0, 3.0, _WALL),)
    return (
        FlatnessLimit(3000.0, 3.0, _FLOOR),
        FlatnessLimit(2000.0, 3.0, _CLASS, "class SR1", advises=True),
    )
