"""What trade standards allow a surface to be out of flat before tiling, one file each.

A file has `NAME` (for people), `PROFILES` (the practice profiles that go by it) and
`limits(kind, longest_edge)`, the limits for a floor or wall that is to take tiles whose longest edge is so
many mm. It may have `TRAPS`, sentences a person should know before relying on it.

None of the standards was read itself: each `Source` says through whom a figure is known.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Protocol, cast

from tilelayout.base.dropin import modules_in
from tilelayout.job.values import SurfaceKind


class Grade(StrEnum):
    """How a figure is known."""

    QUOTED = "quoted by a trade body or maker"
    SUMMARY = "from a summary"
    MEMORY = "from memory, unchecked"


@dataclass(frozen=True)
class Source:
    """A standard's clause, through whom it is known, and how well."""

    clause: str
    through: str
    grade: Grade

    @property
    def words(self) -> str:
        """The source in one line."""
        return f"{self.clause} ({self.through}; {self.grade})"


@dataclass(frozen=True)
class FlatnessLimit:
    """Over `over` mm the surface may be `limit` mm out; `form` says which print of the figure it is.

    `advises` claims that it is shown for comparison only and decides nothing.
    """

    over: float
    limit: float
    source: Source
    form: str = ""
    advises: bool = False


class Standard(Protocol):
    """What every file of this folder offers."""

    NAME: str
    PROFILES: frozenset[str]

    def limits(self, kind: SurfaceKind, longest_edge: float) -> Sequence[FlatnessLimit]:
        """Return the limits for such a surface; none if the standard says nothing about it."""
        ...


USUAL_PROFILE = "us"


@cache
def standards() -> dict[str, Standard]:
    """Return every standard by the name of its file, in alphabetical order.

    >>> list(standards())
    ['ansi_a108', 'australian', 'british', 'din_18202']
    """
    found = modules_in(sys.modules[__name__])
    return {name: cast(Standard, module) for name, module in found.items()}


def profiles() -> frozenset[str]:
    """Return the practice profiles that some standard belongs to."""
    return frozenset().union(*(standard.PROFILES for standard in standards().values()))


def standards_for(practice: str) -> tuple[Standard, ...]:
    """Return the standards that a practice profile goes by; those of the usual one if none is known.

    >>> [standard.NAME for standard in standards_for("de")]
    ['DIN 18202, table 3']
    """
    wanted = practice if practice in profiles() else USUAL_PROFILE
    return tuple(standard for standard in standards().values() if wanted in standard.PROFILES)


def traps_of(standard: Standard) -> tuple[str, ...]:
    """Return what a person should know before relying on the standard."""
    return tuple(getattr(standard, "TRAPS", ()))
