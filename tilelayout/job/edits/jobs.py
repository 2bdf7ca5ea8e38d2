"""Edits of what belongs to the job as a whole."""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.base.units import LengthStyle
from tilelayout.job import limits
from tilelayout.job.edits.parts import allowed
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
