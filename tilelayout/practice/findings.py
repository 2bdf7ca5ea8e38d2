"""All findings about a job: every subject's rules, asked about every tile as it is laid."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Protocol, cast

from tilelayout.base.dropin import modules_in
from tilelayout.job.values import Job, Layout
from tilelayout.practice import subjects
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Finding, Level


class Subject(Protocol):
    """What every file of `subjects` offers."""

    def findings(self, case: Case) -> Iterator[Finding]:
        """Yield what the rules of this subject find."""
        ...


def findings(job: Job, layout_ids: Iterable[str] | None = None) -> tuple[Finding, ...]:
    """Return what the rules find, the most serious first and each thing once.

    Judged are the layouts with these ids; without any, those that are to be laid, the first of each surface.
    """
    asked = to_be_laid(job) if layout_ids is None else tuple(job.layout(id) for id in layout_ids)
    found = dict.fromkeys(
        finding
        for layout in asked
        for case in cases_of(job, layout)
        for subject in _subjects().values()
        for finding in subject.findings(case)
    )
    return tuple(sorted(found, key=_place))


def _place(finding: Finding) -> tuple[int, bool]:
    """Cautions come last among what is as serious."""
    return tuple(Level).index(finding.level), finding.code.startswith("caution")


def to_be_laid(job: Job) -> tuple[Layout, ...]:
    """Return the layouts that are to be laid: the first of each surface."""
    first: dict[str, Layout] = {}
    for layout in job.layouts:
        first.setdefault(layout.surface, layout)
    return tuple(first.values())


def cases_of(job: Job, layout: Layout) -> Iterator[Case]:
    """Yield a case for each tile of a layout."""
    for id in dict.fromkeys((layout.tile, *layout.more_tiles.values())):
        yield Case(job, job.surface(layout.surface), job.tile(id), layout)


def subject_names() -> tuple[str, ...]:
    """Return the names of the subjects, in alphabetical order."""
    return tuple(_subjects())


@cache
def _subjects() -> dict[str, Subject]:
    return {name: cast(Subject, module) for name, module in modules_in(subjects).items()}
