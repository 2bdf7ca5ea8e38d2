"""The border cuts along the walls, by the trade's published sums among others."""

from __future__ import annotations

from math import cos, radians, sin, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rooms import INCH, floor_of, layout_of, rectangle, square_cutout
from tilelayout.job.values import Edge, EdgeRole, HexagonTile, Point, RectangleTile, Surface
from tilelayout.layout.borders import BorderCut, border_cuts
from tilelayout.layout.laying import Laid, lay

SQUARE = RectangleTile(id="square", length=297, width=297)


def by_edge(laid: Laid) -> dict[int, BorderCut]:
    return {cut.edge: cut for cut in border_cuts(laid)}


def laid_in_inches(wall: float, depth: float, tile: float, *, joint: float, gap: float, start: Point) -> Laid:
    """A rectangular room of square tiles, all lengths in inches."""
    size = tile * INCH
    square = RectangleTile(id="square", length=size, width=size)
    room = rectangle(wall * INCH, depth * INCH)
    at = (start[0] * INCH, start[1] * INCH)
    return lay(room, square, layout_of(square, joint=joint * INCH, gap=gap * INCH, start=at))


def sides(laid: Laid) -> tuple[float, float]:
    """The border cuts at the left and at the right, in inches."""
    cuts = by_edge(laid)
    return cuts[3].usual / INCH, cuts[1].usual / INCH


def test_half_tile_rule_of_the_navy_manual() -> None:
    # (wall - n x tile + tile) / 2 = end tile. Construction training manual NAVEDTRA 14044, figure 7-26.
    # 100 in wall, 12 in tile, no joints: n = 8, ends of 8 in, 7 whole tiles between.
    laid = laid_in_inches(100, 12, 12, joint=0, gap=0, start=(8, 0))
    assert sides(laid) == pytest.approx((8, 8))
    assert laid.whole_count == 7


def test_balancing_a_sliver_of_one_and_a_half_inches() -> None:
    # 24 in module, a full tile on one side leaves 1 1/2 in on the other: 12 3/4 in both sides once balanced.
    # Floor Covering Installer, article 95138.
    wall = 5 * 24 + 1.5
    from_one_wall = laid_in_inches(wall, 24, 24, joint=0, gap=0, start=(0, 0))
    assert sides(from_one_wall) == pytest.approx((24, 1.5))
    assert by_edge(from_one_wall)[3].is_whole
    balanced = laid_in_inches(wall, 24, 24, joint=0, gap=0, start=(12.75, 0))
    assert sides(balanced) == pytest.approx((12.75, 12.75))


def test_balancing_cuts_of_one_and_three_quarters_and_one_and_a_quarter() -> None:
    # Cuts of 1 3/4 and 1 1/4 in with tiles of 11 3/4 in become 7 3/8 in. Floor Trends, article 111279.
    wall = 4 * 11.75 + 3
    assert sides(laid_in_inches(wall, 11.75, 11.75, joint=0, gap=0, start=(1.75, 0))) == pytest.approx(
        (1.75, 1.25)
    )
    assert sides(laid_in_inches(wall, 11.75, 11.75, joint=0, gap=0, start=(7.375, 0))) == pytest.approx(
        (7.375, 7.375)
    )


@pytest.mark.parametrize(
    ("wall", "tile", "gap", "start", "ends", "whole"),
    [
        (120, 12, 1 / 4, 60 + 1 / 16, (11.1875, 11.1875), 8),
        (120, 12, 1 / 4, 54, (5.125, 5.125), 9),
        (120, 12, 1 / 4, 1 / 4, (12, 10.375), 9),
        (60, 6, 1 / 8, 30 + 1 / 16, (5.3125, 5.3125), 8),
        (60, 6, 1 / 8, 27, (2.25, 2.25), 9),
    ],
)
def test_sums_worked_by_hand(
    wall: float, tile: float, gap: float, start: float, ends: tuple[float, float], whole: int
) -> None:
    # Worked by hand: wall = 2 gaps + 2 ends + n tiles + (n + 1) joints of 1/8 in; no published source.
    laid = laid_in_inches(wall, tile + 2 * gap, tile, joint=1 / 8, gap=gap, start=(start, gap))
    assert sides(laid) == pytest.approx(ends)
    assert laid.whole_count == whole


def test_a_room_of_100_by_100_inches_laid_from_a_corner() -> None:
    # Worked by hand: 64 whole, 16 of 2 1/2 in by 12 in, one of 2 1/2 by 2 1/2; no published source.
    laid = laid_in_inches(100, 100, 12, joint=1 / 8, gap=1 / 4, start=(1 / 4, 1 / 4))
    cuts = by_edge(laid)
    assert (laid.whole_count, len(laid.cut)) == (64, 17)
    assert [cuts[k].is_whole for k in range(4)] == [True, False, False, True]
    assert [cuts[k].usual / INCH for k in range(4)] == pytest.approx([12, 2.5, 2.5, 12])
    assert cuts[1].share == pytest.approx(2.5 / 12)


