"""A border of tiles and the field inside: sizes against sums done by hand, and laws that hold in any room.

That the width of a border and its joint must be taken off before the field is divided is a rule of the trade
(tiledoctor.com); that the better of a tile and a joint in the middle leaves half a tile or more at both ends
is proved for straight rows of any length.
"""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec import structs

from tests.rooms import (
    HEXAGON,
    L_SHAPED,
    OBLIQUE_WITH_BAY,
    PLAIN,
    SQUARE,
    floor_of,
    layout_of,
    rectangle,
    round_cutout,
    square_cutout,
    straight_rooms,
)
from tilelayout.base.errors import LayoutError
from tilelayout.job.kinds import BorderBegin, BorderCorners
from tilelayout.job.values import Border, Edge, EdgeRole, RectangleTile, Surface, Tile
from tilelayout.layout.bordered import Bordered, lay_bordered
from tilelayout.layout.borders import border_cuts
from tilelayout.layout.cuts import cuts_of
from tilelayout.layout.values import CutKind, Piece

BAND = RectangleTile(id="band", length=297, width=97)
MITRED, BUTTED = Border(tile="band"), Border(tile="band", corners=BorderCorners.BUTTED)
EACH_CORNER = pytest.mark.parametrize("border", [MITRED, BUTTED], ids=["mitred", "butted"])


def laid_with(
    border: Border, surface: Surface = PLAIN, band: Tile = BAND, gap: float = 6.0, joint: float = 3.0
) -> Bordered:
    layout = structs.replace(layout_of(SQUARE, gap=gap, joint=joint), border=border)
    return lay_bordered(surface, SQUARE, layout, band)


def shape_of(piece: Piece) -> shapely.Polygon:
    return shapely.Polygon(piece.outline, piece.holes)


def of_border(laid: Bordered) -> list[Piece]:
    return [piece for piece in laid.pieces() if piece.tile == laid.border.tile]


@EACH_CORNER
def test_the_field_is_the_room_less_gap_border_and_joint(border: Border) -> None:
    """3000 x 2400 less, on every side, gap 6, border 97 and joint 3."""
    field = laid_with(border).inner.region.shape
    assert field.bounds == pytest.approx((106, 106, 2894, 2294), abs=1e-6)
    assert field.area == pytest.approx((3000 - 212) * (2400 - 212), abs=1e-3)


def test_rows_inset_and_joint_of_its_own_move_the_field_further_in() -> None:
    """Gap 6, inset 203, two rows of 97 with a joint of 5 between and one towards the field."""
    border = Border(tile="band", rows=2, joint=5.0, inset=203.0)
    laid = laid_with(border)
    depth = 6 + 203 + 97 + 5 + 97 + 5
    inside, outside = sorted(shapely.get_parts(laid.inner.region.shape), key=lambda part: len(part.interiors))
    assert inside.bounds == pytest.approx((depth, depth, 3000 - depth, 2400 - depth), abs=1e-6)
    ring = shapely.Polygon(outside.interiors[0])
    assert ring.bounds == pytest.approx((204, 204, 2796, 2196), abs=1e-6)


def test_mitred_pieces_of_a_square_corner_are_cut_at_45_degrees_and_half_a_joint_back() -> None:
    laid = laid_with(MITRED)
    at_corner = [shape_of(p) for p in of_border(laid) if shape_of(p).dwithin(shapely.Point(6, 6), 40)]
    assert len(at_corner) == 2
    diagonal = shapely.LineString([(6, 6), (103, 103)])
    for shape in at_corner:
        assert shape.distance(diagonal) == pytest.approx(1.5, abs=1e-6)
        assert np.abs(np.array(shape.exterior.coords) - 6).min() < 1e-6
    assert at_corner[0].distance(at_corner[1]) == pytest.approx(3.0, abs=1e-6)
    cuts = [cut for piece in of_border(laid) if not piece.whole for cut in cuts_of(piece, laid)]
    assert {cut.border for cut in cuts} == {f"mitre {edge}" for edge in range(4)}
    for cut in cuts:
        assert cut.kind in (CutKind.OBLIQUE, CutKind.CORNER)
        along = np.abs(cut.line[-1] - cut.line[0])
        assert along[0] == pytest.approx(along[1], abs=1e-6)


def test_of_butted_strips_the_longer_runs_through() -> None:
    """Along 3000 the strips are 2988 long, along 2400 they stand between them."""
    strips = [strip.region.shape.bounds for strip in laid_with(BUTTED).border.strips]
    assert strips[0] == pytest.approx((6, 6, 2994, 103), abs=1e-6)
    assert strips[1] == pytest.approx((2897, 106, 2994, 2294), abs=1e-6)


@pytest.mark.parametrize("border", [MITRED, BUTTED], ids=["mitred", "butted"])
def test_at_an_inward_corner_the_border_turns_round_it(border: Border) -> None:
    laid = laid_with(border, L_SHAPED)
    corner = shapely.Point(1700, 1500)
    reach = 106 * sqrt(2)
    assert laid.inner.region.shape.distance(corner) == pytest.approx(106, abs=1e-6)
    near = [shape_of(piece) for piece in of_border(laid) if shape_of(piece).dwithin(corner, reach)]
    block = shapely.box(1700 - 103, 1500 - 103, 1694, 1494)
    bare = block - shapely.union_all(near).buffer(1.5 + 1e-6, join_style="mitre")
    assert bare.area < 1e-3


