"""`tilelayout lay`: lays the layouts of a job and tells what they take."""

from __future__ import annotations

import sys
from pathlib import Path

from tilelayout.base.errors import JobFileError, LayoutError
from tilelayout.cli.lay_json import as_json
from tilelayout.cli.lay_rules import findings_text, findings_tree
from tilelayout.cli.lay_text import as_text
from tilelayout.cli.lay_wishes import Wishes
from tilelayout.cli.plans import opened, planned
from tilelayout.cli.stopping import tell_progress
from tilelayout.cli.trouble import DONE, STRICT_CHECK_FAILED
from tilelayout.job.values import Job
from tilelayout.planning.plan import Plan
from tilelayout.practice.finding import Finding, Level
from tilelayout.practice.findings import findings


def lay(path: Path, layout_id: str | None, wishes: Wishes) -> int:
    """Print what was found and return the exit status. JobFileError if the job cannot be read or laid."""
    job, layout_ids = opened(path, layout_id)
    job = _with_stock(job, wishes.stock)
    plans = []
    for at, made in enumerate(planned(path, job, layout_ids), start=1):
        tell_progress(f"laid {made.layout.id} ({at} of {len(layout_ids)})")
        plans.append(made)
    found = findings(job, layout_ids)
    try:
        sys.stdout.write(_said(job, plans, found, wishes))
    except LayoutError as error:  # a trim that its tile cannot give
        raise JobFileError(error.what, error.mend, file=str(path), place="surfaces") from error
    sys.stdout.flush()
    return _strictly(plans, found) if wishes.strict else DONE


def _with_stock(job: Job, stock: Path | None) -> Job:
    if stock is None:
        return job
    from tilelayout.cli.stock_kept import with_stock_from  # loaded for such calls alone

    return with_stock_from(job, stock)


def _said(job: Job, plans: list[Plan], found: tuple[Finding, ...], wishes: Wishes) -> str:
    if wishes.json:
        more: dict[str, object] = {"findings": findings_tree(found)} if wishes.findings else {}
        if wishes.wants_more:
            from tilelayout.cli.lay_more import more_tree

            more |= more_tree(job, plans, wishes)
        return as_json(plans, wishes.ranges, **more)
    text = as_text(job, plans, findings_text(found, wants_all=wishes.findings), wishes.ranges)
    if wishes.wants_more:
        from tilelayout.cli.lay_more import more_text

        return "\n".join([text, *more_text(job, plans, wishes), ""])
    return text


def _strictly(plans: list[Plan], found: tuple[Finding, ...]) -> int:
    """Name the layouts that have slivers and the rules that are broken; the status says whether any is."""
    failed = [made for made in plans if made.slivers]
    for made in failed:
        count = len(made.slivers)
        print(f"strict: layout {made.layout.id} has {count} sliver{'s'[: count != 1]}", file=sys.stderr)
    broken = [each for each in found if each.level is not Level.ADVISE]
    for each in broken:
        print(f"strict: {each.level}, {each.code}: {each.sentence}", file=sys.stderr)
    return STRICT_CHECK_FAILED if failed or broken else DONE
