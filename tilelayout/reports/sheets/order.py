"""The sheets of one layout, in the order of the work: set out, tile plan, cut list.

Layouts that are to be laid share one cut list, since they share tiles; it stands after the last of them.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from tilelayout.job.values import Job
from tilelayout.planning.job_plan import layouts_to_lay
from tilelayout.planning.plan import plan
from tilelayout.planning.saw_list import saw_list_of
from tilelayout.planning.to_saw import to_saw
from tilelayout.reports.sheets.cut_sheet import cut_pages
from tilelayout.reports.sheets.heights_sheet import heights_pages
from tilelayout.reports.sheets.number_sheet import number_pages
from tilelayout.reports.sheets.page import Frame, Page
from tilelayout.reports.sheets.set_out_sheet import set_out_pages


def pages_of(job: Job, layout_id: str, frame: Frame, *, with_cuts: bool = True) -> tuple[Page, ...]:
    """Return the pages of a layout on paper whose upright frame is `frame`. LayoutError if there is none."""
    made = plan(job, layout_id)
    set_out = (*set_out_pages(made, frame), *heights_pages(job, layout_id, frame))
    pages = (*set_out, *number_pages(made, frame))
    if not with_cuts:
        return pages
    return (*pages, *cut_pages(saw_list_of(to_saw(job, layout_id)), frame, frozenset(job.cuts_made)))


def before_cut_lists(job: Job, layout_ids: Sequence[str]) -> Collection[str]:
    """Return those of some layouts after which a cut list stands.

    They are the last of those to be laid, and each that is not to be laid.
    """
    laid = {each.id for each in layouts_to_lay(job)}
    to_lay = [id for id in layout_ids if id in laid]
    return {id for id in layout_ids if id not in to_lay[:-1]}
