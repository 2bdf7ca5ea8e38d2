"""A doorway made in a wall: where its corners come, what stays, what is refused."""

from __future__ import annotations

import pytest

from tests.job.cast import POTTING_SHED, job_of
from tests.rooms import floor_of
from tilelayout.base.errors import EditError
from tilelayout.job.edits.doorways import add_doorway
from tilelayout.job.edits.surfaces import bend_edge, set_edge
from tilelayout.job.values import Edge, EdgeRole, Job

ROOM = Job(surfaces=(floor_of((0, 0), (3000, 0), (3000, 2400), (0, 2400)),))


def test_a_doorway_parts_the_wall_and_keeps_its_line() -> None:
    made, at = add_doorway(ROOM, "floor", 1, 500.0, 800.0)
    room = made.surfaces[0]
    assert at == 2
    assert list(room.outline) == [(0, 0), (3000, 0), (3000, 500), (3000, 1300), (3000, 2400), (0, 2400)]
    assert [room.edge(each).role for each in (1, 2, 3)] == [EdgeRole.WALL, EdgeRole.DOORWAY, EdgeRole.WALL]


def test_a_doorway_in_the_corner_or_as_wide_as_the_wall_adds_no_idle_corner() -> None:
    corner, at = add_doorway(ROOM, "floor", 0, 0.0, 800.0)
    assert (at, len(corner.surfaces[0].outline)) == (0, 5)
    other, at = add_doorway(ROOM, "floor", 0, 2200.0, 800.0)
    assert (at, len(other.surfaces[0].outline)) == (1, 5)
    whole, at = add_doorway(ROOM, "floor", 3, 0.0, 2400.0)
    assert (at, whole.surfaces[0].outline) == (3, ROOM.surfaces[0].outline)
    assert whole.surfaces[0].edge(3).role is EdgeRole.DOORWAY


def test_both_parts_of_the_wall_keep_its_name_and_the_doorway_has_none() -> None:
    named = set_edge(ROOM, "floor", Edge(at=0, name="window wall"))
    room = add_doorway(named, "floor", 0, 500.0, 800.0)[0].surfaces[0]
    assert [room.edge(at).name for at in range(3)] == ["window wall", "", "window wall"]


def test_what_does_not_fit_is_refused() -> None:
    for begin, width in ((2500.0, 800.0), (-1.0, 800.0), (0.0, 0.0)):
        with pytest.raises(EditError, match="does not fit"):
            add_doorway(ROOM, "floor", 0, begin, width)
    with pytest.raises(EditError, match="straight wall"):
        add_doorway(bend_edge(ROOM, "floor", 0, (1500.0, -200.0)), "floor", 0, 500.0, 800.0)
    shed = job_of(POTTING_SHED)
    with pytest.raises(EditError, match="straight wall"):
        add_doorway(shed, shed.surfaces[0].id, 0, 500.0, 800.0)
