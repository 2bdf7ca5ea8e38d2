from __future__ import annotations

from math import cos, pi, sin

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rooms import (
    HEXAGON,
    L_SHAPED,
    LAYINGS,
    OBLIQUE_WITH_BAY,
    PLAIN,
    PLANK,
    SQUARE,
    floor_of,
    layings,
    layout_of,
    rectangle,
    rooms,
    round_cutout,
)
from tilelayout.job.values import Edge, Layout, Point, Surface, Tile, Visibility
from tilelayout.layout.laying import lay
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.balance import Balance, facing_pairs
from tilelayout.layout.seeking.search import Search
from tilelayout.layout.seeking.trials import Trials
from tilelayout.layout.slivers import is_sliver
from tilelayout.layout.values import Piece

OBLIQUE = floor_of((0, 0), (1800, 100), (1700, 1300), (100, 1210))
WITH_DRAIN = floor_of((0, 0), (880, 0), (880, 740), (0, 740), cutouts=(round_cutout(410, 330, 110, 3),))


def searched(surface: Surface, tile: Tile, layout: Layout, aim: Aim = Aim.WIDEST_CUT) -> Search:
    search = Search(surface, tile, layout, aim)
    for _ in search.steps():
        pass
    return search


def laid_at(surface: Surface, tile: Tile, layout: Layout, start: Point) -> float:
    narrowest = lay(surface, tile, msgspec.structs.replace(layout, start=start)).narrowest_cut
    assert narrowest is not None
    return narrowest


@given(surface=rooms(), laying=layings(), at=st.tuples(st.floats(-900, 2500), st.floats(-900, 2500)))
@settings(max_examples=60, deadline=None)
def test_a_trial_says_what_laying_says(surface: Surface, laying: tuple[Tile, Layout], at: Point) -> None:
    tile, layout = laying
    trials = Trials(tile, layout, region_of(surface, layout.gap))
    trial = trials.of([(0.0, 0.0), at])[1]
    laid = lay(surface, tile, msgspec.structs.replace(layout, start=at))
    assert (trial.whole, trial.cuts) == (laid.whole_count, len(laid.cut))
    assert trial.slivers == sum(is_sliver(piece, laid) for piece in laid.cut)
    narrowest = laid.narrowest_cut
    assert trial.narrowest == pytest.approx(
        trials.tile_narrowest if narrowest is None else narrowest, abs=1e-5
    )


@pytest.mark.parametrize(
    ("name", "surface"),
    [("grid", OBLIQUE), ("herringbone", OBLIQUE), ("hexagon point up", OBLIQUE), ("grid", WITH_DRAIN)],
)
def test_refined_starts_are_best_within_a_quarter_of_a_millimetre_all_round(
    name: str, surface: Surface
) -> None:
    tile, layout = LAYINGS[name]
    search = searched(surface, tile, layout)
    assert not search.is_proved
    x, y = search.best.trial.start
    reached = laid_at(surface, tile, layout, (x, y))
    for k in range(16):
        start = (x + 0.25 * cos(k * pi / 8), y + 0.25 * sin(k * pi / 8))
        laid = lay(surface, tile, msgspec.structs.replace(layout, start=start))
        assert laid.bare_patches or (laid.narrowest_cut or 0.0) <= reached + 2e-4


@pytest.mark.parametrize(
    ("name", "surface"), [("half bond", L_SHAPED), ("hexagon flat up", PLAIN), ("grid", WITH_DRAIN)]
)
def test_a_search_beats_every_start_of_a_coarse_raster(name: str, surface: Surface) -> None:
    tile, layout = LAYINGS[name]
    search = searched(surface, tile, layout)
    trials = Trials(tile, layout, region_of(surface, layout.gap))
    vectors = trials.placed.vectors
    starts = [tuple((a * vectors[0] + b * vectors[1]) / 12.0) for a in range(12) for b in range(12)]
    rivals = [trial.narrowest for trial in trials.of(starts) if not trial.bare]
    assert search.best.trial.narrowest >= max(rivals) - 1e-4


def test_the_same_search_finds_the_same_twice() -> None:
    once, again = (searched(OBLIQUE, PLANK, LAYINGS["half bond"][1], Aim.BALANCED) for _ in range(2))
    assert once.pool == again.pool


