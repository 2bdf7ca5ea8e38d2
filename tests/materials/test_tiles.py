"""Tiles to buy: each allowance its own line, whole boxes, what goes back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tilelayout.job.ground import Breakage
from tilelayout.job.practice_checks import breakage_problems
from tilelayout.layout.values import CutKind
from tilelayout.materials.breakage import BreakageAllowance, Delicacy, allowance, counted, delicacy_of
from tilelayout.materials.tiles import USUAL_SPARE, TilesToBuy, tiles_to_buy

NONE = BreakageAllowance(0, ())
counts = st.integers(0, 400)


def test_a_worked_example() -> None:
    """63 laid whole, 28 pieces out of 8 tiles of which 14 are notched; worked out by hand."""
    broken = allowance({Delicacy.NOTCH: 14, Delicacy.STRAIGHT: 14})
    assert [round(share.expected, 2) for share in broken.shares] == [0.93, 0.28]
    bought = tiles_to_buy((63, 28, 8), broken, per_box=8)
    assert (bought.breakage.tiles, bought.spare, bought.needed) == (2, 3, 76)
    assert (bought.boxes, bought.left, bought.boxes_to_return) == (10, 4, 0)
    assert bought.cost(32.0) == 320.0


def test_seventeen_tiles_in_boxes_of_six_are_three_boxes() -> None:
    """Needs table, row on buying."""
    bought = tiles_to_buy((17, 0, 0), NONE, spare=0, per_box=6)
    assert (bought.boxes, bought.left) == (3, 1)


def test_another_allowance_changes_its_own_line_alone() -> None:
    """Needs table: changing the allowance changes only its line."""
    some = {Delicacy.STRAIGHT: 30}
    plans = [tiles_to_buy((40, 30, 20), allowance(some, Breakage(tiles=broken))) for broken in (0, 6)]
    assert [(p.whole, p.cut, p.opened, p.spare) for p in plans] == [(40, 30, 20, USUAL_SPARE)] * 2
    assert [p.needed for p in plans] == [63, 69]
    assert plans[1].breakage.is_set


@pytest.mark.parametrize(
    ("kinds", "is_narrow", "expected"),
    [
        ((CutKind.RIP,), False, Delicacy.STRAIGHT),
        ((CutKind.RIP, CutKind.CROSS), True, Delicacy.NARROW),
        ((CutKind.RIP, CutKind.NOTCH), True, Delicacy.NOTCH),
        ((CutKind.SLOT,), False, Delicacy.NOTCH),
        ((CutKind.CURVE, CutKind.HOLE), False, Delicacy.HOLE),
        ((CutKind.OBLIQUE, CutKind.CORNER), False, Delicacy.STRAIGHT),
    ],
)
def test_a_piece_counts_under_its_most_delicate_cut(
    kinds: tuple[CutKind, ...], is_narrow: bool, expected: Delicacy
) -> None:
    assert delicacy_of(kinds, is_narrow) is expected


def test_pieces_are_counted_by_kind() -> None:
    kinds = [Delicacy.STRAIGHT, Delicacy.HOLE, Delicacy.STRAIGHT]
    assert counted(kinds) == {Delicacy.HOLE: 1, Delicacy.STRAIGHT: 2}


def test_a_kind_that_never_breaks_adds_nothing_and_a_whole_share_is_not_rounded_up() -> None:
    assert allowance({Delicacy.HOLE: 7}, Breakage(hole=0)).tiles == 0
    assert allowance({Delicacy.NOTCH: 30}).tiles == 2
    assert allowance({Delicacy.NOTCH: 31}).tiles == 3
    assert allowance({}).tiles == 0


def test_what_is_on_hand_is_not_bought() -> None:
    bought = tiles_to_buy((20, 0, 0), NONE, spare=2, on_hand=10, per_box=6)
    assert (bought.to_buy, bought.boxes, bought.left) == (12, 2, 0)
    plenty = tiles_to_buy((20, 0, 0), NONE, spare=2, on_hand=30, per_box=6)
    assert (plenty.to_buy, plenty.boxes, plenty.left, plenty.boxes_to_return) == (0, 0, 8, 0)


def test_without_a_box_count_there_are_no_boxes() -> None:
    bought = tiles_to_buy((20, 4, 4), NONE)
    assert (bought.boxes, bought.boxes_to_return, bought.left, bought.cost(9.0)) == (None, None, 0, None)


def test_a_box_that_only_breakage_would_open_can_go_back_if_nothing_breaks() -> None:
    bought = tiles_to_buy((16, 0, 0), BreakageAllowance(2, (), is_set=True), spare=0, per_box=8)
    assert (bought.boxes, bought.left, bought.boxes_to_return) == (3, 6, 1)


@given(counts, counts, counts, st.integers(0, 20), st.integers(0, 60), st.integers(1, 40))
def test_laws_of_buying(whole: int, opened: int, broken: int, spare: int, on_hand: int, per_box: int) -> None:
    bought = TilesToBuy(whole, opened, opened, BreakageAllowance(broken, ()), spare, 0, on_hand, per_box)
    assert bought.boxes is not None
    assert bought.boxes_to_return is not None
    there = on_hand + bought.boxes * per_box
    assert there - bought.needed == bought.left >= 0
    assert bought.boxes == 0 or there - per_box < bought.needed
    opened_boxes = bought.boxes - bought.boxes_to_return
    assert on_hand + opened_boxes * per_box >= min(bought.needed - broken, there)


def test_a_percentage_is_taken_of_tiles_laid_and_opened_if_a_person_sets_one() -> None:
    """Worked by hand: 10 % of 71 tiles is 7.1, so 8; it goes before the shares and never beside a number."""
    broken = allowance({Delicacy.NOTCH: 14}, Breakage(percent=10), 71)
    assert (broken.tiles, broken.percent, broken.is_set) == (8, 10, True)
    assert allowance({}, Breakage(percent=0), 71).tiles == 0
    assert allowance({}, Breakage(percent=50), 10).tiles == 5
    assert [problem.place for problem in breakage_problems(Breakage(percent=10, tiles=3))] == ["percent"]
    assert [problem.place for problem in breakage_problems(Breakage(percent=101))] == ["percent"]
