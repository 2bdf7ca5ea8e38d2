"""Plates on a surface: laws, closed forms, and every three points of a small survey tried one by one."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from tests.flatness.floors import grid, rough, turned
from tilelayout.flatness.common_plane import beds_under, common_plane
from tilelayout.flatness.mesh import Mesh, mesh_of
from tilelayout.flatness.plate_joints import joints_between, steps_at
from tilelayout.flatness.plates import Bearings, bearings
from tilelayout.flatness.resting_plates import Rested, rested

Numbers = NDArray[np.float64]
Shapes = NDArray[np.object_]

PLACES = grid(9, 7)
MESH = mesh_of(PLACES)


def tiles(length: float = 597.0, width: float = 297.0, joint: float = 3.0) -> Shapes:
    """Whole tiles in rows on a floor of 2400 x 1800."""
    x, y = np.meshgrid(np.arange(0, 2400 - length, length + joint), np.arange(0, 1800 - width, width + joint))
    corners = zip(x.ravel(), y.ravel(), strict=True)
    return np.array([shapely.box(a, b, a + length, b + width) for a, b in corners])


def moved(shapes: Shapes, angle: float) -> Shapes:
    return np.array([shapely.Polygon(turned(shapely.get_coordinates(each)[:-1], angle)) for each in shapes])


def on_floor(mesh: Mesh, readings: Numbers, shapes: Shapes) -> tuple[Bearings, Rested]:
    on = bearings(mesh, mesh.heights(readings), shapes)
    return on, rested(on)


def steps_of(shapes: Shapes, rest: Rested, bow: float = 0.0) -> tuple[Numbers, Numbers]:
    found = steps_at(joints_between(shapes, 3.5), rest, np.full(len(shapes), bow))
    return found.floor, found.bow


def test_on_a_plane_nothing_rocks_or_steps_and_the_bed_is_even() -> None:
    shapes = tiles()
    on, rest = on_floor(MESH, 7.0 + 0.01 * PLACES[:, 0] - 0.004 * PLACES[:, 1], shapes)
    assert rest.rocks == pytest.approx(np.zeros(len(shapes)), abs=1e-6)
    assert rest.hollows == pytest.approx(np.zeros(len(shapes)), abs=1e-6)
    assert steps_of(shapes, rest)[0].max() < 1e-6
    beds = beds_under(on, common_plane(on.points, on.heights), 2.0)
    assert beds.thinnest == pytest.approx(np.full(len(shapes), 2.0), abs=1e-6)
    assert beds.thickest == pytest.approx(np.full(len(shapes), 2.0), abs=1e-6)


def test_adding_a_plane_changes_nothing() -> None:
    shapes, readings = tiles(), rough(len(PLACES), 3)
    on, rest = on_floor(MESH, readings, shapes)
    tilted, tilted_rest = on_floor(MESH, readings + 5.0 - 0.02 * PLACES[:, 0] + 0.01 * PLACES[:, 1], shapes)
    assert tilted_rest.rocks == pytest.approx(rest.rocks, abs=1e-6)
    assert tilted_rest.hollows == pytest.approx(rest.hollows, abs=1e-6)
    assert steps_of(shapes, tilted_rest)[0] == pytest.approx(steps_of(shapes, rest)[0], abs=1e-6)
    zones = [common_plane(each.points, each.heights).zone for each in (on, tilted)]
    assert zones[1] == pytest.approx(zones[0], abs=1e-6)


@pytest.mark.parametrize("angle", [0.4, 1.5707963, 2.9])
def test_turning_survey_and_tiles_changes_nothing(angle: float) -> None:
    shapes, readings = tiles(), rough(len(PLACES), 5)
    on, rest = on_floor(MESH, readings, shapes)
    turned_on, turned_rest = on_floor(mesh_of(turned(PLACES, angle)), readings, moved(shapes, angle))
    assert turned_rest.rocks == pytest.approx(rest.rocks, abs=1e-5)
    floor, turned_floor = (
        steps_of(*each)[0] for each in ((shapes, rest), (moved(shapes, angle), turned_rest))
    )
    assert np.sort(turned_floor) == pytest.approx(np.sort(floor), abs=1e-5)
    zones = [common_plane(each.points, each.heights).zone for each in (on, turned_on)]
    assert zones[1] == pytest.approx(zones[0], abs=1e-6)


def test_a_bump_under_the_middle_of_one_tile_rocks_that_tile_alone() -> None:
    """A bump of 2 mm, 40 mm wide, under the middle of the fifth tile: a side can rise by twice the bump."""
    shapes = tiles()
    x, y = shapes[4].centroid.coords[0]
    rim = np.array([(x - 20, y), (x + 20, y), (x, y - 20), (x, y + 20)])
    places = np.vstack([PLACES, rim, [(x, y)]])
    readings = np.append(np.zeros(len(places) - 1), 2.0)
    _, rest = on_floor(mesh_of(places), readings, shapes)
    assert np.flatnonzero(rest.rocks > 1e-6).tolist() == [4]
    assert rest.high_spots[4] == pytest.approx((x, y))
    assert rest.rocks[4] == pytest.approx(4.0, abs=0.02)


def test_a_square_plate_on_a_ridge_tips_by_twice_its_height() -> None:
    """Closed form: on a ridge of h under its middle one side stands 2 h up when the other is down."""
    places = grid(3, 3)
    readings = np.where(places[:, 0] == 300.0, 1.5, 0.0)
    _, rest = on_floor(mesh_of(places), readings, np.array([shapely.box(0, 0, 600, 600)]))
    assert rest.rocks[0] == pytest.approx(3.0, abs=2e-3)
    assert rest.tilts[0] == pytest.approx((0.0, 0.0), abs=1e-9), "balanced, it lies level"
    assert rest.hollows[0] == pytest.approx(1.5, abs=2e-3)


def test_a_ridge_beside_the_middle_lets_the_far_side_rise_by_the_lever() -> None:
    """Closed form: ridge of h at a third of the side: lying on the long part, the other end is 1.5 h up."""
    places = np.array([(x, y) for y in (0.0, 600.0) for x in (0.0, 200.0, 600.0)])
    readings = np.array([0.0, 1.0, 0.0, 0.0, 1.0, 0.0])
    _, rest = on_floor(mesh_of(places), readings, np.array([shapely.box(0, 0, 600, 600)]))
    assert rest.rocks[0] == pytest.approx(1.5, abs=1e-6)
    assert rest.rocks_at[0][0] == pytest.approx(0.0)


def test_a_plate_on_a_rounded_floor_rocks_by_the_chord_formula() -> None:
    """Chord: a tile of length L on a floor of radius R stands L^2 / (8 R) clear at its ends."""
    radius, length = 60_000.0, 1200.0
    places = np.array([(x, y) for y in (0.0, 300.0) for x in np.linspace(-900.0, 900.0, 180)])
    readings = -(places[:, 0] ** 2) / (2 * radius)
    plate = shapely.box(-length / 2, 0.0, length / 2, 300.0)
    _, rest = on_floor(mesh_of(places), readings, np.array([plate]))
    assert rest.rocks[0] == pytest.approx(length**2 / (8 * radius), rel=0.01)


def test_a_dish_under_a_tile_leaves_it_hollow_but_steady() -> None:
    places = grid(3, 3)
    readings = np.where(np.all(places == 300.0, axis=1), -2.0, 0.0)
    _, rest = on_floor(mesh_of(places), readings, np.array([shapely.box(0, 0, 600, 600)]))
    assert rest.rocks[0] == pytest.approx(0.0, abs=1e-9)
    assert rest.hollows[0] == pytest.approx(2.0)


def test_a_twisted_floor_rocks_a_tile_by_what_its_fourth_corner_is_off() -> None:
    """Four corners, one 2 mm low: over the diagonal, and the cell's middle is the mean of its corners."""
    places = np.array([(0.0, 0.0), (600.0, 0.0), (600.0, 600.0), (0.0, 600.0)])
    _, rest = on_floor(
        mesh_of(places), np.array([0.0, 0.0, -2.0, 0.0]), np.array([shapely.box(0, 0, 600, 600)])
    )
    assert rest.rocks[0] == pytest.approx(2.0, abs=1e-3)


