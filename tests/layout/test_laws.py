"""Laws of laying that hold in every room: areas add up, pieces keep apart, symmetries keep the counts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from math import cos, radians, sin

import msgspec
import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.layout.plain import lay_plainly
from tests.rooms import angles, floor_of, layings, rooms, starts
from tilelayout.base.tolerance import NO_AREA
from tilelayout.job.values import (
    Circle,
    Cutout,
    Layout,
    Point,
    PolygonTile,
    RectangleTile,
    Surface,
    Tile,
)
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.values import Piece

Laying = tuple[Tile, Layout]


def moved_to(layout: Layout, start: Point, angle: float | None = None) -> Layout:
    return msgspec.structs.replace(layout, start=start, angle=layout.angle if angle is None else angle)


def shape_of(piece: Piece) -> shapely.Polygon:
    return shapely.Polygon(piece.outline, piece.holes)


@settings(max_examples=60, deadline=None)
@given(rooms(), layings(), starts(), angles())
def test_pieces_and_what_is_left_and_joints_make_up_the_region(
    room: Surface, laying: Laying, start: Point, angle: float
) -> None:
    tile, layout = laying[0], moved_to(laying[1], start, angle)
    laid = lay(room, tile, layout)
    pieces = sum(piece.area for piece in laid.pieces())
    joints = laid.region.shape.difference(lay_plainly(laid.region.shape, tile, layout).faces).area
    assert pieces + laid.left_to_joint_area + joints == pytest.approx(laid.region.area, abs=1.0)


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), starts(), angles())
def test_pieces_lie_in_their_face_and_in_the_region_and_never_overlap(
    room: Surface, laying: Laying, start: Point, angle: float
) -> None:
    laid = lay(room, laying[0], moved_to(laying[1], start, angle))
    pieces = list(laid.pieces())
    shapes = [shape_of(piece) for piece in pieces]
    for piece, shape in zip(pieces, shapes, strict=True):
        assert shape.is_valid
        assert shape.exterior.is_ccw
        assert shape.area == pytest.approx(piece.area, abs=1e-3)
        assert shape.difference(shapely.Polygon(piece.face).buffer(1e-5)).area == 0
        assert shape.difference(laid.region.shape.buffer(1e-5)).area < NO_AREA
        assert piece.whole == (shape.area > shapely.Polygon(piece.face).area - 1e-3)
        assert piece.narrowest >= laid.layout.least_piece or piece.whole
    first, second = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    assert all(
        shapes[a].intersection(shapes[b]).area < 1e-3 for a, b in zip(first, second, strict=True) if a < b
    )


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), starts())
def test_a_piece_knows_its_place_in_its_tile(room: Surface, laying: Laying, start: Point) -> None:
    laid = lay(room, laying[0], moved_to(laying[1], start))
    for piece in laid.cut:
        np.testing.assert_allclose(piece.in_tile(piece.face), tile_outline(piece.tile), atol=1e-6)


def measures(laid: Laid) -> tuple[int, int, int, list[float]]:
    areas = sorted(round(piece.area, 1) for piece in laid.cut)
    return laid.whole_count, len(laid.cut), laid.left_to_joint, areas


def check_same(one: Laid, other: Laid) -> None:
    (whole, cut, left, areas), (whole_too, cut_too, left_too, areas_too) = measures(one), measures(other)
    assert (whole, cut, left) == (whole_too, cut_too, left_too)
    np.testing.assert_allclose(areas, areas_too, atol=0.3)


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), starts(), st.integers(-7, 7), st.integers(-7, 7))
def test_moving_the_start_by_lattice_vectors_changes_nothing(
    room: Surface, laying: Laying, start: Point, i: int, j: int
) -> None:
    tile, layout = laying[0], moved_to(laying[1], start)
    laid = lay(room, tile, layout)
    x, y = np.array(start) + np.array([i, j]) @ laid.placed_vectors
    again = lay(room, tile, moved_to(layout, (float(x), float(y))))
    check_same(laid, again)
    assert [piece.id for piece in laid.cut] == [piece.id for piece in again.cut]


def turned(point: Point, degrees: float) -> Point:
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def swapped(point: Point) -> Point:
    return point[1], point[0]


def room_through(room: Surface, change: Callable[[Point], Point]) -> Surface:
    cutouts = tuple(
        Cutout(circle=Circle(centre=change(cutout.circle.centre), diameter=cutout.circle.diameter))
        if cutout.circle
        else Cutout(polygon=tuple(change(corner) for corner in cutout.polygon or ()))
        for cutout in room.cutouts
    )
    return floor_of(*(change(corner) for corner in room.outline), cutouts=cutouts)


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), st.tuples(st.floats(-900, 2500), st.floats(-900, 2500)), st.floats(1, 359))
def test_a_turned_room_keeps_its_counts(room: Surface, laying: Laying, start: Point, by: float) -> None:
    tile, layout = laying[0], moved_to(laying[1], start)
    round_the_origin = room_through(room, lambda point: turned(point, by))
    layout_too = moved_to(layout, turned(start, by), layout.angle + by)
    check_close(lay(room, tile, layout), lay(round_the_origin, tile, layout_too))


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), st.tuples(st.floats(-900, 2500), st.floats(-900, 2500)))
def test_a_mirrored_room_keeps_its_counts(room: Surface, laying: Laying, start: Point) -> None:
    tile, layout = laying[0], moved_to(laying[1], start)
    check_close(lay(room, tile, layout), lay(room_through(room, swapped), *mirrored(tile, layout)))


def mirrored(tile: Tile, layout: Layout) -> Laying:
    """Return the laying as it looks when x and y change places; some patterns are their own mirror image."""
    x, y = swapped(layout.start)
    if layout.pattern == "hexagon":
        return tile, moved_to(layout, (x, y), 90 - layout.angle)
    if layout.pattern == "chevron":
        by = turned((layout.joint, 0), -90 - layout.angle)
        return tile, moved_to(layout, (x + by[0], y + by[1]), -90 - layout.angle)
    if isinstance(tile, RectangleTile) and layout.pattern == "herringbone":
        by = turned((tile.width + layout.joint, 0), -layout.angle)
        return tile, moved_to(layout, (x + by[0], y + by[1]), -layout.angle)
    if isinstance(tile, RectangleTile) and layout.pattern == "rows":
        return tile, mirrored_rows(tile, layout, (x, y))
    return drawn_again(tile, layout, swapped, -layout.angle)


def mirrored_rows(tile: RectangleTile, layout: Layout, start: Point) -> Layout:
    offsets = layout.settings.get("row_offsets", (0,))
    backwards = {"row_offsets": (offsets[0], *reversed(offsets[1:]))}
    by = turned((0, -tile.width), 90 - layout.angle)
    flipped = msgspec.structs.replace(layout, settings=backwards)
    return moved_to(flipped, (start[0] + by[0], start[1] + by[1]), 90 - layout.angle)


def drawn_again(tile: Tile, layout: Layout, change: Callable[[Point], Point], angle: float) -> Laying:
    """Return the laying as a drawn tile of the same outline with a drawn cell of the same faces.

    `change` is a mirroring, or leaves points where they are: then the faces keep their turns.
    """
    cell = cell_of(layout, tile)
    is_mirroring = change((1.0, 0.0)) != (1.0, 0.0)
    faces = tuple(
        {"turn": -face.turn if is_mirroring else face.turn, "at": change(face.corner)} for face in cell.faces
    )
    vectors = tuple(change((float(x), float(y))) for x, y in cell.vectors)
    outline = tuple(change((float(x), float(y))) for x, y in tile_outline(tile))
    again = msgspec.structs.replace(
        layout, pattern="drawn", settings={"vectors": vectors, "faces": faces}, start=change(layout.start)
    )
    return PolygonTile(id=tile.id, outline=outline), msgspec.structs.replace(again, angle=angle)


@settings(max_examples=40, deadline=None)
@given(rooms(), layings(), starts(), angles())
def test_every_pattern_of_one_tile_can_be_drawn_and_is_laid_the_same(
    room: Surface, laying: Laying, start: Point, angle: float
) -> None:
    tile, layout = laying[0], moved_to(laying[1], start, angle)
    if all(face.tile == tile for face in cell_of(layout, tile).faces):
        check_same(lay(room, tile, layout), lay(room, *drawn_again(tile, layout, lambda at: at, angle)))


def check_close(one: Laid, other: Laid) -> None:
    """Round chords fall otherwise on a turned circle, so areas may differ a little."""
    assert (one.whole_count, len(one.cut)) == (other.whole_count, len(other.cut))
    assert Counter(bool(piece.holes) for piece in one.cut) == Counter(
        bool(piece.holes) for piece in other.cut
    )
    assert one.left_to_joint == other.left_to_joint
    total, total_too = sum(piece.area for piece in one.cut), sum(piece.area for piece in other.cut)
    assert total == pytest.approx(total_too, abs=60)
