"""The outline of a tile in its own coordinates."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest

from tilelayout.geometry.rings import signed_area
from tilelayout.job.values import HexagonTile, RectangleTile
from tilelayout.layout.faces import tile_outline, tile_width

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
