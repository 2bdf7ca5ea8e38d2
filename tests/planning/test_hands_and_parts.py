"""Tiles of two hands, tiles that fall apart under one cut, and how tiles of each shape are called."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest
import shapely
from msgspec.structs import replace

from tests.planning.jobs import plan_of
from tests.rooms import (
    ARROW,
    DIAMOND,
    HEXAGON,
    L_SHAPED,
    LEANING,
    PICKET,
    PLAIN,
    PLANK,
    TRIANGLE,
    TROMINO,
    WEDGE,
    rectangle,
)
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import ParallelogramTile, PolygonTile, RhombusTile, Tile
from tilelayout.layout.faces import mirror_image, tile_outline
from tilelayout.layout.tile_turns import tile_turns
from tilelayout.planning.tile_words import hand_words, tile_size

ZIGZAG = PolygonTile(
    id="z", outline=((0, 0), (60, 0), (60, 30), (90, 30), (90, 60), (30, 60), (30, 30), (0, 30))
)
ARROWS: dict[str, Any] = {"pattern": "drawn", "vectors": ((203.0, 0.0), (0.0, 140 + 3 * 1.25**0.5))}


def test_left_and_right_tiles_are_counted_apart() -> None:
    made = plan_of(L_SHAPED, LEANING, pattern="chevron", start=(200.0, 100.0))
    pieces = Counter(piece.tile for piece in made.laid.pieces())
    left, right = pieces[LEANING], pieces[mirror_image(LEANING)]
    assert left + right == made.whole + made.cut and left != right
    opened = Counter(made.laid.whole_tiles) + Counter(opened.tile for opened in made.cut_from)
    needed = opened[LEANING], opened[mirror_image(LEANING)]
    assert sum(needed) == made.tiles_needed < left + right
    assert hand_words(made) == f"{needed[0]} of the tiles are left and {needed[1]} right ones."
    assert made.tiles_needed_at_least <= made.tiles_needed


def test_a_box_of_both_hands_holds_as_many_of_each() -> None:
    boxed = replace(LEANING, per_box=10)
    made = plan_of(L_SHAPED, boxed, pattern="chevron", start=(200.0, 100.0))
    opened = Counter(made.laid.whole_tiles) + Counter(opened.tile for opened in made.cut_from)
    most = max(opened.values())
    assert made.boxes_needed is not None
    assert (made.boxes_needed - 1) * 5 < most <= made.boxes_needed * 5
    assert plan_of(PLAIN, LEANING, pattern="chevron").boxes_needed is None


def test_boxes_of_one_kind_hold_all_the_tiles() -> None:
    made = plan_of(PLAIN, replace(PLANK, per_box=8))
    assert made.boxes_needed == -(-made.tiles_needed // 8)
    assert hand_words(made) == ""


def test_the_bound_of_a_chevron_counts_each_hand_by_itself() -> None:
    """Two cut pieces, one of each hand and each a fifth of a tile, need two tiles however they are sawn."""
    made = plan_of(rectangle(727 + 6, 80), LEANING, pattern="chevron", gap=0, start=(0.0, 40.0))
    hands = {piece.tile for piece in made.laid.cut}
    assert hands == {LEANING, mirror_image(LEANING)}
    assert made.tiles_needed_at_least >= 2


def test_the_cut_list_never_puts_a_left_and_a_right_tile_in_one_row() -> None:
    made = plan_of(PLAIN, LEANING, pattern="chevron")
    for row in made.cut_rows:
        assert len({piece.tile for piece in row.pieces}) == 1
        hand = "left" if row.pieces[0].tile == LEANING else "right"
        assert row.words[0].startswith(f"{hand} tile: ")


def test_a_tile_of_one_hand_has_no_hand_on_the_cut_list() -> None:
    made = plan_of(PLAIN, replace(LEANING, left_and_right=False), row_offsets=(0.0, 0.5))
    assert made.cut_rows and not any("tile: " in words for row in made.cut_rows for words in row.words)
    assert any("left end" in words or "right end" in words for row in made.cut_rows for words in row.words)


def test_two_parts_of_one_cut_are_two_rows_and_said_apart() -> None:
    """A wall just above the points of the arrows' lower sides leaves two horns of each tile."""
    made = plan_of(rectangle(3 * 203, 400), ARROW, gap=0, start=(0.0, 400 - 40.0), **ARROWS)
    horns = [piece for piece in made.laid.cut if piece.face[:, 1].max() > 500 and piece.area < 3000]
    assert len(horns) == 6
    rows = [row for row in made.cut_rows if row.pieces[0].id in {piece.id for piece in horns}]
    assert [row.count for row in rows] == [3, 3]
    assert {row.size.split(", ")[1] for row in rows} == {
        "the part at the lower left corner",
        "the part at the lower right corner",
    }
    assert len({row.words for row in rows}) == 1


@pytest.mark.parametrize(
    ("tile", "turns"),
    [
        (TRIANGLE, (0, 120, 240)),
        (DIAMOND, (0, 180)),
        (RhombusTile(id="square", side=90, angle=90), (0, 90, 180, 270)),
        (LEANING, (0, 180)),
        (PICKET, (0, 180)),
        (TROMINO, (0,)),
        (WEDGE, (0,)),
        (replace(TRIANGLE, directional=True), (0,)),
        (ZIGZAG, (0, 180)),
    ],
    ids=lambda value: value.id if not isinstance(value, tuple) else "",
)  # fmt: skip
def test_a_tile_of_any_shape_is_turned_only_onto_itself(tile: Tile, turns: tuple[int, ...]) -> None:
    assert tile_turns(tile) == turns
    shape = shapely.Polygon(tile_outline(tile))
    for turn in turns:
        turned = shapely.affinity.rotate(shape, turn, origin=shape.centroid)
        assert tile.directional or shape.symmetric_difference(turned).area < 1e-6


@pytest.mark.parametrize(
    ("tile", "words"),
    [
        (PLANK, "597 mm × 297 mm"),
        (HEXAGON, "hexagon, 228.6 mm across flats"),
        (LEANING, "parallelogram, 420 mm × 110 mm, 60°, left and right"),
        (ParallelogramTile(id="p", length=90, width=40, angle=45), "parallelogram, 90 mm × 40 mm, 45°"),
        (DIAMOND, "rhombus, side 190 mm, 60°"),
        (TRIANGLE, "triangle, side 310 mm"),
        (PICKET, "picket, 310 mm × 97 mm, points of 48.5 mm"),
        (ARROW, "drawn, 200 mm × 190 mm over all"),
    ],
)
def test_a_tile_is_called_by_its_shape_and_measured_sizes(tile: Tile, words: str) -> None:
    assert tile_size(tile, LengthStyle.MM) == words
