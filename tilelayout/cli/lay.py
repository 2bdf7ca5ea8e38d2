"""`tilelayout lay`: lays the layouts of a job and tells what they take."""

from __future__ import annotations

import sys
from pathlib import Path

from tilelayout.cli.lay_json import as_json
from tilelayout.cli.lay_text import as_text
from tilelayout.cli.plans import opened, planned
from tilelayout.cli.trouble import DONE, STRICT_CHECK_FAILED
from tilelayout.planning.plan import Plan


def lay(
    path: Path, layout_id: str | None, wants_json: bool, is_strict: bool, *, wants_ranges: bool = False
) -> int:
    """Print what was found and return the exit status. JobFileError if the job cannot be read or laid."""
    job, layout_ids = opened(path, layout_id)
    plans = []
    for at, made in enumerate(planned(path, job, layout_ids), start=1):
        print(f"laid {made.layout.id} ({at} of {len(layout_ids)})", file=sys.stderr)
        plans.append(made)
    text = as_json(plans, wants_ranges) if wants_json else as_text(job, plans, wants_ranges)
    sys.stdout.write(text)
    sys.stdout.flush()
    return _strictly(plans) if is_strict else DONE


def _strictly(plans: list[Plan]) -> int:
    """Name the layouts that have slivers; the status says whether there is one."""
    failed = [made for made in plans if made.slivers]
    for made in failed:
        count = len(made.slivers)
        print(f"strict: layout {made.layout.id} has {count} sliver{'s'[: count != 1]}", file=sys.stderr)
    return STRICT_CHECK_FAILED if failed else DONE
