"""Sheets of hexagons and round chips: every chip counted by itself with shapely, seams, zigzags, areas."""

from __future__ import annotations

from math import pi, sqrt
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from shapely.geometry.base import BaseGeometry

from tests.layout.test_mosaic import SLIT, WET_ROOM
from tests.rooms import HEXAGON_CHIPS, OFFSET_SHEETS, ROUND_CHIPS, TINY, rectangle, starts
from tilelayout.geometry.overlays import polygons_of
from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import HexagonMosaicTile, Layout, OffsetSheet, RoundMosaicTile, Surface
from tilelayout.layout.chips import chip_outlines, face_area, hard_outline, laid_in_chips
from tilelayout.layout.cuts import cuts_of
from tilelayout.layout.faces import tile_outline, tile_width
from tilelayout.layout.laying import lay
from tilelayout.layout.mosaic import LaidMosaic, MosaicPiece
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.slivers import are_slivers, sliver_limit
from tilelayout.layout.tile_turns import _is_same, middle_of, tile_turns
from tilelayout.layout.values import CutKind

SHEETS = pytest.mark.parametrize("tile", [HEXAGON_CHIPS, ROUND_CHIPS], ids=["hexagons", "round"])
CHORDS = 2e-3
"""By so much of a circle's area its chords may be off where it is cut."""


def plain(tile: OffsetSheet) -> Layout:
    return next(layout for each, layout in OFFSET_SHEETS.values() if each == tile)


def laid(tile: OffsetSheet, room: Surface, **keys: Any) -> LaidMosaic:
    made = lay(room, tile, replace(plain(tile), **keys))
    assert isinstance(made, LaidMosaic)
    return made


def size_of(tile: OffsetSheet) -> float:
    return tile.across_flats if isinstance(tile, HexagonMosaicTile) else tile.diameter


def chip_at(tile: OffsetSheet, x: float, y: float) -> shapely.Polygon:
    """A chip by its own formula: a hexagon on a point, or the library's circle."""
    if isinstance(tile, RoundMosaicTile):
        return shapely.Point(x, y).buffer(tile.diameter / 2, quad_segs=24)
    ways = np.radians(30 + 60 * np.arange(6))
    reach = tile.across_flats / sqrt(3)
    return shapely.Polygon(np.column_stack([x + reach * np.cos(ways), y + reach * np.sin(ways)]))


Counted = tuple[tuple[int, int], bool, list[shapely.Polygon]]


def chips_one_by_one(tile: OffsetSheet, layout: Layout, region: BaseGeometry) -> tuple[list[Counted], int]:
    """Return sheet, wholeness and parts of each chip in the region, and how many parts are too narrow.

    Sheet (i, j) stands i sheets along and j up; a course of sheets with an odd number of rows stands half a
    chip on from the one below, and every other row of a sheet half a chip over.
    """
    pitch = size_of(tile) + tile.chip_joint
    reach = int(4000 / (pitch * tile.chips_across)) + 2, int(4000 / (pitch * tile.chips_up)) + 2
    found, too_narrow = [], 0
    left, low, right, high = region.bounds
    shapely.prepare(region)
    for i in range(-reach[0], reach[0]):
        for j in range(-reach[1], reach[1]):
            for row in range(tile.chips_up):
                over = (row % 2) / 2 + (j / 2 if tile.chips_up % 2 else 0)
                along = i * tile.chips_across + np.arange(tile.chips_across) + over
                up = (j * tile.chips_up + row) * sqrt(3) / 2
                places = np.column_stack([along, np.full(len(along), up)]) * pitch
                for x, y in (places @ turning(layout.angle) + layout.start).tolist():
                    if not (left - pitch < x < right + pitch and low - pitch < y < high + pitch):
                        continue
                    chip = chip_at(tile, 0.0, 0.0)
                    face = shapely.Polygon(shapely.get_coordinates(chip) @ turning(layout.angle) + (x, y))
                    kept = shapely.intersection(face, region)
                    is_whole = kept.area > face.area * (1 - 1e-6)
                    parts = [part for part in polygons_of(kept) if part.area > 1e-3]
                    wide = [part for part in parts if is_whole or is_wide(part, layout.least_piece)]
                    too_narrow += len(parts) - len(wide)
                    if wide:
                        found.append(((i, j), is_whole, wide))
    return found, too_narrow


def is_wide(part: shapely.Polygon, least: float) -> bool:
    return narrowest(shapely.get_coordinates(shapely.orient_polygons(part).exterior)[:-1]) >= least


