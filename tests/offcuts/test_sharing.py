"""Offcuts shared by the rules, checked from outside; the fewest tiles against a constraint solver; laws."""

from __future__ import annotations

import itertools
import os
import subprocess
import sys
from math import floor

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from ortools.sat.python import cp_model
from shapely import Polygon, affinity

from tests.offcuts.checked import check, closed, sides
from tests.rooms import (
    CAST,
    INCH,
    LAYINGS,
    PLAIN,
    PLANK,
    SQUARE,
    layings,
    layout_of,
    rectangle,
    rooms,
    starts,
    straight_rooms,
)
from tilelayout.job.values import Layout, Point, RectangleTile, Saw, Surface, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.values import Piece
from tilelayout.offcuts.leavings import leavings
from tilelayout.offcuts.sharing import Sharing, share, share_at_once, share_steps

SAW = Saw(kerf=2.0)


def shared(laid: Laid, saw: Saw = SAW) -> Sharing:
    return share({"A": laid.cut}, laid.whole_tiles, saw)


@pytest.mark.parametrize("room", ["L-shaped", "narrower than a tile"])
@pytest.mark.parametrize("name", LAYINGS)
def test_every_plan_keeps_every_rule(room: str, name: str) -> None:
    laid = lay(CAST[room], *LAYINGS[name])
    check(shared(laid), laid, SAW)


@settings(max_examples=12, deadline=None)
@given(rooms(), layings(), starts(), st.sampled_from((0.0, 2.0, 3.5)))
def test_random_plans_keep_every_rule(
    room: Surface, laying: tuple[Tile, Layout], start: Point, kerf: float
) -> None:
    laid = lay(room, laying[0], replace(laying[1], start=start))
    saw = Saw(kerf=kerf)
    check(shared(laid, saw), laid, saw)


def test_dressed_plans_keep_the_rules_that_are_left() -> None:
    laid = lay(CAST["L-shaped"], *LAYINGS["half bond"])
    saw = Saw(dressed=True)
    check(shared(laid, saw), laid, saw)


def in_a_corner(saw: Saw, tile: RectangleTile | None = None) -> Sharing:
    """The room 100 x 100 in of the worked examples, laid from a corner: 64 whole and 17 cut pieces."""
    tile = tile or RectangleTile(id="t", length=12 * INCH, width=12 * INCH)
    start = (0.25 * INCH, 0.25 * INCH)
    laid = lay(
        rectangle(100 * INCH, 100 * INCH), tile, layout_of(tile, joint=INCH / 8, gap=INCH / 4, start=start)
    )
    return shared(laid, saw)


def test_the_room_of_the_worked_examples() -> None:
    """Worked example 54 (arithmetic, no publication): 73 tiles with factory edges to the field, else 69."""
    saw = Saw(kerf=0.08 * INCH)
    with_factory_edges = in_a_corner(saw)
    assert (with_factory_edges.tiles_needed, with_factory_edges.tiles_needed_at_least) == (73, 73)
    assert with_factory_edges.without_sharing == 81
    assert in_a_corner(with_saw(saw, dressed=True)).tiles_needed == 69


def with_saw(saw: Saw, **changes: object) -> Saw:
    changed: Saw = replace(saw, **changes)
    return changed


@pytest.mark.parametrize(("kerf", "tiles"), [(0.125, 2), (0.13, 4)])
def test_half_tiles_come_in_pairs_while_the_kerf_is_no_wider_than_the_joint(kerf: float, tiles: int) -> None:
    """Worked example 56 (arithmetic): a half of a 12 in tile at a 1/8 in joint is 5 15/16 in long."""
    tile = RectangleTile(id="t", length=12 * INCH, width=12 * INCH)
    joint = INCH / 8
    room = rectangle(2 * 12 * INCH + joint, 4 * 12 * INCH + 3 * joint)
    laid = lay(room, tile, layout_of(tile, joint=joint, gap=0, row_offsets=(0.0, 0.5)))
    assert sorted(np.ptp(piece.outline[:, 0]) / INCH for piece in laid.cut) == pytest.approx([5.9375] * 4)
    found = shared(laid, Saw(kerf=kerf * INCH))
    assert found.tiles_needed - found.whole == found.tiles_needed_at_least - found.whole == tiles


