"""Jobs of one tile on one surface for the tests of rules, in inches as the American figures are printed."""

from __future__ import annotations

from typing import Any

from tests.rooms import layout_of
from tilelayout.base.units import INCH, LengthStyle
from tilelayout.job.ground import Adhesive
from tilelayout.job.kinds import Practice
from tilelayout.job.values import Job, RectangleTile, Surface, SurfaceKind
from tilelayout.practice.finding import Finding
from tilelayout.practice.findings import findings

IN = float(INCH)
SIDES = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 2400.0), (0.0, 2400.0))


def inches(whole: float, parts: int = 0, of: int = 1) -> float:
    """Return a length such as 3/16 in (`inches(0, 3, 16)`) in mm."""
    return whole * IN + parts * IN / of


def job_of(
    length: float = 12 * IN,
    width: float = 12 * IN,
    *,
    practice: Practice = Practice.US,
    style: LengthStyle = LengthStyle.INCH,
    tile: dict[str, Any] | None = None,
    surface: dict[str, Any] | None = None,
    **layout: Any,
) -> Job:
    """Return a job of one tile on one floor (or wall: `surface={"kind": ...}`)."""
    made = RectangleTile(id="t", length=length, width=width, **(tile or {}))
    room = Surface(**{"id": "floor", "outline": SIDES, **(surface or {})})
    laid = layout_of(made, **{"joint": inches(0, 3, 16), "gap": inches(0, 1, 4), **layout})
    return Job(practice=practice, show_lengths=style, surfaces=(room,), tiles=(made,), layouts=(laid,))


def wall(**surface: Any) -> dict[str, Any]:
    """Return what makes the surface a wall."""
    return {"kind": SurfaceKind.WALL, **surface}


def stuck_with(grade: str, **more: Any) -> dict[str, Any]:
    """Return the surface's adhesive of a class."""
    return {"adhesive": Adhesive(grade=grade, **more)}


def found(job: Job) -> dict[str, Finding]:
    """Return the findings about a job by their code."""
    return {finding.code: finding for finding in findings(job)}
