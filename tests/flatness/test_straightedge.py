"""Gap and rise: laws, plain ways on small surfaces, and the two roads (exact and along the grid) agreeing."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.flatness.floors import deepest_at_random, deepest_between_readings, grid, rough, turned
from tilelayout.flatness.grids import depth_map, grid_of
from tilelayout.flatness.mesh import Mesh, SurveyError, mesh_of
from tilelayout.flatness.straightedge import variations
from tilelayout.flatness.values import Variation

SMALL = grid(4, 4)


def measured(places: np.ndarray, readings: np.ndarray, *overs: float) -> tuple[Variation, ...]:
    mesh = mesh_of(places)
    return variations(mesh, mesh.heights(readings), overs)


def figures(found: tuple[Variation, ...]) -> list[float]:
    return [figure for each in found for figure in (each.gap, each.rise)]


@given(slope=st.tuples(st.floats(-0.05, 0.05), st.floats(-0.05, 0.05)), height=st.floats(-50, 50))
@settings(max_examples=15, deadline=None)
def test_a_plane_has_neither_gap_nor_rise(slope: tuple[float, float], height: float) -> None:
    assert figures(measured(SMALL, SMALL @ np.array(slope) + height, 610.0, 3000.0)) == [0.0] * 4


def test_a_slope_of_20_mm_in_2_m_has_no_gap() -> None:
    """Definition in the handbooks read (C in the list of worked sums): the straightedge lies on it."""
    assert figures(measured(SMALL, SMALL[:, 0] * 0.01, 2000.0)) == [0.0, 0.0]


@given(seed=st.integers(0, 10_000), slope=st.tuples(st.floats(-0.02, 0.02), st.floats(-0.02, 0.02)))
@settings(max_examples=6, deadline=None)
def test_adding_a_plane_changes_nothing(seed: int, slope: tuple[float, float]) -> None:
    readings = rough(16, seed)
    plain = measured(SMALL, readings, 3000.0)
    assert figures(measured(SMALL, readings + SMALL @ np.array(slope), 3000.0)) == pytest.approx(
        figures(plain)
    )


@given(seed=st.integers(0, 10_000), angle=st.floats(0, 6.28))
@settings(max_examples=6, deadline=None)
def test_turning_the_survey_changes_nothing(seed: int, angle: float) -> None:
    readings = rough(16, seed)
    plain, other = measured(SMALL, readings, 3000.0), measured(turned(SMALL, angle), readings, 3000.0)
    assert figures(other) == pytest.approx(figures(plain), abs=1e-6)


def test_turned_upside_down_gap_and_rise_change_places() -> None:
    readings = rough(16, 5)
    above, below = measured(SMALL, readings, 3000.0)[0], measured(SMALL, -readings, 3000.0)[0]
    assert (above.gap, above.rise) == pytest.approx((below.rise, below.gap))


def test_mirroring_changes_nothing() -> None:
    readings = rough(16, 6)
    assert figures(measured(SMALL * [-1, 1], readings, 3000.0)) == pytest.approx(
        figures(measured(SMALL, readings, 3000.0))
    )


def test_finer_readings_of_the_same_folded_surface_change_nothing() -> None:
    """A valley along y: 3 mm deep, sides of 900 mm."""
    coarse, fine = grid(3, 3, 900.0), grid(7, 7, 300.0)

    def depth(places: np.ndarray) -> np.ndarray:
        return np.abs(places[:, 0] - 900.0) / 300.0

    assert figures(measured(coarse, depth(coarse), 3000.0)) == pytest.approx([3.0, 0.0], abs=1e-6)
    assert figures(measured(fine, depth(fine), 3000.0)) == pytest.approx([3.0, 0.0], abs=1e-6)


@pytest.mark.parametrize("over", [300.0, 500.0, 1000.0, 1799.0])
def test_a_straightedge_across_a_valley_hangs_by_half_its_length_times_the_slope(over: float) -> None:
    """Sides that rise 1 in 300: the middle of a straightedge of length L is L / 2 / 300 above the bottom."""
    places = grid(7, 7, 300.0)
    found = measured(places, np.abs(places[:, 0] - 900.0) / 300.0, over)[0]
    assert found.gap == pytest.approx(over / 600.0, abs=1e-6)
    assert found.rise == pytest.approx(0.0, abs=1e-9)
    assert found.gap_chord is not None
    assert found.gap_chord.length == pytest.approx(over)


@given(seed=st.integers(0, 10_000))
@settings(max_examples=3, deadline=None)
def test_no_three_readings_show_more_than_the_exact_gap(seed: int) -> None:
    readings = rough(16, seed)
    for over in (650.0, 1300.0):
        found = measured(SMALL, readings, over)[0]
        assert found.gap >= deepest_between_readings(SMALL, readings, over) - 1e-9
        assert found.rise >= deepest_between_readings(SMALL, -readings, over) - 1e-9
        assert found.gap <= found.gap_at_most + 1e-9


@given(seed=st.integers(0, 10_000), over=st.sampled_from([350.0, 620.0, 1000.0, 3000.0]))
@settings(max_examples=5, deadline=None)
def test_no_straightedge_thrown_at_random_shows_more(seed: int, over: float) -> None:
    places = np.random.default_rng(seed).uniform(0, 1000, (9, 2))
    readings = rough(9, seed)
    mesh = mesh_of(places)
    heights = mesh.heights(readings)
    found = variations(mesh, heights, (over,))[0]
    assert deepest_at_random(mesh, heights, over, 20_000) <= found.gap + 1e-6
    assert deepest_at_random(mesh, -heights, over, 20_000) <= found.rise + 1e-6


def test_the_place_told_is_where_a_straightedge_shows_the_figure() -> None:
    mesh = mesh_of(SMALL)
    heights = mesh.heights(rough(16, 9))
    for found in variations(mesh, heights, (450.0, 1000.0)):
        for chord, sign in ((found.gap_chord, 1.0), (found.rise_chord, -1.0)):
            assert chord is not None
            assert chord.length <= found.over + 1e-6
            first, last, here = mesh.heights_at(np.array([chord.start, chord.end, chord.at]), heights)
            depth = sign * (first + chord.share * (last - first) - here)
            assert depth == pytest.approx(chord.depth, abs=1e-6)


@pytest.mark.parametrize("directions", [4, 8, 16])
def test_the_quick_map_is_the_plain_one_and_never_above_the_exact(directions: int) -> None:
    places = grid(7, 6)
    readings = rough(42, 2)
    found = grid_of(places)
    assert found is not None
    quick = float(depth_map(found, readings[found.number], 1250.0, directions).max())
    assert quick <= measured(places, readings, 1250.0)[0].gap + 1e-9
    if directions == 16:
        assert quick == pytest.approx(deepest_between_readings(places, readings, 1250.0))


def test_readings_out_of_order_make_the_same_grid() -> None:
    places, order = grid(5, 4), np.random.default_rng(4).permutation(20)
    found = grid_of(places[order])
    assert found is not None
    assert np.array_equal(places[order][found.number.ravel()], places)
    assert grid_of(places[:-1]) is None
    assert grid_of(turned(places, 0.3)) is None


def l_shape() -> tuple[np.ndarray, shapely.Polygon]:
    places = grid(7, 7)
    room = shapely.Polygon([(0, 0), (1800, 0), (1800, 900), (900, 900), (900, 1800), (0, 1800)])
    return places[(places[:, 0] <= 900) | (places[:, 1] <= 900)], room


def test_no_straightedge_goes_through_an_inside_corner() -> None:
    """Beyond the inside corner of an L both arms stand 5 mm high: no line joins them on the floor."""
    places, room = l_shape()
    readings = 5.0 * (places.sum(axis=1) >= 2400.0)
    inside = mesh_of(places, room)
    found = variations(inside, inside.heights(readings), (3000.0,))[0]
    across = measured(places, readings, 3000.0)[0]
    assert found.gap < across.gap - 0.1
    assert found.rise <= across.rise
    assert found.gap_chord is not None
    assert room.buffer(1e-3).covers(shapely.LineString([found.gap_chord.start, found.gap_chord.end]))


def test_readings_in_a_line_or_outside_are_no_surface() -> None:
    with pytest.raises(SurveyError, match="one line"):
        mesh_of(grid(5, 1))
    with pytest.raises(SurveyError, match="outside"):
        mesh_of(grid(3, 3), shapely.box(5000, 5000, 6000, 6000))


@given(angle=st.floats(0, 6.28), columns=st.integers(2, 7), rows=st.integers(2, 7))
@settings(max_examples=30, deadline=None)
def test_every_cell_of_a_grid_is_parted_towards_its_middle(angle: float, columns: int, rows: int) -> None:
    mesh: Mesh = mesh_of(turned(grid(columns, rows, 305.0), angle))
    cells = (columns - 1) * (rows - 1)
    assert len(mesh.places) == columns * rows + cells
    assert len(mesh.triangles) == 4 * cells
    assert float(shapely.area(mesh.shapes).sum()) == pytest.approx(cells * 305.0**2)


def test_the_surface_goes_through_the_readings_and_nowhere_else() -> None:
    mesh = mesh_of(SMALL)
    readings = rough(16, 8)
    heights = mesh.heights(readings)
    assert mesh.heights_at(SMALL, heights) == pytest.approx(readings)
    assert mesh.heights_at(np.array([[150.0, 150.0]]), heights)[0] == pytest.approx(
        readings[[0, 1, 4, 5]].mean()
    )
    assert np.isnan(mesh.heights_at(np.array([[-1.0, 0.0], [5000.0, 5000.0]]), heights)).all()
    assert mesh.plane_under(SMALL, mesh.heights(SMALL @ [0.01, 0.02] + 3)) == pytest.approx((0.01, 0.02, 3))