def lowest_by_trying(points: Numbers, heights: Numbers) -> float:
    """The lowest height at (0, 0) of a plane through three points that no point stands over."""
    best = np.inf
    for three in combinations(range(len(points)), 3):
        level = np.column_stack([points[list(three)], np.ones(3)])
        if abs(np.linalg.det(level)) > 1e-3:
            a, b, c = np.linalg.solve(level, heights[list(three)])
            if (heights - points @ np.array([a, b]) - c).max() < 1e-7:
                best = min(best, float(c))
    return best


@pytest.mark.parametrize("seed", range(6))
def test_every_plate_rests_as_low_as_any_three_points_let_it(seed: int) -> None:
    shapes = tiles(390.0, 290.0)
    on, rest = on_floor(MESH, rough(len(PLACES), seed), shapes)
    for plate in range(0, len(shapes), 5):
        under = slice(on.starts[plate], on.starts[plate + 1])
        points, first = np.unique(
            np.round(on.points[under] - on.middles[plate], 6), axis=0, return_index=True
        )
        assert rest.heights[plate] == pytest.approx(
            lowest_by_trying(points, on.heights[under][first]), abs=2e-3
        )


@pytest.mark.parametrize("seed", range(4))
def test_plates_touch_the_surface_and_nowhere_go_through_it(seed: int) -> None:
    shapes = np.concatenate([tiles(), [shapely.box(10, 10, 700, 500) - shapely.box(10, 250, 350, 500)]])
    on, rest = on_floor(MESH, rough(len(PLACES), seed), shapes)
    gaps = rest.heights_at(on.owner, on.points) - on.heights
    least = np.minimum.reduceat(gaps, on.starts[:-1])
    assert least == pytest.approx(np.zeros(len(shapes)), abs=1e-6)
    assert np.all(rest.rocks >= -1e-9)


