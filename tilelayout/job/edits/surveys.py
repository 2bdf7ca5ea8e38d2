"""Edits of the surveys of a job. A survey is known by its place in the job's list."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from msgspec.structs import replace

from tilelayout.job.checks import job_problems
from tilelayout.job.edits.parts import allowed, existing, left_out, put
from tilelayout.job.frozen import frozen
from tilelayout.job.values import Job, Point, StraightedgeReading, Survey

Reading = tuple[float, float, float]
Readings = tuple[Reading, ...]


def add_survey(job: Job, survey: Survey) -> Job:
    """Return the job with one more survey, the last. EditError if it cannot be."""
    return _checked(replace(job, surveys=(*job.surveys, survey)))


def replace_survey(job: Job, at: int, **changes: Any) -> Job:
    """Return the job with some fields of survey `at` changed (`tool=SurveyTool.LASER`, `resolution=0.5`)."""
    changes = {key: frozen(value) for key, value in changes.items()}
    return _with_survey(job, at, lambda survey: replace(survey, **changes))


def remove_survey(job: Job, at: int) -> Job:
    """Return the job without survey `at`."""
    return replace(job, surveys=left_out(job.surveys, at, "survey"))


def set_readings(job: Job, at: int, readings: Iterable[Reading]) -> Job:
    """Return the job with a whole new table of height readings in survey `at`."""
    whole = tuple((float(x), float(y), float(height)) for x, y, height in readings)
    return _with_points(job, at, lambda _: whole)


def add_reading(job: Job, at: int, reading: Reading) -> Job:
    """Return the job with one more height reading, the last, in survey `at`."""
    return _with_points(job, at, lambda points: (*points, reading))


def replace_reading(job: Job, at: int, index: int, reading: Reading) -> Job:
    """Return the job with another reading in the place of reading `index` of survey `at`."""
    return _with_points(job, at, lambda points: put(points, index, reading, "reading"))


def move_reading(job: Job, at: int, index: int, point: Point) -> Job:
    """Return the job with reading `index` of survey `at` taken at another point; its height stays."""

    def change(points: Readings) -> Readings:
        height = points[existing(points, index, "reading")][2]
        return put(points, index, (*point, height), "reading")

    return _with_points(job, at, change)


def remove_reading(job: Job, at: int, index: int) -> Job:
    """Return the job without reading `index` of survey `at`."""
    return _with_points(job, at, lambda points: left_out(points, index, "reading"))


def set_straightedge(job: Job, at: int, laid: Iterable[StraightedgeReading]) -> Job:
    """Return the job with other gaps read under a straightedge in survey `at`."""
    return _with_survey(job, at, lambda survey: replace(survey, straightedge=tuple(laid)))


def _with_points(job: Job, at: int, change: Callable[[Readings], Readings]) -> Job:
    return _with_survey(job, at, lambda survey: replace(survey, points=change(survey.points)))


def _with_survey(job: Job, at: int, change: Callable[[Survey], Survey]) -> Job:
    old = job.surveys[existing(job.surveys, at, "survey")]
    return _checked(replace(job, surveys=put(job.surveys, at, change(old), "survey")))


def _checked(job: Job) -> Job:
    """Return the job if its surveys can be; nothing else of it is looked at again."""
    problems = (problem for problem in job_problems(job) if problem.place.startswith("surveys["))
    return allowed(job, problems)