@SHEETS
@pytest.mark.parametrize(("start", "angle"), [((6.0, 6.0), 0.0), ((401.3, 58.8), 12.0)])
def test_chips_and_sheets_are_those_counted_one_by_one(
    tile: OffsetSheet, start: tuple[float, float], angle: float
) -> None:
    made = laid(tile, WET_ROOM, start=start, angle=angle)
    chips, too_narrow = chips_one_by_one(tile, made.layout, made.region.shape)
    in_sheet = tile.chips_across * tile.chips_up
    whole = [sheet for sheet, is_whole, _ in chips if is_whole]
    assert made.chips.whole_count == len(whole)
    assert len(made.chips.cut_parts) == sum(len(parts) for _, is_whole, parts in chips if not is_whole)
    assert made.left_to_joint == too_narrow
    whole_sheets = {sheet for sheet in whole if whole.count(sheet) == in_sheet}
    assert made.whole_count == len(whole_sheets)
    parts = made.cut_parts
    numbers = set(zip(parts.column.tolist(), parts.row.tolist(), strict=True))
    assert numbers == {sheet for sheet, _, _ in chips} - whole_sheets
    area = sum(part.area for _, _, parts in chips for part in parts)
    assert sum(piece.area for piece in made.pieces()) == pytest.approx(area, rel=CHORDS)


@SHEETS
@pytest.mark.parametrize("room", [WET_ROOM, SLIT, TINY], ids=["wet room", "slit", "tiny"])
def test_every_chip_lies_in_one_piece_and_pieces_lie_in_the_region_apart(
    tile: OffsetSheet, room: Surface
) -> None:
    made = laid(tile, room, start=(40.3, 58.8), angle=8.0)
    chips, _ = chips_one_by_one(tile, made.layout, made.region.shape)
    inner = np.array([part.point_on_surface() for _, _, parts in chips for part in parts])
    pieces = list(made.pieces())
    shapes = [shapely.Polygon(piece.outline, piece.holes) for piece in pieces]
    counts = np.array([shapely.contains(shape, inner).sum() for shape in shapes])
    assert counts.sum() == len(inner)
    for piece, shape, count in zip(pieces, shapes, counts.tolist(), strict=True):
        assert made.region.shape.buffer(1e-6).covers(shape)
        if isinstance(piece, MosaicPiece):
            assert count == piece.chips_whole + len(piece.cut_chips) > 0
            assert len(piece.chips) <= count
    tree = shapely.STRtree(shapes)
    for one, other in tree.query(shapes, predicate="dwithin", distance=tile.chip_joint / 2).T.tolist():
        if one < other:  # pieces of one sheet may be parted by less, where the region is
            assert np.array_equal(pieces[one].face, pieces[other].face)


@SHEETS
def test_no_piece_reaches_beyond_the_zigzag_round_its_chips(tile: OffsetSheet) -> None:
    made = laid(tile, WET_ROOM, start=(40.3, 58.8), angle=8.0)
    chip = shapely.Polygon(hard_outline(tile))
    for at, piece in enumerate(made.cut):
        assert isinstance(piece, MosaicPiece)
        outer = shapely.union_all([shapely.Polygon(ring) for ring in piece.parted])
        shape = shapely.Polygon(piece.outline, piece.holes)
        assert outer.buffer(1e-6).covers(shape)
        part = int(made.part_order[at])
        own = shapely.union_all([shapely.Polygon(ring) for ring in made.chip_outlines(part)])
        assert shape.buffer(1e-6).covers(own)
        between = shape.difference(own)
        assert between.buffer(-tile.chip_joint * 0.51 - 0.2 * size_of(tile)).is_empty
        assert own.area == pytest.approx(piece.area, rel=1e-6)
        assert piece.area <= len(piece.chips) * chip.area + 1e-6


@SHEETS
def test_neighbouring_sheets_interlock_a_chip_joint_apart(tile: OffsetSheet) -> None:
    """Chips are nowhere nearer than a joint to those of the sheets round theirs, and some just that far."""
    cell = cell_of(plain(tile), tile)
    own = shapely.union_all([shapely.Polygon(ring) for ring in chip_outlines(tile)])
    sheet = shapely.Polygon(tile_outline(tile))
    assert sheet.buffer(1e-6).covers(own)
    for step in ((1, 0), (0, 1), (1, 1), (-1, 1)):
        x, y = (np.array(step) @ cell.vectors).tolist()
        moved = shapely.affinity.translate(own, x, y)
        assert own.distance(moved) > tile.chip_joint - 1e-6
        assert sheet.distance(shapely.affinity.translate(sheet, x, y)) > tile.chip_joint - 1e-6
    for step in ((1, 0), (0, 1)):
        x, y = (np.array(step) @ cell.vectors).tolist()
        moved = shapely.affinity.translate(own, x, y)
        assert own.distance(moved) == pytest.approx(tile.chip_joint, abs=1e-6)


