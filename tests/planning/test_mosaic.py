"""Mosaic sheets as a person reads of them: the knife between chips, the chips that are cut, the counts."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest
import shapely
from msgspec.structs import replace

from tests.cli.calls import SAMPLES, called
from tests.rooms import (
    MOSAIC,
    OBLIQUE_WITH_BAY,
    SQUARE_CHIPS,
    TINY,
    floor_of,
    layout_of,
    rectangle,
    round_cutout,
    square_cutout,
)
from tilelayout.base.units import LengthStyle
from tilelayout.geometry.turns import turning
from tilelayout.job.edits.tiles import replace_tile
from tilelayout.job.kinds import LineKind
from tilelayout.job.values import Job, MosaicTile, ReferenceLine, Surface
from tilelayout.layout.mosaic import MosaicPiece
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.alternatives import alternatives
from tilelayout.planning.compare import area_lost
from tilelayout.planning.offset_map import map_steps, worst_border
from tilelayout.planning.open_job import open_job
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.reference_lines import line_misses
from tilelayout.planning.seek import Wish, seek
from tilelayout.planning.surface import longest_edge
from tilelayout.planning.tile_words import chip_words, sliver_words, tile_size
from tilelayout.practice.case import Case

SHOWER = SAMPLES / "shower_floor.tilejob"


def planned(
    room: Surface, tile: MosaicTile = SQUARE_CHIPS, style: LengthStyle = LengthStyle.MM, **keys: object
) -> Plan:
    keys = {"start": (6.0, 6.0)} | keys
    layout = layout_of(tile, "mosaic", joint=tile.chip_joint, **keys)
    return plan(Job(show_lengths=style, surfaces=(room,), tiles=(tile,), layouts=(layout,)), "A")


def words_of(made: Plan) -> list[tuple[str, ...]]:
    return [row.words for row in made.cut_rows]


@pytest.mark.parametrize(
    ("beyond", "words"),
    [
        (173.0, "knife: keep 7 chips across, counted from the left end"),
        (
            173 + 2 + 12.4,
            "knife: keep 7 chips across, counted from the left end, "
            "then cut the 8th chip of each row to 12 mm",
        ),
        (
            23 + 2 + 9.0,
            "knife: keep 1 chip across, counted from the left end, then cut the 2nd chip of each row to 9 mm",
        ),
        (9.0, "knife: keep 1 chip across, counted from the left end, then cut that chip of each row to 9 mm"),
        (
            298 - 0.7,
            "knife: keep 11 chips across, counted from the left end, "
            "then cut the 12th chip of each row to 22 mm",
        ),
    ],
)
def test_a_cut_along_the_chips_is_counted_in_chips(beyond: float, words: str) -> None:
    made = planned(rectangle(12 + 300 + beyond, 12 + 298))
    assert words_of(made) == [(words,)]


def test_chips_are_counted_from_the_edge_that_stays_in_either_direction() -> None:
    made = planned(rectangle(12 + 300 + 63, 12 + 300 + 37), start=(6.0 + 65, 6.0 + 39))
    assert {words for row in words_of(made) for words in row} == {
        "knife: keep 2 chips across, counted from the right end, then cut the 3rd chip of each row to 13 mm",
        "knife: keep 1 chip up, counted from the upper edge, then cut the 2nd chip of each column to 12 mm",
    }


def test_an_oblong_chip_is_cut_along_its_own_sides() -> None:
    made = planned(rectangle(12 + 3 * 50, 12 + 4 * 25.5), MOSAIC)
    assert words_of(made) == [
        (
            "knife: keep 4 chips up, counted from the lower edge",
            "knife: keep 3 chips across, counted from the left end",
        )
    ]
    assert made.cut_rows[0].size == "147 mm x 99 mm"


def test_other_cuts_say_how_many_chips_they_cross() -> None:
    """Eleven columns of chips stand under an oblique wall that takes a corner off the sheet."""
    room = floor_of((0, 0), (310, 0), (310, 260), (190, 310), (0, 310))
    made = planned(room)
    (row,) = made.cut_rows
    assert row.words[0].startswith("corner cut") and row.words[0].endswith(
        "it crosses, the rest with the knife"
    )
    (piece,) = row.pieces
    assert isinstance(piece, MosaicPiece)
    assert f"cut the {len(piece.cut_chips)} chips it crosses" in row.words[0]


def test_a_post_that_stands_in_joints_is_cut_round_with_the_knife_alone() -> None:
    drain = square_cutout(6 + 4 * 25 - 1, 6 + 5 * 25 - 1, 75)
    made = planned(floor_of((0, 0), (310, 0), (310, 310), (0, 310), cutouts=(drain,)))
    (row,) = made.cut_rows
    assert row.words[0].endswith(": with the knife, between the chips") and row.words[0].startswith("hole")
    assert made.chips is not None and made.chips.whole_count == 144 - 9 and not len(made.chips.cut_parts)
    assert made.narrowest == 23.0


def test_inches_are_rounded_on_the_chip_and_never_up() -> None:
    chips = MosaicTile(
        id="inch", chip_length=23.8125, chip_width=23.8125, chips_across=12, chips_up=12, chip_joint=1.5875
    )
    side = 12 * 25.4 - 1.5875
    made = planned(rectangle(12 + side + 1.5875 + 3 * 25.4 + 10.0, 12 + side), chips, LengthStyle.INCH)
    assert words_of(made) == [
        ('knife: keep 3 chips across, counted from the left end, then cut the 4th chip of each row to 3/8"',)
    ]


def test_areas_and_figures_are_those_of_the_chips() -> None:
    made = planned(rectangle(12 + 300 + 185, 12 + 298))
    assert made.covered_area == pytest.approx(12 * 19 * 23**2 + 12 * 10 * 23)
    assert (made.whole, made.cut, made.tiles_needed) == (1, 1, 2)
    assert area_lost(made) == pytest.approx(288 * 23**2 - made.covered_area)
    assert made.narrowest == pytest.approx(10.0)
    assert sliver_words(made) == "under 7.7 mm"
    assert (
        chip_words(made)
        == "square-chips is counted by the sheet; 228 of its chips stay whole, 12 chips are cut."
    )
    assert tile_size(SQUARE_CHIPS, LengthStyle.MM) == (
        "mosaic sheet 298 mm × 298 mm, 12 × 12 chips of 23 mm × 23 mm, chip joint 2 mm"
    )
    assert longest_edge(SQUARE_CHIPS) == 23.0
    assert Case(Job(), made.surface, SQUARE_CHIPS, made.layout).longest_side == 23.0


def check_moved_by_whole_chips(made: Plan, tile: MosaicTile) -> None:
    """Every piece of an opened sheet, turned back by whole turns of the sheet, lies where chips do.

    Worked out from the chips of the laid pieces alone: each chip of a piece, brought to the sheet, covers a
    chip of the sheet or, if it is cut, a part of one; and no two pieces take the same chip whole.
    """
    whole = [
        shapely.box(x, y, x + tile.chip_length, y + tile.chip_width)
        for x in np.arange(tile.chips_across) * (tile.chip_length + tile.chip_joint)
        for y in np.arange(tile.chips_up) * (tile.chip_width + tile.chip_joint)
    ]
    chips = shapely.union_all(whole)
    joints = shapely.box(0, 0, tile.sheet_length, tile.sheet_width).difference(chips)
    for opened in made.cut_from:
        for placed in opened.pieces:
            laid = made.laid.piece(placed.piece)
            own = laid.in_tile(laid.outline)
            turned = (own - own.mean(axis=0)) @ turning(placed.turned)
            by = placed.outline.mean(axis=0) - turned.mean(axis=0)
            np.testing.assert_allclose(turned + by, placed.outline, atol=1e-5)
            natural = shapely.Polygon(own).intersection(joints).area
            assert shapely.Polygon(placed.outline).intersection(joints).area == pytest.approx(
                natural, abs=1e-3
            )
            middle = np.array([tile.sheet_length, tile.sheet_width]) / 2
            there = (own - middle) @ turning(placed.turned) + middle
            steps = (placed.outline.min(axis=0) - there.min(axis=0)) / (
                np.array([tile.chip_length, tile.chip_width]) + tile.chip_joint
            )
            np.testing.assert_allclose(steps, steps.round(), atol=1e-6)


@pytest.mark.parametrize("start", [(-19.0, -19.0), (6.0 - 9, 6.0), (6.0, 6.0), (31.7, 12.2)])
@pytest.mark.parametrize("tile", [SQUARE_CHIPS, MOSAIC])
def test_a_piece_moves_in_its_sheet_by_whole_chips_and_its_chips_run_on(
    tile: MosaicTile, start: tuple[float, float]
) -> None:
    for size in ((12 + 250, 12 + 250), (12 + 91, 12 + 298), (900, 640)):
        made = planned(rectangle(*size), tile, start=start, gap=6.0)
        check_moved_by_whole_chips(made, tile)
        assert made.tiles_needed >= made.tiles_needed_at_least


def test_three_strips_of_four_chips_come_from_one_sheet_of_twelve() -> None:
    """Each keeps the left end of its sheet; they are cut from one sheet beside each other (computed)."""
    room = rectangle(12 + 300 + 98, 12 + 3 * 300 - 2)
    directional = replace(SQUARE_CHIPS, directional=True)
    made = planned(room, directional)
    assert [row.count for row in made.cut_rows] == [3]
    assert (made.whole, made.tiles_needed, made.tiles_needed_at_least) == (3, 4, 4)
    (opened,) = [each for each in made.cut_from if len(each.pieces) == 3]
    lefts = sorted(float(placed.outline[:, 0].min()) for placed in opened.pieces)
    assert lefts == pytest.approx([0.0, 100.0, 200.0])
    check_moved_by_whole_chips(made, directional)


def test_a_cut_chip_takes_its_place_in_the_sheet() -> None:
    """Strips of three chips and a part of a fourth: three to twelve chips, the rest of a fourth is lost."""
    made = planned(rectangle(12 + 300 + 75 + 12, 12 + 4 * 300 - 2), replace(SQUARE_CHIPS, directional=True))
    assert (made.whole, made.tiles_needed, made.tiles_needed_at_least) == (4, 6, 6)
    check_moved_by_whole_chips(made, SQUARE_CHIPS)


def test_the_start_is_sought_for_the_chips() -> None:
    """In a room 40 mm wider than whole chips the best is 19 mm on each side: 38 mm and a joint (computed)."""
    side = 12 + 20 * 25 - 2 + 40
    layout = layout_of(SQUARE_CHIPS, "mosaic", joint=2.0)
    job = Job(surfaces=(rectangle(side, side),), tiles=(SQUARE_CHIPS,), layouts=(layout,))
    *_, last = seek(job, "floor", None, Wish(aim=Aim.WIDEST_CUT))
    found = last.found[0]
    assert found.narrowest == pytest.approx(18.0, abs=0.01)
    assert found.layout.pattern == "mosaic" and not found.slivers
    assert plan(replace(job, layouts=(found.layout,)), found.layout.id).narrowest == pytest.approx(
        18.0, abs=0.01
    )
    *_, fewest = seek(job, "floor", None, Wish(aim=Aim.FEWEST_TILES, most=2))
    assert all(one.tiles_needed >= 4 and "more" not in one.why for one in fewest.found)
    *_, several = alternatives(job, "floor", None, Wish(most=2))
    assert several.found


def test_the_map_of_starts_repeats_with_the_chips() -> None:
    made = planned(rectangle(700, 500), start=(10.0, 10.0))
    last = list(map_steps(made))[-1]
    np.testing.assert_allclose(last.vectors, [(25.0, 0.0), (0.0, 25.0)])
    assert worst_border(made) is not None


def test_a_line_may_be_kept_by_any_joint_between_chips() -> None:
    line = ReferenceLine(kind=LineKind.JOINT, line=((6 + 75 - 1, 0.0), (6 + 75 - 1, 100.0)))
    made = planned(rectangle(700, 500), lines=(line,))
    assert [miss.is_kept for miss in line_misses(made)] == [True]


def test_lay_counts_sheets_and_chips() -> None:
    told = called("lay", str(SHOWER), "--layout", "A")
    made = plan(open_job(SHOWER), "A")
    assert made.chips is not None
    for label, count in (
        ("whole sheets", made.whole),
        ("whole chips", made.chips.whole_count),
        ("cut chips", len(made.chips.cut_parts)),
        ("sheets to open", made.tiles_needed),
    ):
        assert any(line.split()[:3] == [*label.split(), str(count)][:3] for line in told.out.splitlines()), (
            label
        )
    document = msgspec.json.decode(called("lay", str(SHOWER), "--layout", "A", "--json").out)
    layout = document["layouts"][0]
    assert layout["chips_whole"] == made.chips.whole_count
    assert layout["chips_cut"] == len(made.chips.cut_parts)
    assert layout["covered_area"] == pytest.approx(made.covered_area)


def test_a_bay_and_oblique_walls_are_told_without_fault() -> None:
    for room in (OBLIQUE_WITH_BAY, TINY, replace(TINY, cutouts=(round_cutout(60, 40, 30),))):
        made = planned(room, start=(17.3, 31.1))
        assert sum(row.count for row in made.cut_rows) == made.cut
        assert all(words for row in made.cut_rows for words in row.words)


def test_a_tile_of_other_sizes_is_refused_where_it_must_be() -> None:
    job = Job(tiles=(SQUARE_CHIPS,))
    for changes, words in (
        ({"chips_across": 0}, "chips"),
        ({"chips_up": 201}, "chips"),
        ({"chip_joint": -1.0}, "joint"),
        ({"chip_length": 0.5}, "size"),
        ({"chip_length": 100.0, "chips_across": 60}, "fewer chips"),
    ):
        with pytest.raises(Exception, match=words):
            replace_tile(job, SQUARE_CHIPS.id, replace(SQUARE_CHIPS, **changes))
