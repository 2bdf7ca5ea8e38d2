"""Where the first tiles of further patterns stand, and what a pattern says of a tile that does not fit."""

from __future__ import annotations

from math import cos, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.layout.test_patterns import check_keeps_one_joint, low_corners
from tests.rooms import BRICK, DIAMOND, KITE, LEANING, ODD, PICKET, PLANK, TRIANGLE, TROMINO, layout_of
from tilelayout.base.errors import LayoutError
from tilelayout.job.values import (
    ParallelogramTile,
    PicketTile,
    PolygonTile,
    RectangleTile,
    RhombusTile,
    TriangleTile,
)
from tilelayout.layout.faces import mirror_image, tile_outline
from tilelayout.layout.patterns import cell_of, cell_to_show, suits

JOINTS = st.floats(0.5, 8.0)


def test_columns_stand_side_by_side_and_are_shifted_up() -> None:
    cell = cell_of(layout_of(PLANK, "stack", column_offsets=(0.0, 0.5)), PLANK)
    assert low_corners(cell) == [(0, 0), (300, 300)]
    assert cell.vectors.tolist() == [[600, 0], [0, 600]]
    assert np.ptp(cell.faces[0].outline, axis=0).tolist() == [297, 597]


def test_columns_that_are_all_shifted_alike_are_one_column() -> None:
    cell = cell_of(layout_of(PLANK, "stack", column_offsets=(0.25, 1.25, -0.75)), PLANK)
    assert low_corners(cell) == [(0, 150)]
    assert cell.vectors.tolist() == [[300, 0], [0, 600]]


def test_a_double_herringbone_is_that_of_a_tile_twice_as_wide() -> None:
    wide = RectangleTile(id="wide", length=413, width=2 * 151 + 3)
    double = cell_of(layout_of(ODD, "herringbone_double"), ODD)
    single = cell_of(layout_of(wide, "herringbone"), wide)
    np.testing.assert_allclose(double.vectors, single.vectors)
    for k in (0, 1):
        pair = np.concatenate([face.outline for face in double.faces[2 * k : 2 * k + 2]])
        np.testing.assert_allclose(pair.min(axis=0), single.faces[k].outline.min(axis=0))
        np.testing.assert_allclose(pair.max(axis=0), single.faces[k].outline.max(axis=0))


def test_a_basketweave_stands_in_squares() -> None:
    cell = cell_of(layout_of(BRICK, "basketweave"), BRICK)
    assert low_corners(cell) == [(0, 0), (0, 150), (300, 0), (450, 0)]
    assert cell.vectors.tolist() == [[600, 0], [300, 300]]


@pytest.mark.parametrize(
    ("length", "width", "tiles", "joint", "words"),
    [
        (600, 297, 2, 3, ("597 mm", "joint of 6.00 mm", "298.5 mm wide")),
        (24 * 25.4, 11.8125 * 25.4, 2, 3.175, ("603.25 mm", "joint of 9.52 mm")),
        (300, 97, 3, 3, ("297 mm", "joint of 4.50 mm", "98 mm wide")),
        (290, 147, 2, 3, ("297 mm", "No joint", "143.5 mm wide")),
    ],
)
def test_a_basketweave_that_is_not_modular_names_what_would_do(
    length: float, width: float, tiles: int, joint: float, words: tuple[str, ...]
) -> None:
    """System modularity: the length is n widths and n - 1 joints (worked examples, computed)."""
    tile = RectangleTile(id="brick", length=length, width=width)
    layout = layout_of(tile, "basketweave", tiles=tiles, joint=joint)
    with pytest.raises(LayoutError) as caught:
        cell_of(layout, tile)
    for said in words:
        assert said in str(caught.value)
    assert suits(layout, tile) == ("No joint" not in words)
    if suits(layout, tile):
        assert len(cell_to_show(layout, tile).faces) == 2 * tiles


@settings(max_examples=40, deadline=None)
@given(st.floats(40, 300), st.sampled_from((2, 3)), JOINTS)
def test_the_joint_that_an_error_names_works(width: float, tiles: int, joint: float) -> None:
    named = round(joint, 2)
    tile = RectangleTile(id="brick", length=tiles * width + (tiles - 1) * joint, width=width)
    cell = cell_of(layout_of(tile, "basketweave", tiles=tiles, joint=named), tile)
    assert len(cell.faces) == 2 * tiles


