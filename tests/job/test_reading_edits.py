"""Edits of the readings of the survey in front of a surface."""

from __future__ import annotations

from pathlib import Path

import pytest

from tilelayout.base.errors import EditError
from tilelayout.job.edits import readings as edits
from tilelayout.job.files import write_job
from tilelayout.job.preparation import Preparation, PreparationWay
from tilelayout.job.values import Job, StraightedgeReading, Surface, Survey
from tilelayout.planning.open_job import open_job

FLOOR = Surface(id="floor", outline=((0, 0), (2000, 0), (2000, 1000), (0, 1000)))
JOB = Job(surfaces=(FLOOR,))
GAP = StraightedgeReading(start=(0, 0), end=(1000, 0), along=500, gap=2)


def test_the_first_reading_makes_the_survey_and_the_last_takes_it_away() -> None:
    one = edits.enter_reading(JOB, "floor", (10.0, 20.0, 1.5))
    assert one.surveys == (Survey(surface="floor", points=((10.0, 20.0, 1.5),)),)
    assert edits.erase_reading(one, "floor", 0).surveys == ()


def test_a_second_height_at_a_place_replaces_the_first() -> None:
    one = edits.enter_reading(JOB, "floor", (10.0, 20.0, 1.5))
    two = edits.enter_reading(one, "floor", (10.0, 20.0, 2.5))
    assert two.surveys[0].points == ((10.0, 20.0, 2.5),)


def test_gaps_are_entered_and_erased_one_by_one() -> None:
    both = edits.enter_reading(edits.enter_gap(JOB, "floor", GAP), "floor", (5.0, 5.0, 0.0))
    assert both.surveys[0].straightedge == (GAP,)
    left = edits.erase_gap(both, "floor", 0)
    assert left.surveys[0].straightedge == () and left.surveys[0].points == ((5.0, 5.0, 0.0),)
    assert edits.erase_gap(edits.enter_gap(JOB, "floor", GAP), "floor", 0).surveys == ()


def test_a_preparation_is_kept_in_the_file(tmp_path: Path) -> None:
    asked = Preparation(way=PreparationWay.GRIND_AND_FILL, bag_litres=12.5, thinnest=3.0, most_ground=2.0)
    job = edits.set_preparation(edits.enter_gap(JOB, "floor", GAP), "floor", asked)
    write_job(job, tmp_path / "a.tilejob")
    assert open_job(tmp_path / "a.tilejob").surveys[0].preparation == asked


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (Preparation(bag_litres=0.0), "What a bag makes is 0 litres"),
        (Preparation(thinnest=10.0, deepest=5.0), "no deeper than its thinnest"),
        (Preparation(most_ground=80.0), "What may be ground off is 80 mm"),
    ],
)
def test_a_preparation_that_cannot_be_says_why(asked: Preparation, said: str) -> None:
    job = edits.enter_gap(JOB, "floor", GAP)
    with pytest.raises(EditError, match=said):
        edits.set_preparation(job, "floor", asked)


def test_another_survey_of_the_surface_comes_to_the_front() -> None:
    first, second = (Survey(surface="floor", name=name, points=((0, 0, 0),)) for name in ("a", "b"))
    job = Job(surfaces=(FLOOR,), surveys=(first, second))
    moved = edits.bring_survey_first(job, 1)
    assert edits.survey_of(moved, "floor") is second


def test_what_is_not_there_cannot_be_erased() -> None:
    with pytest.raises(EditError):
        edits.erase_reading(JOB, "floor", 0)
