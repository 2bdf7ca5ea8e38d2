"""Undo is keeping the old value."""

from __future__ import annotations

from tilelayout.job.history import History
from tilelayout.job.values import Job

A, B, C, D = (Job(title=letter) for letter in "ABCD")


def test_a_step_goes_into_the_past_with_its_name() -> None:
    history = History(A).recorded("one", B).recorded("two", C)
    assert history.job is C
    assert [(step.label, step.job) for step in history.past] == [("one", A), ("two", B)]


def test_undo_and_redo_lead_to_the_very_same_jobs() -> None:
    history = History(A).recorded("one", B).recorded("two", C)
    back = history.undone().undone()
    assert back.job is A
    assert [step.label for step in back.future] == ["two", "one"]
    assert back.redone().job is B
    assert back.redone().redone() == history


def test_a_new_step_forgets_what_was_undone() -> None:
    history = History(A).recorded("one", B).undone().recorded("other", D)
    assert history.future == ()
    assert [step.label for step in history.past] == ["other"]


def test_a_step_that_changes_nothing_is_not_recorded() -> None:
    history = History(A).recorded("one", B).undone()
    assert history.recorded("nothing", Job(title="A")) is history


def test_steps_of_one_gesture_are_one_step() -> None:
    history = History(A).recorded("drag", B, "g").recorded("drag", C, "g").recorded("drag", D, "g")
    assert [(step.label, step.job) for step in history.past] == [("drag", A)]
    assert history.undone().redone().job is D


def test_another_gesture_or_none_is_another_step() -> None:
    history = History(A).recorded("drag", B, "g").recorded("drag", C, "h").recorded("plain", D)
    assert [step.job for step in history.past] == [A, B, C]
    plain = History(A).recorded("one", B).recorded("two", C)
    assert len(plain.past) == 2


def test_a_gesture_that_leads_back_is_no_step() -> None:
    history = History(A).recorded("one", B).recorded("drag", C, "g").recorded("drag", Job(title="B"), "g")
    assert history.job is B
    assert [step.label for step in history.past] == ["one"]


def test_a_gesture_that_leads_back_keeps_what_was_undone() -> None:
    undone = History(A).recorded("one", B).recorded("two", C).undone()
    back = undone.recorded("drag", D, "g").recorded("drag", A, "g").recorded("drag", B, "g")
    assert back == undone and back.redone().job is C
    assert not undone.recorded("drag", D, "g").recorded("drag", A, "g").future


def test_an_undone_gesture_is_not_continued() -> None:
    history = History(A).recorded("drag", B, "g").recorded("drag", C, "h").undone().recorded("drag", D, "g")
    assert [step.job for step in history.past] == [A, B]


def test_there_is_nothing_beyond_either_end() -> None:
    history = History(A)
    assert history.undone() is history
    assert history.redone() is history
