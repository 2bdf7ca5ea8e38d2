"""The search for the sets worth most, and the bound made from it, against a listing of all sets."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

import numpy as np
import pytest

from tests.rooms import CAST, LAYINGS, floor_of, rectangle
from tilelayout.job.values import Saw, Surface
from tilelayout.layout.laying import lay
from tilelayout.offcuts.generated import Generated
from tilelayout.offcuts.pricing import Pricing
from tilelayout.offcuts.sets import ROUNDING, KindSet, Sets
from tilelayout.offcuts.sharing import Sharing, share, share_at_once
from tilelayout.offcuts.solver import Column, Columns, prices_of
from tilelayout.offcuts.supplies import WHOLE

ASKEW = floor_of((0, 0), (1500, 45), (1455, 1245), (30, 1200))
OUT_OF_SQUARE = floor_of((0, 0), (3600, 108), (3492, 2988), (72, 2880))
SMALL_PROBLEMS = [
    (ASKEW, "grid", Saw()),
    (ASKEW, "diagonal", Saw()),
    (ASKEW, "hexagon point up", Saw()),
    (rectangle(1500, 1310), "diagonal", Saw()),
    (rectangle(1530, 1310), "half bond", Saw()),
    (CAST["with holes"], "triangles", Saw()),
    (rectangle(1530, 700), "grid", Saw(dressed=True)),
]
NO_END = 10**9


def at_once(room: Surface, name: str, saw: Saw) -> Sharing:
    laid = lay(room, *LAYINGS[name])
    return share_at_once({"A": laid.cut}, laid.whole_tiles, saw)


def listed(sets: Sets) -> set[KindSet]:
    """Every set of kinds, by trying each place after the last: no order, no bound, no symmetry."""
    return {tuple(sorted(sets.kind_of(place) for place in some)) for some in _longer(sets, (), 0.0)}


def _longer(sets: Sets, some: tuple[int, ...], area: float) -> Iterator[tuple[int, ...]]:
    fitting = sets.fitting
    for place in range(some[-1] if some else 0, len(fitting.places)):
        kind = sets.kind_of(place)
        more = area + float(fitting.grown[kind])
        if not fitting.is_distinct[place] or more > fitting.blank.room + ROUNDING:
            continue
        if sum(sets.kind_of(each) == kind for each in some) == sets.counts[kind]:
            continue
        if all(fitting.shared[each, place] for each in some):
            yield (*some, place)
            yield from _longer(sets, (*some, place), more)


@pytest.mark.parametrize(("room", "name", "saw"), SMALL_PROBLEMS)
def test_no_set_is_worth_more_than_the_best_that_is_found(room: Surface, name: str, saw: Saw) -> None:
    sets = at_once(room, name, saw).by_tile[0].supplies[WHOLE].sets
    every, rng = listed(sets), np.random.default_rng(4)
    assert len(every) > len(sets.counts)
    for prices in (rng.uniform(0.0, 1.0, len(sets.counts)), rng.choice([0.0, 0.25, 0.5], len(sets.counts))):
        worth = {kinds: float(sum(prices[kind] for kind in kinds)) for kinds in every}
        least = max(worth.values()) - 0.3
        found = Pricing(sets, prices, ()).dearest(least, NO_END, NO_END)
        assert found.is_sure and found.at_most == pytest.approx(max(worth.values()))
        assert max(worth[kinds] for kinds in found.sets) == pytest.approx(found.at_most)
        full, is_complete = Pricing(sets, prices, (), are_all=True).all_worth(least, NO_END)
        assert is_complete and set(full) <= every
        for kinds in (kinds for kinds in every if worth[kinds] > least + 1e-6):
            assert any(_holds(larger, kinds) for larger in full)


def _holds(larger: KindSet, kinds: KindSet) -> bool:
    return all(larger.count(kind) >= kinds.count(kind) for kind in kinds)


@pytest.mark.parametrize(("room", "name", "saw"), SMALL_PROBLEMS)
def test_the_bound_is_that_of_the_linear_program_over_all_sets(room: Surface, name: str, saw: Saw) -> None:
    shared = at_once(room, name, saw).by_tile[0]
    sets = shared.supplies[WHOLE].sets
    columns = Columns(tuple(sorted(Column(WHOLE, kinds) for kinds in listed(sets))), sets.counts)
    over_all = float(prices_of(columns).of_kinds @ np.array(sets.counts))
    bounds = [each.tiles for each in Generated(shared.supplies, shared.found.filled).bounds()]
    assert max(bounds) == pytest.approx(over_all, abs=1e-3)
    assert max(bounds) <= over_all + 1e-6


def test_a_search_broken_off_still_gives_a_worth_that_no_set_exceeds() -> None:
    sets = at_once(ASKEW, "hexagon point up", Saw()).by_tile[0].supplies[WHOLE].sets
    prices = np.full(len(sets.counts), 0.4)
    best = Pricing(sets, prices, ()).dearest(0.0, NO_END, NO_END).at_most
    for steps in (0, 1, 3, 10):
        assert Pricing(sets, prices, ()).dearest(0.0, steps, NO_END).at_most >= best - 1e-9


def test_sets_struck_off_are_not_found_again() -> None:
    shared = at_once(ASKEW, "hexagon point up", Saw()).by_tile[0]
    known = Generated(shared.supplies, shared.found.filled)
    *_, before = known.bounds()
    struck = {column for column in known.columns.sets if len(column.kinds) > 1}
    known.strike(struck)
    *_, after = known.bounds()
    assert not struck & set(known.columns.sets)
    assert after.tiles >= before.tiles - 1e-6


def test_a_room_of_hexagons_out_of_square_is_proved() -> None:
    """More than 100,000 ways of filling a tile count for the bound; a whole hexagon has 45,258 mm2."""
    laid = lay(OUT_OF_SQUARE, *LAYINGS["hexagon point up"])
    found = share({"A": laid.cut}, laid.whole_tiles, Saw())
    assert len(laid.cut) > 70 and found.is_fewest
    assert found.tiles_needed >= laid.whole_count + ceil(sum(piece.area for piece in laid.cut) / 45_300)
