"""Edits of what has been ticked off the cut list."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tilelayout.job.cut_checks import cut_made_problems
from tilelayout.job.cuts_made import CutMade
from tilelayout.job.edits.parts import allowed
from tilelayout.job.values import Job


def tick_cuts(job: Job, cuts: Iterable[CutMade]) -> Job:
    """Return the job with these cuts as made. EditError if one cannot be."""
    made = {allowed(cut, cut_made_problems(cut)) for cut in cuts}
    return replace(job, cuts_made=tuple(sorted(made.union(job.cuts_made))))


def untick_cuts(job: Job, cuts: Iterable[CutMade]) -> Job:
    """Return the job with these cuts still to make; those that were not ticked stay so."""
    return replace(job, cuts_made=tuple(sorted(set(job.cuts_made).difference(cuts))))


def without_ticks(job: Job) -> Job:
    """Return the job with nothing ticked; the same one if nothing is."""
    return replace(job, cuts_made=()) if job.cuts_made else job