@pytest.mark.parametrize(
    ("stock", "width", "kerf"), [(298, 75, 2.5), (300, 98, 3), (300, 98, 3.1), (240, 60, 0)]
)
def test_strips_from_a_tile_keep_the_law_of_the_kerf(stock: float, width: float, kerf: float) -> None:
    """n strips of width w come from a stock W if n (w + k) <= W + k; 298, 75 and 2.5 mm give 3 (derived)."""
    tile = RectangleTile(id="t", length=stock, width=stock)
    each = floor((stock + kerf) / (width + kerf) + 1e-9)
    laid = lay(rectangle(20 * stock + 19 * 3, width), tile, layout_of(tile, gap=0))
    assert len(laid.cut) == 20
    found = shared(laid, Saw(kerf=kerf, dressed=True))
    assert found.tiles_needed == found.tiles_needed_at_least == -(-20 // each)


def places_by_plain_search(piece: Piece, kerf_tile: Polygon, turns: tuple[int, ...]) -> list[Polygon]:
    """Return where a piece with two factory directions may lie: where it was, turned about the middle."""
    ring = Polygon(piece.in_tile(piece.outline))
    return [affinity.rotate(ring, turn, origin=kerf_tile.centroid) for turn in turns]


def fewest_by_constraints(laid: Laid, turns: tuple[int, ...], kerf: float) -> tuple[int, bool]:
    """Return how few tiles a constraint solver finds, a tile for each piece and a choice of turns."""
    tile = Polygon(tile_outline(laid.tile))
    places = [places_by_plain_search(piece, tile, turns) for piece in laid.cut]
    model, count = cp_model.CpModel(), len(places)
    at = {
        (i, t, k): model.new_bool_var(f"{i} {t} {k}")
        for i in range(count)
        for t in range(i + 1)
        for k in range(len(turns))
    }
    opened = [model.new_bool_var(f"tile {t}") for t in range(count)]
    for i in range(count):
        model.add_exactly_one(at[i, t, k] for t in range(i + 1) for k in range(len(turns)))
        for t, k in itertools.product(range(i + 1), range(len(turns))):
            model.add_implication(at[i, t, k], opened[t])
        model.add(sum(at[i, i, k] for k in range(len(turns))) == opened[i])
    for i, j in itertools.combinations(range(count), 2):
        for k, m in itertools.product(range(len(turns)), repeat=2):
            if places[i][k].convex_hull.distance(places[j][m].convex_hull) < kerf - 1e-6:
                for t in range(i + 1):
                    model.add_at_most_one(at[i, t, k], at[j, t, m])
    model.minimize(sum(opened))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = 6
    status = solver.solve(model)
    return round(solver.objective_value), status == cp_model.OPTIMAL


def is_fixed(piece: Piece) -> bool:
    """Whether two factory edges that are not parallel leave a piece only its own place and its turns."""
    face = shapely.LineString(closed(piece.face)).buffer(1e-5)
    ways = [np.diff(side.coords, axis=0)[0] for side in sides(piece.outline) if face.covers(side)]
    return any(abs(a[0] * b[1] - a[1] * b[0]) > 1e-3 for a, b in itertools.combinations(ways, 2))


SMALL = [
    ("grid", rectangle(1040, 860), (0, 90, 180, 270)),
    ("half bond", rectangle(1700, 1000), (0, 180)),
    ("stepped third", rectangle(1500, 1300), (0, 180)),
    ("herringbone", rectangle(1500, 1200), (0, 180)),
    ("hexagon point up", rectangle(800, 700), (0, 60, 120, 180, 240, 300)),
]


@pytest.mark.parametrize(("name", "room", "turns"), SMALL, ids=[name for name, _, _ in SMALL])
def test_no_constraint_solver_finds_fewer(name: str, room: Surface, turns: tuple[int, ...]) -> None:
    """OR-Tools CP-SAT, a constraint solver for general use, on places that shapely alone finds."""
    laid = lay(room, LAYINGS[name][0], replace(LAYINGS[name][1], start=(131.0, 77.0)))
    assert 8 <= len(laid.cut) <= 30
    assert all(is_fixed(piece) for piece in laid.cut)
    found = shared(laid)
    tiles, is_best = fewest_by_constraints(laid, turns, SAW.kerf)
    opened = found.tiles_needed - found.whole
    assert found.is_fewest
    assert opened == tiles if is_best else opened <= tiles


@settings(max_examples=15, deadline=None)
@given(straight_rooms(), starts(), st.sampled_from((0.5, 2.0, 3.0, 5.0)))
def test_a_wider_kerf_never_needs_fewer(room: Surface, start: Point, kerf: float) -> None:
    laid = lay(room, PLANK, layout_of(PLANK, row_offsets=(0.0, 0.5), start=start))
    narrow, wide = shared(laid, Saw(kerf=kerf)), shared(laid, Saw(kerf=kerf + 1.0))
    assert narrow.tiles_needed_at_least <= wide.tiles_needed
    assert narrow.tiles_needed - narrow.gap <= wide.tiles_needed


@settings(max_examples=10, deadline=None)
@given(straight_rooms(), starts())
def test_a_directional_tile_never_needs_fewer_and_a_dressed_edge_never_more(
    room: Surface, start: Point
) -> None:
    layout = layout_of(SQUARE, row_offsets=(0.0, 0.4), start=start)
    plain = shared(lay(room, SQUARE, layout))
    directional = shared(lay(room, replace(SQUARE, directional=True), layout))
    assert plain.tiles_needed_at_least <= directional.tiles_needed
    dressed = shared(lay(room, SQUARE, layout), Saw(dressed=True))
    assert dressed.tiles_needed_at_least <= plain.tiles_needed
    assert dressed.tiles_needed <= plain.tiles_needed or not dressed.is_fewest


@settings(max_examples=10, deadline=None)
@given(straight_rooms(), starts())
def test_a_mirrored_room_needs_as_many(room: Surface, start: Point) -> None:
    """A square is its own mirror image: what fits in one room's tiles fits mirrored in the other's."""
    mirrored = replace(room, outline=tuple((-x, y) for x, y in room.outline))
    layout = layout_of(SQUARE, start=start)
    other = replace(layout, start=(-start[0] - SQUARE.length, start[1]))
    one, two = shared(lay(room, SQUARE, layout)), shared(lay(mirrored, SQUARE, other))
    assert one.is_fewest and two.is_fewest
    assert one.tiles_needed == two.tiles_needed


def test_the_order_of_the_pieces_makes_no_difference_to_the_count() -> None:
    laid = lay(CAST["oblique with a bay"], *LAYINGS["half bond"])
    counts = {
        share({"A": cut}, laid.whole_tiles, SAW).tiles_needed
        for cut in (laid.cut, laid.cut[::-1], laid.cut[5:] + laid.cut[:5])
    }
    assert len(counts) == 1


def test_no_more_than_one_piece_narrower_than_the_least_offcut_comes_from_a_tile() -> None:
    laid = lay(CAST["oblique with a bay"], *LAYINGS["diagonal"])
    narrow = {piece.id for piece in laid.cut if piece.narrowest < 80}
    found = shared(laid, Saw(least_offcut=80))
    assert len(narrow) > 3
    assert all(sum(one.piece in narrow for one in tile.pieces) <= 1 for tile in found.opened)
    assert found.tiles_needed >= shared(laid).tiles_needed_at_least


def test_a_left_tile_gives_no_piece_of_a_right_one() -> None:
    laid = lay(PLAIN, *LAYINGS["chevron"])
    found = shared(laid)
    assert len(found.by_tile) == 2
    assert found.tiles_needed == found.whole + sum(len(each.opened) for each in found.by_tile)


def test_layouts_of_one_tile_share_one_stock() -> None:
    one = lay(PLAIN, *LAYINGS["half bond"])
    other = lay(CAST["L-shaped"], *LAYINGS["half bond"])
    whole = one.whole_tiles + other.whole_tiles
    together = share({"A": one.cut, "B": other.cut}, whole, SAW)
    assert together.tiles_needed <= shared(one).tiles_needed + shared(other).tiles_needed
    assert {sawn.layout for tile in together.opened for sawn in tile.pieces} == {"A", "B"}


def test_steps_only_get_better_and_begin_at_once() -> None:
    laid = lay(PLAIN, *LAYINGS["hexagon point up"])
    steps = list(share_steps({"A": laid.cut}, laid.whole_tiles, SAW))
    for before, after in itertools.pairwise(steps):
        assert after.tiles_needed <= before.tiles_needed
        assert after.tiles_needed_at_least >= before.tiles_needed_at_least
    assert steps[0].tiles_needed == share_at_once({"A": laid.cut}, laid.whole_tiles, SAW).tiles_needed
    assert steps[-1].is_fewest and not steps[0].is_fewest
    for step in steps:
        check(step, laid, SAW)


def test_what_is_left_of_a_tile_lies_in_it_beside_its_pieces() -> None:
    laid = lay(PLAIN, *LAYINGS["diagonal"])
    for tile in shared(laid).opened:
        pieces = shapely.union_all([Polygon(one.outline) for one in tile.pieces])
        for offcut in tile.offcuts:
            shape = Polygon(offcut.outline)
            assert Polygon(tile_outline(tile.tile)).buffer(1e-6).covers(shape)
            assert shape.distance(pieces) >= SAW.kerf - 1e-6
            assert offcut.narrowest >= 20


def test_an_offcut_keeps_the_factory_edges_that_it_has() -> None:
    """A 297 mm tile less a 100 mm strip and the kerf leaves 195 x 297 mm, sawn on one side."""
    piece = np.array([(0.0, 0.0), (100.0, 0.0), (100.0, 297.0), (0.0, 297.0)])
    (offcut,) = leavings(tile_outline(SQUARE), [piece], 2.0)
    assert Polygon(offcut.outline).equals(shapely.box(102, 0, 297, 297))
    assert sorted(offcut.is_factory.tolist()) == [False, True, True, True]


DETERMINED = """
from tests.rooms import CAST, LAYINGS
from tilelayout.job.values import Saw
from tilelayout.layout.laying import lay
from tilelayout.offcuts.sharing import share
laid = lay(CAST["slotted"], *LAYINGS["hexagon point up"])
for tile in share({"A": laid.cut}, laid.whole_tiles, Saw()).opened:
    print([(one.piece, one.turned, one.outline.round(6).tolist()) for one in tile.pieces])
"""


def test_every_process_prints_the_same_plan() -> None:
    printed = {
        subprocess.run(
            [sys.executable, "-c", DETERMINED],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "77")
    }
    assert len(printed) == 1 and printed.pop()
