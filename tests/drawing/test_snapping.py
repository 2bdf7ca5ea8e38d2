"""Snapping: what is marked is what is used, at every zoom, with ties broken in a fixed order."""

from __future__ import annotations

import math
from dataclasses import replace
from time import perf_counter

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.drawing.play import L_ROOM, Play, room
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.events import Pointer, PointerMoved, PointerPressed
from tilelayout.drawing.features import outline_scene, surface_scene
from tilelayout.drawing.placing import AlongLine, AtSpots, Nowhere, OnRing
from tilelayout.drawing.preview import SnapKind
from tilelayout.drawing.reach import Reach, Snapped
from tilelayout.drawing.scene import Scene, SnapLine, SnapPoint
from tilelayout.drawing.snapping import snap
from tilelayout.drawing.tools.draw_surface import draw_surface
from tilelayout.job.values import Circle, Cutout, Edge, Job, Point, Surface

ANYWHERE = st.tuples(st.floats(-6000, 6000), st.floats(-6000, 6000))


def reach(px_per_mm: float = 0.2, *, suspended: bool = False, has_grid: bool = True) -> Reach:
    pointer = Pointer((0.0, 0.0), px_per_mm, snaps_suspended=suspended)
    return Reach.of(pointer, LengthStyle.MM, 12.0, has_grid=has_grid)


def snapped(point: Point, scene: Scene, **known: bool) -> Snapped:
    found = snap(point, scene, reach(**known))
    assert found is not None
    return found


def kind_at(point: Point, scene: Scene) -> tuple[SnapKind, str]:
    marker = snapped(point, scene).marker
    assert marker is not None
    return marker.kind, marker.words


SHED = Surface(
    id="shed",
    outline=((0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 2610.0)),
    edges=(Edge(at=1, through=(4500.0, 1500.0), name="bay"),),
    cutouts=(
        Cutout(name="drain", circle=Circle(centre=(1210.0, 1130.0), diameter=400.0)),
        Cutout(name="post", polygon=((2010.0, 610.0), (2410.0, 610.0), (2410.0, 1010.0), (2010.0, 1010.0))),
    ),
)


@pytest.mark.parametrize(
    ("pointer", "kind", "words"),
    [
        ((20, -15), SnapKind.END, "corner 1"),
        ((1990, 20), SnapKind.MIDDLE, "middle of wall 1"),
        ((1220, 1140), SnapKind.CENTRE, "centre of drain"),
        ((2400, 620), SnapKind.END, "a corner of post"),
        ((2215, 820), SnapKind.CENTRE, "centre of post"),
        ((3100, 2930), SnapKind.ON_LINE, "on wall 3"),
        ((1405, 1080), SnapKind.ON_LINE, "on drain"),
        ((4490, 1450), SnapKind.ON_LINE, "on bay"),
        ((2020, 1700), SnapKind.ALIGNED, "lined up with a corner of post"),
        ((1030, 380), SnapKind.GRID, "on grid 50 mm"),
    ],
)
def test_each_kind_is_found_and_named(pointer: Point, kind: SnapKind, words: str) -> None:
    assert kind_at(pointer, surface_scene(SHED)) == (kind, words)


def test_an_intersection_of_two_lined_up_corners_is_named_by_both() -> None:
    kind, words = kind_at((2020.0, 2600.0), surface_scene(SHED))
    assert kind is SnapKind.INTERSECTION
    assert words == "lined up with a corner of post and lined up with corner 4"


def test_the_square_to_the_last_wall_is_found_on_an_oblique_one() -> None:
    scene = outline_scene(((0.0, 0.0), (3000.0, 1000.0)))
    found = snapped((2380.0, 2890.0), scene)
    assert found.marker is not None
    assert (found.marker.kind, found.marker.words) == (SnapKind.SQUARE, "square to the last wall")
    dx, dy = found.point[0] - 3000.0, found.point[1] - 1000.0
    assert dx * 3000 + dy * 1000 == pytest.approx(0.0, abs=1e-6)
    assert math.hypot(dx, dy) == pytest.approx(2000.0)


def test_outside_the_tolerance_the_point_stays_where_it_is() -> None:
    scene = Scene((SnapPoint(SnapKind.END, (0.0, 0.0), "corner 1"),))
    point = (61.0, 0.0)
    assert snapped(point, scene, has_grid=False) == Snapped(point)
    assert snapped((59.0, 0.0), scene, has_grid=False).point == (0.0, 0.0)


