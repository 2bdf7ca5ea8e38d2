"""Whether outlines fill the plane, against what is known of small polyominoes and of other shapes."""

from __future__ import annotations

from itertools import product
from math import sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tilelayout.geometry.growing import gains, grown
from tilelayout.geometry.rings import area, counter_clockwise, following, without_straight_corners
from tilelayout.layout.lattices import fitting_joint, repeat_of
from tilelayout.layout.tiling import misfit, reduced, tiles_by_lattice
from tilelayout.layout.values import Points

Cells = frozenset[tuple[int, int]]

SHAPES = {1: 1, 2: 1, 3: 2, 4: 5, 5: 9, 6: 24, 7: 41, 8: 121}
"""Free polyominoes of n squares that fill the plane by translation alone: all up to four, 9 of the 12
pentominoes, 24 of the 35 hexominoes, 41 of 108, 121 of 369. G. C. Rhoads, "Planar tilings by polyominoes,
polyhexes, and polyiamonds", J. Comput. Appl. Math. 174 (2005), treats them; the counts were
worked out anew from cells."""

FREE = {1: 1, 2: 1, 3: 2, 4: 5, 5: 12, 6: 35, 7: 108, 8: 369}
"""Free polyominoes of n squares, as they are generally known (sequence A000105 of the Encyclopedia of Integer
Sequences; from memory)."""

LATTICES = {1: 1, 2: 2, 3: 4, 4: 12, 5: 15, 6: 47, 7: 54, 8: 178}
"""Lattices with one of them in each cell, over all shapes: worked out from the cells alone, by remainders."""


def free_polyominoes(count: int) -> list[Cells]:
    """Every polyomino of so many squares, one for all its turns and mirror images."""
    found = {frozenset({(0, 0)})}
    for _ in range(count - 1):
        found = {_plainest(shape | {step}) for shape in found for step in _beside(shape)}
    return sorted(found, key=sorted)


def _beside(shape: Cells) -> set[tuple[int, int]]:
    ways = ((1, 0), (-1, 0), (0, 1), (0, -1))
    return {(x + dx, y + dy) for x, y in shape for dx, dy in ways} - shape


def _plainest(shape: Cells) -> Cells:
    looks = []
    for turns, is_mirrored in product(range(4), (False, True)):
        cells = [(y, x) if is_mirrored else (x, y) for x, y in shape]
        for _ in range(turns):
            cells = [(-y, x) for x, y in cells]
        left, low = min(x for x, _ in cells), min(y for _, y in cells)
        looks.append(sorted((x - left, y - low) for x, y in cells))
    return frozenset(min(looks))


def outline_of(shape: Cells, side: float = 100.0) -> Points:
    squares = shapely.union_all([shapely.box(x, y, x + 1, y + 1) for x, y in shape])
    ring = shapely.get_coordinates(shapely.get_exterior_ring(squares))[:-1] * side
    return without_straight_corners(counter_clockwise(ring))


