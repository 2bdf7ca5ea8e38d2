"""The part of a surface that takes tile: gap, doorways, corners, clearances and arcs."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rooms import L_SHAPED, PLAIN, floor_of, rectangle, rooms, round_cutout, square_cutout
from tilelayout.base.errors import LayoutError
from tilelayout.geometry.rings import signed_area
from tilelayout.job.values import Cutout, Edge, EdgeRole, Surface
from tilelayout.layout.region import region_of
from tilelayout.layout.values import Region


def offset(shape: shapely.Geometry, distance: float) -> shapely.Geometry:
    """The library's own mitred offset."""
    return shapely.buffer(shape, distance, join_style="mitre", mitre_limit=1000)


def same(region: Region, shape: shapely.Geometry, tolerance: float = 1e-3) -> bool:
    return bool(region.shape.symmetric_difference(shape).area < tolerance)


def test_a_plain_room_loses_the_gap_on_all_four_sides() -> None:
    assert same(region_of(PLAIN, 6), shapely.box(6, 6, 2994, 2394))


def test_without_a_gap_the_whole_outline_takes_tile() -> None:
    assert same(region_of(L_SHAPED, 0), shapely.Polygon(L_SHAPED.outline))


def test_where_all_edges_are_walls_the_region_is_the_mitred_inset_of_a_general_library() -> None:
    for room in (PLAIN, L_SHAPED, floor_of((0, 0), (4100, 350), (3900, 2800), (2000, 1900), (100, 2700))):
        inset = offset(shapely.Polygon(room.outline), -7)
        assert same(region_of(room, 7), inset)


@settings(max_examples=40, deadline=None)
@given(rooms(), st.sampled_from((0.0, 3.0, 6.5, 12.0)))
def test_random_rooms_agree_with_the_inset_of_a_general_library(room: Surface, gap: float) -> None:
    inset = offset(shapely.Polygon(room.outline), -gap)
    for cutout in room.cutouts:
        if cutout.polygon is not None:
            inset = shapely.difference(inset, offset(shapely.Polygon(cutout.polygon), cutout.clearance))
        elif cutout.circle is not None:
            radius = cutout.circle.diameter / 2 + cutout.clearance
            circle = shapely.Point(cutout.circle.centre).buffer(radius, quad_segs=256)
            inset = shapely.difference(inset, circle)
    assert region_of(room, gap).shape.symmetric_difference(inset).area < 20


def test_no_gap_is_left_along_a_doorway_and_the_strips_beside_it_end_square() -> None:
    room = floor_of((0, 0), (1000, 0), (1000, 800), (0, 800), edges=(Edge(at=0, role=EdgeRole.DOORWAY),))
    assert same(region_of(room, 10), shapely.box(10, 0, 990, 790))


def test_a_strip_does_not_reach_past_the_end_of_its_wall() -> None:
    # Wall, doorway, wall along one straight line: the doorway stays free to its very ends.
    room = floor_of(
        (0, 0), (400, 0), (1200, 0), (2000, 0), (2000, 900), (0, 900),
        edges=(Edge(at=1, role=EdgeRole.DOORWAY),),
    )  # fmt: skip
    expected = shapely.box(10, 10, 1990, 890).union(shapely.box(400, 0, 1200, 10))
    assert same(region_of(room, 10), expected)


@pytest.mark.parametrize("is_mirrored", [False, True])
def test_beside_an_oblique_doorway_no_wedge_is_left(is_mirrored: bool) -> None:
    # 120 degrees between wall and doorway: square to the wall's end, a wedge of 6 x 3.5 mm would stay.
    sign = -1 if is_mirrored else 1
    corners = ((0, 0), (1000 * sign, 0), (1300 * sign, 300 * 3**0.5), (1300 * sign, 900), (0, 900))
    region = region_of(floor_of(*corners, edges=(Edge(at=1, role=EdgeRole.DOORWAY),)), 6)
    x, _ = min(np.concatenate(region.rings), key=lambda corner: -corner[0] * sign + corner[1] * 10)
    assert x * sign == pytest.approx(1000 + 6 / 3**0.5)
    assert region.shape.buffer(-1).buffer(1, join_style="mitre").area == pytest.approx(region.area, rel=1e-9)


def test_the_gap_is_mitred_at_a_corner_that_stands_into_the_room() -> None:
    room = floor_of((0, 0), (900, 0), (900, 400), (500, 400), (500, 800), (0, 800))
    region = region_of(room, 10)
    assert [490.0, 390.0] in np.concatenate(region.rings).round(6).tolist()
    beside_door = floor_of(*room.outline, edges=(Edge(at=3, role=EdgeRole.OUTSIDE_CORNER),))
    square = shapely.box(0, 0, 900, 400).union(shapely.box(0, 0, 500, 800))
    strips = (
        shapely.box(0, 0, 900, 10), shapely.box(890, 0, 900, 400), shapely.box(500, 390, 900, 400),
        shapely.box(0, 790, 500, 800), shapely.box(0, 0, 10, 800),
    )  # fmt: skip
    assert same(region_of(beside_door, 10), square - shapely.union_all(strips))


