"""Edits of surveys: readings added, replaced, moved, removed, whole tables; what cannot be is refused."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from msgspec.structs import replace

from tests.job.cast import POTTING_SHED, job_of
from tilelayout.base.errors import EditError
from tilelayout.job.edits import surfaces, surveys
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.values import Job, StraightedgeReading, Survey, SurveyTool

SHED = job_of(POTTING_SHED)
LAID = StraightedgeReading(start=(0.0, 500.0), end=(2000.0, 500.0), along=900.0, gap=2.0)


def points(job: Job, at: int = 0) -> tuple[tuple[float, float, float], ...]:
    return job.surveys[at].points


def test_a_survey_is_added_changed_and_removed() -> None:
    added = surveys.add_survey(SHED, Survey(surface="floor", points=((0.0, 0.0, 1.0),)))
    changed = surveys.replace_survey(added, 1, name="after the pour", tool=SurveyTool.LASER, resolution=0.5)
    assert (changed.surveys[1].name, changed.surveys[1].resolution) == ("after the pour", 0.5)
    assert changed.surveys[0] is SHED.surveys[0]
    assert surveys.remove_survey(changed, 1) == SHED


def test_readings_are_added_replaced_moved_and_removed() -> None:
    job = surveys.add_reading(SHED, 0, (900.0, 0.0, 3.0))
    job = surveys.replace_reading(job, 0, 0, (0.0, 0.0, 0.7))
    job = surveys.move_reading(job, 0, 1, (310.0, 20.0))
    job = surveys.remove_reading(job, 0, 2)
    assert points(job) == ((0.0, 0.0, 0.7), (310.0, 20.0, 1.2), (900.0, 0.0, 3.0))
    assert job.surfaces is SHED.surfaces


def test_a_whole_table_takes_the_place_of_the_readings() -> None:
    table = [(0.0, 0.0, 1.0), (300.0, 0.0, 2.0)]
    assert points(surveys.set_readings(SHED, 0, table)) == tuple(table)


def test_straightedge_readings_are_saved_read_and_moved_with_their_surface() -> None:
    job = surveys.set_straightedge(SHED, 0, [LAID])
    assert job_from_bytes(job_to_bytes(job)) == job
    moved = surfaces.move_surface(job, "floor", (100.0, -50.0)).surveys[0].straightedge[0]
    assert moved == replace(LAID, start=(100.0, 450.0), end=(2100.0, 450.0))


def laid(**changes: Any) -> Job:
    return surveys.set_straightedge(SHED, 0, [replace(LAID, **changes)])


IMPOSSIBLE: list[tuple[str, Callable[[], Job], str]] = [
    (
        "unknown surface",
        lambda: surveys.add_survey(SHED, Survey(surface="attic", points=((0, 0, 0),))),
        "attic",
    ),
    ("no reading", lambda: surveys.set_readings(SHED, 0, []), "no reading"),
    ("same place", lambda: surveys.add_reading(SHED, 0, (300.0, 0.4, 9.0)), "stands where reading 1 does"),
    ("no such reading", lambda: surveys.remove_reading(SHED, 0, 7), "no reading 7"),
    ("no such survey", lambda: surveys.add_reading(SHED, 3, (0.0, 0.0, 0.0)), "no survey 3"),
    ("no height", lambda: surveys.replace_reading(SHED, 0, 0, (0.0, 0.0, float("nan"))), "reading is nan"),
    (
        "coarse beyond reason",
        lambda: surveys.replace_survey(SHED, 0, resolution=90.0),
        "resolution of the tool",
    ),
    (
        "no length",
        lambda: surveys.set_straightedge(SHED, 0, [replace(LAID, end=(0.0, 500.0))]),
        "straightedge is 0",
    ),
    (
        "past its end",
        lambda: surveys.set_straightedge(SHED, 0, [replace(LAID, along=2001.0)]),
        "2001 mm along",
    ),
    ("a gap above", lambda: laid(gap=-1.0), "negative"),
]


@pytest.mark.parametrize(("edit", "words"), [case[1:] for case in IMPOSSIBLE], ids=[c[0] for c in IMPOSSIBLE])
def test_an_impossible_edit_says_why_and_what_to_do(edit: Callable[[], Job], words: str) -> None:
    with pytest.raises(EditError, match=words) as caught:
        edit()
    assert caught.value.mend.endswith(".")
