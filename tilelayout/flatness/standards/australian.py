"""Australian figures: concrete that is to take tile, by a summary of AS 3958.

Plus or minus 3 mm under a 2 m straightedge, on concrete at least 28 days old; read here as 3 mm below or
above a straightedge on the high points. Neither the standard nor its tables were seen, only a summary.
"""

from __future__ import annotations

from tilelayout.flatness.standards import FlatnessLimit, Grade, Source
from tilelayout.job.values import SurfaceKind

NAME = "AS 3958"
PROFILES = frozenset({"au"})
TRAPS = (
    "Known from a summary only: check it against the standard before relying on it.",
    "The finished tiling has a figure of its own, 4 mm in 2 m.",
)

_SOURCE = Source(
    "AS 3958, 3 mm under 2 m, concrete at least 28 days old", "a tool trader's summary", Grade.SUMMARY
)


def limits(kind: SurfaceKind, longest_edge: float) -> tuple[FlatnessLimit, ...]:
    """Return the limit; the summary speaks of concrete and knows no difference between floors and walls."""
    return (FlatnessLimit(2000.0, 3.0, _SOURCE),)
