"""The resting plane: over all points, as low as can be at a place; against every three points one by one."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from tests.flatness.floors import rough
from tilelayout.flatness.hull_plane import resting_plane
from tilelayout.flatness.mesh import SurveyError

Numbers = np.ndarray


def lowest_by_trying(points: Numbers, heights: Numbers, at: Numbers) -> float:
    """The lowest height at a place of a plane through three points that no point stands over."""
    best = np.inf
    for three in combinations(range(len(points)), 3):
        corners = points[list(three)]
        level = np.vstack([corners.T, np.ones(3)])
        if abs(np.linalg.det(level)) < 1e-6 * 300**2:
            continue
        shares = np.linalg.solve(level, np.append(at, 1.0))
        if shares.min() < -1e-9:
            continue
        plane = np.linalg.solve(np.column_stack([corners, np.ones(3)]), heights[list(three)])
        if np.all(np.column_stack([points, np.ones(len(points))]) @ plane >= heights - 1e-9):
            best = min(best, float(shares @ heights[list(three)]))
    return best


@pytest.mark.parametrize("seed", range(12))
def test_it_is_the_lowest_over_all_points(seed: int) -> None:
    rng = np.random.default_rng(seed)
    points = rng.uniform(0, 300, (14, 2))
    heights, at = rough(14, seed + 50, 2.0), points.mean(axis=0)
    plane = resting_plane(points, heights, at)
    assert np.all(plane.heights(points) >= heights - 1e-9)
    assert plane.height == pytest.approx(lowest_by_trying(points, heights, at))
    assert plane.heights(points[plane.rests_on]) == pytest.approx(heights[plane.rests_on])


def test_a_plane_added_to_the_points_is_added_to_it() -> None:
    points, heights = np.random.default_rng(3).uniform(0, 500, (30, 2)), rough(30, 9, 2.0)
    slope = points @ np.array([0.02, -0.01]) + 7.0
    at = points.mean(axis=0)
    before, after = (resting_plane(points, each, at) for each in (heights, heights + slope))
    assert after.heights(points) - before.heights(points) == pytest.approx(slope)


def test_a_place_beside_the_points_has_none() -> None:
    points = np.array([(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)])
    with pytest.raises(SurveyError):
        resting_plane(points, np.zeros(3), np.array([200.0, 200.0]))
