"""What only some calls of `lay` ask for: the whole job as one stock, what would fit, what is left.

It is loaded for those calls alone, since seeking and all that it takes would slow the start of every other.
"""

from __future__ import annotations

from typing import Any

from tilelayout.cli.fit_text import fit_text, fit_tree
from tilelayout.cli.lay_json import count_tree, opened_tree
from tilelayout.cli.lay_rules import buying_rows, stock_lines
from tilelayout.cli.lay_wishes import Wishes
from tilelayout.cli.stock_kept import keep_left, left_text, left_tree
from tilelayout.job.values import Job
from tilelayout.planning.job_plan import JobPlan, job_plan
from tilelayout.planning.plan import Plan
from tilelayout.planning.to_buy import buying_lines


def more_tree(job: Job, plans: list[Plan], wishes: Wishes) -> dict[str, object]:
    """Return what was asked for as further keys. LayoutError if a tile cannot give a trim."""
    more: dict[str, object] = {"job": _job_tree(job_plan(job))} if wishes.whole_job else {}
    more |= {"fit": fit_tree(job, plans)} if wishes.fit else {}
    return more | ({"left": left_tree(keep_left(job, wishes.keep_left))} if wishes.keep_left else {})


def more_text(job: Job, plans: list[Plan], wishes: Wishes) -> list[str]:
    """Return what was asked for as further lines. LayoutError if a tile cannot give a trim."""
    lines = _job_text(job_plan(job)) if wishes.whole_job else []
    lines += fit_text(job, plans) if wishes.fit else []
    if wishes.keep_left:
        lines += left_text(keep_left(job, wishes.keep_left), job, wishes.keep_left)
    return lines


def _job_tree(whole_job: JobPlan) -> dict[str, Any]:
    """Return what the whole job takes, as keys for another program; a piece names its layout."""
    return {
        "layouts": [made.layout.id for made in whole_job.plans],
        "strips": whole_job.strip_count,
        "tiles_needed": whole_job.tiles_needed,
        "tiles_needed_at_least": whole_job.tiles_needed_at_least,
        "offcuts_used": whole_job.sharing.offcuts_used,
        "by_tile": [count_tree(count) for count in whole_job.by_tile],
        "short": [{"tile": each.tile.id, "tiles": each.short} for each in whole_job.shortages],
        "cut_from": [opened_tree(tile, names_its_layout=True) for tile in whole_job.sharing.opened],
    }


def _job_text(whole_job: JobPlan) -> list[str]:
    """Return the lines of what the whole job takes and what to buy for it."""
    lines = [
        f"Whole job: {whole_job.words}",
        *stock_lines(whole_job.sharing, whole_job.shortages, whole_job.job.show_lengths),
    ]
    several = len(whole_job.by_tile) > 1
    for tile, bought in whole_job.to_buy:
        lines += [
            f"  Tiles to buy{f' of {tile.title}' if several else ''}",
            *buying_rows(buying_lines(bought)),
        ]
    return lines
