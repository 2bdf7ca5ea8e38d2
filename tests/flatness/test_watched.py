"""Chords watched while a surface is filled: the same are found broken as when every fan is drawn anew."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from tests.flatness.floors import grid, rough
from tilelayout.base.stepping import last_of
from tilelayout.flatness.fans import Fans, trials
from tilelayout.flatness.fill import preparing
from tilelayout.flatness.mesh import Mesh, mesh_of
from tilelayout.flatness.straightedge import Rays, variations
from tilelayout.flatness.surroundings import Surroundings
from tilelayout.flatness.volumes import ground_of
from tilelayout.flatness.watched import Watched

LIMITS = ((1300.0, 3.0), (610.0, 1.5))


def uneven() -> np.ndarray:
    """A grid whose rows and columns stand at unequal steps, as a person paces them off."""
    x, y = np.meshgrid(np.cumsum([0, 300, 280, 310, 140, 300]), np.cumsum([0, 250, 300, 90, 300]))
    return np.column_stack([x.ravel(), y.ravel()]).astype(float)


def scattered() -> np.ndarray:
    return np.random.default_rng(4).uniform((0, 0), (1500, 1200), (32, 2))


def worst_of_all_fans(mesh: Mesh, heights: np.ndarray) -> float:
    """By how much the deepest of all chords through corners breaks its limit, every fan drawn anew."""
    worst = -np.inf
    for drawn in Fans(mesh, max(over for over, _ in LIMITS)):
        bundle = trials(drawn, heights, tuple(over for over, _ in LIMITS))
        for over, limit in LIMITS:
            fits = (bundle.end <= over + 1e-7) & bundle.on_ground
            worst = max(worst, float(np.abs(bundle.depth[fits]).max(initial=0.0)) - limit)
    return worst


@pytest.mark.parametrize("places", [uneven(), scattered(), grid(6, 5)], ids=["uneven", "scattered", "even"])
def test_what_is_found_broken_is_what_all_fans_say_however_the_heights_change(places: np.ndarray) -> None:
    mesh = mesh_of(places)
    watched = Watched(mesh, LIMITS, Rays(Fans(mesh, LIMITS[0][0]), None))
    heights = mesh.heights(rough(len(places), 2, 1.2))
    changes = np.random.default_rng(5)
    told = []
    for size in (0.0, 0.0, 0.02, 0.02, 0.3, 0.02, 1.0, 0.0):
        heights = 0.97 * heights + mesh.heights(changes.normal(size=len(places)) * size)
        found = last_of(watched.broken_steps(heights, 0.0))
        worst = worst_of_all_fans(mesh, heights)
        told.append(found is not None)
        assert (found is not None) is (worst > 0.0)
        if found is not None:
            assert 0.0 < found.worst <= worst + 1e-9
    assert True in told


def test_the_surroundings_differ_by_no_more_than_is_told() -> None:
    places, reach = scattered(), 400.0
    values = rough(len(places), 6)
    told = Surroundings(places, reach).spread(values)
    for at, place in enumerate(places):
        near = values[np.hypot(*(places - place).T) <= reach]
        assert np.ptp(near) <= told[at] + 1e-12
    assert Surroundings(places, reach).spread(np.full(len(places), 3.0)) == pytest.approx(0.0)


@pytest.mark.parametrize("places", [uneven(), scattered()], ids=["uneven", "scattered"])
def test_the_least_fill_on_any_readings_keeps_to_the_limits_and_is_the_least(places: np.ndarray) -> None:
    mesh = mesh_of(places)
    ground = ground_of(mesh, shapely.MultiPoint(places).convex_hull)
    readings = rough(len(places), 7, 1.6)
    *between, fill = preparing(ground, readings, LIMITS)
    assert len(between) > 3, "it can be given up in between"

    def worst(share: float) -> float:
        after = variations(mesh, mesh.heights(readings + share * fill.added[: len(places)]), [1300.0, 610.0])
        return max(found.worst - limit for found, (_, limit) in zip(after, LIMITS, strict=True))

    assert worst(1.0) <= 1e-6
    assert worst(0.98) > 0.0
