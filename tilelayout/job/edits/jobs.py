"""Edits of what belongs to the job as a whole."""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.base.units import LengthStyle
from tilelayout.job import limits
from tilelayout.job.edits.parts import allowed
from tilelayout.job.ground import Breakage
from tilelayout.job.kinds import Practice
from tilelayout.job.limits import inside
from tilelayout.job.practice_checks import breakage_problems
from tilelayout.job.values import Job


def set_title(job: Job, title: str) -> Job:
    """Return the job under another title."""
    return replace(job, title=title)


def set_show_lengths(job: Job, style: LengthStyle) -> Job:
    """Return the job with its lengths shown in another style; no length changes."""
    return replace(job, show_lengths=style)


def set_kerf(job: Job, kerf: float) -> Job:
    """Return the job with another width (mm) that the saw's blade takes. EditError if it cannot be."""
    allowed(kerf, limits.KERF.problems(kerf, "saw.kerf"))
    return replace(job, saw=replace(job.saw, kerf=kerf))


def set_dressed(job: Job, dressed: bool) -> Job:
    """Return the job in which sawn edges may, or may not, stand at a joint."""
    return replace(job, saw=replace(job.saw, dressed=dressed))


def set_least_offcut(job: Job, width: float) -> Job:
    """Return the job with another width (mm) under which no offcut is used. EditError if it cannot be."""
    allowed(width, limits.LEAST_OFFCUT.problems(width, "saw.least_offcut"))
    return replace(job, saw=replace(job.saw, least_offcut=width))


def set_practice(job: Job, practice: Practice) -> Job:
    """Return the job to be judged by the rules of another country; nothing that is planned changes."""
    return replace(job, practice=practice)


def set_breakage(job: Job, breakage: Breakage | None) -> Job:
    """Return the job with its own allowances for breakage, or with the usual ones. EditError if not right."""
    allowed(breakage, inside("breakage", breakage_problems(breakage)))
    return replace(job, breakage=breakage)
