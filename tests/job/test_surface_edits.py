"""Edits of surfaces: each gives a new job or a sentence, and leaves alone what it does not touch."""

from __future__ import annotations

from collections.abc import Callable
from math import dist

import pytest
from msgspec.structs import replace

from tests.job.cast import BAY, POTTING_SHED, job_of
from tilelayout.base.errors import EditError
from tilelayout.geometry.arcs import arc_through
from tilelayout.job.checks import job_problems
from tilelayout.job.edits import surfaces as edits
from tilelayout.job.values import Circle, Cutout, Edge, EdgeRole, Job, Surface, SurfaceKind, Visibility

SHED = job_of(POTTING_SHED)
TWO = job_of(BAY)
TRIANGLE = Surface(id="triangle", outline=((0.0, 0.0), (500.0, 0.0), (0.0, 500.0)))
OCTAGON = tuple(
    (1500.0 + x, 1500.0 + y)
    for x, y in ((-1500.0, 900.0), (-1500.0, -900.0), (-900.0, -1500.0), (900.0, -1500.0),
                 (1500.0, -900.0), (1500.0, 900.0), (900.0, 1500.0), (-900.0, 1500.0))
)  # fmt: skip
BATH = Edge(at=7, role=EdgeRole.TUB)
DRAIN = Cutout(circle=Circle(centre=(500.0, 500.0), diameter=100.0))
SQUARE_POST = Cutout(polygon=((100.0, 100.0), (300.0, 100.0), (300.0, 300.0), (100.0, 300.0)))


def _bay(job: Job) -> Surface:
    return job.surface("bay")


def test_a_surface_is_added_last() -> None:
    job = edits.add_surface(SHED, TRIANGLE)
    assert job.surfaces == (*SHED.surfaces, TRIANGLE)
    assert job.surfaces[0] is SHED.surfaces[0]


def test_removing_a_surface_removes_its_layouts_and_surveys() -> None:
    job = edits.remove_surface(TWO, "bay")
    assert [surface.id for surface in job.surfaces] == ["step"]
    assert job.layouts == (TWO.layout("B"),)
    assert job.surveys == ()
    assert job.layouts[0] is TWO.layout("B")


def test_a_surface_is_renamed_and_keeps_its_id() -> None:
    job = edits.rename_surface(TWO, "step", "Riser")
    assert (job.surface("step").name, job.surface("step").title) == ("Riser", "Riser")
    assert job.surface("bay") is TWO.surface("bay")


def test_a_floor_becomes_a_wall() -> None:
    assert _bay(edits.set_kind(TWO, "bay", SurfaceKind.WALL)).kind is SurfaceKind.WALL


def test_a_new_outline_brings_its_own_edges_and_forgets_plain_ones() -> None:
    edges = (Edge(at=0), Edge(at=1, role=EdgeRole.TUB))
    job = edits.set_outline(TWO, "bay", list(TRIANGLE.outline), edges)
    assert (_bay(job).outline, _bay(job).edges) == (TRIANGLE.outline, edges[1:])


def test_a_corner_moves_and_all_else_stays_the_same_object() -> None:
    job = edits.move_corner(SHED, "floor", 2, (4000.0, 2500.0))
    floor, before = job.surface("floor"), SHED.surface("floor")
    assert floor.outline == ((0.0, 0.0), (3657.6, 0.0), (4000.0, 2500.0), (0.0, 2438.4))
    assert floor.cutouts is before.cutouts
    assert floor.edges[0] is before.edges[0]
    assert (job.tiles, job.layouts, job.surveys) == (SHED.tiles, SHED.layouts, SHED.surveys)
    assert job.tiles is SHED.tiles
    assert job.layouts is SHED.layouts


def test_an_arc_keeps_its_form_when_its_end_moves() -> None:
    """Twice the chord, turned a quarter: twice the radius."""
    job = edits.bend_edge(edits.add_surface(SHED, TRIANGLE), "triangle", 0, (250.0, -100.0))
    before = arc_through((0, 0), (250, -100), (500, 0))
    moved = edits.move_corner(job, "triangle", 1, (1000.0, 0.0)).surface("triangle").edge(0).through
    assert moved == (500.0, -200.0)
    assert arc_through((0, 0), moved, (1000, 0)).radius == pytest.approx(2 * before.radius)


