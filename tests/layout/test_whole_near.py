"""The whole tiles near a place: all that meet it, and none that is clear of it."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rooms import L_SHAPED, OBLIQUE_WITH_BAY, WITH_HOLES, layout_of, rectangle
from tilelayout.job.values import HexagonTile, Layout, RectangleTile, Surface, Tile
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.whole_near import whole_near, whole_near_boxes

RECTANGLE = RectangleTile(id="t", length=300, width=150)
HEXAGON = HexagonTile(id="t", across_flats=200)
CAST: dict[str, tuple[Surface, Tile]] = {
    "rows": (L_SHAPED, RECTANGLE),
    "herringbone": (WITH_HOLES, RECTANGLE),
    "hexagon": (OBLIQUE_WITH_BAY, HEXAGON),
}


@cache
def laid_as(pattern: str, angle: float) -> Laid:
    surface, tile = CAST[pattern]
    return lay(
        surface, tile, Layout(id="A", surface="floor", tile="t", pattern=pattern, angle=angle, start=(70, 40))
    )


@pytest.mark.parametrize("pattern", CAST)
@given(
    st.tuples(st.floats(-500, 4000), st.floats(-500, 4000)),
    st.tuples(st.floats(1, 2500), st.floats(1, 2500)),
    st.sampled_from([0.0, 22.0, 45.0, 66.0]),
)
@settings(max_examples=40, deadline=None)
def test_they_are_all_that_meet_the_box_and_none_clear_of_it(
    pattern: str, low: tuple[float, float], size: tuple[float, float], angle: float
) -> None:
    laid = laid_as(pattern, angle)
    least, most = np.array(low), np.add(low, size)
    box = shapely.box(*least, *most)
    for shifts, outline, faces in zip(
        whole_near(laid, least, most), laid.placed_faces, laid.whole_faces, strict=True
    ):
        found = {tuple(point) for point in np.round(outline[0] + shifts, 3) + 0.0}
        meets = shapely.area(shapely.intersection(shapely.polygons(faces), box)) > 1e-6
        near = (faces.min(axis=1) <= most).all(axis=1) & (faces.max(axis=1) >= least).all(axis=1)
        assert found >= {tuple(point) for point in np.round(faces[meets][:, 0], 3) + 0.0}
        assert found <= {tuple(point) for point in np.round(faces[near][:, 0], 3) + 0.0}
        assert len(found) == len(shifts)


@pytest.mark.parametrize("pattern", CAST)
def test_many_boxes_at_once_find_what_each_finds_alone(pattern: str) -> None:
    laid = laid_as(pattern, 22.0)
    low = np.array([(0.0, 0.0), (-50.0, 900.0), (1000.0, 300.0), (9000.0, 9000.0), (700.0, -20.0)])
    high = low + np.array([(2000.0, 40.0), (30.0, 1500.0), (600.0, 600.0), (50.0, 50.0), (10.0, 4000.0)])
    found = whole_near_boxes(laid, low, high)
    for at in range(len(low)):
        for (box, moves), alone in zip(found, whole_near(laid, low[at], high[at]), strict=True):
            np.testing.assert_array_equal(moves[box == at], alone)


def test_a_long_thin_box_askew_to_the_rows_looks_at_few_tiles() -> None:
    side = 30_000.0
    laid = lay(rectangle(side, side), RECTANGLE, layout_of(RECTANGLE, angle=30.0))
    (moves,) = whole_near(laid, np.array([0.0, 40.0]), np.array([side, 60.0]))
    assert 0 < len(moves) < 4 * side / 150
