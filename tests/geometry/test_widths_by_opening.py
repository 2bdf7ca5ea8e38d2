"""Random notched pieces, each measured again the slow way by a general library (see `opened`)."""

from __future__ import annotations

from math import cos, pi, sin

import numpy as np
import pytest
import shapely
from shapely import affinity

from tests.geometry.opened import lost, widest_given_back
from tilelayout.geometry.widths import least_widths, narrowest, narrowest_of_many

SHORTEST = 4.0
"""No side of a piece is shorter: the library would take it for a roughness, and the saw could not cut it."""


def box(random: np.random.Generator, turn: float) -> shapely.Polygon:
    """A post or a wall corner somewhere about a tile, turned."""
    width, depth = random.uniform(15, 250, 2)
    x, y = random.uniform(-60, 400), random.uniform(-60, 250)
    return affinity.rotate(shapely.box(x, y, x + width, y + depth), turn)


def wedge(random: np.random.Generator) -> shapely.Polygon:
    """The corner of a room that points into the tile, of any angle."""
    x, y = random.uniform(20, 380), random.uniform(20, 280)
    first = random.uniform(0, 2 * pi)
    ways = (first, first + random.uniform(0.3, 2.8))
    return shapely.Polygon([(x, y), *((x + 900 * cos(a), y + 900 * sin(a)) for a in ways)])


def piece(seed: int) -> shapely.Polygon | None:
    """A tile less one to three of these; None if it became convex, tiny or ragged."""
    random = np.random.default_rng(seed)
    shape = shapely.box(0, 0, random.choice([200, 300, 400, 600]), random.choice([200, 300]))
    for _ in range(random.integers(1, 4)):
        taken = (
            box(random, 0.0),
            box(random, random.uniform(0, 90)),
            box(random, 45.0),
            wedge(random),
        )[random.integers(0, 4)]
        parts = [part for part in shapely.get_parts(shape - taken) if isinstance(part, shapely.Polygon)]
        shape = max(parts, key=lambda part: float(part.area), default=shapely.Polygon())
    return shape if is_plain(shape) else None


def is_plain(shape: shapely.Polygon) -> bool:
    if shape.is_empty or shape.convex_hull.area - shape.area < 50:
        return False
    rings = [shapely.get_coordinates(ring) for ring in (shape.exterior, *shape.interiors)]
    return min(float(np.hypot(*np.diff(ring, axis=0).T).min()) for ring in rings) >= SHORTEST


def pieces(seeds: range) -> list[shapely.Polygon]:
    return [shape for shape in map(piece, seeds) if shape is not None]


def rings_of(shape: shapely.Polygon) -> tuple[np.ndarray, list[np.ndarray]]:
    rings = [shapely.get_coordinates(ring)[:-1] for ring in (shape.exterior, *shape.interiors)]
    return rings[0], rings[1:]


@pytest.mark.parametrize("first", range(0, 160, 40))
def test_it_is_the_widest_opening_that_gives_all_of_the_piece_back(first: int) -> None:
    for shape in pieces(range(first, first + 40)):
        found = narrowest(*rings_of(shape))
        assert found == pytest.approx(widest_given_back(shape, within=0.05), rel=0.012, abs=0.1)


def test_a_passage_round_two_corners_is_as_narrow_as_its_arms_and_not_as_the_gap_between_their_lines() -> (
    None
):
    # Both sides of the gap run on into a part of their own, where they grow back to what they were.
    shape = shapely.Polygon(
        [(200, 28), (178, 28), (178, 0), (0, 0), (0, 103), (112, 103), (112, 150), (200, 150)]
    )
    assert narrowest(*rings_of(shape)) == pytest.approx(widest_given_back(shape, within=0.02), abs=0.05)
    assert narrowest(*rings_of(shape)) > 103 - 28


def test_many_pieces_at_once_are_each_as_narrow_as_alone() -> None:
    rings = [rings_of(shape) for shape in pieces(range(300, 360))]
    together = narrowest_of_many([outline for outline, _ in rings], [holes for _, holes in rings])
    assert together.tolist() == [narrowest(*each) for each in rings]


@pytest.mark.parametrize("limit", [20.0, 50.0, 120.0])
def test_a_limit_spares_only_the_exact_width_of_what_is_wider(limit: float) -> None:
    rings = [rings_of(shape) for shape in pieces(range(400, 460))]
    outlines = [outline for outline, _ in rings]
    holes = {at: inner for at, (_, inner) in enumerate(rings) if inner}
    sizes = np.array([len(outline) for outline in outlines])
    widths, are_exact = least_widths(np.concatenate(outlines), sizes, holes, limit)
    exact = np.array([narrowest(*each) for each in rings])
    np.testing.assert_array_equal(widths[are_exact], exact[are_exact])
    assert (widths[~are_exact] >= limit).all()
    assert (widths <= exact + 1e-9).all()
    assert are_exact[exact < limit].all()


def test_the_slow_way_knows_the_arm_of_an_l() -> None:
    shape = shapely.box(0, 0, 300, 100).union(shapely.box(0, 0, 45, 300))
    assert isinstance(shape, shapely.Polygon)
    assert widest_given_back(shape, within=0.01) == pytest.approx(45, abs=0.02)
    assert lost(shape, 44.9) < 1e-3
    assert lost(shape, 45.1) > 100
