"""The map of starts: every value against a laying of its own, its repeats, mirrors, and a room by hand."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

import numpy as np
import pytest
from msgspec.structs import replace

from tests.rooms import CAST, LAYINGS, SQUARE, layout_of, rectangle
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Edge, Layout, RectangleTile, Surface, Tile, Visibility
from tilelayout.layout.laying import lay
from tilelayout.layout.offset_map.handovers import handovers
from tilelayout.layout.offset_map.map_of_starts import OffsetMap, steps
from tilelayout.layout.offset_map.own_repeat import own_repeat
from tilelayout.layout.offset_map.rating import Rater
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.slivers import is_sliver
from tilelayout.layout.values import Points

SMALL = RectangleTile(id="small", length=98, width=98)
BY_HAND = layout_of(SMALL, joint=2.0, gap=0.0)
ROOM = rectangle(1000, 1000)


def _rater(surface: Surface, tile: Tile, layout: Layout) -> Rater:
    return Rater(tile, layout, region_of(surface, layout.gap))


def _repeat(rater: Rater, layout: Layout) -> Points:
    return own_repeat(rater.cell) @ turning(layout.angle)


def _starts(vectors: Points, count: int, seed: int) -> Points:
    return np.random.default_rng(seed).random((count, 2)) @ vectors


def _laid_figures(surface: Surface, tile: Tile, layout: Layout, start: Points) -> tuple[float, int, int, int]:
    """Narrowest cut, slivers, cuts and whole tiles of one start, from laying alone."""
    laid = lay(surface, tile, replace(layout, start=(float(start[0]), float(start[1]))))
    least = laid.narrowest_cut if laid.cut else None
    slivers = sum(is_sliver(piece, laid) for piece in laid.cut)
    narrowest = Rater(tile, layout, laid.region).tile_narrowest if least is None else least
    return narrowest, slivers, len(laid.cut), laid.whole_count


@pytest.mark.parametrize("room", ["plain", "L-shaped", "with holes", "oblique with a bay", "slotted"])
@pytest.mark.parametrize(
    "laying",
    ["grid", "stepped third", "diagonal", "herringbone", "hexagon flat up", "chevron", "drawn arrows"],
)
def test_every_figure_is_that_of_the_start_laid_by_itself(room: str, laying: str) -> None:
    surface, (tile, layout) = CAST[room], LAYINGS[laying]
    rater = _rater(surface, tile, layout)
    starts = _starts(_repeat(rater, layout), 5, seed=len(room) * 100 + len(laying))
    for start, rating in zip(starts, rater.rate(starts), strict=True):
        narrowest, *counts = _laid_figures(surface, tile, layout, start)
        assert rating.narrowest == pytest.approx(narrowest, abs=1e-4)
        assert [rating.slivers, rating.cuts, rating.whole] == counts
        assert rating.is_exact


def test_what_nobody_looks_at_is_no_narrowest_cut_and_no_sliver() -> None:
    room, start = rectangle(1000, 998), [(12.0, 0.0)]  # ten rows: 10 at the left, 88 at the right
    hidden = replace(room, edges=(Edge(at=3, seen=Visibility.HIDDEN),))
    plain, other = (_rater(surface, SMALL, BY_HAND).rate(start)[0] for surface in (room, hidden))
    assert (plain.narrowest, other.narrowest) == pytest.approx((10.0, 88.0))
    assert (plain.slivers, other.slivers) == (10, 0)
    assert plain.cuts == other.cuts == 20


@pytest.mark.parametrize("laying", list(LAYINGS))
def test_starts_a_repeat_apart_give_the_same(laying: str) -> None:
    tile, layout = LAYINGS[laying]
    rater = _rater(CAST["L-shaped"], tile, layout)
    vectors = _repeat(rater, layout)
    starts = _starts(vectors, 2, seed=3)
    here = rater.rate(starts, is_quick=True)
    for onward in ((1, 0), (0, 1), (-2, 3)):
        there = rater.rate(starts + np.array(onward) @ vectors, is_quick=True)
        for one, other in zip(here, there, strict=True):
            assert other.narrowest == pytest.approx(one.narrowest, abs=1e-4)
            assert (other.slivers, other.cuts, other.whole) == (one.slivers, one.cuts, one.whole)


def test_a_mirrored_room_has_the_mirrored_map() -> None:
    surface, rater = CAST["L-shaped"], _rater(CAST["L-shaped"], SQUARE, layout_of(SQUARE))
    mirrored = replace(surface, outline=tuple((-x, y) for x, y in reversed(surface.outline)))
    other = _rater(mirrored, SQUARE, layout_of(SQUARE))
    starts = _starts(_repeat(rater, layout_of(SQUARE)), 24, seed=9)
    there = starts * (-1, 1) - (SQUARE.length, 0)  # a tile's lower left corner is its mirror's lower right
    for one, two in zip(rater.rate(starts), other.rate(there), strict=True):
        assert two.narrowest == pytest.approx(one.narrowest, abs=1e-4)
        assert (two.slivers, two.cuts, two.whole) == (one.slivers, one.cuts, one.whole)


@pytest.mark.parametrize("room", ["plain", "L-shaped", "slotted"])
def test_between_straight_walls_the_quick_rating_is_right_where_nothing_is_squeezed(room: str) -> None:
    rater = _rater(CAST[room], *LAYINGS["grid"])
    starts = _starts(_repeat(rater, LAYINGS["grid"][1]), 48, seed=1)
    exact, quick = rater.rate(starts), rater.rate(starts, is_quick=True)
    same = [abs(q.narrowest - e.narrowest) < 1e-4 for q, e in zip(quick, exact, strict=True)]
    assert np.mean(same) > 0.9
    assert all(same[k] for k in range(len(same)) if quick[k].is_exact)


# --- a room by hand: 1000 square, tiles 98 with joints of 2, so every 100 mm a tile ----------------------


@lru_cache(maxsize=1)
def _finished() -> OffsetMap:
    rater = _rater(ROOM, SMALL, BY_HAND)
    *_, last = steps(rater, _repeat(rater, BY_HAND))
    return last


def test_the_finished_map_holds_the_sums_done_by_hand() -> None:
    made = _finished()
    assert made.is_finished
    assert made.vectors.round(6).tolist() == [[100.0, 0.0], [0.0, 100.0]]
    n = made.narrowest.shape[0]
    for i in range(0, n, 5):
        for j in range(0, n, 7):
            by_hand = min(_depth_by_hand(100.0 * i / n), _depth_by_hand(100.0 * j / n))
            assert made.narrowest[i, j] == pytest.approx(by_hand, abs=1e-4)


def _depth_by_hand(start: float) -> float:
    """The narrowest cut along one axis: at the left start - 2, at the right 100 - start; under 5 is left."""
    depths = [start - 2.0, 100.0 - start]
    return min([depth for depth in depths if 5.0 <= depth < 98.0], default=98.0)


def test_the_worst_cut_changes_hands_where_opposite_cuts_are_equal() -> None:
    made = _finished()
    names = np.array([*made.borders, ""])[made.worst]
    n = names.shape[0]
    middle = n // 2  # at 50 mm up, so the walls at the left and right decide
    assert names[n // 4, middle] == "edge 3"  # 25 mm on: 23 at the left wall
    assert names[3 * n // 4, middle] == "edge 1"  # 75 mm on: 25 at the right wall
    assert names[middle, n // 4] == "edge 0"
    assert names[middle, 3 * n // 4] == "edge 2"


def test_each_picture_is_whole_and_none_is_less_exact_than_the_one_before() -> None:
    rater = _rater(CAST["plain"], *LAYINGS["grid"])
    seen = []
    for made in steps(rater, _repeat(rater, LAYINGS["grid"][1])):
        seen.append((made.narrowest.shape, made.share_done))
        assert np.isfinite(made.narrowest).all()
        assert made.is_rated.any()
        if len(seen) == 8:
            break
    assert seen[0][1] == 1.0
    for (shape, share), (next_shape, next_share) in pairwise(seen):
        assert next_shape >= shape
        assert next_share >= share or next_shape > shape


def test_the_map_is_the_same_every_time() -> None:
    tile, layout = LAYINGS["hexagon point up"]
    rater = _rater(CAST["with holes"], tile, layout)
    starts = _starts(_repeat(rater, layout), 20, seed=5)
    assert rater.rate(starts) == _rater(CAST["with holes"], tile, layout).rate(starts)
    alone = [rater.rate([start])[0] for start in starts]
    for one, among_others in zip(alone, rater.rate(starts), strict=True):
        assert one.narrowest == pytest.approx(among_others.narrowest, abs=1e-6)


# --- repeats and lines -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("laying", "area"),
    [
        ("grid", 300.0 * 300.0),
        ("stepped third", 600.0 * 300.0),  # one row says all: the next is the same, a third on
        ("half bond", 600.0 * 300.0),
        ("alternating third", 416.0 * 154.0 * 2),
        ("herringbone", 600.0 * 300.0 * 2),
        ("hexagon point up", 231.6**2 * np.sqrt(3.0) / 2.0),
    ],
)
def test_the_own_repeat_is_the_smallest(laying: str, area: float) -> None:
    tile, layout = LAYINGS[laying]
    (a, b), (c, d) = own_repeat(cell_of(layout, tile))
    assert a * d - b * c == pytest.approx(area, rel=1e-9)


def test_a_cell_that_holds_its_pattern_twice_is_halved() -> None:
    twice = layout_of(SQUARE, row_offsets=(0.0, 1 / 3, 0.0, 1 / 3))
    once = layout_of(SQUARE, row_offsets=(0.0, 1 / 3))
    vectors, wanted = (own_repeat(cell_of(layout, SQUARE)) for layout in (twice, once))
    assert np.abs(vectors) == pytest.approx(np.abs(wanted))


def test_lines_run_between_different_borders_and_all_round() -> None:
    halves = np.zeros((4, 4), dtype=np.int64)
    halves[2:] = 1
    lines = handovers(halves)
    assert sorted(set(lines[..., 0].ravel().tolist())) == [1.5, 3.5]
    assert len(lines) == 8
    assert not len(handovers(np.ones((3, 3), dtype=np.int64)))
    spot = np.zeros((3, 3), dtype=np.int64)
    spot[1, 1] = 1
    ring = handovers(spot)
    assert len(ring) == 4  # a diamond round the one start
    assert np.abs(ring - 1.0).sum(axis=2) == pytest.approx(0.5)