def lattices_of(count: int) -> list[Points]:
    """Every lattice of whole numbers with so many squares in a cell: (a, 0), (s, b), 0 <= s < a."""
    sizes = [(a, count // a) for a in range(1, count + 1) if count % a == 0]
    return [np.array([(a, 0.0), (s, b)]) for a, b in sizes for s in range(a)]


def cells_differ(shape: Cells, lattice: Points) -> bool:
    """Whether no two squares stand in one place of the cell: all that tiling by a lattice asks for."""
    a, s, b = int(lattice[0, 0]), int(lattice[1, 0]), int(lattice[1, 1])
    places = {((x - (y // b) * s) % a, y % b) for x, y in shape}
    return len(places) == len(shape)


@pytest.mark.parametrize("count", SHAPES)
def test_polyominoes_fill_the_plane_by_as_many_lattices_as_is_known(count: int) -> None:
    found = dict.fromkeys(free_polyominoes(count), 0)
    for shape in found:
        outline = outline_of(shape)
        for lattice in lattices_of(count):
            fits = cells_differ(shape, lattice)
            assert tiles_by_lattice([outline], lattice * 100.0) == fits
            found[shape] += fits
    assert len(found) == FREE[count]
    assert sum(number > 0 for number in found.values()) == SHAPES[count]
    assert sum(found.values()) == LATTICES[count]


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5])
def test_a_lattice_is_found_for_each_polyomino_that_has_one_and_a_pair_for_the_others(count: int) -> None:
    """Up to six squares every polyomino fills the plane with half-turned copies (Conway's criterion)."""
    alone = 0
    for shape in free_polyominoes(count):
        ring = outline_of(shape)
        found = repeat_of(ring, 0.0)
        assert found is not None
        rings = [ring] if found.pivot is None else [ring, 2 * found.pivot - ring]
        assert tiles_by_lattice(rings, found.vectors)
        alone += found.pivot is None
    assert alone == SHAPES[count]


def test_polyominoes_made_smaller_by_half_a_joint_all_round_have_that_joint() -> None:
    """Some nest with any joint, as an L does along its diagonal; the others are told the one that works."""
    refused = 0
    for shape in free_polyominoes(5):
        tile = grown(outline_of(shape), -2.0)
        assert repeat_of(tile, 4.0) is not None
        if repeat_of(tile, 3.0) is None:
            refused += 1
            assert fitting_joint(tile, 3.0) == pytest.approx(4.0, abs=1e-5)
    assert refused >= 5


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-90, 90), st.floats(-90, 90)), min_size=4, max_size=4, unique=True),
    st.floats(0, 6),
)
def test_every_quadrilateral_fills_the_plane_with_its_half_turned_copy(
    bends: list[tuple[float, float]], joint: float
) -> None:
    """Known since antiquity, convex or not; the corners are bent from those of a square of 300."""
    square = [(0.0, 0.0), (300.0, 0.0), (300.0, 300.0), (0.0, 300.0)]
    ring = np.array(square) + np.array(bends)
    assert repeat_of(ring, joint) is not None


@pytest.mark.parametrize("joint", [0.0, 2.0, 5.0])
def test_a_regular_pentagon_is_found_no_way(joint: float) -> None:
    turns = np.radians(np.arange(5) * 72.0)
    assert repeat_of(100.0 * np.column_stack([np.cos(turns), np.sin(turns)]), joint) is None


def test_a_misfit_is_measured() -> None:
    square = np.array([(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)])
    loose = misfit([square], np.array([(110.0, 0.0), (0.0, 100.0)]))
    assert loose.overlap == 0.0 and loose.place is None
    assert loose.gap == pytest.approx(1000.0)
    tight = misfit([square], np.array([(90.0, 0.0), (0.0, 120.0)]))
    assert tight.overlap == pytest.approx(1000.0)
    assert tight.gap == pytest.approx(90 * 120 - 90 * 100)
    assert tight.place is not None and shapely.Polygon(square).covers(shapely.Point(tight.place))
    assert not misfit([square], np.array([(100.0, 0.0), (37.5, 100.0)])).is_there


@settings(max_examples=60, deadline=None)
@given(*(st.integers(-40, 40) for _ in range(4)))
def test_reduced_vectors_are_of_the_same_lattice_and_shortest(a: int, b: int, c: int, d: int) -> None:
    vectors = np.array([(a, b), (c, d)], dtype=float)
    if a * d == b * c:
        return
    short = reduced(vectors)
    steps = short @ np.linalg.inv(vectors)
    np.testing.assert_allclose(steps, steps.round(), atol=1e-6)
    assert np.linalg.det(short) == pytest.approx(abs(a * d - b * c))
    least = min(np.hypot(*(np.array(way) @ short)) for way in product(range(-3, 4), repeat=2) if any(way))
    assert min(np.hypot(*short.T)) == pytest.approx(least)


def test_growing_moves_every_side_out() -> None:
    angle = np.array([(0, 0), (200, 0), (200, 100), (100, 100), (100, 200), (0, 200)], dtype=float)
    wider = grown(angle, 5.0)
    assert wider.tolist() == [[-5, -5], [205, -5], [205, 105], [105, 105], [105, 205], [-5, 205]]
    assert gains(angle).tolist() == [2, 2, 0, 0, 2, 2]
    triangle = np.array([(0, 0), (100, 0), (50, 50 * sqrt(3))])
    assert gains(triangle) == pytest.approx([2 * sqrt(3)] * 3)
    mitred = shapely.Polygon(triangle).buffer(4, join_style="mitre", mitre_limit=10)
    assert area(grown(triangle, 4.0)) == pytest.approx(mitred.area)
    assert np.hypot(*(following(grown(triangle, 4.0)) - grown(triangle, 4.0)).T) == pytest.approx(
        [100 + 8 * sqrt(3)] * 3
    )