def test_no_plane_of_many_needs_a_thinner_bed_than_the_common_one() -> None:
    on, _ = on_floor(MESH, rough(len(PLACES), 8), tiles())
    plane = common_plane(on.points, on.heights)
    under = plane.heights(on.points) - on.heights
    assert under.min() == pytest.approx(0.0, abs=1e-6)
    assert under.max() == pytest.approx(plane.zone, abs=1e-6)
    rng = np.random.default_rng(1)
    for tilt in np.concatenate(
        [np.zeros((1, 2)), rng.normal(size=(300, 2)) * 1e-3, rng.normal(size=(300, 2)) * 1e-5]
    ):
        assert np.ptp(on.heights - on.points @ (np.array([plane.a, plane.b]) + tilt)) >= plane.zone - 1e-6


def test_tiles_beyond_the_readings_are_not_said_to_be_read() -> None:
    shapes = np.array(
        [shapely.box(0, 0, 600, 300), shapely.box(2200, 0, 2600, 300), shapely.box(3000, 0, 3600, 300)]
    )
    on, rest = on_floor(MESH, rough(len(PLACES), 1), shapes)
    assert on.read == pytest.approx((1.0, 0.5, 0.0), abs=1e-6)
    assert on.is_read.tolist() == [True, False, False]
    assert on.kept.tolist() == [0, 1] and len(rest.rocks) == 2


def test_nothing_to_lay_is_no_trouble() -> None:
    on, rest = on_floor(MESH, rough(len(PLACES), 1), np.array([shapely.box(3000, 0, 3600, 300)]))
    assert len(rest.rocks) == len(on.kept) == 0


@pytest.mark.parametrize(
    ("share", "of_bow"), [(0.5, 1.0), (1 / 3, 0.889), (0.25, 0.75), (0.2, 0.64), (0.0, 0.0)]
)
def test_a_bow_makes_the_step_of_its_parabola(share: float, of_bow: float) -> None:
    """4 f (1 - f) w: 50 %: w; 33 %: 0.889 w; 25 %: 0.75 w; 20 %: 0.64 w (worked out from the geometry)."""
    length, bow = 600.0, 1.3
    low = [shapely.box(k * 603.0, 0, k * 603.0 + length, 297) for k in range(3)]
    high = [shapely.box((k + share) * 603.0, 300, (k + share) * 603.0 + length, 597) for k in range(2)]
    shapes = np.array([*low, *high])
    _, rest = on_floor(MESH, np.zeros(len(PLACES)), shapes)
    floor, steps = steps_of(shapes, rest, bow / length**2)
    assert floor.max() < 1e-9
    assert steps.max() == pytest.approx(of_bow * bow, abs=0.02)


def test_joints_are_found_once_and_only_where_sides_face_each_other() -> None:
    shapes = tiles()
    joints = joints_between(shapes, 3.5)
    columns, rows = 4, 6
    assert len(joints.pairs) == (columns - 1) * rows + columns * (rows - 1)
    assert np.all(joints.pairs[:, 0] < joints.pairs[:, 1])
    for (one, other), ends in zip(joints.pairs.tolist(), joints.ends, strict=True):
        line = shapely.LineString(ends)
        assert line.distance(shapes[one]) == pytest.approx(1.5) == line.distance(shapes[other])
    assert not len(joints_between(shapes, 2.5).pairs)


def test_the_step_is_read_off_two_level_plates() -> None:
    """A floor that drops by 2 mm between two tiles: each lies level, and the step is 2 mm."""
    places = np.array([(x, y) for y in (0.0, 300.0) for x in (0.0, 300.0, 303.0, 603.0)])
    readings = np.where(places[:, 0] > 301.0, -2.0, 0.0)
    shapes = np.array([shapely.box(0, 0, 300, 300), shapely.box(303, 0, 603, 300)])
    _, rest = on_floor(mesh_of(places), readings, shapes)
    assert steps_of(shapes, rest)[0] == pytest.approx([2.0], abs=1e-6)
