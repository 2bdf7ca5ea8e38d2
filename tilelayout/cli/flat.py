"""`tilelayout flat`: judges each survey of a job against each tile planned on its surface."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from tilelayout.base.errors import JobFileError
from tilelayout.cli.flat_json import as_json
from tilelayout.cli.flat_prepared import AS_THE_JOB, Mend, asked_for, made_for
from tilelayout.cli.flat_sits import sits_of
from tilelayout.cli.flat_text import as_text
from tilelayout.cli.stopping import tell_changes, tell_progress, tell_shares
from tilelayout.cli.trouble import DONE, STRICT_CHECK_FAILED
from tilelayout.flatness.mesh import SurveyError
from tilelayout.job.values import Job
from tilelayout.planning.open_job import open_job
from tilelayout.planning.surface import Flatness, flatness


def flat(
    path: Path, wants_json: bool, is_strict: bool, *, wants_standards: bool = False, mend: Mend = AS_THE_JOB
) -> int:
    """Print what was found and return the exit status. JobFileError if the job cannot be read or judged."""
    job = open_job(path)
    if not job.surveys:
        how = "Add one: height readings [x, y, height] on a surface."
        raise JobFileError("The job has no survey.", how, file=str(path), place="surveys")
    job = asked_for(job, mend)
    judged, made = [], []
    for at, one in enumerate(_judged(path, job, wants_standards), start=1):
        tell_progress(f"judged {one.title} ({at} of {len(job.surveys)})")
        judged.append(one)
        made.append(made_for(path, job, at - 1, one))
        tell_progress(f"prepared {one.title} ({at} of {len(job.surveys)})")
    sits = sits_of(job)
    text = (
        as_json(judged, wants_standards, sits, made)
        if wants_json
        else as_text(job, judged, wants_standards, sits, made)
    )
    sys.stdout.write(text)
    sys.stdout.flush()
    return _strictly(judged) if is_strict else DONE


def _judged(path: Path, job: Job, wants_standards: bool) -> Iterator[Flatness]:
    """Yield each survey once it is judged. JobFileError names the one that cannot be."""
    for at in range(len(job.surveys)):
        one = flatness(job, at)
        try:
            tell_shares(f"judging {one.title}", one.judging())
            tell_shares(f"comparing {one.title}", one.comparing() if wants_standards else ())
            _ = one.level_fill
            tell_changes(
                f"least fill of {one.title}: {fill.volume / 1e6:.1f} litres so far"
                for fill in one.least_fill_steps()
            )
        except SurveyError as error:
            place = f"surveys[{at}].points"
            raise JobFileError(error.what, error.mend, file=str(path), place=place) from error
        yield one


def _strictly(judged: list[Flatness]) -> int:
    """Name the verdicts that fail; the status says whether there is one."""
    failed = [(one, each) for one in judged for each in one.verdicts if each.ok is False]
    for one, each in failed:
        print(f"strict: {one.title} is not flat enough for {each.tile}", file=sys.stderr)
    return STRICT_CHECK_FAILED if failed else DONE
