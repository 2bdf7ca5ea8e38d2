"""The cuts that make a piece: what they are called and their sizes from the factory edges."""

from __future__ import annotations

from math import sqrt

import pytest
import shapely

from tests.rooms import floor_of, layout_of, rectangle, round_cutout, square_cutout
from tilelayout.job.values import Cutout, Edge, HexagonTile, Point, RectangleTile, Surface, Tile
from tilelayout.layout.cuts import cuts_of
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.values import Cut, CutKind

TILE = RectangleTile(id="tile", length=600, width=300)
HEXAGON = HexagonTile(id="hexagon", across_flats=200)


Named = tuple[CutKind, list[float]]


def laid_in(room: Surface, start: Point = (0, 0), tile: Tile = TILE, **keys: object) -> Laid:
    """Lay a room without a gap and with joints of 3 mm."""
    pattern = str(keys.pop("pattern", "rows"))
    return lay(room, tile, layout_of(tile, pattern, gap=0.0, least_piece=0.1, start=start, **keys))


def cuts_in(room: Surface, start: Point = (0, 0), tile: Tile = TILE, **keys: object) -> list[tuple[Cut, ...]]:
    """The cuts of every cut piece of a room."""
    laid = laid_in(room, start, tile, **keys)
    return [cuts_of(piece, laid) for piece in laid.cut]


def named(cuts: tuple[Cut, ...]) -> list[Named]:
    """Kinds and sizes, rounded far below what a saw can do."""
    return [(cut.kind, [round(size, 6) for size in cut.sizes]) for cut in cuts]


def only(
    room: Surface, start: Point = (0, 0), tile: Tile = TILE, **keys: object
) -> dict[CutKind, list[float]]:
    """The cuts of the single cut piece of a room that is no larger than a tile."""
    (cuts,) = cuts_in(room, start, tile, **keys)
    assert len({cut.kind for cut in cuts}) == len(cuts)
    return dict(named(cuts))


def at_origin(laid: Laid) -> list[Named]:
    """The cuts of the piece that lies over (0, 0)."""
    here = shapely.Point(0, 0)
    piece = next(piece for piece in laid.cut if shapely.Polygon(piece.outline).contains(here))
    return named(cuts_of(piece, laid))


def shape(*corners: Point, cutouts: tuple[Cutout, ...] = (), edges: tuple[Edge, ...] = ()) -> Surface:
    return floor_of(*corners, cutouts=cutouts, edges=edges)


def test_a_whole_tile_needs_no_cut() -> None:
    laid = lay(rectangle(700, 310), TILE, layout_of(TILE, gap=0.0))
    whole = next(piece for piece in laid.pieces() if piece.whole)
    assert cuts_of(whole, laid) == ()


def test_a_cut_along_the_length_is_a_rip_to_the_width_that_stays() -> None:
    assert only(rectangle(600, 143)) == {CutKind.RIP: [143]}
    assert only(rectangle(600, 143), start=(0, -157)) == {CutKind.RIP: [143]}


def test_a_cut_across_the_length_is_a_cross_cut() -> None:
    assert only(rectangle(251, 300)) == {CutKind.CROSS: [251]}


def test_a_piece_in_a_corner_of_the_room_has_both() -> None:
    assert only(rectangle(251, 143)) == {CutKind.RIP: [143], CutKind.CROSS: [251]}


def test_a_tile_between_two_walls_is_ripped_on_both_sides_each_measured_on_the_whole_tile() -> None:
    (cuts,) = cuts_in(rectangle(600, 120), start=(0, -80))
    assert named(cuts) == [(CutKind.RIP, [200]), (CutKind.RIP, [220])]
    assert {cut.border for cut in cuts} == {"edge 0", "edge 2"}


def test_a_wall_across_a_corner_takes_it_off_by_two_legs() -> None:
    room = shape((0, 0), (600, 0), (600, 210), (480, 300), (0, 300))
    (cuts,) = cuts_in(room)
    assert named(cuts) == [(CutKind.CORNER, [90, 120])]
    assert cuts[0].border == "edge 2"


def test_a_wall_out_of_square_leaves_two_sizes_along_the_edges_it_meets() -> None:
    assert only(shape((0, 0), (350, 0), (371, 300), (0, 300))) == {CutKind.OBLIQUE: [350, 371]}
    assert only(shape((0, 0), (600, 0), (600, 90), (0, 143))) == {CutKind.OBLIQUE: [90, 143]}


def test_a_wall_out_of_square_that_leaves_only_a_corner_is_measured_from_that_corner() -> None:
    assert only(shape((0, 0), (240, 0), (0, 200))) == {CutKind.OBLIQUE: [240, 200]}


def test_a_cut_from_corner_to_corner_keeps_the_whole_length_of_both_edges() -> None:
    assert only(shape((0, 0), (600, 0), (0, 300))) == {CutKind.OBLIQUE: [600, 300]}


def test_an_outside_corner_of_the_room_leaves_a_notch() -> None:
    room = shape((0, 0), (600, 0), (600, 180), (450, 180), (450, 300), (0, 300))
    assert only(room) == {CutKind.NOTCH: [150, 120]}


def test_a_post_at_the_edge_of_a_tile_leaves_a_slot() -> None:
    room = shape((0, 0), (600, 0), (600, 300), (0, 300), cutouts=(square_cutout(200, 220, 80),))
    assert only(room) == {CutKind.SLOT: [80, 80, 200]}