@SHEETS
def test_the_chips_cover_what_closest_packing_covers(tile: OffsetSheet) -> None:
    """Circles in closest packing cover pi / sqrt(12) of the plane (A. Thue), hexagons all of it."""
    cell = cell_of(plain(tile), tile)
    full = pi / sqrt(12) if isinstance(tile, RoundMosaicTile) else 1.0
    share = face_area(tile) / abs(np.linalg.det(cell.vectors))
    assert share == pytest.approx(full * (size_of(tile) / (size_of(tile) + tile.chip_joint)) ** 2)
    chips = tile.chips_across * tile.chips_up
    assert face_area(tile) == pytest.approx(
        chips * (pi / 4 * 19**2 if isinstance(tile, RoundMosaicTile) else sqrt(3) / 2 * 25**2)
    )
    assert tile_width(tile) == size_of(tile)


@pytest.mark.parametrize(("across", "up"), [(1, 1), (4, 1), (1, 2), (3, 4), (4, 3), (1, 3), (5, 5)])
@pytest.mark.parametrize("tile", [HEXAGON_CHIPS, ROUND_CHIPS])
def test_a_sheet_is_turned_onto_itself_as_its_outline_is(tile: OffsetSheet, across: int, up: int) -> None:
    few = replace(tile, chips_across=across, chips_up=up)
    centred = tile_outline(few) - middle_of(tile_outline(few))
    assert tile_turns(few)[:7] == tuple(
        degrees for degrees in range(0, 360, 60) if degrees == 0 or _is_same(centred, degrees)
    ) or (across, up) == (1, 1)
    assert tile_turns(replace(few, directional=True)) == (0,)


@SHEETS
def test_a_wall_between_rows_needs_the_knife_alone(tile: OffsetSheet) -> None:
    """Five rows of chips stand below the gap; what of the sixth reaches down is too narrow to be laid."""
    pitch = size_of(tile) + tile.chip_joint
    foot = size_of(tile) / sqrt(3) if isinstance(tile, HexagonMosaicTile) else size_of(tile) / 2
    up, along = 2 * foot + 4 * pitch * sqrt(3) / 2, float(np.ptp(tile_outline(tile)[:, 0]))
    made = laid(tile, rectangle(12 + along, 12 + up), start=(6 + size_of(tile) / 2, 6 + foot), gap=6.0)
    piece = max(made.cut, key=lambda piece: piece.area)
    assert isinstance(piece, MosaicPiece)
    assert (piece.chips_whole, piece.cut_chips) == (5 * tile.chips_across, ())
    assert [cut.kind for cut in cuts_of(piece, made)] == [CutKind.KNIFE]
    assert piece.narrowest == size_of(tile)
    assert piece.area == pytest.approx(
        5 * tile.chips_across * face_area(tile) / tile.chips_across / tile.chips_up
    )


@SHEETS
def test_a_whole_sheet_against_straight_walls_is_whole(tile: OffsetSheet) -> None:
    """Chips that just touch the gap on all four sides are not cut, nor is their sheet."""
    length, width = np.ptp(tile_outline(tile), axis=0).tolist()
    room = rectangle(12 + length, 12 + width)
    left, low = np.array(chip_outlines(tile)[0]).mean(axis=0).tolist()
    made = laid(tile, room, start=(6 + left, 6 + low), gap=6.0)
    assert made.whole_count == 1
    assert made.chips.whole_count == tile.chips_across * tile.chips_up


@settings(max_examples=10, deadline=None)
@given(starts(), st.sampled_from((0.0, 33.0)), st.sampled_from((HEXAGON_CHIPS, ROUND_CHIPS)))
def test_a_piece_is_judged_by_its_narrowest_chip(
    start: tuple[float, float], angle: float, tile: OffsetSheet
) -> None:
    made = laid(tile, WET_ROOM, start=start, angle=angle)
    limit = sliver_limit(tile)
    assert limit == pytest.approx(size_of(tile) / 3)
    found = {piece.id for piece in made.cut_pieces(are_slivers(made))}
    assert found == {piece.id for piece in made.cut if piece.narrowest < limit - 1e-6}
    chip, in_chips = laid_in_chips(tile, made.layout)
    alone = lay(made.surface, chip, in_chips, made.region)
    least = min((piece.narrowest for piece in alone.cut), default=None)
    if least is not None:
        assert made.narrowest_cut == pytest.approx(min(least, size_of(tile)), abs=1e-6)