@pytest.mark.parametrize("role", [r for r in EdgeRole if r is not EdgeRole.WALL])
def test_only_plain_walls_have_a_gap(role: EdgeRole) -> None:
    room = floor_of((0, 0), (1000, 0), (1000, 800), (0, 800), edges=(Edge(at=2, role=role),))
    assert same(region_of(room, 10), shapely.box(10, 10, 990, 800))


def test_a_cutout_grows_by_its_clearance_a_polygon_mitred_and_a_circle_round() -> None:
    room = floor_of(
        *PLAIN.outline, cutouts=(square_cutout(1000, 1000, 100, 5), round_cutout(600, 600, 110, 3))
    )
    region = region_of(room, 0)
    assert region.area == pytest.approx(3000 * 2400 - 110**2 - pi * 58**2, abs=1e-3)
    assert len(region.rings) == 3
    assert sorted(len(ring) for ring in region.rings)[:2] == [4, 4]


def test_a_cutout_may_reach_over_a_wall_and_over_another_cutout() -> None:
    room = floor_of(*PLAIN.outline, cutouts=(square_cutout(-50, 500, 200), square_cutout(100, 600, 200)))
    expected = (
        shapely.box(6, 6, 2994, 2394) - shapely.box(-50, 500, 150, 700) - shapely.box(100, 600, 300, 800)
    )
    region = region_of(room, 6)
    assert same(region, expected)
    assert len(region.rings) == 1


def test_a_cutout_across_the_room_leaves_two_parts() -> None:
    beam = Cutout(polygon=((1000, -9), (1100, -9), (1100, 2409), (1000, 2409)))
    region = region_of(floor_of(*PLAIN.outline, cutouts=(beam,)), 0)
    assert region.shape.geom_type == "MultiPolygon"
    assert len(region.rings) == 2
    assert region.area == pytest.approx(2900 * 2400)


def test_an_arc_is_followed_within_two_hundredths_of_a_millimetre() -> None:
    # Half a circle of radius 500 on top of a rectangle.
    room = floor_of((0, 0), (1000, 0), (1000, 600), (0, 600), edges=(Edge(at=2, through=(500, 1100)),))
    free, inset = region_of(room, 0), region_of(room, 10)
    assert free.area == pytest.approx(1000 * 600 + pi * 500**2 / 2, abs=0.02 * pi * 500)
    assert inset.area == pytest.approx(980 * 590 + pi * 490**2 / 2, abs=0.03 * pi * 500)
    assert free.shape.bounds[3] == pytest.approx(1100, abs=0.02)


def test_an_arc_may_bend_into_the_room() -> None:
    room = floor_of((0, 0), (1000, 0), (1000, 600), (0, 600), edges=(Edge(at=2, through=(500, 500)),))
    radius = (500**2 + 100**2) / 200
    segment = radius**2 * np.arcsin(500 / radius) - 500 * (radius - 100)
    assert region_of(room, 0).area == pytest.approx(1000 * 600 - segment, abs=0.02 * 1000)


def test_which_way_round_the_outline_was_drawn_does_not_matter() -> None:
    edges = (Edge(at=0, role=EdgeRole.DOORWAY), Edge(at=2, through=(500, 700)))
    one = floor_of((0, 0), (1000, 0), (1000, 600), (0, 600), edges=edges)
    other = floor_of(
        (0, 600), (1000, 600), (1000, 0), (0, 0),
        edges=(Edge(at=2, role=EdgeRole.DOORWAY), Edge(at=0, through=(500, 700))),
    )  # fmt: skip
    assert same(region_of(one, 8), region_of(other, 8).shape)


def test_rings_run_counter_clockwise_outside_and_clockwise_round_holes() -> None:
    room = floor_of(*PLAIN.outline, cutouts=(round_cutout(600, 600, 110), square_cutout(1000, 1000, 100)))
    areas = [signed_area(ring) for ring in region_of(room, 6).rings]
    assert [area > 0 for area in areas] == [True, False, False]


def test_a_corner_on_a_straight_wall_leaves_no_corner_in_the_region() -> None:
    halved = floor_of((0, 0), (500, 0), (1000, 0), (1000, 800), (0, 800))
    region = region_of(halved, 10)
    assert same(region, shapely.box(10, 10, 990, 790))
    assert len(region.rings[0]) == 5, "the border changes from edge 0 to edge 1 there"


def test_nothing_left_is_an_error_that_says_the_mend() -> None:
    with pytest.raises(LayoutError, match="gap smaller"):
        region_of(rectangle(100, 80), 40)
    covered = floor_of((0, 0), (100, 0), (100, 80), (0, 80), cutouts=(square_cutout(-10, -10, 200),))
    with pytest.raises(LayoutError, match="cutout"):
        region_of(covered, 0)


def test_an_outline_that_crosses_itself_is_an_error() -> None:
    with pytest.raises(LayoutError, match="crosses"):
        region_of(floor_of((0, 0), (100, 100), (100, 0), (0, 100)), 0)


def test_an_oblique_wall_keeps_its_gap_square_to_it() -> None:
    room = floor_of((0, 0), (1000, 0), (1000, 1000))
    inner = region_of(room, 10)
    r = (2000 - 1000 * sqrt(2)) / 2
    assert inner.area == pytest.approx(500_000 * ((r - 10) / r) ** 2)
