"""Preparations: volumes in closed form, the least fill kept by the verdict itself, nothing smaller enough."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from tests.flatness.floors import grid, rough
from tilelayout.flatness.fill import (
    Fill,
    Prices,
    fill_to,
    grind_and_fill,
    least_fill,
    level_fill,
)
from tilelayout.flatness.grids import all_rows, grid_of
from tilelayout.flatness.mesh import SurveyError, mesh_of
from tilelayout.flatness.programs import Preparation, sums_of_rows
from tilelayout.flatness.straightedge import variations
from tilelayout.flatness.volumes import Ground, ground_of

LIMITS = ((3048.0, 3.175), (609.6, 1.5875))
ROOM = shapely.box(0, 0, 1500, 1200)
PLACES = grid(6, 5)


def ground(places: np.ndarray = PLACES, room: shapely.Geometry = ROOM) -> Ground:
    return ground_of(mesh_of(places), room)


def small() -> Ground:
    return ground(grid(4, 4), shapely.box(0, 0, 900, 900))


def worst_after(fill: Fill, readings: np.ndarray, share: float = 1.0) -> list[float]:
    mesh = fill.ground.mesh
    heights = mesh.heights(readings) + share * (np.maximum(fill.added, 0.0) - fill.removed)
    return [found.worst for found in variations(mesh, heights, [over for over, _ in LIMITS])]


def keeps(worst: list[float]) -> bool:
    return all(each <= limit + 1e-6 for each, (_, limit) in zip(worst, LIMITS, strict=True))


def test_a_tilted_floor_takes_much_to_be_level_and_nothing_to_be_flat() -> None:
    """Derived: 12 mm over 3 m x 4 m, half of 12 mm x 12 m2 = 0.072 m3 to the high edge."""
    places, room = grid(7, 9, 500.0), shapely.box(0, 0, 3000, 4000)
    on = ground(places, room)
    readings = places[:, 0] * 12.0 / 3000.0
    level = level_fill(on, on.mesh.heights(readings))
    assert level.volume / 1e9 == pytest.approx(0.072)
    assert level.deepest == pytest.approx(12.0)
    assert level.deepest_at[0] == 0.0
    assert least_fill(on, readings, LIMITS).volume == pytest.approx(0.0, abs=1.0)


def test_a_cell_with_corner_fills_of_nought_two_quarters_and_a_half_inch() -> None:
    """C: mean 1/4 in on 2 x 2 ft: 0.0833 cu ft."""
    foot = 304.8
    places = np.array([(0, 0), (2 * foot, 0), (0, 2 * foot), (2 * foot, 2 * foot)])
    on = ground(places, shapely.box(0, 0, 2 * foot, 2 * foot))
    level = level_fill(on, on.mesh.heights(-25.4 * np.array([0.0, 0.25, 0.25, 0.5])))
    assert level.volume / foot**3 == pytest.approx(0.0833, abs=0.0001)


def test_cutouts_take_no_fill_and_beyond_the_readings_nothing_is_counted() -> None:
    room = shapely.box(-100, 0, 1500, 1200) - shapely.box(300, 350, 700, 950)
    on = ground(PLACES, room)
    assert on.area == pytest.approx(1500 * 1200 - 400 * 600)
    assert on.area_beyond == pytest.approx(100 * 1200)
    level = level_fill(on, on.mesh.heights(PLACES[:, 1] * 0.01))
    assert level.volume == pytest.approx((1500 * 1200 - 400 * 600) * 12 - 1500 * 1200 * 6 + 400 * 600 * 6.5)


def test_readings_along_a_slanting_wall_lose_no_ground() -> None:
    """Two of three readings stand on the wall but for the last digit: a plain overlay loses all of it."""
    angle, move = 0.23616294055696857, (-50.74981539567398, 79.22660955734136)
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    wide, high = 732.5948419168159, 842.1511791887219
    three = np.array([(0, 0), (wide, 0), (wide / 2, high)]) @ turn + move
    left, right = -419.38614801319557, 1175.55191090146
    room = shapely.Polygon(np.array([(left, 0), (right, 0), (right, 900), (left, 900)]) @ turn + move)
    assert ground_of(mesh_of(three, room), room).area == pytest.approx(wide * high / 2, rel=1e-9)


def test_a_plane_that_meets_the_surface_is_filled_to_where_it_meets_it() -> None:
    """The floor rises 12 mm over 1500; level at 6 mm: a wedge of 6 x 750 / 2 x 1200 each way."""
    on = ground()
    fill = fill_to(on, on.mesh.heights(PLACES[:, 0] * 12 / 1500), np.full(len(on.mesh.places), 6.0))
    assert fill.volume == pytest.approx(750 * 6 / 2 * 1200)
    assert fill.volume_removed == pytest.approx(fill.volume)
    assert (fill.deepest, fill.most_removed) == pytest.approx((6.0, 6.0))
    assert fill.depths_at(np.array([[375.0, 100.0], [1400.0, 5.0]])) == pytest.approx([3.0, 0.0])


def test_the_least_fill_passes_the_verdict_and_one_per_cent_less_does_not() -> None:
    on, readings = small(), rough(16, 1, 1.8)
    fill = least_fill(on, readings, LIMITS)
    assert not keeps(worst_after(fill, readings, 0.0))
    assert keeps(worst_after(fill, readings))
    assert not keeps(worst_after(fill, readings, 0.99))
    assert 0 < fill.volume < level_fill(on, on.mesh.heights(readings)).volume


def test_scattered_readings_are_prepared_as_well() -> None:
    places = np.random.default_rng(8).uniform((0, 0), (1500, 1200), (14, 2))
    on, readings = ground(places), rough(14, 4, 2.0)
    fill = least_fill(on, readings, LIMITS)
    assert keeps(worst_after(fill, readings))
    assert not keeps(worst_after(fill, readings, 0.99))


def test_one_lump_is_cheaper_to_grind_than_to_bury() -> None:
    on, readings = ground(), np.zeros(30)
    readings[14] = 4.0
    prices = Prices(most_ground=3.0)
    both, filled = grind_and_fill(on, readings, LIMITS, prices), least_fill(on, readings, LIMITS)
    assert keeps(worst_after(both, readings))
    assert 1.0 < both.most_removed <= 3.0 + 1e-6
    assert both.volume + 5 * both.volume_removed < 0.6 * filled.volume
    with pytest.raises(SurveyError, match="within these bounds"):
        grind_and_fill(on, readings, ((3000.0, -1.0),), prices)


def test_rows_added_as_they_are_broken_reach_the_same_least_as_all_rows() -> None:
    found = grid_of(PLACES)
    assert found is not None
    readings, costs = rough(len(PLACES), 3, 1.5), np.ones(len(PLACES))
    whole, lazy = Preparation(readings, costs), Preparation(readings, costs)
    for over, limit in LIMITS:
        whole.add(sums_of_rows(all_rows(found, readings[found.number], over), limit))
    for _ in range(30):
        added = lazy.solved()[0] if lazy.rows else np.zeros(len(PLACES))
        for over, limit in LIMITS:
            rows = all_rows(found, (readings + added)[found.number], over)
            broken = rows.depth > limit + 1e-6
            if broken.any():
                picked = type(rows)(*(getattr(rows, name)[broken] for name in type(rows).__annotations__))
                lazy.add(sums_of_rows(picked, limit))
    assert lazy.solved()[0].sum() == pytest.approx(whole.solved()[0].sum(), abs=1e-6)
    assert 0 < lazy.rows < whole.rows


def test_the_same_fill_on_every_run() -> None:
    on, readings = small(), rough(16, 5, 1.6)
    assert np.array_equal(least_fill(on, readings, LIMITS).added, least_fill(on, readings, LIMITS).added)