def test_leaning_rows_run_on_along_their_ends() -> None:
    cell = cell_of(layout_of(LEANING), LEANING)
    assert cell.vectors[0].tolist() == pytest.approx([420 + 3 / sin(radians(60)), 0])
    assert cell.vectors[1].tolist() == pytest.approx([113 / sqrt(3), 113])


def test_a_chevron_rises_and_falls_with_its_ends_upright() -> None:
    """Worked example: 420 x 110 cut at 60 degrees makes columns of 363.7 (computed)."""
    cell = cell_of(layout_of(LEANING, "chevron"), LEANING)
    rising, falling = (face.outline for face in cell.faces)
    column = 420 * sin(radians(60))
    assert rising[0].tolist() == pytest.approx([0, 0], abs=1e-9)
    assert np.ptp(rising[:, 0]) == pytest.approx(column) == pytest.approx(363.73, abs=0.01)
    assert np.ptp(rising[:, 1]) == pytest.approx(420 * cos(radians(60)) + 110 / sin(radians(60)))
    mirrored = np.array([(2 * column + 3 - x, y) for x, y in rising])
    assert sorted(map(tuple, mirrored.round(6).tolist())) == sorted(map(tuple, falling.round(6).tolist()))
    assert cell.faces[0].tile == LEANING and cell.faces[1].tile == mirror_image(LEANING)


def test_a_chevron_of_one_hand_is_refused_unless_the_tile_is_its_own_mirror_image() -> None:
    one_hand = ParallelogramTile(id="lean", length=420, width=110, angle=60)
    with pytest.raises(LayoutError, match=r"one hand only.*sold left and right"):
        cell_of(layout_of(one_hand, "chevron"), one_hand)
    assert not suits(layout_of(one_hand, "chevron"), one_hand)
    assert all(face.tile == KITE for face in cell_of(layout_of(KITE, "chevron"), KITE).faces)


@pytest.mark.parametrize("angle", [60.0, 120.0])
def test_three_rhombi_make_a_hexagon(angle: float) -> None:
    tile = RhombusTile(id="r", side=190, angle=angle)
    cell = cell_of(layout_of(tile, "tumbling_blocks"), tile)
    corners = np.concatenate([face.outline for face in cell.faces])
    away = np.hypot(*corners.T)
    assert np.count_nonzero(np.isclose(away, 3 / sqrt(3))) == 3
    assert np.count_nonzero(np.isclose(away, 190 + 3 / sqrt(3))) == 3
    assert np.hypot(*cell.vectors[0]) == pytest.approx(190 * sqrt(3) + 6)


def test_tumbling_blocks_need_sixty_degrees() -> None:
    with pytest.raises(LayoutError, match=r"60 degrees.*has 105"):
        cell_of(layout_of(KITE, "tumbling_blocks"), KITE)
    assert suits(layout_of(DIAMOND, "tumbling_blocks"), DIAMOND)
    assert not suits(layout_of(KITE, "tumbling_blocks"), KITE)


def test_triangles_point_up_and_down_by_turns() -> None:
    """Worked example: side 310 and a 3 mm joint give a pitch of 315.2 (computed)."""
    cell = cell_of(layout_of(TRIANGLE, "triangle"), TRIANGLE)
    assert cell.vectors[0].tolist() == pytest.approx([315.196, 0], abs=1e-3)
    assert low_corners(cell)[0] == (0, 0)
    assert [face.turn for face in cell.faces] == [0, 180]


def test_pickets_stand_centred_and_their_points_lie_between() -> None:
    cell = cell_of(layout_of(PICKET, "picket"), PICKET)
    np.testing.assert_allclose(cell.faces[0].outline.mean(axis=0), 0, atol=1e-9)
    assert np.ptp(cell.faces[0].outline, axis=0).tolist() == pytest.approx([97, 310])
    assert cell.vectors[0].tolist() == [100, 0]
    plain = cell_of(layout_of(PICKET, "picket", joint=0.0), PICKET)
    assert plain.vectors[1].tolist() == pytest.approx([48.5, 310 - 48.5])