def test_the_nearest_of_two_points_wins() -> None:
    points = (SnapPoint(SnapKind.END, (0.0, 0.0), "end"), SnapPoint(SnapKind.MIDDLE, (50.0, 0.0), "middle"))
    assert kind_at((20.0, 0.0), Scene(points))[0] is SnapKind.END
    assert kind_at((30.0, 0.0), Scene(points))[0] is SnapKind.MIDDLE


@pytest.mark.parametrize("first", list(SnapKind))
@pytest.mark.parametrize("second", list(SnapKind))
def test_equally_near_points_are_decided_by_the_order_of_kinds(first: SnapKind, second: SnapKind) -> None:
    spots = (SnapPoint(first, (-20.0, 0.0), "a"), SnapPoint(second, (20.0, 0.0), "b"))
    order = list(SnapKind)
    wanted = first if order.index(first) <= order.index(second) else second
    assert kind_at((0.0, 0.0), Scene(spots))[0] is wanted


def test_end_comes_before_middle_before_on_line() -> None:
    order = list(SnapKind)
    kinds = (SnapKind.END, SnapKind.MIDDLE, SnapKind.ON_LINE, SnapKind.ALIGNED, SnapKind.GRID)
    assert sorted(kinds, key=order.index) == list(kinds)


def test_a_held_key_suspends_snapping_and_its_release_restores_it() -> None:
    play = Play(draw_surface, Job())
    play.click(0, 0)
    held = play.move(1507.3, 11.9, snaps_suspended=True)
    assert held.marker is None
    assert held.measures[0].text == "1507.3 mm"
    assert play.move(1507.3, 11.9).marker is not None
    play.click(1507.3, 11.9, snaps_suspended=True)
    assert play.preview.corners[-1] == (1507.3, 11.9)


@given(st.lists(ANYWHERE, min_size=1, max_size=6), st.floats(0.01, 5.0), st.booleans())
@settings(max_examples=60, deadline=None)
def test_the_point_used_is_the_point_marked(clicks: list[Point], px: float, suspended: bool) -> None:
    play = Play(draw_surface, Job())
    for point in clicks:
        before = play.send(PointerMoved(point, px, suspended))
        after = play.send(PointerPressed(point, px, suspended))
        if len(after.corners) > len(before.corners):
            expected = before.marker.point if before.marker else point
            assert math.dist(after.corners[-1], expected) <= 1e-9


@given(ANYWHERE, st.floats(0.05, 4.0))
@example((4238.0, 4231.0), 0.05)
@settings(max_examples=60, deadline=None)
def test_a_snap_is_never_farther_off_than_the_tolerance(point: Point, px: float) -> None:
    near = reach(px)
    found = snap(point, surface_scene(SHED), near)
    assert found is not None
    assert math.dist(found.point, point) <= near.tolerance * (1 + 1e-9)


@given(st.sampled_from(range(1, 40)), ANYWHERE)
@settings(max_examples=60, deadline=None)
def test_snapping_is_the_same_at_every_zoom(zoom: int, point: Point) -> None:
    """A scene and a pointer drawn so many times larger, looked at from so many times farther away."""
    far = replace(reach(has_grid=False), tolerance=60.0)
    near = replace(far, tolerance=60.0 * zoom)
    once = snap(point, _scaled(1), far)
    larger = snap((point[0] * zoom, point[1] * zoom), _scaled(zoom), near)
    assert once is not None
    assert larger is not None
    assert (once.marker and once.marker.words) == (larger.marker and larger.marker.words)
    assert larger.point == pytest.approx((once.point[0] * zoom, once.point[1] * zoom), abs=1e-5)


def _scaled(zoom: int) -> Scene:
    outline = tuple((x * zoom, y * zoom) for x, y in L_ROOM)
    return surface_scene(Surface(id="floor", outline=outline))


def test_kinds_can_be_switched_off() -> None:
    scene = surface_scene(SHED).only(frozenset({SnapKind.MIDDLE}))
    assert snapped((20.0, -15.0), scene, has_grid=False).marker is None
    assert kind_at((1990.0, 20.0), scene)[0] is SnapKind.MIDDLE


