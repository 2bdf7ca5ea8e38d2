"""The ticks of the cut list: kept in the file, undone, and refused where they cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.job.cast import POTTING_SHED, job_of, with_change
from tilelayout.base.errors import EditError, JobFileError
from tilelayout.job.cuts_made import CutMade
from tilelayout.job.edits.cuts import tick_cuts, untick_cuts
from tilelayout.job.edits.layouts import remove_layout
from tilelayout.job.files import job_from_bytes, job_to_bytes, read_job, write_job
from tilelayout.job.session import Session

SHED = job_of(POTTING_SHED)
C4, D5 = (CutMade(layout="A", piece=piece, mark=mark) for piece, mark in (("C4", "0a" * 5), ("D5", "1b" * 5)))


def test_ticks_are_saved_and_read(tmp_path: Path) -> None:
    job = tick_cuts(SHED, (D5, C4))
    write_job(job, tmp_path / "shed.tilejob")
    assert read_job(tmp_path / "shed.tilejob") == job
    assert job.cuts_made == (C4, D5)
    assert b'"piece": "C4"' in job_to_bytes(job) and b"cuts_made" not in job_to_bytes(SHED)


def test_the_order_of_ticking_changes_no_byte_and_a_tick_given_twice_is_one() -> None:
    one, other = tick_cuts(tick_cuts(SHED, (D5,)), (C4,)), tick_cuts(SHED, (C4, D5, C4))
    assert job_to_bytes(one) == job_to_bytes(other)


def test_ticking_and_taking_back_touch_nothing_else() -> None:
    ticked = tick_cuts(SHED, (C4,))
    assert ticked.layouts is SHED.layouts and ticked.surfaces is SHED.surfaces
    assert untick_cuts(ticked, (C4, D5)) == SHED


def test_a_tick_is_one_step_to_undo() -> None:
    session = Session(SHED)
    session.apply("Tick C4", lambda job: tick_cuts(job, (C4,)))
    session.apply("Tick C4", lambda job: tick_cuts(job, (C4,)))
    session.undo()
    assert session.job is SHED and not session.can_undo
    session.redo()
    assert session.job.cuts_made == (C4,)


def test_a_tick_outlives_its_layout() -> None:
    """Undo or the same layout drawn anew bring it back; what to do with it is the person's to say."""
    job = remove_layout(tick_cuts(SHED, (C4,)), "A")
    assert job_from_bytes(job_to_bytes(job)).cuts_made == (C4,)


@pytest.mark.parametrize("mark", ["", "0a0a0a0a0", "0A0A0A0A0A", "xyzxyzxyzx", "0a0a0a0a0a0"])
def test_a_mark_that_cannot_be_is_refused_with_its_place(mark: str) -> None:
    tree = with_change(POTTING_SHED, "cuts_made", [{"layout": "A", "piece": "C4", "mark": mark}])
    with pytest.raises(JobFileError) as caught:
        job_of(tree)
    assert caught.value.place == "cuts_made[0].mark"
    with pytest.raises(EditError, match="ten of the figures"):
        tick_cuts(SHED, (CutMade(layout="A", piece="C4", mark=mark),))


@pytest.mark.parametrize("key", ["layout", "piece"])
def test_an_empty_name_is_refused_with_its_place(key: str) -> None:
    cut = {"layout": "A", "piece": "C4", "mark": "0a" * 5} | {key: " "}
    with pytest.raises(JobFileError) as caught:
        job_of(with_change(POTTING_SHED, "cuts_made", [cut]))
    assert caught.value.place == f"cuts_made[0].{key}"
