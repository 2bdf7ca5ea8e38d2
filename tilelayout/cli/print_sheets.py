"""`tilelayout print`: writes the plan and the cut list of a job as a PDF."""

from __future__ import annotations

import shlex
import sys
from pathlib import Path

from tilelayout.cli.plans import opened, planned
from tilelayout.cli.stopping import tell_progress
from tilelayout.cli.trouble import DONE


def print_sheets(path: Path, to: Path, paper: str, layout_id: str | None) -> int:
    """Write the PDF, say so, and return the exit status. JobFileError or OutputError if it cannot be made."""
    from tilelayout.reports.to_pdf import print_job  # the PDF library is loaded only where it is used

    job, layout_ids = opened(path, layout_id)
    for made in planned(path, job, layout_ids):
        tell_progress(f"laid {made.layout.id}")
    for step in print_job(job, to, paper=paper, layout_ids=layout_ids, file_name=path.name):
        tell_progress(step.words)
    print(f"Wrote {to}.")
    print(f"To see it and change it in the window: {_called_as()} open {shlex.quote(str(path))}")
    return DONE


def _called_as() -> str:
    """Return the words that call this program again, from the same place."""
    program = Path(sys.argv[0])
    return "python -m tilelayout" if program.name == "__main__.py" else shlex.quote(str(program))