@pytest.mark.parametrize("angle", [60.0, 75.0, 110.0, 150.0])
def test_a_mitre_halves_any_corner(angle: float) -> None:
    """The two strips at the corner between edges 0 and 3 are mirror images in the line that halves it."""
    way = np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
    side = 2600 * way
    room = floor_of((0, 0), (2600, 0), (2600 + side[0], side[1]), (side[0], side[1]))
    strips = laid_with(MITRED, room).border.strips
    half = np.radians(angle)
    mirror = np.array([[np.cos(half), np.sin(half)], [np.sin(half), -np.cos(half)]])
    mirrored = shapely.Polygon(strips[0].region.rings[0] @ mirror)
    assert mirrored.symmetric_difference(strips[3].region.shape).area < 1.0


def check_law_of_areas(laid: Bordered) -> None:
    """Pieces lie apart by the joint and within the region; their areas add up."""
    pieces = list(laid.pieces())
    shapes = [shape_of(piece) for piece in pieces]
    assert len({piece.id for piece in pieces}) == len(pieces)
    assert sum(p.area for p in pieces) == pytest.approx(shapely.union_all(shapes).area, rel=1e-9)
    assert sum(piece.whole for piece in pieces) == laid.whole_count
    assert [p.id for p in laid.cut] == [p.id for p in pieces if not p.whole]
    tree = shapely.STRtree(shapes)
    one, other = tree.query(shapes, predicate="dwithin", distance=3.0 - 1e-5)
    same_face = {
        (a, b)
        for a, b in zip(one.tolist(), other.tolist(), strict=True)
        if pieces[a].face.tobytes() == pieces[b].face.tobytes()
    }
    assert {*zip(one.tolist(), other.tolist(), strict=True)} == same_face
    within = laid.region.shape.buffer(1e-5, join_style="mitre")
    assert all(within.contains(shape) for shape in shapes)


@settings(max_examples=25, deadline=None)
@given(straight_rooms(), st.sampled_from([MITRED, BUTTED]), st.integers(1, 2))
def test_pieces_never_come_nearer_than_the_joint_nor_leave_the_room(
    room: Surface, border: Border, rows: int
) -> None:
    try:
        laid = laid_with(
            structs.replace(border, rows=rows), room, RectangleTile(id="band", length=197, width=47)
        )
    except LayoutError as error:
        assert "too short" in error.what or "no room" in error.what
        return
    check_law_of_areas(laid)


def test_the_law_holds_in_a_room_of_odd_angles_with_a_bay_left_out() -> None:
    check_law_of_areas(laid_with(structs.replace(MITRED, rows=2, left_out=(3,)), OBLIQUE_WITH_BAY))


@EACH_CORNER
def test_all_that_is_bare_in_a_plain_room_is_joint(border: Border) -> None:
    """Grown by half a joint the pieces cover the room up to the wall side's half joint."""
    laid = laid_with(border)
    grown = [shape_of(piece).buffer(1.5 + 1e-6, join_style="mitre") for piece in laid.pieces()]
    assert (laid.region.shape - shapely.union_all(grown)).area < 1e-3
    left = laid.region.area - sum(piece.area for piece in laid.pieces())
    assert left == pytest.approx(joint_area_of(laid), rel=1e-6)


def joint_area_of(laid: Bordered) -> float:
    pieces = shapely.union_all([shape_of(piece) for piece in laid.pieces()])
    return float(laid.region.shape.difference(pieces).area)


@EACH_CORNER
def test_a_mirrored_room_has_the_same_counts(border: Border) -> None:
    mirrored = structs.replace(L_SHAPED, outline=tuple((-x, y) for x, y in L_SHAPED.outline))
    one, other = laid_with(border, L_SHAPED).border, laid_with(border, mirrored).border
    assert (len(one.whole), len(one.pieces)) == (len(other.whole), len(other.pieces))
    assert sorted(round(p.area, 3) for p in one.pieces) == sorted(round(p.area, 3) for p in other.pieces)


@settings(max_examples=60, deadline=None)
@given(st.floats(900, 4000), st.floats(60, 500), st.floats(1, 8))
def test_balanced_ends_of_a_butted_strip_are_equal_and_half_a_tile_or_more(
    wide: float, length: float, joint: float
) -> None:
    band = RectangleTile(id="band", length=length, width=40)
    laid = laid_with(BUTTED, rectangle(wide, 800), band, gap=0.0, joint=joint)
    strip = laid.border.strips[0]
    xs = sorted((p.outline[:, 0].min(), p.outline[:, 0].max()) for p in strip.pieces())
    first, last = np.ptp(xs[0]), np.ptp(xs[-1])
    reach = xs[0][0], wide - xs[-1][1]
    assert max(reach) <= joint + strip.layout.least_piece + 1e-6
    assert first == pytest.approx(last, abs=1e-5)
    assert first >= min((length + joint) / 2 - joint, length) - 1e-6