def test_a_new_corner_parts_its_edge_in_two_alike_and_renumbers_those_behind() -> None:
    job = edits.set_edge(SHED, "floor", Edge(at=3, seen=Visibility.HIDDEN))
    floor = edits.insert_corner(job, "floor", 0, (1000.0, -50.0)).surface("floor")
    assert floor.outline[:3] == ((0.0, 0.0), (1000.0, -50.0), (3657.6, 0.0))
    doorway = EdgeRole.DOORWAY
    assert floor.edges == (
        Edge(at=0, role=doorway), Edge(at=1, role=doorway), Edge(at=4, seen=Visibility.HIDDEN),
    )  # fmt: skip


def test_a_new_corner_on_the_last_edge_comes_last() -> None:
    floor = edits.insert_corner(SHED, "floor", 3, (-20.0, 1000.0)).surface("floor")
    assert floor.outline == (*SHED.surface("floor").outline, (-20.0, 1000.0))


@pytest.mark.parametrize("point", [(1500.0, 2690.0), (2000.0, 3000.0), (1000.0, 2500.0)])
def test_a_new_corner_on_an_arc_lies_on_it_and_so_do_both_halves(point: tuple[float, float]) -> None:
    old = arc_through((3000, 2000), (1500, 2700), (0, 2000))
    bay = _bay(edits.insert_corner(TWO, "bay", 2, point))
    corner = bay.outline[3]
    halves = [bay.edge(2), bay.edge(3)]
    for start, edge, end in (((3000, 2000), halves[0], corner), (corner, halves[1], (0, 2000))):
        assert edge.through is not None
        part = arc_through(start, edge.through, end)
        assert dist(part.centre, old.centre) < 1e-6
        assert (edge.role, edge.seen) == (EdgeRole.OPEN, Visibility.LOOKED_AT)
    away = abs(dist(point, old.centre) - old.radius)
    assert dist(point, corner) == pytest.approx(away, abs=1e-6)
    assert bay.edge(1) is _bay(TWO).edges[0]


def test_a_corner_wished_beyond_the_ends_of_an_arc_goes_to_its_middle() -> None:
    bay = _bay(edits.insert_corner(TWO, "bay", 2, (1500.0, -5000.0)))
    assert bay.outline[3] == pytest.approx((1500, 2700))


def test_a_corner_is_deleted_and_the_edge_before_it_runs_on() -> None:
    job = edits.delete_corner(TWO, "bay", 2)
    assert _bay(job).outline == ((0.0, 0.0), (3000.0, 0.0), (0.0, 2000.0))
    assert _bay(job).edges == (Edge(at=1, name="bow"),)


def test_deleting_the_first_corner_renumbers_every_edge() -> None:
    """The last edge, a bath, stood before the corner; the doorway began at it and goes with it."""
    job = edits.set_outline(SHED, "floor", OCTAGON, (Edge(at=0, role=EdgeRole.DOORWAY), BATH))
    floor = edits.delete_corner(job, "floor", 0).surface("floor")
    assert floor.outline == OCTAGON[1:]
    assert floor.edges == (replace(BATH, at=6),)


def test_inserting_and_deleting_a_corner_gives_the_surface_back() -> None:
    for edge_at, point in enumerate([(1800.0, 5.0), (3000.0, 1200.0), (1800.0, 2900.0), (-9.0, 1200.0)]):
        longer = edits.insert_corner(SHED, "floor", edge_at, point)
        assert edits.delete_corner(longer, "floor", edge_at + 1) == SHED


def test_an_edge_is_described_replaced_and_forgotten() -> None:
    tub = Edge(at=2, role=EdgeRole.TUB, name="bath side")
    job = edits.set_edge(edits.set_edge(SHED, "floor", Edge(at=2, name="first")), "floor", tub)
    assert job.surface("floor").edges == (Edge(at=0, role=EdgeRole.DOORWAY), tub)
    assert edits.set_edge(job, "floor", Edge(at=2)) == SHED


def test_an_edge_is_bent_and_straightened() -> None:
    job = edits.bend_edge(SHED, "floor", 0, (1800.0, -300.0))
    assert job.surface("floor").edge(0) == Edge(at=0, role=EdgeRole.DOORWAY, through=(1800.0, -300.0))
    assert edits.bend_edge(job, "floor", 0, None) == SHED


def test_cutouts_are_added_replaced_moved_and_removed() -> None:
    job = edits.add_cutout(TWO, "bay", DRAIN)
    job = edits.add_cutout(job, "bay", SQUARE_POST)
    assert _bay(job).cutouts == (DRAIN, SQUARE_POST)
    moved = edits.move_cutout(edits.move_cutout(job, "bay", 0, (10.0, -20.0)), "bay", 1, (5.0, 5.0))
    assert _bay(moved).cutouts[0].circle == Circle(centre=(510.0, 480.0), diameter=100.0)
    assert (_bay(moved).cutouts[1].polygon or ())[2] == (305, 305)
    assert _bay(edits.replace_cutout(job, "bay", 0, SQUARE_POST)).cutouts == (SQUARE_POST, SQUARE_POST)
    assert _bay(edits.remove_cutout(job, "bay", 0)).cutouts == (SQUARE_POST,)