def test_a_search_can_be_watched_and_left_at_any_step() -> None:
    search = Search(OBLIQUE_WITH_BAY, SQUARE, LAYINGS["grid"][1], Aim.FEWEST_CUTS)
    merits = []
    for done, _ in zip(search.steps(), range(5), strict=False):
        assert 0.0 <= done < 0.5
        merits.append(search.best.merit)
    assert merits == sorted(merits)
    assert search.trials.laid < 200


def test_pieces_cut_only_at_a_hidden_edge_do_not_count() -> None:
    depth = 3 * 300 - 3 + 40
    seen = rectangle(2 * 300 - 3, depth)
    hidden = msgspec.structs.replace(seen, edges=(Edge(at=2, seen=Visibility.HIDDEN),))
    layout = layout_of(SQUARE, gap=0.0)
    assert searched(seen, SQUARE, layout).best.trial.narrowest == pytest.approx(
        167.0, abs=1e-3
    )  # (937 - 2 x 297 - 3 x 3) / 2
    best = searched(hidden, SQUARE, layout)
    assert best.best.trial.narrowest == 297.0
    assert laid_at(hidden, SQUARE, layout, best.best.trial.start) < 297.0


@pytest.mark.parametrize(("aim", "figure"), [(Aim.FEWEST_TILES, "tiles"), (Aim.FEWEST_CUTS, "cuts")])
def test_the_aims_that_count_beat_the_starts_a_tiler_would_try(aim: Aim, figure: str) -> None:
    tile, layout = LAYINGS["stepped third"]
    search = searched(L_SHAPED, tile, msgspec.structs.replace(layout, gap=6.0), aim)
    low = [(6.0, 6.0), (3594.0 - 597.0, 6.0), (1800.0, 6.0), (1800.0 - 298.5, 6.0), (6.0, 3094.0 - 297.0)]
    tried = [getattr(trial, figure) for trial in search.trials.of(low)]
    assert getattr(search.best.trial, figure) <= min(tried)


@pytest.mark.parametrize("name", ["grid", "half bond", "stepped third", "diagonal", "hexagon point up"])
def test_a_balanced_start_leaves_the_same_cuts_at_opposite_walls(name: str) -> None:
    tile, layout = LAYINGS[name]
    region = region_of(PLAIN, 6.0)
    trials = Trials(tile, layout, region)
    balance = Balance(facing_pairs(region), trials.placed)
    starts = balance.starts()
    assert starts
    for start in starts[:6]:
        assert balance.unequal(start) == pytest.approx(0.0, abs=1e-3)
        laid = lay(PLAIN, tile, msgspec.structs.replace(layout, start=start, gap=6.0))
        for axis, far in ((0, 2994.0), (1, 2394.0)):
            near = depths(laid.cut, axis, 6.0, -1)
            assert near == depths(laid.cut, axis, far, 1)


def depths(pieces: tuple[Piece, ...], axis: int, wall: float, side: int) -> set[float]:
    """How deep the pieces along a wall are, to a tenth of a mm, but for those in a corner of the room."""
    found, ends = set(), ((6.0, 2394.0), (6.0, 2994.0))[axis]
    for piece in pieces:
        along, across = piece.outline[:, axis], piece.outline[:, 1 - axis]
        is_there = abs((along.max() if side > 0 else along.min()) - wall) < 1e-6
        if is_there and not any(abs(across - end).min() < 1e-6 for end in ends):
            found.add(round(float(along.max() - along.min()), 1))
    return found


def test_moved_off_by_d_opposite_cuts_differ_by_twice_d() -> None:
    region = region_of(PLAIN, 6.0)
    trials = Trials(SQUARE, layout_of(SQUARE), region)
    balance = Balance(facing_pairs(region), trials.placed)
    x, y = balance.starts()[0]
    assert balance.unequal((x + 11.0, y)) == pytest.approx(22.0)
    assert balance.unequal((x + 11.0, y - 4.0)) == pytest.approx(30.0)


def test_hexagons_and_herringbone_take_part_with_every_aim() -> None:
    for tile, layout in (LAYINGS["herringbone"], (HEXAGON, layout_of(HEXAGON, "hexagon"))):
        assert len(cell_of(layout, tile).faces) >= 1
        for aim in Aim:
            search = searched(rectangle(1500, 1100), tile, layout, aim)
            assert search.best.trial.bare == 0
