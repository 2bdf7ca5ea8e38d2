"""Laying: what counts as a piece, worked examples from the trade, and the awkward rooms of the cast."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest
import shapely
from hypothesis import given, settings

from tests.rooms import (
    HEXAGON,
    INCH,
    NARROW,
    PLAIN,
    PLANK,
    SLOTTED,
    SQUARE,
    TINY,
    layings,
    layout_of,
    rectangle,
    rooms,
    round_cutout,
    square_cutout,
    starts,
)
from tilelayout.job.values import Layout, Point, RectangleTile, Surface, Tile
from tilelayout.layout.laying import Laid, lay

FOOT = RectangleTile(id="foot", length=12 * INCH, width=12 * INCH)
HALF_FOOT = RectangleTile(id="half foot", length=6 * INCH, width=6 * INCH)
METRIC = RectangleTile(id="metric", length=597, width=597)


def laid_in_inches(
    size: tuple[float, float],
    tile: RectangleTile,
    start: tuple[float, float],
    *,
    joint: float = 0.125,
    gap: float = 0.25,
) -> Laid:
    layout = layout_of(
        tile, joint=joint * INCH, gap=gap * INCH, start=(start[0] * INCH, start[1] * INCH)
    )  # fmt: skip
    return lay(rectangle(size[0] * INCH, size[1] * INCH), tile, layout)


def sizes(laid: Laid) -> list[tuple[float, float]]:
    spans = (np.ptp(piece.outline, axis=0).tolist() for piece in laid.cut)
    return [(width, height) for width, height in spans]


def widths(laid: Laid) -> list[float]:
    return sorted({round(width, 6) for width, _ in sizes(laid)})


# One course along a wall: the depth of the room is one tile and its gaps, so only the ends are cut. The rules
# are published where a source is named; the values are computed from them, no publication.


def test_half_tile_rule_for_a_wall_of_100_inches() -> None:
    """U.S. Navy training manual 14044, ch. 7, p. 7-23, half-tile rule: 7 whole tiles, 8 in at both ends."""
    laid = laid_in_inches((100, 12), FOOT, (8, 0), joint=0, gap=0)
    assert laid.whole_count == 7
    assert widths(laid) == [round(8 * INCH, 6)]
    assert len(laid.cut) == 2


COURSES = {
    "120 in, a joint on the centre": (120.0, FOOT, 60 + 0.0625, 0.25, 8, (11.1875,)),
    "120 in, a tile on the centre": (120.0, FOOT, 60 - 6, 0.25, 9, (5.125,)),
    "120 in, from one wall": (120.0, FOOT, 0.25, 0.25, 9, (10.375,)),
    "60 in, a joint on the centre": (60.0, HALF_FOOT, 30 + 0.0625, 0.125, 8, (5.3125,)),
    "60 in, a tile on the centre": (60.0, HALF_FOOT, 30 - 3, 0.125, 9, (2.25,)),
}


@pytest.mark.parametrize(
    ("wall", "tile", "start", "gap", "whole", "ends"), COURSES.values(), ids=COURSES.keys()
)
def test_a_course_along_a_wall(
    wall: float, tile: RectangleTile, start: float, gap: float, whole: int, ends: tuple[float, ...]
) -> None:
    """Worked examples, computed, no publication: whole tiles and the widths of the end pieces."""
    depth = tile.width / INCH + 2 * gap
    laid = laid_in_inches((wall, depth), tile, (start, gap), gap=gap)
    assert laid.whole_count == whole
    assert widths(laid) == [round(end * INCH, 6) for end in ends]


METRIC_COURSES = {
    "a tile on the centre": (1500 - 298.5, 3, [593.5]),
    "a joint on the centre": (1501.5, 4, [293.5]),
    "five whole tiles and hairline gaps": (1.5 + 0.0, 5, []),
}


@pytest.mark.parametrize(("start", "whole", "ends"), METRIC_COURSES.values(), ids=METRIC_COURSES.keys())
def test_a_course_along_a_metric_wall(start: float, whole: int, ends: list[float]) -> None:
    """Worked examples, computed, no publication: 3000 mm wall, 597 mm tile, 3 mm joint, 5 mm gap."""
    gap = 5 if ends else 1.5
    laid = lay(rectangle(3000, 597 + 2 * gap), METRIC, layout_of(METRIC, gap=gap, start=(start, gap)))
    assert laid.whole_count == whole
    assert widths(laid) == ends


def test_a_room_of_10_by_12_feet_with_joints_on_both_centre_lines() -> None:
    """Worked example, computed, no publication: 80 whole, 40 cut, 16 824.05 square inches of tile."""
    laid = laid_in_inches((120, 144), FOOT, (60.0625, 72.0625))
    assert (laid.whole_count, len(laid.cut)) == (80, 40)
    covered = sum(piece.area for piece in laid.pieces()) / INCH**2
    assert covered == pytest.approx(16824.05, abs=0.01)


def test_a_room_of_100_inches_square_from_a_corner_ends_in_slivers() -> None:
    """Worked example, computed, no publication: 64 whole, 16 strips of 2.5 in and a corner of 2.5 in."""
    laid = laid_in_inches((100, 100), FOOT, (0.25, 0.25))
    assert (laid.whole_count, len(laid.cut)) == (64, 17)
    in_inches = sorted((round(min(size) / INCH, 6), round(max(size) / INCH, 6)) for size in sizes(laid))
    assert in_inches == [(2.5, 2.5)] + 16 * [(2.5, 12)]


@pytest.mark.parametrize(
    ("start", "whole", "cut"), [((1500 - 298.5, 1201.5), 6, 14), ((1501.5, 1200 - 298.5), 12, 18)]
)
def test_a_metric_room_centred_two_ways(start: Point, whole: int, cut: int) -> None:
    """Worked examples, computed, no publication: 3000 x 2400, 597 mm tile, 3 mm joint, 5 mm gap."""
    laid = lay(rectangle(3000, 2400), METRIC, layout_of(METRIC, gap=5, start=start))
    assert (laid.whole_count, len(laid.cut)) == (whole, cut)


def test_half_bond_leaves_half_a_tile() -> None:
    """Worked example, computed, no publication: half of a 12 in tile with 1/8 in joints is 5 15/16 in."""
    layout = layout_of(FOOT, joint=INCH / 8, gap=0, row_offsets=(0, 0.5))
    laid = lay(rectangle(60.5 * INCH, 24.125 * INCH), FOOT, layout)
    assert widths(laid)[0] == round(5.9375 * INCH, 6)


# What counts as a piece.


def test_a_strip_under_the_least_piece_is_left_to_the_joint() -> None:
    room = rectangle(297 + 3 + 4, 297)
    laid = lay(room, SQUARE, layout_of(SQUARE, gap=0))
    assert (laid.whole_count, len(laid.cut), laid.left_to_joint) == (1, 0, 1)
    assert laid.left_to_joint_area == pytest.approx(4 * 297)
    kept = lay(room, SQUARE, layout_of(SQUARE, gap=0, least_piece=3))
    assert (len(kept.cut), kept.left_to_joint) == (1, 0)
    assert kept.cut[0].narrowest == pytest.approx(4)


def test_a_tile_that_falls_apart_is_two_pieces() -> None:
    laid = lay(
        SLOTTED, RectangleTile(id="big", length=797, width=397), layout_of(SQUARE, gap=0, start=(841.5, 600))
    )
    row = [
        piece
        for piece in laid.cut
        if abs(piece.face[:, 0].min() - 841.5) < 1 and piece.face[:, 1].min() == 600
    ]
    assert len(row) == 2
    assert sorted(float(np.ptp(piece.outline[:, 0])) for piece in row) == pytest.approx([378.5, 378.5])
    assert int(row[1].id[1:]) == int(row[0].id[1:]) + 1


def test_a_hole_inside_a_tile_is_a_hole_of_its_piece() -> None:
    room = msgspec.structs.replace(PLAIN, cutouts=(round_cutout(450, 450, 110, 3),))
    laid = lay(room, SQUARE, layout_of(SQUARE, gap=0))
    holed = [piece for piece in laid.cut if piece.holes]
    assert len(holed) == 1
    assert holed[0].area == pytest.approx(297**2 - np.pi * 58**2, abs=1)
    assert shapely.Polygon(holed[0].holes[0]).contains(shapely.Point(450, 450))


def test_a_notch_in_the_side_of_a_tile() -> None:
    room = msgspec.structs.replace(PLAIN, cutouts=(square_cutout(400, 550, 100),))
    laid = lay(room, SQUARE, layout_of(SQUARE, gap=0))
    notched = [piece for piece in laid.cut if len(piece.outline) == 8]
    assert sorted(piece.area for piece in notched) == pytest.approx([297**2 - 50 * 100, 297**2 - 47 * 100])


def test_a_room_narrower_than_a_tile_cuts_every_tile() -> None:
    laid = lay(NARROW, SQUARE, layout_of(SQUARE, gap=0, start=(0, -20)))
    assert laid.whole_count == 0
    assert {round(float(np.ptp(piece.outline[:, 1])), 6) for piece in laid.cut} == {211}


def test_a_room_inside_one_tile_is_one_piece() -> None:
    laid = lay(TINY, SQUARE, layout_of(SQUARE, gap=0, start=(-50, -50)))
    assert (laid.whole_count, len(laid.cut)) == (0, 1)
    assert laid.cut[0].area == pytest.approx(130 * 90)


def test_a_room_of_exactly_one_tile_is_a_whole_tile() -> None:
    laid = lay(rectangle(297, 297), SQUARE, layout_of(SQUARE, gap=0))
    assert (laid.whole_count, len(laid.cut)) == (1, 0)
    assert next(laid.pieces()).narrowest == pytest.approx(297)


def test_a_room_inside_a_joint_has_no_piece() -> None:
    laid = lay(rectangle(2, 200), SQUARE, layout_of(SQUARE, gap=0, start=(2.5, 0)))
    assert (laid.whole_count, laid.cut, laid.left_to_joint) == (0, (), 0)
    assert list(laid.pieces()) == []


@pytest.mark.parametrize("angle", [0.0, 90.0, 180.0, 270.0])
def test_a_room_of_whole_tiles_has_no_cut_from_any_corner(angle: float) -> None:
    corners: dict[float, Point] = {0: (0, 0), 90: (900 - 3, 0), 180: (900 - 3, 600 - 3), 270: (0, 600 - 3)}
    laid = lay(rectangle(897, 597), SQUARE, layout_of(SQUARE, gap=0, start=corners[angle], angle=angle))
    assert (laid.whole_count, laid.cut) == (6, ())


def test_a_wall_off_by_less_than_anyone_could_see_cuts_nothing() -> None:
    laid = lay(rectangle(897 - 1e-7, 597 + 1e-7), SQUARE, layout_of(SQUARE, gap=0))
    assert (laid.whole_count, len(laid.cut), laid.left_to_joint) == (6, 0, 0)


def test_placed_faces_and_vectors_repeat_to_the_whole_faces() -> None:
    laid = lay(PLAIN, PLANK, layout_of(PLANK, "herringbone", start=(700, 500), angle=30))
    for face, whole in zip(laid.placed_faces, laid.whole_faces, strict=True):
        steps = (whole[:, 0] - face[0]) @ np.linalg.inv(laid.placed_vectors)
        np.testing.assert_allclose(steps, steps.round(), atol=1e-9)
        np.testing.assert_allclose(
            whole - whole[:, :1], np.broadcast_to(face - face[0], whole.shape), atol=1e-9
        )


def test_a_large_floor_is_counted_without_being_listed() -> None:
    hall = rectangle(300_000, 200_000)
    laid = lay(hall, HEXAGON, layout_of(HEXAGON, "hexagon"))
    expected = laid.region.area / (231.6**2 * np.sqrt(3) / 2)
    assert laid.whole_count + len(laid.cut) == pytest.approx(expected, rel=2e-3)


def test_an_outline_may_run_either_way_round(room: Surface = PLAIN) -> None:
    backwards = msgspec.structs.replace(room, outline=room.outline[::-1])
    one, other = (lay(surface, SQUARE, layout_of(SQUARE)) for surface in (room, backwards))
    assert (one.whole_count, len(one.cut)) == (other.whole_count, len(other.cut))


@settings(max_examples=30, deadline=None)
@given(rooms(), layings(), starts())
def test_a_quick_width_is_never_over_the_narrowest_place_and_judges_alike(
    room: Surface, laying: tuple[Tile, Layout], start: Point
) -> None:
    laid = lay(room, laying[0], msgspec.structs.replace(laying[1], start=start))
    for piece in laid.cut:
        assert piece.least_width <= piece.narrowest
        assert piece.is_narrower_than(piece.narrowest + 0.01)
        assert not piece.is_narrower_than(piece.narrowest)
    assert laid.narrowest_cut == min((piece.narrowest for piece in laid.cut), default=None)
