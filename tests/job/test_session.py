"""The session: one open job, those who watch it, and its file."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.job.cast import BAY, job_of
from tilelayout.base.errors import EditError
from tilelayout.job.edits.jobs import set_title
from tilelayout.job.edits.surfaces import move_corner
from tilelayout.job.files import job_to_bytes
from tilelayout.job.session import Session
from tilelayout.job.values import Job

A, B = Job(title="A"), Job(title="B")


def _titled(title: str, session: Session, gesture: object | None = None) -> None:
    session.apply(f"Name it {title}", lambda job: set_title(job, title), gesture)


def test_an_edit_changes_the_job_and_can_be_undone_and_redone() -> None:
    session = Session(A)
    _titled("B", session)
    assert (session.job.title, session.can_undo, session.can_redo) == ("B", True, False)
    session.undo()
    assert session.job is A
    assert (session.can_undo, session.can_redo) == (False, True)
    session.redo()
    assert session.job.title == "B"


def test_undo_and_redo_are_named() -> None:
    session = Session(A)
    assert (session.undo_label, session.redo_label) == (None, None)
    _titled("B", session)
    assert (session.undo_label, session.redo_label) == ("Name it B", None)
    session.undo()
    assert (session.undo_label, session.redo_label) == (None, "Name it B")


def test_a_failed_edit_changes_nothing_and_tells_nobody() -> None:
    session = Session(job_of(BAY))
    told: list[str] = []
    session.watch(lambda _before, _after, label: told.append(label))
    with pytest.raises(EditError, match="crosses"):
        session.apply("Move corner", lambda job: move_corner(job, "bay", 0, (5000, 1000)))
    assert (session.can_undo, session.is_modified, told) == (False, False, [])


def test_watchers_are_told_of_every_change_and_of_nothing_else() -> None:
    session = Session(A)
    told: list[tuple[Job, Job, str]] = []
    unwatch = session.watch(lambda *event: told.append(event))
    _titled("B", session)
    _titled("B", session)
    session.undo()
    session.undo()
    session.redo()
    session.replace(A, None)
    unwatch()
    unwatch()
    _titled("C", session)
    assert [(before.title, after.title, label) for before, after, label in told] == [
        ("A", "B", "Name it B"),
        ("B", "A", "Name it B"),
        ("A", "B", "Name it B"),
        ("B", "A", "Open"),
    ]


def test_a_watcher_may_stop_watching_while_it_is_told() -> None:
    session = Session(A)
    told: list[str] = []
    first = session.watch(lambda *_: first())
    session.watch(lambda _before, after, _label: told.append(after.title))
    _titled("B", session)
    _titled("C", session)
    assert told == ["B", "C"]


def test_a_drag_is_one_step_and_each_of_its_moves_is_told() -> None:
    session = Session(A)
    told: list[str] = []
    session.watch(lambda _before, after, _label: told.append(after.title))
    drag = object()
    for title in "BCD":
        _titled(title, session, drag)
    session.undo()
    assert told == ["B", "C", "D", "A"]
    assert not session.can_undo


def test_the_modified_mark_says_whether_the_bytes_differ_from_the_saved_ones(tmp_path: Path) -> None:
    session = Session(A)
    saved = job_to_bytes(session.job)
    for act in ("B", "undo", "redo", "save", "C", "B", "undo", "undo", "undo", "A", "save", "undo", "redo"):
        if act == "save":
            session.mark_saved(tmp_path / "x.tilejob")
            saved = job_to_bytes(session.job)
        elif act in ("undo", "redo"):
            getattr(session, act)()
        else:
            _titled(act, session)
        assert session.is_modified == (job_to_bytes(session.job) != saved), act
    assert session.path == tmp_path / "x.tilejob"


def test_opening_another_job_leaves_nothing_to_undo() -> None:
    session = Session(A)
    _titled("C", session)
    session.replace(B, Path("b.tilejob"))
    assert session.job is B
    assert (session.can_undo, session.can_redo, session.is_modified) == (False, False, False)
    assert session.path == Path("b.tilejob")
