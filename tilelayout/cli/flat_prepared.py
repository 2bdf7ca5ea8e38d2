"""What to do about each survey, for `flat`: as the job or the call asks, in text and in the document."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from msgspec.structs import replace

from tilelayout.base.errors import JobFileError
from tilelayout.cli.meets import read_meet
from tilelayout.flatness.mesh import SurveyError
from tilelayout.job.edits.surveys import replace_survey
from tilelayout.job.frozen import frozen
from tilelayout.job.preparation import Preparation, PreparationWay
from tilelayout.job.values import Job
from tilelayout.planning.preparing import Prepared, prepared
from tilelayout.planning.surface import Flatness


@dataclass(frozen=True)
class Mend:
    """What the call asks in place of the job: a way, and heights to meet as they were typed."""

    way: str | None = None
    meets: Sequence[str] = ()


AS_THE_JOB = Mend()


def asked_for(job: Job, mend: Mend) -> Job:
    """Return the job with every survey prepared as the call asks. TileLayoutError if it cannot be."""
    for at, survey in enumerate(job.surveys):
        asked = survey.preparation or Preparation()
        if mend.meets:
            surface = job.surface(survey.surface)
            meets = tuple(read_meet(text, surface, job.show_lengths) for text in mend.meets)
            asked = replace(asked, way=PreparationWay.PLANE, meets=meets)
        if mend.way is not None:
            asked = replace(asked, way=PreparationWay(mend.way))
        if asked != (survey.preparation or Preparation()):
            job = replace_survey(job, at, preparation=frozen(asked))
    return job


def made_for(path: Path, job: Job, at: int, one: Flatness) -> Prepared | None:
    """Return survey `at` prepared as asked, judged again; None if there is no tile or only a line.

    JobFileError if it cannot be prepared so.
    """
    try:
        made = prepared(one, job.surveys[at].preparation or Preparation())
        _ = made.verdicts if made is not None else ()
    except SurveyError as error:
        place = f"surveys[{at}].preparation"
        raise JobFileError(error.what, error.mend, file=str(path), place=place) from error
    return made