def test_a_surface_moves_with_all_that_stands_on_it() -> None:
    job = edits.move_surface(edits.add_cutout(TWO, "bay", DRAIN), "bay", (100.0, -50.0))
    assert _bay(job).outline[0] == (100.0, -50.0)
    assert _bay(job).edge(2).through == (1600.0, 2650.0)
    assert _bay(job).cutouts[0].circle == Circle(centre=(600.0, 450.0), diameter=100.0)
    assert job.layout("A").start == (100.0, -50.0)
    assert job.surveys[0].points[1] == (600.0, -50.0, 2.5)
    assert job.layout("B") is TWO.layout("B")
    assert edits.move_surface(job, "bay", (-100.0, 50.0)) == edits.add_cutout(TWO, "bay", DRAIN)


IMPOSSIBLE: list[tuple[str, Callable[[], Job], str]] = [
    ("id taken", lambda: edits.add_surface(SHED, replace(TRIANGLE, id="floor")), "“floor” is used"),
    ("no id", lambda: edits.add_surface(SHED, replace(TRIANGLE, id="")), "id is empty"),
    ("two corners", lambda: edits.add_surface(SHED, replace(TRIANGLE, outline=((0.0, 0.0),))), "1 corners"),
    ("unknown", lambda: edits.remove_surface(SHED, "attic"), "no surface “attic”"),
    ("too small", lambda: edits.set_outline(SHED, "floor", ((0, 0), (3, 0), (0, 3))), "next to nothing"),
    ("crossing", lambda: edits.move_corner(SHED, "floor", 0, (9000, 1000)), "crosses or touches itself"),
    ("same place", lambda: edits.move_corner(SHED, "floor", 0, (0, 2438.4)), "This corner stands where"),
    ("far away", lambda: edits.move_corner(SHED, "floor", 0, (-2e6, 0)), "coordinate is -2e\\+06"),
    ("nowhere", lambda: edits.move_corner(SHED, "floor", 0, (float("nan"), 0)), "coordinate is nan"),
    ("no corner", lambda: edits.move_corner(SHED, "floor", 4, (0, 0)), "no corner 4"),
    ("negative corner", lambda: edits.move_corner(SHED, "floor", -1, (0, 0)), "no corner -1"),
    ("no edge", lambda: edits.insert_corner(SHED, "floor", 4, (0, 0)), "no edge 4"),
    ("on a corner", lambda: edits.insert_corner(SHED, "floor", 0, (0, 0)), "where the one before it does"),
    ("last three", lambda: edits.delete_corner(TWO, "step", 0), "three corners at the least"),
    ("edge of nothing", lambda: edits.set_edge(SHED, "floor", Edge(at=9, name="x")), "no edge 9"),
    ("straight arc", lambda: edits.bend_edge(SHED, "floor", 0, (1000, 0)), "in line"),
    ("wild arc", lambda: edits.bend_edge(SHED, "floor", 0, (1800, 2500)), "crosses or touches itself"),
    ("lost cutout", lambda: edits.move_cutout(SHED, "floor", 0, (-9000, 0)), "outside the outline"),
    ("left behind", lambda: edits.move_corner(edits.add_cutout(TWO, "step", replace(
        SQUARE_POST, polygon=((0, 150), (9, 150), (0, 180)))), "step", 2, (0, 90)), "outside the outline"),
    ("no shape", lambda: edits.add_cutout(SHED, "floor", Cutout()), "no shape"),
    ("no cutout", lambda: edits.remove_cutout(SHED, "floor", 2), "no cutout 2"),
    ("narrow", lambda: edits.replace_cutout(SHED, "floor", 0, replace(DRAIN, clearance=-3)), "clearance"),
]  # fmt: skip


@pytest.mark.parametrize(("edit", "words"), [case[1:] for case in IMPOSSIBLE], ids=[c[0] for c in IMPOSSIBLE])
def test_an_impossible_edit_says_why_and_what_to_do(edit: Callable[[], Job], words: str) -> None:
    with pytest.raises(EditError, match=words) as caught:
        edit()
    assert caught.value.mend.endswith(".")


def test_the_rooms_of_these_tests_are_in_order() -> None:
    assert [*job_problems(SHED), *job_problems(TWO)] == []