def test_from_a_corner_the_first_tile_is_whole_but_for_its_mitre() -> None:
    laid = laid_with(structs.replace(MITRED, begin=BorderBegin.CORNER))
    first = of_border(laid)[0]
    assert first.id == "b1"
    assert first.face[:, 0].min() == pytest.approx(6.0 + 1.5 * sqrt(2), abs=1e-6)


def test_a_border_runs_straight_past_a_doorway_and_counts_as_one_strip() -> None:
    room = floor_of(
        (0, 0),
        (1000, 0),
        (1800, 0),
        (3000, 0),
        (3000, 2400),
        (0, 2400),
        edges=(Edge(at=1, role=EdgeRole.DOORWAY),),
    )
    laid = laid_with(MITRED, room)
    assert len(laid.border.strips) == 4
    assert laid.border.strips[0].region.shape.bounds[1] == pytest.approx(6.0)
    at_edges = {cut.edge: cut.usual for cut in border_cuts(laid.inner)}
    assert at_edges[0] == at_edges[1] == at_edges[2]


def test_an_edge_left_out_is_met_by_the_field_and_ends_the_strips_beside_it() -> None:
    laid = laid_with(structs.replace(MITRED, left_out=(2,)))
    assert laid.inner.region.shape.bounds == pytest.approx((106, 106, 2894, 2394), abs=1e-6)
    assert len(laid.border.strips) == 3


def test_a_cutout_that_reaches_into_the_border_cuts_its_tiles() -> None:
    cutouts = (square_cutout(1410, 0, 80, name="post"), round_cutout(700, 60, 60, name="pipe"))
    laid = laid_with(MITRED, structs.replace(PLAIN, cutouts=cutouts))
    cut = {cut.border for piece in of_border(laid) if not piece.whole for cut in cuts_of(piece, laid)}
    assert {"post", "pipe"} <= cut
    pieces = shapely.union_all([shape_of(piece) for piece in laid.pieces()])
    assert pieces.distance(shapely.Point(700, 60)) == pytest.approx(30.0, abs=0.05)
    assert not pieces.intersects(shapely.box(1410, 0, 1490, 80).buffer(-1e-6))


def test_the_cuts_of_field_pieces_name_the_border() -> None:
    laid = laid_with(MITRED)
    names = {cut.border for piece in laid.inner.cut for cut in cuts_of(piece, laid)}
    assert names == {f"border {edge}" for edge in range(4)}


@pytest.mark.parametrize(
    ("border", "surface", "says"),
    [
        (MITRED, OBLIQUE_WITH_BAY, "cannot follow edge 4, which is curved"),
        (structs.replace(MITRED, rows=20), PLAIN, "too short for the border"),
        (structs.replace(MITRED, left_out=(7,)), PLAIN, "does not have"),
        (structs.replace(MITRED, left_out=(0, 1, 2, 3)), PLAIN, "follows no edge"),
        (structs.replace(MITRED, left_out=(1, 3)), rectangle(2000, 150), "no room for the border"),
    ],
)
def test_what_cannot_be_laid_is_refused_by_name(border: Border, surface: Surface, says: str) -> None:
    with pytest.raises(LayoutError, match=says):
        laid_with(border, surface)


def test_a_named_wall_that_is_too_short_is_called_by_its_name() -> None:
    niche = ((1200, 1800), (1200, 2000), (1050, 2000), (1050, 1800))
    room = floor_of((0, 0), (2000, 0), (2000, 1800), *niche, (0, 1800), edges=(Edge(at=4, name="Ledge"),))
    with pytest.raises(LayoutError, match="Ledge of floor is too short for the border") as refused:
        laid_with(structs.replace(MITRED, rows=2), room)
    assert "Leave edge 5 out" in refused.value.mend


def test_only_rectangles_make_a_border() -> None:
    with pytest.raises(LayoutError, match="no rectangle"):
        laid_with(MITRED, band=HEXAGON)


def test_every_piece_is_found_by_its_id() -> None:
    laid = laid_with(MITRED, L_SHAPED)
    for piece in laid.pieces():
        assert laid.piece(piece.id).outline.tolist() == piece.outline.tolist()
    for id in ("b0", "b9999", "bx", "Z99"):
        with pytest.raises(KeyError):
            laid.piece(id)


def test_parts_widths_and_pieces_stand_in_one_order() -> None:
    laid = laid_with(structs.replace(MITRED, rows=2), L_SHAPED)
    widths, are_exact = laid.cut_widths
    for part in range(len(laid.cut_parts)):
        piece = laid.cut_piece(part)
        assert piece.area == pytest.approx(laid.cut_parts.areas[part])
        assert piece.narrowest >= widths[part] - 1e-9
        if are_exact[part]:
            assert piece.narrowest == pytest.approx(widths[part])
    assert laid.narrowest_cut == pytest.approx(min(piece.narrowest for piece in laid.cut))
