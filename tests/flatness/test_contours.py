"""Contours: on a known surface they are known lines, and what is over a level has a known area."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from tests.flatness.floors import grid, rough
from tilelayout.flatness.contours import contours, ground_over, label_place, levels_between
from tilelayout.flatness.mesh import mesh_of


def test_a_plane_has_straight_contours_at_their_heights() -> None:
    mesh = mesh_of(grid(5, 4))
    heights = mesh.heights(mesh.places[:20] @ np.array([0.01, 0.0]))
    for contour in contours(mesh, heights, [1.5, 4.0, 10.0]):
        assert contour.pieces[..., 0] == pytest.approx(contour.level * 100.0)
        lengths = np.abs(np.diff(contour.pieces[..., 1], axis=1))
        assert lengths.sum() == pytest.approx(900.0)


def test_every_point_of_a_contour_has_its_height_on_any_surface() -> None:
    mesh = mesh_of(grid(7, 6))
    heights = mesh.heights(rough(42, 5, 3.0))
    for contour in contours(mesh, heights, levels_between(heights.min(), heights.max(), 0.5)):
        at = mesh.heights_at(contour.pieces.reshape(-1, 2), heights)
        assert at == pytest.approx(contour.level, abs=1e-6)


def test_the_area_over_a_level_is_the_share_of_points_thrown_over_it() -> None:
    mesh = mesh_of(grid(7, 6))
    heights = mesh.heights(rough(42, 6, 2.0))
    thrown = np.random.default_rng(1).uniform((0, 0), (1800, 1500), (40_000, 2))
    share = float(np.mean(mesh.heights_at(thrown, heights) > 0.7))
    assert float(shapely.area(ground_over(mesh, heights, 0.7))) / (1800 * 1500) == pytest.approx(
        share, abs=0.01
    )


def test_a_label_stands_on_its_line_and_clear_of_the_readings() -> None:
    mesh = mesh_of(grid(5, 4))
    heights = mesh.heights(mesh.places[:20] @ np.array([0.01, 0.0]))
    (contour,) = contours(mesh, heights, [1.5])
    place = label_place(contour, mesh.places[:20])
    assert place is not None and place[0] == pytest.approx(150.0)
    (none,) = contours(mesh, heights, [99.0])
    assert label_place(none, mesh.places[:20]) is None