def test_a_slot_in_an_end_is_measured_from_the_lower_corner() -> None:
    post = Cutout(polygon=((500, 60), (650, 60), (650, 130), (500, 130)))
    assert only(shape((0, 0), (600, 0), (600, 300), (0, 300), cutouts=(post,))) == {
        CutKind.SLOT: [70, 100, 60]
    }


def test_a_drain_within_a_tile_is_a_hole_with_its_clearance() -> None:
    room = shape((0, 0), (600, 0), (600, 300), (0, 300), cutouts=(round_cutout(200, 140, 110, 3),))
    assert only(room) == {CutKind.HOLE: [200, 140, 116]}


def test_a_square_hole_is_given_by_its_centre_width_and_height() -> None:
    box = Cutout(polygon=((100, 100), (170, 100), (170, 200), (100, 200)), clearance=2)
    room = shape((0, 0), (600, 0), (600, 300), (0, 300), cutouts=(box,))
    assert only(room) == {CutKind.HOLE: [135, 150, 74, 104]}


def test_a_drain_over_the_corner_of_a_tile_is_a_curve_about_its_centre() -> None:
    room = shape((0, 0), (600, 0), (600, 300), (0, 300), cutouts=(round_cutout(610, 320, 160, 0),))
    assert only(room) == {CutKind.CURVE: [610, 320, 80]}


def test_a_drain_where_four_tiles_meet_gives_each_a_curve_of_its_own() -> None:
    room = shape((0, 0), (1203, 0), (1203, 603), (0, 603), cutouts=(round_cutout(601.5, 301.5, 110),))
    found = sorted(cuts[0].sizes for cuts in cuts_in(room))
    assert found == [
        pytest.approx(sizes)
        for sizes in ((-1.5, -1.5, 55), (-1.5, 301.5, 55), (601.5, -1.5, 55), (601.5, 301.5, 55))
    ]


def test_a_rip_and_a_notch_are_two_cuts_both_measured_on_the_whole_tile() -> None:
    room = shape((0, 0), (600, 0), (600, 200), (450, 200), (450, 250), (0, 250))
    assert only(room) == {CutKind.RIP: [250], CutKind.NOTCH: [150, 100]}


def test_steps_in_the_wall_are_several_notches() -> None:
    room = shape((0, 0), (600, 0), (600, 100), (500, 100), (500, 200), (400, 200), (400, 300), (0, 300))
    (cuts,) = cuts_in(room)
    assert named(cuts) == [(CutKind.NOTCH, [100, 200]), (CutKind.NOTCH, [200, 100])]


def test_a_notch_with_an_oblique_leg_is_two_cuts_that_stop_at_the_corner() -> None:
    room = shape((0, 0), (600, 0), (600, 180), (450, 180), (430, 300), (0, 300))
    (cuts,) = cuts_in(room)
    assert [(cut.kind, cut.stops) for cut in cuts] == [(CutKind.RIP, True), (CutKind.OBLIQUE, True)]
    assert cuts[0].sizes == pytest.approx((180,))
    assert cuts[1].sizes == pytest.approx((480, 430))


def test_a_cut_knows_the_wall_it_fits() -> None:
    (cuts,) = cuts_in(rectangle(251, 143))
    assert {cut.kind: cut.border for cut in cuts} == {CutKind.RIP: "edge 2", CutKind.CROSS: "edge 1"}


def test_a_turned_tile_is_cut_in_its_own_coordinates() -> None:
    tile = RectangleTile(id="tile", length=300, width=600)
    (cuts,) = cuts_in(rectangle(590, 300), start=(600, 0), tile=tile, angle=90.0)
    assert named(cuts) == [(CutKind.RIP, [590])]


def test_a_tile_laid_at_45_degrees_loses_a_corner_of_equal_legs_to_a_straight_wall() -> None:
    tile = RectangleTile(id="tile", length=300, width=300)
    half = 150 * sqrt(2)
    room = shape((-half, -half), (half, -half), (half, half - 50), (-half, half - 50))
    leg = round(50 * sqrt(2), 6)
    assert at_origin(laid_in(room, (0, -half), tile, angle=45.0)) == [(CutKind.CORNER, [leg, leg])]


def test_a_hexagon_cut_parallel_to_a_flat_is_measured_from_the_flat_opposite() -> None:
    room = shape((-100, -120), (40, -120), (40, 120), (-100, 120))
    assert at_origin(laid_in(room, tile=HEXAGON, pattern="hexagon")) == [(CutKind.CROSS, [140])]


def test_a_hexagon_loses_its_point_as_a_corner_cut() -> None:
    point = 200 / sqrt(3)
    room = shape((-100, 30 - point), (100, 30 - point), (100, point), (-100, point))
    assert at_origin(laid_in(room, tile=HEXAGON, pattern="hexagon")) == [(CutKind.CORNER, [60, 60])]


def test_a_hexagon_cut_across_its_sides_is_measured_along_them() -> None:
    room = shape((-100, -20), (100, -20), (100, 120), (-100, 120))
    from_above = 20 + 100 / sqrt(3)
    expected = [round(from_above, 6)] * 2
    assert at_origin(laid_in(room, tile=HEXAGON, pattern="hexagon")) == [(CutKind.OBLIQUE, expected)]
