"""Walls are called by name, role, side or number, and never so that two walls could be meant."""

from __future__ import annotations

import pytest

from tests.rooms import floor_of, rectangle
from tilelayout.job.values import Edge, EdgeRole, Surface, SurfaceKind
from tilelayout.planning.wall_names import edge_name, side_of, stretch_name, wall_name

SIDES = ("bottom wall", "right wall", "top wall", "left wall")
WITH_DOOR = floor_of(
    (0, 0), (1000, 0), (1000, -80), (1800, -80), (1800, 0), (3000, 0), (3000, 2000), (0, 2000),
    edges=(Edge(at=2, role=EdgeRole.DOORWAY, name="garden door"), Edge(at=6, name="window wall")),
)  # fmt: skip
L_SHAPED = floor_of((0, 0), (3600, 0), (3600, 1500), (1700, 1500), (1700, 3100), (0, 3100))


def names(surface: Surface) -> list[str]:
    return [edge_name(surface, at) for at in range(len(surface.outline))]


def test_a_plain_room_has_a_wall_on_each_side() -> None:
    assert names(rectangle(3000, 2000)) == list(SIDES)


def test_an_outline_drawn_the_other_way_round_keeps_its_sides() -> None:
    assert names(floor_of((0, 0), (0, 2000), (3000, 2000), (3000, 0))) == [
        "left wall", "top wall", "right wall", "bottom wall",
    ]  # fmt: skip


def test_a_wall_broken_by_a_doorway_is_one_wall_and_the_recess_has_jambs() -> None:
    assert names(WITH_DOOR) == [
        "bottom wall", "garden door jamb", "garden door", "garden door jamb",
        "bottom wall", "right wall", "window wall", "left wall",
    ]  # fmt: skip


def test_of_two_walls_that_look_one_way_the_longer_has_the_name_and_the_other_its_number() -> None:
    assert names(L_SHAPED) == ["bottom wall", "edge 2", "top wall", "right wall", "edge 5", "left wall"]


def test_a_role_that_occurs_once_is_name_enough() -> None:
    room = rectangle(3000, 2000)
    one = floor_of(*room.outline, edges=(Edge(at=0, role=EdgeRole.TUB),))
    two = floor_of(*room.outline, edges=(Edge(at=0, role=EdgeRole.OPEN), Edge(at=1, role=EdgeRole.OPEN)))
    assert names(one)[0] == "tub"
    assert names(two)[:2] == ["bottom open edge", "right open edge"]


def test_the_edges_of_a_wall_face_are_its_sides() -> None:
    wall = Surface(id="w", kind=SurfaceKind.WALL, outline=rectangle(3000, 2000).outline)
    assert names(wall) == ["bottom side", "right side", "top side", "left side"]


@pytest.mark.parametrize(
    ("lean", "side"), [(0, "left"), (340, "left"), (380, ""), (-340, "left"), (-380, "")]
)
def test_a_wall_that_leans_beyond_twenty_degrees_has_no_side(lean: float, side: str) -> None:
    assert side_of(floor_of((0, 0), (3000, 0), (3000, 1000), (lean, 1000)), 3) == side


def test_an_arc_has_no_side() -> None:
    room = floor_of(*rectangle(3000, 2000).outline, edges=(Edge(at=2, through=(1500, 2300)),))
    assert names(room)[2] == "edge 3"


def test_a_cutout_keeps_its_name_even_if_it_begins_like_an_edge() -> None:
    assert wall_name(WITH_DOOR, "edge trim") == "edge trim"
    assert wall_name(WITH_DOOR, "edge 6") == "window wall"


def test_the_stretches_of_one_wall_are_told_apart() -> None:
    found = [stretch_name(WITH_DOOR, at) for at in range(len(WITH_DOOR.outline))]
    assert len(set(found)) == len(found)
    assert (found[0], found[4]) == ("bottom wall, left part", "bottom wall, right part")
    assert (found[1], found[3]) == ("garden door jamb, left part", "garden door jamb, right part")
    assert found[5:] == ["right wall", "window wall", "left wall"]


def test_more_stretches_than_have_words_are_counted() -> None:
    named = tuple(Edge(at=at, name="bay") for at in range(4))
    room = floor_of((0, 0), (900, 0), (1800, 200), (2700, 0), (3600, 0), (3600, 2000), (0, 2000), edges=named)
    assert [stretch_name(room, at) for at in range(4)] == [f"bay, {at} of 4" for at in (1, 2, 3, 4)]
