"""Edits of the readings of a surface's survey in front, which is the first that the job has of the surface.

A survey without a reading cannot be, so the first reading makes it and the last one takes it away.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import dist

from msgspec.structs import replace

from tilelayout.job.edits.parts import existing
from tilelayout.job.edits.surveys import (
    Reading,
    add_reading,
    add_survey,
    remove_reading,
    remove_survey,
    replace_reading,
    replace_survey,
    set_readings,
    set_straightedge,
)
from tilelayout.job.frozen import frozen
from tilelayout.job.limits import NEAREST_READINGS
from tilelayout.job.preparation import Preparation
from tilelayout.job.values import Job, Point, StraightedgeReading, Survey


def survey_at(job: Job, surface_id: str) -> int | None:
    """Return the place of the survey in front of a surface; None if it has none."""
    return next((at for at, each in enumerate(job.surveys) if each.surface == surface_id), None)


def survey_of(job: Job, surface_id: str) -> Survey | None:
    """Return the survey in front of a surface; None if it has none."""
    at = survey_at(job, surface_id)
    return None if at is None else job.surveys[at]


def reading_at(survey: Survey | None, point: Point) -> int | None:
    """Return the number of the reading taken at a point; None if none was."""
    points = survey.points if survey else ()
    return next((k for k, each in enumerate(points) if dist(each[:2], point) < NEAREST_READINGS), None)


def enter_reading(job: Job, surface_id: str, reading: Reading) -> Job:
    """Return the job with a height at a point, in place of one read there. EditError if it cannot be."""
    at = survey_at(job, surface_id)
    if at is None:
        return add_survey(job, Survey(surface=surface_id, points=(reading,)))
    known = reading_at(job.surveys[at], reading[:2])
    if known is None:
        return add_reading(job, at, reading)
    return replace_reading(job, at, known, (*job.surveys[at].points[known][:2], reading[2]))


def erase_reading(job: Job, surface_id: str, index: int) -> Job:
    """Return the job without reading `index` of the surface; without the survey if that was all of it."""
    at = _at(job, surface_id)
    survey = job.surveys[at]
    is_last = len(survey.points) == 1 and not survey.straightedge
    return remove_survey(job, at) if is_last and index == 0 else remove_reading(job, at, index)


def enter_table(job: Job, surface_id: str, readings: Iterable[Reading]) -> Job:
    """Return the job with a whole new table of heights on the surface."""
    at = survey_at(job, surface_id)
    if at is None:
        return add_survey(job, Survey(surface=surface_id, points=tuple(readings)))
    return set_readings(job, at, readings)


def enter_gap(job: Job, surface_id: str, gap: StraightedgeReading) -> Job:
    """Return the job with one more gap read under a straightedge on the surface."""
    at = survey_at(job, surface_id)
    if at is None:
        return add_survey(job, Survey(surface=surface_id, straightedge=(gap,)))
    return set_straightedge(job, at, (*job.surveys[at].straightedge, gap))


def erase_gap(job: Job, surface_id: str, index: int) -> Job:
    """Return the job without gap `index` of the surface; without the survey if that was all of it."""
    at = _at(job, surface_id)
    survey = job.surveys[at]
    existing(survey.straightedge, index, "straightedge reading")
    left = survey.straightedge[:index] + survey.straightedge[index + 1 :]
    return set_straightedge(job, at, left) if left or survey.points else remove_survey(job, at)


def set_preparation(job: Job, surface_id: str, asked: Preparation) -> Job:
    """Return the job with another way of making the surface flat."""
    return replace_survey(job, _at(job, surface_id), preparation=frozen(asked))


def bring_survey_first(job: Job, at: int) -> Job:
    """Return the job with survey `at` in front of the others of its surface."""
    moved = job.surveys[existing(job.surveys, at, "survey")]
    others = job.surveys[:at] + job.surveys[at + 1 :]
    return replace(job, surveys=(moved, *others))


def _at(job: Job, surface_id: str) -> int:
    at = survey_at(job, surface_id)
    return existing(job.surveys, len(job.surveys) if at is None else at, "survey")
