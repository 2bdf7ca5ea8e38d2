"""Seeking held against published sums and against laws that follow from the geometry alone."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.layout.test_seek_exact import sought
from tests.rooms import INCH, layout_of, rectangle
from tilelayout.job.values import RectangleTile

HEIGHT_IN_ROWS = 3


def best_cut(
    run: float, tile_size: float, joint: float, offsets: tuple[float, ...] = (0.0,), least: float = 0.0
) -> float:
    """The widest narrowest cut over a run of wall, in rows that end at joints above and below."""
    tile = RectangleTile(id="t", length=tile_size, width=tile_size)
    floor = rectangle(run, HEIGHT_IN_ROWS * (tile_size + joint) - joint)
    layout = layout_of(tile, row_offsets=offsets, joint=joint, gap=0.0, least_piece=least)
    best, search = sought(floor, tile, layout)
    assert search.is_proved
    return best.narrowest


def test_a_full_tile_at_one_side_and_a_sliver_at_the_other_become_two_equal_cuts() -> None:
    # A 24 in module with a full tile at one side and a 1 1/2 in sliver at the other gives 12 3/4 in both
    # sides: Floor Covering Installer, article 95138.
    assert best_cut((5 * 24 + 1.5) * INCH, 24 * INCH, 0.0) == pytest.approx(12.75 * INCH, abs=1e-3)


def test_two_small_cuts_become_two_large_ones() -> None:
    # Cuts of 1 3/4 and 1 1/4 in with a tile of 11 3/4 in become 7 3/8 in both sides: Floor Trends, article
    # 111279. The sum there leaves joints out.
    run = (1.75 + 1.25 + 6 * 11.75) * INCH
    assert best_cut(run, 11.75 * INCH, 0.0) == pytest.approx(7.375 * INCH, abs=1e-3)


def test_a_strip_over_a_tub_is_shared_between_top_and_bottom() -> None:
    # 13 in tile with 3 3/8 in left over a tub: 8 3/16 in top and bottom. A remodeller's article on tubs.
    assert best_cut((4 * 13 + 3.375) * INCH, 13 * INCH, 0.0) == pytest.approx(8.1875 * INCH, abs=1e-3)


@given(wall=st.integers(40 * 8, 200 * 8), tile=st.integers(4 * 8, 18 * 8))
@settings(max_examples=40, deadline=None)
def test_the_half_tile_rule(wall: int, tile: int) -> None:
    # End tile = (wall - n x tile + tile) / 2: Navy training manual 14044, figure 7-26; joints not counted. n
    # is how many whole tiles the wall takes; where it takes them without a rest there is nothing to cut.
    rest = wall % tile
    end_tile = (rest + tile) / 2 if rest else tile
    assert best_cut(wall / 8 * INCH, tile / 8 * INCH, 0.0) == pytest.approx(end_tile / 8 * INCH, abs=1e-3)


@pytest.mark.parametrize(
    ("wall", "tile", "joint", "gap", "cut"),
    [
        (120 * INCH, 12 * INCH, INCH / 8, INCH / 4, 11.1875 * INCH),  # computed: 8 whole and two cuts
        (3000.0, 597.0, 3.0, 5.0, 593.5),  # computed: 3 whole and two cuts; five whole ones leave 1.5 mm gaps
        (60 * INCH, 6 * INCH, INCH / 8, INCH / 8, 5.3125 * INCH),  # computed: 8 whole and two cuts
    ],
)
def test_worked_examples_with_joints_and_gaps(
    wall: float, tile: float, joint: float, gap: float, cut: float
) -> None:
    piece = RectangleTile(id="t", length=tile, width=tile)
    floor = rectangle(wall, HEIGHT_IN_ROWS * (tile + joint) - joint + 2 * gap)
    best, _ = sought(floor, piece, layout_of(piece, joint=joint, gap=gap))
    assert best.narrowest == pytest.approx(cut, abs=1e-3)


def lengths() -> st.SearchStrategy[float]:
    return st.integers(1_000, 6_000).map(float)


@given(run=lengths(), tile=st.integers(80, 600), joint=st.integers(0, 10))
@settings(max_examples=60, deadline=None)
def test_one_of_the_two_centred_grids_leaves_half_a_coordinating_width_so_the_best_start_does(
    run: float, tile: int, joint: int
) -> None:
    # Derived: the two centred layouts differ by half a coordinating width m, so of their cuts (equal at both
    # ends) one is m/2 or more; where it is over the tile it is a whole tile and a wider gap.
    assert best_cut(run, float(tile), float(joint)) >= min((tile + joint) / 2, tile) - 1e-3


@given(run=lengths(), tile=st.integers(80, 600), joint=st.integers(0, 10))
@settings(max_examples=60, deadline=None)
def test_bounds_of_half_and_third_offsets(run: float, tile: int, joint: int) -> None:
    # Derived: in half bond the widest narrowest cut is m/4 to m/2, in a third offset m/6 to m/3. A wall where
    # one row ends in a joint has a cut of m/2 or (third) m/3 in another.
    m = tile + joint
    half = best_cut(run, float(tile), float(joint), (0.0, 0.5))
    third = best_cut(run, float(tile), float(joint), (0.0, 1 / 3, 2 / 3))
    assert m / 4 - 1e-3 <= half <= m / 2 + 1e-3
    assert m / 6 - 1e-3 <= third <= m / 3 + 1e-3


@given(count=st.integers(2, 9), joint=st.integers(1, 12), share=st.floats(0.0, 1.0))
@settings(max_examples=40, deadline=None)
def test_a_rest_between_face_and_coordinating_width_is_a_whole_tile_and_a_wider_gap(
    count: int, joint: int, share: float
) -> None:
    tile = RectangleTile(id="t", length=297.0, width=297.0)
    run = count * (297.0 + joint) - joint + share * joint
    floor = rectangle(run, 2 * 297.0 + joint)
    best, search = sought(floor, tile, layout_of(tile, joint=float(joint), gap=0.0, least_piece=0.0))
    assert search.is_proved
    assert (best.whole, best.cuts, best.narrowest) == (2 * count, 0, 297.0)
