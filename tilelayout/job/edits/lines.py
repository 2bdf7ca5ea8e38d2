"""Edits of the reference lines of a layout. Lines are known by their place in the list."""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.job.edits.parts import allowed, changed, left_out, put, with_id
from tilelayout.job.line_checks import line_problems
from tilelayout.job.values import Job, ReferenceLine

Lines = tuple[ReferenceLine, ...]


def add_line(job: Job, layout_id: str, line: ReferenceLine) -> Job:
    """Return the job with one more reference line, the last, of a layout. EditError if it cannot be."""
    return _with_lines(job, layout_id, (*_lines(job, layout_id), _allowed(job, layout_id, line)))


def replace_line(job: Job, layout_id: str, index: int, line: ReferenceLine) -> Job:
    """Return the job with another reference line in the place of line `index`. EditError if it cannot be."""
    lines = put(_lines(job, layout_id), index, _allowed(job, layout_id, line), "reference line")
    return _with_lines(job, layout_id, lines)


def remove_line(job: Job, layout_id: str, index: int) -> Job:
    """Return the job without reference line `index` of a layout."""
    return _with_lines(job, layout_id, left_out(_lines(job, layout_id), index, "reference line"))


def _lines(job: Job, layout_id: str) -> Lines:
    return with_id(job.layouts, layout_id, "layout").lines


def _allowed(job: Job, layout_id: str, line: ReferenceLine) -> ReferenceLine:
    surface = job.surface(with_id(job.layouts, layout_id, "layout").surface)
    return allowed(line, line_problems(line, surface))


def _with_lines(job: Job, layout_id: str, lines: Lines) -> Job:
    layouts = changed(job.layouts, layout_id, "layout", lambda layout: replace(layout, lines=lines))
    return replace(job, layouts=layouts)