@settings(max_examples=40, deadline=None)
@given(st.floats(1200, 6000), st.sampled_from((0.0, 3.0)), st.floats(150, 600))
def test_the_better_of_the_two_centred_layouts_leaves_over_half_a_tile(
    wall: float, joint: float, size: float
) -> None:
    # Half-tile rule of the Navy manual cited above, for any wall: the better border is at least (t - g) / 2.
    tile = RectangleTile(id="square", length=size, width=size)
    room, middle = rectangle(wall, size), wall / 2
    borders = []
    for start in (middle + joint / 2, middle - size / 2):
        laid = lay(room, tile, layout_of(tile, joint=joint, gap=0.0, start=(start, 0.0), least_piece=0.01))
        cuts = by_edge(laid)
        assert cuts[1].usual == pytest.approx(cuts[3].usual, abs=0.06)
        borders.append(cuts[1].usual)
    assert max(borders) >= (size - joint) / 2 - 0.06


def test_rows_that_are_offset_have_a_least_and_a_greatest_cut() -> None:
    plank = RectangleTile(id="plank", length=600, width=200)
    layout = layout_of(plank, joint=0.0, gap=0.0, row_offsets=(0.0, 0.5))
    cuts = by_edge(lay(rectangle(1400, 1000), plank, layout))
    assert (cuts[3].usual, cuts[3].least, cuts[3].greatest) == pytest.approx((600, 300, 600))
    assert cuts[3].is_whole
    assert (cuts[1].usual, cuts[1].least, cuts[1].greatest) == pytest.approx((200, 200, 500))
    assert cuts[0].usual == pytest.approx(200)


def test_a_wall_out_of_square_shows_its_taper() -> None:
    room = floor_of((0, 0), (1188, 0), (1248, 891), (0, 891))
    cut = by_edge(lay(room, SQUARE, layout_of(SQUARE, joint=0.0, gap=0.0)))[1]
    assert 0 < cut.least < cut.greatest < 297 * sqrt(2)
    assert not cut.is_whole


def test_a_whole_tile_a_joint_short_of_the_border_stands_there() -> None:
    cuts = by_edge(lay(rectangle(599, 297), SQUARE, layout_of(SQUARE, joint=3.0, gap=0.0)))
    assert cuts[1].is_whole
    assert cuts[1].usual == pytest.approx(297)


def test_every_side_of_an_l_has_its_border_and_an_arc_has_none() -> None:
    room = floor_of(
        (0, 0), (3600, 0), (3600, 1500), (1700, 1500), (1700, 3100), (0, 3100),
        edges=(Edge(at=1, through=(3700, 750)), Edge(at=0, role=EdgeRole.DOORWAY, name="hall door")),
    )  # fmt: skip
    cuts = by_edge(lay(room, SQUARE, layout_of(SQUARE, start=(40.0, 50.0))))
    assert sorted(cuts) == [0, 2, 3, 4, 5]
    assert cuts[0].name == "hall door"
    assert cuts[0].usual == pytest.approx(47)
    assert cuts[5].usual == pytest.approx(31)


def test_an_edge_of_which_nothing_is_left_has_no_border() -> None:
    room = floor_of((0, 0), (1000, 0), (1000, 800), (0, 800), cutouts=(square_cutout(-100, -900, 1200),))
    assert 0 not in by_edge(lay(room, SQUARE, layout_of(SQUARE)))


def test_a_hexagon_floor_has_borders_too() -> None:
    tile = HexagonTile(id="hexagon", across_flats=200)
    cuts = by_edge(lay(rectangle(1500, 1200), tile, layout_of(tile, "hexagon")))
    assert sorted(cuts) == [0, 1, 2, 3]
    assert all(0 < cut.least <= cut.usual <= cut.greatest <= 232 for cut in cuts.values())


@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0])
def test_turning_room_and_layout_together_keeps_the_borders(angle: float) -> None:
    def turned(point: Point) -> Point:
        c, s = cos(radians(angle)), sin(radians(angle))
        return (c * point[0] - s * point[1], s * point[0] + c * point[1])

    outline = ((0, 0), (2000, 0), (2000, 1500), (0, 1500))
    room = Surface(id="floor", outline=tuple(turned(corner) for corner in outline))
    cuts = by_edge(lay(room, SQUARE, layout_of(SQUARE, start=turned((50, 70)), angle=angle)))
    assert [cuts[k].usual for k in range(4)] == pytest.approx([61, 144, 224, 41])
