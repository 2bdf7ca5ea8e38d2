"""What a benchmark measured beside what was aimed at, and the table of it all."""

from __future__ import annotations

import platform
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

SLACK = 0.7
"""Shared machines disturb even ratios: a goal counts as nearly met within three tenths."""

BEGIN, END = "<!-- benchmarks: begin -->", "<!-- benchmarks: end -->"


@dataclass(frozen=True)
class Measured:
    """One figure and its goal: to be at least `goal`, or at most if `is_limit`; no goal is no verdict."""

    what: str
    figure: float
    goal: float | None = None
    is_limit: bool = False
    unit: str = "x"

    @property
    def is_near(self) -> bool:
        """Whether the goal is met, or missed by no more than a shared machine may disturb."""
        if self.goal is None:
            return True
        return self.figure <= self.goal / SLACK if self.is_limit else self.figure >= self.goal * SLACK

    @property
    def verdict(self) -> str:
        """The goal's verdict in a word or two."""
        if self.goal is None:
            return ""
        is_met = self.figure <= self.goal if self.is_limit else self.figure >= self.goal
        return "met" if is_met else "within three tenths" if self.is_near else "not met"

    @property
    def row(self) -> str:
        """One line of the table."""
        sign = "at most" if self.is_limit else "at least"
        goal = "" if self.goal is None else f"{sign} {shown(self.goal)} {self.unit}"
        return f"| {self.what} | {shown(self.figure)} {self.unit} | {goal} | {self.verdict} |"


def shown(figure: float) -> str:
    """Return a figure with about three digits."""
    if figure >= 100:
        return f"{figure:,.0f}"
    return f"{figure:.1f}" if figure >= 10 else f"{figure:.2f}"


def table(rows: Iterable[Measured], note: str) -> str:
    """Return the figures as a table with the machine and a note on how it was meanwhile."""
    machine = f"Python {platform.python_version()}, {platform.machine()}, {note}"
    head = "| measured | figure | goal | |\n| --- | --- | --- | --- |"
    return "\n".join([f"{machine}.", "", head, *(row.row for row in rows)])


def write_into(page: Path, text: str) -> None:
    """Put a text between the two marks of a page, or with the marks at its end if it has none."""
    there = page.read_text(encoding="utf-8")
    block = f"{BEGIN}\n{text}\n{END}"
    if BEGIN in there and END in there:
        before, after = there.split(BEGIN)[0], there.split(END)[1]
        page.write_text(f"{before}{block}{after}", encoding="utf-8")
    else:
        page.write_text(f"{there.rstrip()}\n\n## How fast it is\n\n{block}\n", encoding="utf-8")
