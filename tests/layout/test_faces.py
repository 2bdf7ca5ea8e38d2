"""The outline of a tile in its own coordinates."""

from __future__ import annotations

from math import radians, sqrt, tan

import numpy as np
import pytest
from msgspec.structs import replace

from tilelayout.geometry.rings import signed_area
from tilelayout.job.values import (
    HexagonTile,
    ParallelogramTile,
    PicketTile,
    PolygonTile,
    RectangleTile,
    RhombusTile,
    TriangleTile,
)
from tilelayout.layout.faces import hand_of, mirror_image, tile_outline, tile_width

PLANK = RectangleTile(id="plank", length=597, width=297)
HEXAGON = HexagonTile(id="hexagon", across_flats=200)


def test_a_rectangle_lies_with_its_length_along_x_and_its_lower_left_corner_at_the_origin() -> None:
    assert tile_outline(PLANK).tolist() == [[0, 0], [597, 0], [597, 297], [0, 297]]


def test_a_hexagon_stands_on_a_point_with_its_flats_left_and_right() -> None:
    outline = tile_outline(HEXAGON)
    sides = np.hypot(*(np.roll(outline, -1, axis=0) - outline).T)
    assert outline.min(axis=0).tolist() == [0, 0]
    assert outline.max(axis=0) == pytest.approx([200, 400 / sqrt(3)])
    assert np.count_nonzero(outline[:, 0] == 200) == np.count_nonzero(outline[:, 0] == 0) == 2
    assert sides == pytest.approx([200 / sqrt(3)] * 6)


def test_a_regular_hexagon_has_the_area_of_its_formula() -> None:
    assert signed_area(tile_outline(HEXAGON)) == pytest.approx(sqrt(3) / 2 * 200**2)


def test_the_width_of_a_tile_is_its_smaller_size() -> None:
    assert tile_width(PLANK) == tile_width(RectangleTile(id="upright", length=297, width=597)) == 297
    assert tile_width(HEXAGON) == 200


def test_the_shared_outline_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="read-only"):
        tile_outline(PLANK)[0, 0] = 1.0


LEANING = ParallelogramTile(id="lean", length=400, width=100, angle=60)
CHIP = PolygonTile(id="chip", outline=((50, 20), (150, 20), (150, 70), (150, 120), (100, 150), (50, 120)))


def test_a_parallelogram_leans_by_its_angle_and_its_mirror_image_the_other_way() -> None:
    outline, mirrored = tile_outline(LEANING), tile_outline(mirror_image(LEANING))
    lean = 100 / tan(radians(60))
    np.testing.assert_allclose(outline, [(0, 0), (400, 0), (400 + lean, 100), (lean, 100)])
    back = np.column_stack([400 + lean - mirrored[:, 0], mirrored[:, 1]])
    assert sorted(map(tuple, back.round(9).tolist())) == sorted(map(tuple, outline.round(9).tolist()))
    assert mirror_image(mirror_image(LEANING)) == LEANING


def test_hands_are_told_apart_only_where_there_are_two() -> None:
    both = replace(LEANING, left_and_right=True)
    assert [hand_of(tile, both) for tile in (both, mirror_image(both))] == ["left", "right"]
    assert hand_of(LEANING, LEANING) == hand_of(PLANK, PLANK) == ""


@pytest.mark.parametrize("angle", [40.0, 90.0, 130.0])
def test_a_rhombus_has_four_equal_sides_and_its_angle(angle: float) -> None:
    outline = tile_outline(RhombusTile(id="r", side=150, angle=angle))
    sides = np.roll(outline, -1, axis=0) - outline
    assert np.hypot(*sides.T) == pytest.approx([150] * 4)
    assert outline.min(axis=0).tolist() == pytest.approx([0, 0])
    turn = np.degrees(np.arctan2(*-sides[3][::-1]))
    assert turn == pytest.approx(angle)


def test_a_triangle_and_a_picket_have_the_areas_of_their_formulas() -> None:
    assert signed_area(tile_outline(TriangleTile(id="t", side=200))) == pytest.approx(sqrt(3) / 4 * 200**2)
    picket = tile_outline(PicketTile(id="p", length=300, width=80, point=40))
    assert signed_area(picket) == pytest.approx(300 * 80 - 40 * 80)
    assert np.ptp(picket, axis=0).tolist() == [300, 80]


def test_a_drawn_outline_is_turned_right_way_round_and_set_in_the_corner() -> None:
    outline = tile_outline(CHIP)
    assert len(outline) == 5, "a corner in a straight side is none"
    assert outline.min(axis=0).tolist() == [0, 0]
    assert signed_area(outline) == pytest.approx(100 * 100 + 100 * 30 / 2)
    other_way = PolygonTile(id="chip", outline=CHIP.outline[::-1])
    assert signed_area(tile_outline(other_way)) == pytest.approx(signed_area(outline))


def test_the_width_of_any_tile_is_its_narrowest_place() -> None:
    assert tile_width(TriangleTile(id="t", side=200)) == pytest.approx(200 / sqrt(3))
    assert tile_width(LEANING) == pytest.approx(100)
    angle = PolygonTile(id="l", outline=((0, 0), (300, 0), (300, 90), (90, 90), (90, 300), (0, 300)))
    assert tile_width(angle) == pytest.approx(90)
