"""The border of a layout: how it stands in the file, what cannot be, and the edits that change it."""

from __future__ import annotations

import pytest

from tests.rooms import OBLIQUE_WITH_BAY, PLAIN, SQUARE, STRIP, layout_of
from tilelayout.base.errors import EditError, JobFileError
from tilelayout.job.edits.borders import change_border, give_border, take_border
from tilelayout.job.edits.layouts import replace_layout
from tilelayout.job.edits.tiles import remove_tile
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.kinds import BorderCorners
from tilelayout.job.values import BORDER_ROLE, Border, Job, Surface


def job_with(surface: Surface = PLAIN) -> Job:
    return Job(surfaces=(surface,), tiles=(SQUARE, STRIP), layouts=(layout_of(SQUARE),))


def test_a_border_is_written_and_read_again() -> None:
    job = change_border(give_border(job_with(), "A", "strip"), "A", rows=2, inset=40.0, left_out=(1,))
    written = b"".join(job_to_bytes(job).split())
    assert b'"border":{"tile":"strip","rows":2,"corners":"mitred","begin":"balanced","inset":40' in written
    assert job_from_bytes(job_to_bytes(job)) == job
    assert job.more_tiles(job.layout("A")) == {BORDER_ROLE: STRIP}


def test_lengths_of_a_border_may_be_texts() -> None:
    content = job_to_bytes(give_border(job_with(), "A", "strip"))
    text = content.replace(b'"rows": 1', b'"rows": 1, "inset": "4 in"')
    border = job_from_bytes(text).layout("A").border
    assert border is not None and border.inset == pytest.approx(101.6)


@pytest.mark.parametrize(
    ("wrong", "place"),
    [
        (b'"tile": "none"', "layouts[0].border.tile"),
        (b'"tile": "strip", "rows": 0', "layouts[0].border.rows"),
        (b'"tile": "strip", "row": 1', "layouts[0].border.row"),
        (b'"tile": "strip", "inset": -1', "layouts[0].border.inset"),
        (b'"tile": "strip", "corners": "round"', "layouts[0].border.corners"),
    ],
)
def test_what_is_wrong_with_a_border_is_said_with_its_place(wrong: bytes, place: str) -> None:
    content = job_to_bytes(replace_layout(job_with(), "A", border=Border(tile="strip")))
    whole = b'{"tile": "strip", "rows": 1, "corners": "mitred", "begin": "balanced"}'
    assert whole in content
    with pytest.raises(JobFileError) as refused:
        job_from_bytes(content.replace(whole, b"{" + wrong + b"}"))
    assert refused.value.place == place


def test_a_new_border_leaves_curved_edges_out_and_another_tile_keeps_the_rest() -> None:
    job = give_border(job_with(OBLIQUE_WITH_BAY), "A", "strip")
    assert job.layout("A").border == Border(tile="strip", left_out=(3,))
    job = give_border(change_border(job, "A", corners=BorderCorners.BUTTED), "A", "square")
    assert job.layout("A").border == Border(tile="square", corners=BorderCorners.BUTTED, left_out=(3,))
    assert take_border(job, "A") == job_with(OBLIQUE_WITH_BAY)


def test_a_tile_that_a_border_is_made_of_stays() -> None:
    with pytest.raises(EditError, match="still laid by layout A"):
        remove_tile(give_border(job_with(), "A", "strip"), "strip")


def test_a_border_must_be_there_to_be_changed_and_stay_within_limits() -> None:
    with pytest.raises(EditError, match="no border"):
        change_border(job_with(), "A", rows=2)
    with pytest.raises(EditError, match="number of rows"):
        change_border(give_border(job_with(), "A", "strip"), "A", rows=21)
