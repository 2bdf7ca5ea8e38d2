"""Sheets of hexagons and round chips as a person reads of them: the zigzag, chips to cut, sheets to open."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
import shapely
from msgspec.structs import replace

from tests.rooms import HEXAGON_CHIPS, ROUND_CHIPS, layout_of, rectangle, round_cutout
from tilelayout.base.errors import JobFileError, TileLayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.geometry.turns import turning
from tilelayout.job.edits.tiles import replace_tile
from tilelayout.job.files import job_from_bytes
from tilelayout.job.values import Job, OffsetSheet, Surface
from tilelayout.layout.chips import chip_outlines, chip_vectors
from tilelayout.layout.mosaic import LaidMosaic, MosaicPiece
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.seek import Wish, seek
from tilelayout.planning.sensitivity import with_size_off
from tilelayout.planning.tile_words import chip_words, tile_size

SHEETS = pytest.mark.parametrize("tile", [HEXAGON_CHIPS, ROUND_CHIPS], ids=["hexagons", "round"])
DOWN = 25 / sqrt(3)
"""From the centre of a hexagon to its lower corner."""

UP = 28 * sqrt(3) / 2
"""From row to row of the hexagons."""

TALL = 2 * DOWN + 11 * UP
"""From the lower to the upper tips of a sheet of them."""


def planned(room: Surface, tile: OffsetSheet = HEXAGON_CHIPS, **keys: object) -> Plan:
    keys = {"start": (6 + 12.5, 6 + DOWN)} | keys
    layout = layout_of(tile, "mosaic", joint=float(tile.chip_joint), **keys)
    return plan(Job(show_lengths=LengthStyle.MM, surfaces=(room,), tiles=(tile,), layouts=(layout,)), "A")


def largest_cut(made: Plan) -> tuple[str, ...]:
    """The words of the largest cut piece."""
    row = max(made.cut_rows, key=lambda row: row.pieces[0].area)
    return row.words


def test_whole_rows_are_kept_along_the_zigzag_and_the_last_is_cut_to_what_the_wall_leaves() -> None:
    """Five rows and 20 mm of the sixth: the wall lies 20 mm above its lower corners (computed)."""
    made = planned(rectangle(12 + 12 * 28 + 14, 12 + 5 * UP + 20.4))
    assert largest_cut(made) == (
        "knife along the zigzag between the chips: keep 6 rows, counted from the lower edge",
        "rip to 141 mm, keep the lower edge: cut the 12 chips it crosses to 20 mm",
    )


def test_rows_by_turns_are_cut_to_two_widths_at_an_upright_wall() -> None:
    """Four chips, and of the fifth 20 mm in one row and 6 mm in the next, half a chip over (computed)."""
    made = planned(rectangle(12 + 4 * 28 + 20.4, 12 + TALL))
    assert largest_cut(made) == (
        "knife along the zigzag between the chips: keep 5 chips of each row, counted from the left end",
        "cross cut to 132 mm, keep the left end: cut the 12 chips it crosses, 6 to 20 mm and 6 to 6 mm",
    )


def test_rows_of_different_counts_are_said_by_turns() -> None:
    """Of the fifth chip of odd rows 4 mm would be left, which is under 5 mm and is not laid (computed)."""
    made = planned(rectangle(12 + 4 * 28 + 18.4, 12 + TALL))
    assert largest_cut(made) == (
        "knife along the zigzag between the chips: "
        "keep 5 and 4 chips of the rows by turns from the lowest up, counted from the left end",
        "cross cut to 130 mm, keep the left end: cut the 6 chips it crosses to 18 mm",
    )


def test_a_drain_is_cut_round_in_chips() -> None:
    room = replace(rectangle(900, 800), cutouts=(round_cutout(450, 400, 120),))
    made = planned(room, start=(450.0 - 5 * 28, 400.0 - 5 * UP))
    words = [words for row in made.cut_rows for words in row.words if "curve" in words or "hole" in words]
    assert words and all("chips it crosses" in each for each in words)
    assert made.chips is not None
    drain = shapely.Point(450, 400).buffer(59.9)
    assert all(drain.disjoint(shapely.Polygon(chip.outline)) for chip in made.chips.pieces())


@SHEETS
def test_every_row_says_where_the_knife_goes_or_keeps_all_chips(tile: OffsetSheet) -> None:
    room = replace(rectangle(1130, 870), cutouts=(round_cutout(500, 300, 90),))
    for style in (LengthStyle.MM, LengthStyle.INCH):
        layout = layout_of(tile, "mosaic", joint=float(tile.chip_joint), start=(40.0, 31.0), angle=12.0)
        made = plan(Job(show_lengths=style, surfaces=(room,), tiles=(tile,), layouts=(layout,)), "A")
        assert sum(row.count for row in made.cut_rows) == made.cut
        for row in made.cut_rows:
            piece = row.pieces[0]
            assert isinstance(piece, MosaicPiece)
            is_all = len(piece.chips) == tile.chips_across * tile.chips_up
            assert row.words[0].startswith("knife along the zigzag") != is_all
            assert not piece.cut_chips or any("it crosses" in words for words in row.words)


@SHEETS
def test_a_piece_moves_in_its_sheet_by_whole_chips_and_its_chips_run_on(tile: OffsetSheet) -> None:
    """Every chip of a placed piece, whole or cut, lies in a chip of the opened sheet."""
    chips = shapely.union_all([shapely.Polygon(ring) for ring in chip_outlines(tile)]).buffer(1e-5)
    for size in ((560, 420),):
        made = planned(rectangle(*size), tile, start=(20.0, 15.0))
        laid = made.laid.components[0]
        assert isinstance(laid, LaidMosaic) and made.tiles_needed >= made.tiles_needed_at_least
        order = {piece.id: part for piece, part in zip(laid.cut, laid.part_order.tolist(), strict=True)}
        for opened in made.cut_from:
            for placed in (each for each in opened.pieces if each.piece in order):
                piece = made.laid.piece(placed.piece)
                rings = laid.chip_outlines(order[placed.piece])
                turn = turning(placed.turned)
                by = placed.outline[0] - piece.in_tile(piece.outline)[0] @ turn
                assert all(chips.covers(shapely.Polygon(piece.in_tile(ring) @ turn + by)) for ring in rings)


def test_strips_of_rows_share_a_sheet() -> None:
    """Two strips of five rows come from one sheet of twelve: a row is lost between them (computed)."""
    made = planned(rectangle(12 + 3 * 12 * 28 + 11, 12 + 2 * DOWN + 16 * UP))
    strips = {
        piece.id
        for row in made.cut_rows
        for piece in row.pieces
        if any("keep 5 rows" in words for words in row.words)
    }
    assert len(strips) == 3
    together = [strips & {each.piece for each in opened.pieces} for opened in made.cut_from]
    assert max(map(len, together)) == 2


@SHEETS
def test_the_start_is_sought_for_the_chips(tile: OffsetSheet) -> None:
    layout = layout_of(tile, "mosaic", joint=float(tile.chip_joint))
    job = Job(surfaces=(rectangle(640, 510),), tiles=(tile,), layouts=(layout,))
    *_, last = seek(job, "floor", None, Wish(aim=Aim.WIDEST_CUT, most=1))
    (found,) = last.found
    again = plan(replace(job, layouts=(found.layout,)), found.layout.id)
    assert found.narrowest == pytest.approx(again.narrowest)
    worse = plan(replace(job, layouts=(replace(layout, start=(1.0, 1.0)),)), "A")
    assert (again.narrowest or 0.0) >= (worse.narrowest or 0.0)


def test_sizes_are_said_and_figures_are_those_of_the_chips() -> None:
    made = planned(rectangle(700, 500))
    assert tile_size(HEXAGON_CHIPS, LengthStyle.MM) == (
        "mosaic sheet 347 mm × 295.6 mm over all, 12 × 12 hexagons, 25 mm across flats, chip joint 3 mm"
    )
    assert "round chips of 19 mm" in tile_size(ROUND_CHIPS, LengthStyle.MM)
    assert made.chips is not None
    assert f"{made.chips.whole_count} of its chips stay whole" in chip_words(made)
    assert made.covered_area == pytest.approx(sum(chip.area for chip in made.chips.pieces()))
    assert with_size_off(HEXAGON_CHIPS, 1.2) == replace(HEXAGON_CHIPS, across_flats=25.1)
    assert with_size_off(ROUND_CHIPS, 0.9) == replace(ROUND_CHIPS, diameter=19.1)
    np.testing.assert_allclose(chip_vectors(HEXAGON_CHIPS), [(28.0, 0.0), (14.0, UP)])


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"chips_across": 0}, "chips"),
        ({"chips_up": 201}, "chips"),
        ({"chip_joint": -1.0}, "joint"),
        ({"across_flats": 0.5}, "size"),
        ({"across_flats": 100.0, "chips_across": 60}, "fewer chips"),
    ],
)
def test_sizes_that_cannot_be_are_refused(changes: dict[str, float], words: str) -> None:
    with pytest.raises(TileLayoutError, match=words):
        replace_tile(Job(tiles=(HEXAGON_CHIPS,)), HEXAGON_CHIPS.id, replace(HEXAGON_CHIPS, **changes))


@pytest.mark.parametrize(
    ("shape", "keys", "wrong"),
    [
        ("hexagon-mosaic", '"diameter": 20', "across_flats"),
        ("round-mosaic", '"across_flats": 20', "diameter"),
        ("round-mosaic", '"diameter": 20, "chip_length": 20', "chip_length"),
        ("mosaic", '"diameter": 20', "chip_length"),
    ],
)
def test_a_file_gives_the_size_that_its_chips_have(shape: str, keys: str, wrong: str) -> None:
    tile = f'{{"id": "m", "shape": "{shape}", {keys}, "chips_across": 3, "chips_up": 4, "chip_joint": 2}}'
    with pytest.raises(JobFileError) as caught:
        job_from_bytes(f'{{"format": "tilejob", "version": 1, "tiles": [{tile}]}}'.encode())
    assert wrong in str(caught.value) and "tiles[0]" in str(caught.value)
