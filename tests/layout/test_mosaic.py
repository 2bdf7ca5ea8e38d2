"""Mosaic sheets: chips and sheets counted one by one with shapely, and what is cut exactly between chips."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.geometry.opened import TOOTH, lost
from tests.rooms import (
    MOSAIC,
    MOSAICS,
    SQUARE_CHIPS,
    STRIP,
    TINY,
    floor_of,
    layout_of,
    rectangle,
    round_cutout,
    starts,
)
from tilelayout.base.errors import LayoutError
from tilelayout.geometry.overlays import polygons_of
from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import Border, Edge, MosaicTile, Surface, Visibility
from tilelayout.layout.bordered import lay_bordered
from tilelayout.layout.chips import face_area, joint_lines, laid_in_chips
from tilelayout.layout.faces import tile_outline, tile_width
from tilelayout.layout.laying import lay
from tilelayout.layout.mosaic import LaidMosaic, MosaicPiece
from tilelayout.layout.patterns import cell_of, cell_to_show
from tilelayout.layout.slivers import are_slivers, sliver_limit
from tilelayout.layout.tile_turns import tile_turns
from tilelayout.layout.values import Piece

WET_ROOM = floor_of(
    (0, 0),
    (1510, 0),
    (1690, 940),
    (620, 940),
    (620, 1130),
    (0, 1130),
    cutouts=(round_cutout(531, 402, 90, 2),),
)
"""A drain, an oblique wall and an inside corner."""

SLIT = floor_of((0, 0), (800, 0), (800, 600), (412, 600), (412, 140), (372, 140), (372, 600), (0, 600))
"""A slit that parts sheets in two."""

NAMES = pytest.mark.parametrize("name", MOSAICS)


def laid(tile: MosaicTile, room: Surface, **keys: object) -> LaidMosaic:
    made = lay(room, tile, layout_of(tile, "mosaic", joint=tile.chip_joint, **keys))
    assert isinstance(made, LaidMosaic)
    return made


@dataclass
class Chip:
    """What is left of one chip: the number of its sheet, its parts that are wide enough, is it whole."""

    sheet: tuple[int, int]
    parts: list[shapely.Polygon]
    whole: bool


def is_wide_enough(part: shapely.Polygon, least: float) -> bool:
    """Tell whether no place is narrower than `least`: shrinking and growing again gives all of it back.

    Along the chords of a drain that loses slivers of area, so there the measure that has tests of its own is
    taken.
    """
    if len(part.exterior.coords) > 8:
        return narrowest(shapely.get_coordinates(part.exterior)[:-1]) >= least
    shrunk = part.buffer(-least / 2, join_style="mitre")
    return not shrunk.is_empty and lost(part, least) <= TOOTH


def chips_one_by_one(made: LaidMosaic) -> tuple[list[Chip], int]:
    """Every chip that reaches into the region, cut with shapely, and how many parts are too narrow."""
    tile, layout, region = made.mosaic, made.layout, made.region.shape
    assert isinstance(tile, MosaicTile)
    pitch = np.array([tile.chip_length, tile.chip_width]) + tile.chip_joint
    box = shapely.get_coordinates(shapely.box(*region.bounds)) - layout.start
    reach = (box @ turning(-layout.angle)) / pitch
    low, high = np.floor(reach.min(axis=0)).astype(int) - 1, np.ceil(reach.max(axis=0)).astype(int) + 1
    numbers = np.array([(i, j) for i in range(low[0], high[0]) for j in range(low[1], high[1])])
    corners = np.array([(0, 0), (1, 0), (1, 1), (0, 1)]) * (tile.chip_length, tile.chip_width)
    faces = (numbers[:, None] * pitch + corners) @ turning(layout.angle) + layout.start
    kept = np.asarray(shapely.intersection(np.asarray(shapely.polygons(faces)), region))
    found: list[Chip] = []
    too_narrow = 0
    for number, left in zip(numbers.tolist(), kept, strict=True):
        parts = [part for part in polygons_of(left) if part.area > 1e-3]
        wide = [part for part in parts if is_wide_enough(part, layout.least_piece)]
        too_narrow += len(parts) - len(wide)
        sheet = number[0] // tile.chips_across, number[1] // tile.chips_up
        is_whole = left.area > tile.chip_length * tile.chip_width - 1e-3
        if wide:
            found.append(Chip(sheet, wide, is_whole))
    return found, too_narrow


def polygon(piece: Piece) -> shapely.Polygon:
    return shapely.Polygon(piece.outline, piece.holes)


@NAMES
@pytest.mark.parametrize(("start", "angle"), [((6.0, 6.0), 0.0), ((17.3, 31.1), 0.0), ((400.0, -77.0), 12.0)])
def test_chips_and_sheets_are_those_counted_one_by_one(
    name: str, start: tuple[float, float], angle: float
) -> None:
    tile, _ = MOSAICS[name]
    made = laid(tile, WET_ROOM, start=start, angle=angle)
    chips, too_narrow = chips_one_by_one(made)
    whole = [chip for chip in chips if chip.whole]
    cut = [part for chip in chips if not chip.whole for part in chip.parts]
    assert (made.chips.whole_count, len(made.chips.cut_parts), made.left_to_joint) == (
        len(whole),
        len(cut),
        too_narrow,
    )
    whole_sheets = {
        sheet
        for sheet in {chip.sheet for chip in whole}
        if sum(chip.sheet == sheet for chip in whole) == tile.chips_across * tile.chips_up
    }
    assert made.whole_count == len(whole_sheets)
    parts = made.cut_parts
    assert (
        set(zip(parts.column.tolist(), parts.row.tolist(), strict=True))
        == {chip.sheet for chip in chips} - whole_sheets
    )
    area = sum(part.area for chip in chips for part in chip.parts)
    assert sum(piece.area for piece in made.pieces()) == pytest.approx(area, rel=1e-6)


@NAMES
@pytest.mark.parametrize("room", ["wet room", "slit", "smaller than a tile"])
def test_every_chip_lies_in_one_piece_and_no_piece_reaches_beyond_its_chips(name: str, room: str) -> None:
    tile, _ = MOSAICS[name]
    made = laid(
        tile, {"slit": SLIT, "smaller than a tile": TINY}.get(room, WET_ROOM), start=(40.3, 58.8), angle=8.0
    )
    chips, _ = chips_one_by_one(made)
    inner = np.array([part.point_on_surface() for chip in chips for part in chip.parts])
    seen = np.zeros(len(inner), dtype=int)
    for piece in made.cut:
        assert isinstance(piece, MosaicPiece)
        inside = shapely.contains(polygon(piece), inner)
        seen += inside
        assert inside.sum() == piece.chips_whole + len(piece.cut_chips) > 0
        own = [
            part for chip in chips for part in chip.parts if polygon(piece).contains(part.point_on_surface())
        ]
        reach = np.vstack([piece.in_tile(shapely.get_coordinates(part)) for part in own])
        outline = piece.in_tile(piece.outline)
        np.testing.assert_allclose(outline.min(axis=0), reach.min(axis=0), atol=2e-4)
        np.testing.assert_allclose(outline.max(axis=0), reach.max(axis=0), atol=2e-4)
        widths = [narrowest(shapely.get_coordinates(part.exterior)[:-1]) for part in own]
        assert piece.narrowest == pytest.approx(min(widths), abs=1e-3)
    assert seen.max() == 1
    assert int(seen.sum()) == len(inner) - made.whole_count * tile.chips_across * tile.chips_up


@settings(max_examples=12, deadline=None)
@given(starts(), st.sampled_from((0.0, 90.0, 33.0)))
def test_a_piece_is_a_sliver_if_one_of_its_chips_is(start: tuple[float, float], angle: float) -> None:
    made = laid(MOSAIC, WET_ROOM, start=start, angle=angle)
    limit = sliver_limit(MOSAIC)
    assert limit == pytest.approx(23 / 3)
    found = {piece.id for piece in made.cut_pieces(are_slivers(made))}
    narrow = [polygon(chip).point_on_surface() for chip in made.chips.cut if chip.narrowest < limit - 1e-6]
    assert found == {piece.id for piece in made.cut if any(map(polygon(piece).contains, narrow))}
    assert found == {piece.id for piece in made.cut if piece.narrowest < limit - 1e-6}
    assert made.narrowest_cut == pytest.approx(min((piece.narrowest for piece in made.cut), default=0.0))


def test_chips_that_are_narrow_only_where_nobody_looks_make_no_sliver() -> None:
    room = replace(rectangle(12 + 298 + 2 + 5.5, 12 + 298), edges=(Edge(at=1, seen=Visibility.HIDDEN),))
    made = laid(SQUARE_CHIPS, room, start=(6.0, 6.0))
    assert len(made.cut) == 1 and made.cut[0].narrowest == pytest.approx(5.5)
    assert not are_slivers(made).any()
    assert are_slivers(laid(SQUARE_CHIPS, replace(room, edges=()), start=(6.0, 6.0))).all()


@pytest.mark.parametrize("beyond", [0.0, 1.0, 2.0, 6.5])
def test_a_sheet_that_ends_between_chips_has_no_narrow_chip(beyond: float) -> None:
    """Beyond seven chips there is nothing, a part of the joint, all of it, or too little of the eighth."""
    made = laid(SQUARE_CHIPS, rectangle(12 + 300 + 173 + beyond, 12 + 298), start=(6.0, 6.0))
    (piece,) = made.cut
    assert isinstance(piece, MosaicPiece)
    assert (made.whole_count, piece.chips_whole, piece.cut_chips) == (1, 7 * 12, ())
    assert np.ptp(piece.outline, axis=0) == pytest.approx([173.0, 298.0])
    assert piece.narrowest == made.narrowest_cut == 23.0
    assert piece.area == pytest.approx(7 * 12 * 23**2)
    assert made.left_to_joint == (12 if beyond == 6.5 else 0)
    assert not are_slivers(made).any()


def test_a_strip_with_no_chip_is_no_piece() -> None:
    made = laid(SQUARE_CHIPS, rectangle(12 + 298 + 2 + 4, 12 + 298), start=(6.0, 6.0))
    assert (made.whole_count, len(made.cut), made.left_to_joint) == (1, 0, 12)
    assert not made.bare_patches


def mirrored(room: Surface) -> Surface:
    cutouts = tuple(round_cutout(-531, 402, 90, 2) for _ in room.cutouts)
    return replace(room, outline=tuple((-x, y) for x, y in reversed(room.outline)), cutouts=cutouts)


@settings(max_examples=10, deadline=None)
@given(starts(), st.sampled_from(sorted(MOSAICS)))
def test_a_mirrored_room_takes_the_mirrored_pieces(start: tuple[float, float], name: str) -> None:
    tile, _ = MOSAICS[name]
    one = laid(tile, WET_ROOM, start=start)
    two = laid(tile, mirrored(WET_ROOM), start=(-start[0] - tile.sheet_length, start[1]))
    assert (one.whole_count, one.chips.whole_count) == (two.whole_count, two.chips.whole_count)
    figures = [
        sorted(
            (round(float(piece.area), 2), getattr(piece, "chips_whole", 0), round(piece.narrowest, 2))
            for piece in made.cut
        )
        for made in (one, two)
    ]
    np.testing.assert_allclose(figures[0], figures[1], atol=0.03)


def test_chips_that_would_not_run_through_are_refused_with_the_joint_that_works() -> None:
    with pytest.raises(LayoutError, match=r"Use a joint of 2\.5 mm"):
        cell_of(layout_of(MOSAIC, "mosaic", joint=3.0), MOSAIC)
    with pytest.raises(LayoutError, match="cannot be laid with the mosaic tile"):
        cell_of(layout_of(MOSAIC, "rows"), MOSAIC)
    assert cell_to_show(layout_of(MOSAIC, "mosaic", joint=3.0), MOSAIC).joint == 3.0


@NAMES
def test_a_sheet_is_its_chips_and_the_joints_between_them(name: str) -> None:
    tile, layout = MOSAICS[name]
    pitches = np.array([tile.chip_length, tile.chip_width]) + tile.chip_joint
    counts = (tile.chips_across, tile.chips_up)
    np.testing.assert_allclose(np.diag(cell_of(layout, tile).vectors), pitches * counts)
    np.testing.assert_allclose(tile_outline(tile).max(axis=0), pitches * counts - tile.chip_joint)
    assert tile_width(tile) == min(tile.chip_length, tile.chip_width)
    assert face_area(tile) == pytest.approx(np.prod(counts) * tile.chip_length * tile.chip_width)
    joints = shapely.union_all(
        [shapely.LineString(line).buffer(tile.chip_joint / 2, cap_style="flat") for line in joint_lines(tile)]
    )
    assert shapely.Polygon(tile_outline(tile)).area - joints.area == pytest.approx(face_area(tile))
    chip, in_chips = laid_in_chips(tile, layout)
    np.testing.assert_allclose(np.diag(cell_of(in_chips, chip).vectors), pitches)


def test_a_square_sheet_of_oblong_chips_is_turned_by_half_alone() -> None:
    oblong = MosaicTile(id="lines", chip_length=48, chip_width=23, chips_across=6, chips_up=12, chip_joint=2)
    assert oblong.sheet_length == oblong.sheet_width == 298
    assert tile_turns(oblong) == (0, 180)
    assert tile_turns(SQUARE_CHIPS) == (0, 90, 180, 270)


def test_joints_between_chips_are_drawn_within_the_region_and_not_between_sheets() -> None:
    made = laid(SQUARE_CHIPS, WET_ROOM, start=(17.0, 33.0), angle=20.0)
    lines = shapely.MultiLineString([line.tolist() for line in made.joint_lines])
    assert made.region.shape.buffer(1e-6).covers(lines)
    for piece in made.pieces():
        if piece.whole:
            inner = shapely.Polygon(piece.outline).buffer(-1e-6)
            own = lines.intersection(inner).length
            assert own == pytest.approx(22 * 298, rel=1e-3)


def test_sheets_fill_a_border_as_any_tile() -> None:
    plain = layout_of(SQUARE_CHIPS, "mosaic", joint=2.0, start=(90.0, 90.0))
    layout = replace(plain, border=Border(tile=STRIP.id))
    made = lay_bordered(rectangle(1500, 1100), SQUARE_CHIPS, layout, STRIP)
    field = made.components[0]
    assert isinstance(field, LaidMosaic)
    assert len(made.cut) == len(field.cut) + len(made.border.cut_by_part) > 4
    assert are_slivers(made)[: len(field.cut_parts)].tolist() == are_slivers(field).tolist()