@settings(max_examples=20, deadline=None)
@given(st.floats(120, 400), st.floats(60, 110), st.floats(15, 165), JOINTS)
def test_leaning_tiles_keep_one_joint_in_rows_and_chevrons(
    length: float, width: float, angle: float, joint: float
) -> None:
    tile = ParallelogramTile(id="any", length=length, width=width, angle=angle, left_and_right=True)
    for name in ("rows", "chevron"):
        check_keeps_one_joint(cell_of(layout_of(tile, name, joint=joint), tile))


@settings(max_examples=20, deadline=None)
@given(st.floats(60, 400), st.floats(15, 165), JOINTS)
def test_rhombi_keep_one_joint(side: float, angle: float, joint: float) -> None:
    tile = RhombusTile(id="any", side=side, angle=angle)
    for name in ("rows", "chevron", "rhombus"):
        check_keeps_one_joint(cell_of(layout_of(tile, name, joint=joint), tile))


@settings(max_examples=20, deadline=None)
@given(st.floats(60, 400), st.floats(30, 120), st.floats(0.05, 0.45), JOINTS)
def test_pickets_and_triangles_keep_one_joint(
    length: float, width: float, share: float, joint: float
) -> None:
    picket = PicketTile(id="any", length=length, width=width, point=share * length)
    check_keeps_one_joint(cell_of(layout_of(picket, "picket", joint=joint), picket))
    triangle = TriangleTile(id="any", side=length)
    check_keeps_one_joint(cell_of(layout_of(triangle, "triangle", joint=joint), triangle))


def test_a_drawn_cell_that_overlaps_says_where_and_which_joint_works() -> None:
    layout = layout_of(TROMINO, "drawn", vectors=((450.0, 0.0), (150.0, 150.0)), joint=5.0)
    with pytest.raises(LayoutError, match=r"overlap by .*near \(.*With these vectors a joint of 3 mm works"):
        cell_of(layout, TROMINO)


def test_a_drawn_cell_that_leaves_gaps_says_so() -> None:
    layout = layout_of(TROMINO, "drawn", vectors=((450.0, 0.0), (150.0, 160.0)))
    with pytest.raises(LayoutError, match=r"4500 mm² of every cell stay empty.*Check the outline"):
        cell_of(layout, TROMINO)


def test_a_joint_that_closes_a_notch_is_refused() -> None:
    corners = ((0, 0), (100, 0), (100, 50), (52, 50), (52, 20), (48, 20), (48, 50), (0, 50))
    slotted = PolygonTile(id="slotted", outline=corners)
    with pytest.raises(LayoutError, match="closes a notch"):
        cell_of(layout_of(slotted, "drawn", joint=5.0), slotted)


def test_vectors_may_be_given_in_either_order_and_as_texts() -> None:
    texts = layout_of(TROMINO, "drawn", vectors=(("150 mm", "15 cm"), ("450 mm", 0)))
    cell = cell_of(texts, TROMINO)
    assert np.linalg.det(cell.vectors) > 0
    assert cell.vectors[0].tolist() == [150, 150]


def test_a_drawn_rectangle_is_found_to_lie_in_a_plain_grid() -> None:
    tile = PolygonTile(id="box", outline=((5, 5), (5, 62), (102, 62), (102, 5)))
    cell = cell_of(layout_of(tile, "drawn"), tile)
    np.testing.assert_allclose(cell.vectors, [(100, 0), (0, 60)], atol=1e-9)
    assert low_corners(cell) == [(0, 0)]
    assert tile_outline(tile).min(axis=0).tolist() == [0, 0]


def test_a_drawn_pentagon_of_equal_sides_is_refused_honestly() -> None:
    turns = np.radians(np.arange(5) * 72.0)
    corners = tuple((float(100 * cos(turn)), float(100 * sin(turn))) for turn in turns)
    tile = PolygonTile(id="five", outline=corners)
    with pytest.raises(LayoutError, match=r"No way is found.*give the vectors"):
        cell_of(layout_of(tile, "drawn"), tile)
