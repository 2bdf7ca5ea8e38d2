"""The sheets of one layout, in the order of the work: set out, tile plan, cut list."""

from __future__ import annotations

from tilelayout.planning.plan import Plan
from tilelayout.reports.sheets.cut_sheet import cut_pages
from tilelayout.reports.sheets.number_sheet import number_pages
from tilelayout.reports.sheets.page import Frame, Page
from tilelayout.reports.sheets.set_out_sheet import set_out_pages


def pages_of(plan: Plan, frame: Frame) -> tuple[Page, ...]:
    """Return all pages of a layout on paper whose upright frame is `frame`."""
    return (*set_out_pages(plan, frame), *number_pages(plan, frame), *cut_pages(plan, frame))
