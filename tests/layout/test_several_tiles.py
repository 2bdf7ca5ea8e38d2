"""Layouts of several tiles: what fits and what is refused, counts and areas of each against brute force."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.layout.test_patterns import area_of, check_keeps_one_joint, faces_about
from tests.rooms import (
    CAST,
    DOT,
    HALF,
    LONG,
    OCTAGON,
    PLAIN,
    SEVERAL,
    SMALL,
    SQUARE,
    TRIANGLE,
    angles,
    layout_of,
    rooms,
    starts,
)
from tilelayout.base.errors import JobFileError, LayoutError
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Layout, OctagonTile, RectangleTile, Surface, Tile
from tilelayout.layout.faces import tile_outline, tile_width
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.patterns import cell_of, cell_to_show, check_roles, more_sizes, roles_of
from tilelayout.layout.roles import tile_of_size
from tilelayout.layout.slivers import are_slivers, is_sliver, sliver_limit
from tilelayout.layout.values import Cell

Laying = tuple[Tile, Layout, dict[str, Tile]]
JOINTS = st.floats(0.5, 8.0)
EVERY = pytest.mark.parametrize("name", SEVERAL)


def fitting(layout: Layout, tile: Tile) -> dict[str, Tile]:
    """A tile of the size that fits in every role."""
    return {role: tile_of_size(role, size) for role, size in more_sizes(layout, tile).items()}


@settings(max_examples=12, deadline=None)
@given(st.floats(60, 600), st.floats(0.2, 0.8), JOINTS)
def test_an_octagon_of_any_sides_and_its_dot_keep_one_joint(
    across: float, share: float, joint: float
) -> None:
    tile = OctagonTile(id="any", across_flats=across, side=share * across)
    layout = layout_of(tile, "octagon_and_dot", joint=joint)
    if more_sizes(layout, tile)["dot"][0] >= 1.0:
        check_keeps_one_joint(cell_of(layout, tile, fitting(layout, tile)))


def test_a_regular_octagon_without_joints_has_a_dot_as_wide_as_its_side() -> None:
    """A regular octagon of side s is s * (1 + sqrt(2)) across its flats (textbook geometry)."""
    tile = OctagonTile(id="regular", across_flats=100 * (1 + sqrt(2)), side=100)
    assert more_sizes(layout_of(tile, "octagon_and_dot", joint=0.0), tile)["dot"] == pytest.approx((100, 100))
    assert np.hypot(*np.diff(tile_outline(tile), axis=0).T) == pytest.approx([100] * 7)
    assert tile_width(tile) == pytest.approx(tile.across_flats)


@settings(max_examples=30, deadline=None)
@given(st.floats(60, 500), st.floats(0.1, 1.0), JOINTS, st.sampled_from(("left", "right")))
def test_a_pinwheel_keeps_one_joint_at_any_ratio(
    side: float, share: float, joint: float, turning: str
) -> None:
    large, small = (RectangleTile(id=f"{s:g}", length=s, width=s) for s in (side, share * side))
    layout = layout_of(large, "pinwheel", joint=joint, turning=turning)
    cell = cell_of(layout, large, {"small": small})
    assert area_of(cell) == pytest.approx((side + joint) ** 2 + (share * side + joint) ** 2)
    check_fills(cell)


@settings(max_examples=10, deadline=None)
@given(st.floats(60, 500), JOINTS, st.sampled_from(("two", "two-oblong", "three", "four")))
def test_modular_sets_keep_one_joint_whatever_the_module(side: float, joint: float, sizes: str) -> None:
    tile = RectangleTile(id="any", length=side, width=side)
    layout = layout_of(tile, "modular", joint=joint, sizes=sizes)
    if all(short >= 1.0 for _, short in more_sizes(layout, tile).values()):
        check_keeps_one_joint(cell_of(layout, tile, fitting(layout, tile)))


@settings(max_examples=8, deadline=None)
@given(st.floats(60, 300), st.floats(1.3, 4.0), JOINTS)
def test_a_windmill_keeps_one_joint(width: float, ratio: float, joint: float) -> None:
    tile = RectangleTile(id="any", length=width * ratio, width=width)
    layout = layout_of(tile, "windmill", joint=joint)
    if more_sizes(layout, tile)["centre"][0] >= 1.0:
        check_keeps_one_joint(cell_of(layout, tile, fitting(layout, tile)))


def check_fills(cell: Cell) -> None:
    """Faces grown by half a joint fill the cell and overlap nowhere, however thin the small ones are."""
    blown = [face.buffer(cell.joint / 2, join_style="mitre") for face in faces_about(cell)]
    own = blown[: len(cell.faces)]
    assert sum(shape.area for shape in own) == pytest.approx(area_of(cell), rel=1e-9)
    for k, shape in enumerate(own):
        others = shapely.unary_union([other for at, other in enumerate(blown) if at != k])
        assert shape.intersection(others).area < 1e-6 * area_of(cell)


@pytest.mark.parametrize("sizes", ["two", "two-oblong", "three", "four"])
def test_no_four_corners_of_a_modular_set_meet(sizes: str) -> None:
    layout = layout_of(SQUARE, "modular", sizes=sizes)
    cell = cell_of(layout, SQUARE, fitting(layout, SQUARE))
    blown = [face.buffer(cell.joint / 2, join_style="mitre") for face in faces_about(cell)]
    corners = {tuple(np.round(at, 3)) for face in blown[: len(cell.faces)] for at in face.exterior.coords}
    for corner in corners:
        assert sum(shapely.Point(corner).distance(face) < 1e-6 for face in blown) == 3


def test_the_classic_set_holds_its_numbers_of_each_size() -> None:
    """Two small, one half, two large, one oblong in 18 modules (common practice, from memory)."""
    _, layout, more = SEVERAL["modular, four sizes"]
    cell = cell_of(layout, SQUARE, more)
    counts = {
        id: sum(face.tile.id == id for face in cell.faces) for id in ("small", "half", "square", "oblong")
    }
    assert counts == {"small": 2, "half": 1, "square": 2, "oblong": 1}
    assert area_of(cell) == pytest.approx(18 * 150**2)


@pytest.mark.parametrize(
    ("name", "sizes", "words"),
    [
        ("octagon and dot", {"dot": (130.0, 130.0)}, ("dot", "121.28 mm square", "No joint")),
        ("octagon and dot", {"dot": (120.11, 120.11)}, ("121.28 mm square", "joint of 5.00 mm")),
        ("windmill", {"centre": (295.0, 295.0)}, ("297 mm square", "joint of 5.00 mm")),
        ("modular squares and halves", {"half": (297.0, 146.0)}, ("297 × 147 mm", "joint of 5.00 mm")),
        ("modular squares and halves", {"half": (300.0, 150.0)}, ("297 × 147 mm", "No joint")),
        ("modular squares and oblongs", {"oblong": (445.5, 297.0)}, ("447 × 297 mm", "joint of 0.00 mm")),
    ],
)
def test_a_set_that_is_not_modular_is_refused_with_what_would_do(
    name: str, sizes: dict[str, tuple[float, float]], words: tuple[str, ...]
) -> None:
    """System modularity, ANSI A137.1: a long side is n short sides and n - 1 joints (computed)."""
    tile, layout, more = SEVERAL[name]
    wrong = {role: tile_of_size(role, size) for role, size in sizes.items()}
    with pytest.raises(LayoutError) as caught:
        cell_of(layout, tile, more | wrong)
    for said in words:
        assert said in str(caught.value)


@EVERY
def test_a_missing_tile_is_named_with_its_size(name: str) -> None:
    tile, layout, _ = SEVERAL[name]
    with pytest.raises(LayoutError, match="needs a further tile"):
        cell_of(layout, tile)
    if layout.pattern != "drawn":
        size = f"{next(iter(more_sizes(layout, tile).values()))[0]:.5g}"
        with pytest.raises(LayoutError, match=f"Add one of {size}"):
            cell_of(layout, tile)
        assert len(cell_to_show(layout, tile).faces) >= 2


def test_a_joint_that_leaves_no_room_is_refused() -> None:
    with pytest.raises(LayoutError, match="no room for the dot"):
        cell_of(
            layout_of(OCTAGON, "octagon_and_dot", joint=100.0, gap=0.0),
            replace(OCTAGON, side=240.0),
            {"dot": DOT},
        )


def test_a_role_of_another_shape_and_a_role_that_is_none_are_refused() -> None:
    with pytest.raises(LayoutError, match="The small square cannot be laid with the triangle"):
        cell_of(layout_of(SQUARE, "pinwheel"), SQUARE, {"small": TRIANGLE})
    with pytest.raises(LayoutError, match="is none"):
        cell_of(layout_of(SQUARE, "pinwheel"), SQUARE, {"small": HALF})
    with pytest.raises(LayoutError, match="no square"):
        cell_of(layout_of(LONG, "modular", sizes="two"), LONG, {"half": HALF})
    with pytest.raises(JobFileError) as caught:
        check_roles(replace(layout_of(OCTAGON, "octagon_and_dot"), more_tiles={"dit": "dot"}))
    assert caught.value.place == "more_tiles.dit"
    assert not roles_of(layout_of(SQUARE))


def laid_by_name(name: str, room: Surface = PLAIN, **changes: object) -> Laid:
    tile, layout, more = SEVERAL[name]
    return lay(room, tile, replace(layout, **changes), more=more)


def by_brute_force(laid: Laid) -> dict[str, tuple[int, int, float]]:
    """Whole tiles, cut pieces and area of each tile, from every face near the region, one by one."""
    angle, region = laid.layout.angle, laid.region.shape
    vectors = laid.cell.vectors @ turning(angle)
    counts = {tile.id: (0, 0, 0.0) for tile in laid.tiles}
    reach = np.hypot(*(np.ptp(np.reshape(region.bounds, (2, 2)), axis=0))) + 1000
    middle = np.linalg.solve(vectors.T, np.reshape(region.bounds, (2, 2)).mean(axis=0) - laid.layout.start)
    most = int(reach / min(np.abs(np.linalg.det(vectors)) / np.hypot(*vectors.T[::1]).max(), 150)) + 3
    for i in range(-most, most + 1):
        for j in range(-most, most + 1):
            shift = (np.round(middle) + np.array([i, j])) @ vectors + laid.layout.start
            for face in laid.cell.faces:
                shape = shapely.Polygon(face.outline @ turning(angle) + shift)
                if not shape.intersects(region):
                    continue
                whole, cut, area = counts[face.tile.id]
                parts = [part for part in shapely.get_parts(shape & region) if part.area > 1e-3]
                parts = [
                    p
                    for p in parts
                    if not p.buffer(-laid.layout.least_piece / 2, join_style="mitre").is_empty
                ]
                is_whole = shape.difference(region).area < 1e-3
                area += sum(part.area for part in parts)
                counts[face.tile.id] = (whole + is_whole, cut + (0 if is_whole else len(parts)), area)
    return counts


@EVERY
def test_counts_and_areas_of_each_tile_agree_with_shapely(name: str) -> None:
    laid = laid_by_name(name, start=(117.0, 83.0))
    found = by_brute_force(laid)
    for tile in laid.tiles:
        pieces = [piece for piece in laid.pieces() if piece.tile.id == tile.id]
        whole, cut, area = found[tile.id]
        assert (sum(p.whole for p in pieces), sum(not p.whole for p in pieces)) == (whole, cut)
        assert laid.whole_tiles[tile] == whole
        assert sum(p.area for p in pieces) == pytest.approx(area, rel=1e-6)
    assert sum(laid.whole_by_face) == laid.whole_count


@settings(max_examples=12, deadline=None)
@given(rooms(), st.sampled_from(sorted(SEVERAL)), starts(), angles())
def test_the_areas_of_all_tiles_add_up_to_the_region_less_its_joints(
    room: Surface, name: str, start: tuple[float, float], angle: float
) -> None:
    laid = laid_by_name(name, room, start=start, angle=angle)
    laid_area = sum(piece.area for piece in laid.pieces())
    faces = shapely.polygons(
        [shapely.LinearRing(face) for face in {p.face.tobytes(): p.face for p in laid.pieces()}.values()]
    )
    inside = float(shapely.area(shapely.intersection(faces, laid.region.shape)).sum())
    assert laid_area - 1e-3 <= inside <= laid_area + laid.left_to_joint_area + 1e-3
    for piece in laid.pieces():
        np.testing.assert_allclose(
            sorted(map(tuple, np.round(piece.in_tile(piece.face), 5) + 0.0)),
            sorted(map(tuple, np.round(tile_outline(piece.tile), 5) + 0.0)),
            atol=2e-5,
        )


def mirrored(room: Surface) -> Surface:
    return replace(room, outline=tuple((-x, y) for x, y in reversed(room.outline)))


@settings(max_examples=10, deadline=None)
@given(st.sampled_from(("plain", "L-shaped", "slotted")), starts())
def test_a_mirrored_room_takes_the_mirrored_pieces_of_every_tile(
    room: str, start: tuple[float, float]
) -> None:
    """Octagon and dot is its own mirror image; a pinwheel is that of the one turning the other way."""
    for name, other, moved in (
        ("octagon and dot", {}, 0.0),
        ("pinwheel", {"settings": {"turning": "right"}}, 297.0),
    ):
        one = laid_by_name(name, CAST[room], start=start)
        two = laid_by_name(name, mirrored(CAST[room]), start=(-start[0] - moved, start[1]), **other)
        for tile in one.tiles:
            areas = [
                sorted(round(p.area, 3) for p in laid.pieces() if p.tile.id == tile.id) for laid in (one, two)
            ]
            assert areas[0] == pytest.approx(areas[1], abs=2e-3)


@EVERY
def test_slivers_are_measured_by_their_own_tile(name: str) -> None:
    laid = laid_by_name(name, start=(40.0, 77.0))
    found = {piece.id for piece in laid.cut_pieces(are_slivers(laid))}
    expected = {p.id for p in laid.cut if p.narrowest < sliver_limit(p.tile) - 1e-6}
    assert found == expected == {p.id for p in laid.cut if is_sliver(p, laid)}


def test_a_dot_has_a_lower_limit_than_its_octagon() -> None:
    assert sliver_limit(DOT) < sliver_limit(OCTAGON) == 50.0
    assert sliver_limit(SMALL) == 49.0
