"""The sweep of an even grid against the fans themselves, and what is measured with it and without."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from tests.flatness.floors import grid, rough, turned
from tilelayout.flatness.fans import Fans, trials
from tilelayout.flatness.fill import least_fill
from tilelayout.flatness.mesh import Mesh, mesh_of
from tilelayout.flatness.straightedge import Rays, deepest, rays_for, seen_chords, variations
from tilelayout.flatness.sweep import Sweep, sweep_for
from tilelayout.flatness.volumes import ground_of

OVERS = (1300.0, 610.0)
COLUMNS, ROWS = 16, 14


def swept(mesh: Mesh) -> Sweep:
    found = sweep_for(mesh, OVERS)
    assert found is not None
    return found


def fanned(mesh: Mesh, heights: np.ndarray, least: float) -> np.ndarray:
    """The deepest chord of each fan, one after the other, lengths from `least` of each length up (4, v)."""
    deepest_of = np.zeros((4, len(mesh.places)))
    for drawn in Fans(mesh, max(OVERS) + 2.0 * mesh.longest):
        bundle = trials(drawn, heights, OVERS)
        for row, (over, sign) in enumerate((over, sign) for over in OVERS for sign in (1.0, -1.0)):
            for chord in seen_chords(mesh, drawn, bundle, sign, (least * over, over), 1e-9):
                deepest_of[row, drawn.corner] = chord.depth
    return deepest_of


@pytest.mark.parametrize("across", [300.0, 410.0])
def test_the_sweep_finds_what_the_fans_find_and_at_the_rim_no_less(across: float) -> None:
    places = grid(9, 8) * (across / 300.0, 1.0)
    mesh = mesh_of(places)
    heights = mesh.heights(rough(72, 4, 2.0))
    bounds = swept(mesh).bounds(heights)
    for ours, theirs in (
        (bounds.any_length, fanned(mesh, heights, 0.0)),
        (bounds.full_length, fanned(mesh, heights, 1.0)),
    ):
        assert np.all(ours >= theirs - 1e-9)
        assert np.mean(ours - theirs < 1e-9) > 0.75
    assert bounds.any_length.max() == pytest.approx(fanned(mesh, heights, 0.0).max())


def test_where_a_room_has_a_corner_cut_out_the_sweep_is_never_less_than_the_fans() -> None:
    places = grid(10, 9)
    places = places[(places[:, 0] < 1700) | (places[:, 1] < 1300)]
    mesh = mesh_of(places, shapely.box(0, 0, 2700, 1200) | shapely.box(0, 0, 1500, 2400))
    assert not mesh.is_convex
    heights = mesh.heights(rough(len(places), 7, 2.0))
    assert np.all(swept(mesh).bounds(heights).any_length >= fanned(mesh, heights, 0.0) - 1e-9)


def test_a_floor_is_measured_the_same_with_the_sweep_and_without() -> None:
    mesh = mesh_of(grid(COLUMNS, ROWS))
    heights = mesh.heights(rough(COLUMNS * ROWS, 3, 1.5))
    fans = Fans(mesh, max(OVERS) + 2.0 * mesh.longest)
    plain = deepest(mesh, heights, OVERS, Rays(fans, None))
    quick = deepest(mesh, heights, OVERS, Rays(fans, swept(mesh)))
    for one, other in zip(plain, quick, strict=True):
        assert one.best is not None and other.best is not None
        assert other.best.depth == pytest.approx(one.best.depth, abs=1e-3)
        assert other.at_most >= other.best.depth
        assert other.at_most == pytest.approx(one.at_most, rel=0.05)


def test_small_or_scattered_or_turned_surveys_need_no_sweep() -> None:
    for places in (
        turned(grid(COLUMNS, ROWS), 0.4),
        np.random.default_rng(1).uniform(0, 4000, (260, 2)),
    ):
        assert sweep_for(mesh_of(places), OVERS) is None
    assert rays_for(mesh_of(grid(5, 4)), OVERS).bounds(np.zeros(32)) is None


def test_the_least_fill_of_a_large_floor_keeps_to_the_limits() -> None:
    limits = ((1300.0, 2.0), (610.0, 1.2))
    mesh = mesh_of(grid(COLUMNS, ROWS))
    readings = rough(COLUMNS * ROWS, 8, 0.7)
    ground = ground_of(mesh, shapely.box(0, 0, 4500, 3900))
    fill = least_fill(ground, readings, limits)
    after = variations(mesh, mesh.heights(readings) + np.maximum(fill.added, 0.0), OVERS)
    for found, (_, limit) in zip(after, limits, strict=True):
        assert found.worst <= limit + 1e-6
    assert fill.volume > 0.0