def test_along_a_fixed_line_the_point_goes_to_what_crosses_it() -> None:
    scene = surface_scene(SHED)
    found = snap((2500.0, 2590.0), scene, reach(), AlongLine((2730.0, 0.0), (0.0, 1.0)))
    assert found is not None
    assert found.point == (2730.0, 2610.0)
    assert found.marker is not None
    assert found.marker.words == "lined up with corner 4"


def test_along_a_ray_the_point_never_goes_behind_its_start() -> None:
    found = snap((-500.0, 3.0), Scene(), reach(), AlongLine((0.0, 0.0), (1.0, 0.0), is_ray=True))
    assert found is not None
    assert found.point == (0.0, 0.0)


def test_round_a_ring_the_way_is_given_by_the_lines_through_its_centre() -> None:
    scene = outline_scene(((0.0, 0.0), (3000.0, 1000.0)))
    found = snap((2900.0, 1350.0), scene, reach(), OnRing((3000.0, 1000.0), 800.0))
    assert found is not None
    assert found.marker is not None
    assert found.marker.kind is SnapKind.SQUARE
    assert math.dist(found.point, (3000.0, 1000.0)) == pytest.approx(800.0)


@pytest.mark.parametrize(("lean", "kind"), [(7.0, SnapKind.SQUARE), (9.0, SnapKind.TYPED)])
def test_with_the_length_typed_a_rough_right_angle_is_meant(lean: float, kind: SnapKind) -> None:
    scene = outline_scene(((0.0, 0.0), (3000.0, 0.0)))
    way = math.radians(90.0 - lean)
    point = (3000.0 + 2400.0 * math.cos(way), 2400.0 * math.sin(way))
    found = snap(point, scene, reach(), OnRing((3000.0, 0.0), 2438.4))
    assert found is not None
    assert found.marker is not None
    assert found.marker.kind is kind


def test_of_two_places_left_the_one_nearer_the_pointer_is_taken() -> None:
    spots = AtSpots(((100.0, 300.0), (100.0, -300.0)))
    found = snap((5.0, -20.0), Scene(), reach(), spots)
    assert found is not None
    assert found.point == (100.0, -300.0)
    assert snap((0.0, 0.0), Scene(), reach(), Nowhere("no")) is None


def test_lines_of_one_source_make_no_intersection() -> None:
    def chord(source: str, direction: tuple[float, float]) -> SnapLine:
        return SnapLine(SnapKind.ON_LINE, (0.0, 0.0), direction, f"on {source}", -500.0, 500.0, source=source)

    bay = Scene(lines=(chord("bay", (1.0, 0.0)), chord("bay", (0.0, 1.0))))
    walls = Scene(lines=(chord("wall 1", (1.0, 0.0)), chord("wall 2", (0.0, 1.0))))
    assert kind_at((10.0, 12.0), bay)[0] is SnapKind.ON_LINE
    assert kind_at((10.0, 12.0), walls)[0] is SnapKind.INTERSECTION


@pytest.mark.benchmark
def test_snapping_to_200_corners_takes_less_than_2_ms() -> None:
    turn = [index * math.tau / 200 for index in range(200)]
    outline = tuple((2500 * math.cos(t) * (1 + 0.2 * math.sin(9 * t)), 2500 * math.sin(t)) for t in turn)
    scene = surface_scene(Surface(id="floor", outline=outline))
    pointers = [(37.0 * k - 2500.0, 2400.0 - 29.0 * k) for k in range(150)]
    snap(pointers[0], scene, reach())
    begun = perf_counter()
    for pointer in pointers:
        snap(pointer, scene, reach())
    each = (perf_counter() - begun) / len(pointers) * 1000
    begun = perf_counter()
    for pointer in pointers:
        min(outline, key=lambda corner: math.dist(corner, pointer))
    plain = (perf_counter() - begun) / len(pointers) * 1000
    print(f"snapping to all kinds {each:.3f} ms, a plain loop over the corners alone {plain:.3f} ms")
    assert each < 2.0


def test_a_room_s_scene_offers_every_corner_and_edge() -> None:
    scene = surface_scene(room(L_ROOM).surfaces[0])
    assert sum(spot.kind is SnapKind.END for spot in scene.points) == 6
    assert sum(spot.kind is SnapKind.MIDDLE for spot in scene.points) == 6
    assert sum(line.kind is SnapKind.ON_LINE for line in scene.lines) == 6
