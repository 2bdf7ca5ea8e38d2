"""What every pattern must do, whichever it is, and where each one's first tiles stand."""

from __future__ import annotations

from math import sqrt
from typing import get_args

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rooms import (
    HEXAGON,
    INCH,
    LAYINGS,
    LEANING,
    MOSAICS,
    ODD,
    OFFSET_SHEETS,
    PLANK,
    SEVERAL,
    SQUARE,
    TROMINO,
    layout_of,
)
from tilelayout.base.errors import JobFileError, LayoutError
from tilelayout.geometry.growing import grown as grown_ring
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Layout, RectangleTile, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.patterns import (
    cell_of,
    names,
    pattern,
    settings_of,
    usual_settings,
)
from tilelayout.layout.tiling import tiles_by_lattice
from tilelayout.layout.values import Cell

CAST = LAYINGS | MOSAICS | {"sheets of hexagons": OFFSET_SHEETS["sheets of hexagons"]}
"""Round chips fill no plane: their sheets have tests of their own."""

CELLS = {name: cell_of(layout, tile) for name, (tile, layout) in CAST.items()} | {
    name: cell_of(layout, tile, more) for name, (tile, layout, more) in SEVERAL.items()
}
EVERY_PATTERN = pytest.mark.parametrize("cell", CELLS.values(), ids=CELLS.keys())


def area_of(cell: Cell) -> float:
    return float(abs(np.linalg.det(cell.vectors)))


def faces_about(cell: Cell, reach: int = 3) -> list[shapely.Polygon]:
    """Every face of the cells around cell (0, 0), this cell's own faces first."""
    steps = sorted(
        ((i, j) for i in range(-reach, reach + 1) for j in range(-reach, reach + 1)), key=np.hypot.reduce
    )
    return [
        shapely.Polygon(face.outline + np.array(at) @ cell.vectors) for at in steps for face in cell.faces
    ]


def grown(face: shapely.Polygon, joint: float) -> shapely.Polygon:
    return face.buffer(joint / 2, join_style="mitre", mitre_limit=10)


def check_keeps_one_joint(cell: Cell) -> None:
    """Faces grown by half a joint fill the cell; every face is one joint from each neighbour it borders.

    The library rounds where it grows a flat corner: by 2e-8 of the area, measured.
    """
    faces = faces_about(cell)
    own, joint = faces[: len(cell.faces)], cell.joint
    blown = [grown(face, joint) for face in faces]
    assert sum(shape.area for shape in blown[: len(own)]) == pytest.approx(area_of(cell), rel=1e-7)
    for k, face in enumerate(own):
        bordered = 0.0
        for other, shape in zip(faces, blown, strict=True):
            if other is face:
                continue
            assert shapely.intersection(blown[k], shape, grid_size=1e-7).area < 1e-6 * area_of(cell)
            assert face.distance(other) > joint - 1e-6
            shared = blown[k].boundary.intersection(shape.buffer(1e-6)).length
            bordered += shared
            if shared > joint + 0.01:  # less is a corner against a corner, across the joint's width
                assert face.distance(other) == pytest.approx(joint, abs=1e-6)
        assert bordered == pytest.approx(blown[k].length, rel=1e-3)


@EVERY_PATTERN
def test_faces_grown_by_half_a_joint_fill_the_cell_and_keep_the_joint(cell: Cell) -> None:
    check_keeps_one_joint(cell)


@EVERY_PATTERN
def test_each_face_is_the_tile_turned_and_moved(cell: Cell) -> None:
    for face in cell.faces:
        np.testing.assert_allclose(
            face.outline, tile_outline(face.tile) @ turning(face.turn) + face.corner, atol=1e-9
        )
        assert shapely.Polygon(face.outline).exterior.is_ccw


@EVERY_PATTERN
def test_the_next_course_lies_on_the_left_of_the_first_vector(cell: Cell) -> None:
    assert np.linalg.det(cell.vectors) > 0


@settings(max_examples=40, deadline=None)
@given(st.floats(60, 900), st.floats(60, 900), st.floats(0.5, 12))
def test_herringbone_fills_the_plane_whatever_the_size_of_the_tile(
    length: float, width: float, joint: float
) -> None:
    tile = RectangleTile(id="any", length=length, width=width)
    cell = cell_of(layout_of(tile, "herringbone", joint=joint), tile)
    long, short = max(length, width) + joint, min(length, width) + joint
    faces = faces_about(cell, reach=2 + int(long / short))
    own = [grown(face, joint) for face in faces[:2]]
    assert sum(shape.area for shape in own) == pytest.approx(area_of(cell), rel=1e-9)
    others = shapely.unary_union([grown(face, joint) for face in faces[2:]])
    assert own[0].intersection(own[1]).area + sum(shape.intersection(others).area for shape in own) < 1e-3
    assert min(faces[0].distance(face) for face in faces[1:]) == pytest.approx(joint, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(-2, 2), min_size=1, max_size=5))
def test_rows_of_any_offsets_keep_one_joint(offsets: list[float]) -> None:
    check_keeps_one_joint(cell_of(layout_of(ODD, row_offsets=tuple(offsets)), ODD))


def low_corners(cell: Cell) -> list[tuple[float, float]]:
    return [tuple(face.outline.min(axis=0).round(6)) for face in cell.faces]


def test_a_plain_grid_is_one_tile() -> None:
    cell = cell_of(layout_of(SQUARE), SQUARE)
    assert low_corners(cell) == [(0, 0)]
    assert cell.vectors.tolist() == [[300, 0], [0, 300]]


@pytest.mark.parametrize(
    "offsets", [(0, 0.5), (0, 1 / 3, 2 / 3), (0.25, 0.5, 0.75, 1.0), (0, -0.2, -0.4, -0.6, -0.8)]
)
def test_evenly_stepped_offsets_make_a_leaning_lattice_of_one_tile(offsets: tuple[float, ...]) -> None:
    cell = cell_of(layout_of(PLANK, row_offsets=offsets), PLANK)
    assert len(cell.faces) == 1
    for row in range(2 * len(offsets)):
        x = offsets[row % len(offsets)] * 600
        at = (np.array([x, row * 300.0]) - cell.faces[0].outline[0]) @ np.linalg.inv(cell.vectors)
        np.testing.assert_allclose(at, at.round(), atol=1e-9)


def test_uneven_offsets_make_a_cell_of_as_many_rows() -> None:
    cell = cell_of(layout_of(PLANK, row_offsets=(0, 1 / 3)), PLANK)
    assert low_corners(cell) == [(0, 0), (200, 300)]
    assert cell.vectors.tolist() == [[600, 0], [0, 600]]
    assert [face.course for face in cell.faces] == [0, 1]


def test_herringbone_stands_as_the_job_file_defines_it() -> None:
    cell = cell_of(layout_of(PLANK, "herringbone"), PLANK)
    assert low_corners(cell) == [(0, 0), (0, 300)]
    assert np.ptp(cell.faces[1].outline, axis=0).tolist() == [297, 597]
    for x, y in ((300, 300), (600, -600)):
        at = np.array([x, y]) @ np.linalg.inv(cell.vectors)
        np.testing.assert_allclose(at, at.round(), atol=1e-9)


@pytest.mark.parametrize(("length", "width", "lines_up"), [(23.75, 11.8125, True), (24, 12, False)])
def test_herringbone_joints_line_up_only_for_a_modular_tile(
    length: float, width: float, lines_up: bool
) -> None:
    """System modularity: two widths and a joint make a length (worked example, computed, no publication)."""
    tile = RectangleTile(id="plank", length=length * INCH, width=width * INCH)
    cell = cell_of(layout_of(tile, "herringbone", joint=INCH / 8), tile)
    standing = cell.faces[1].outline + cell.vectors[1] - cell.vectors[0]
    lying = cell.faces[0].outline
    assert (
        abs(standing[:, 1].min() - lying[:, 1].max() - INCH / 8 - width * INCH - INCH / 8) < 1e-6
    ) == lines_up


def test_hexagon_pitches_are_those_of_a_honeycomb() -> None:
    """Worked example: 228.6 across flats and a 3 mm joint give pitches of 231.6 and 200.6 (computed)."""
    cell = cell_of(layout_of(HEXAGON, "hexagon"), HEXAGON)
    assert cell.vectors[0].tolist() == pytest.approx([231.6, 0])
    assert cell.vectors[1][1] == pytest.approx(200.6, abs=0.05)
    np.testing.assert_allclose(cell.faces[0].outline.mean(axis=0), 0, atol=1e-9)
    assert np.ptp(cell.faces[0].outline, axis=0).tolist() == pytest.approx([228.6, 228.6 * 2 / sqrt(3)])


def test_a_hexagon_turned_flat_up_is_the_same_honeycomb_turned() -> None:
    cell = cell_of(layout_of(HEXAGON, "hexagon", up="flat"), HEXAGON)
    assert np.ptp(cell.faces[0].outline, axis=0).tolist() == pytest.approx([228.6 * 2 / sqrt(3), 228.6])
    np.testing.assert_allclose(cell.faces[0].outline.mean(axis=0), 0, atol=1e-9)
    centre = cell.faces[1].outline.mean(axis=0)
    assert centre.tolist() == pytest.approx([231.6 * sqrt(3) / 2, 231.6 / 2])


def test_a_pattern_refuses_a_tile_of_another_shape() -> None:
    with pytest.raises(LayoutError, match="hexagon"):
        cell_of(layout_of(HEXAGON), HEXAGON)
    with pytest.raises(LayoutError, match="rectangle"):
        cell_of(layout_of(PLANK, "hexagon"), PLANK)


@pytest.mark.parametrize(
    ("layout", "place"),
    [
        (layout_of(PLANK, "spiral"), "pattern"),
        (layout_of(PLANK, row_ofsets=(0,)), "row_ofsets"),
        (layout_of(PLANK, row_offsets=()), "row_offsets"),
        (layout_of(PLANK, row_offsets=(0, "half")), "row_offsets[1]"),
        (layout_of(PLANK, "herringbone", row_offsets=(0,)), "row_offsets"),
        (layout_of(HEXAGON, "hexagon", up="down"), "up"),
        (layout_of(PLANK, "stack", column_offsets=(0, "1/2")), "column_offsets[1]"),
        (layout_of(PLANK, "stack", column_offsets=()), "column_offsets"),
        (layout_of(PLANK, "stack", row_offsets=(0, 0)), "row_offsets"),
        (layout_of(PLANK, "basketweave", tiles=4), "tiles"),
        (layout_of(PLANK, "basketweave", tiles=2.5), "tiles"),
        (layout_of(LEANING, "chevron", angle_of_tile=45), "angle_of_tile"),
        (layout_of(TROMINO, "drawn", vectors=((0, 0), (1,))), "vectors[1]"),
        (layout_of(TROMINO, "drawn", vectors=((0, "far"), (1, 1))), "vectors[0][1]"),
        (layout_of(TROMINO, "drawn", vectors=((0, True), (1, 1))), "vectors[0][1]"),
        (layout_of(TROMINO, "drawn", vectors=((2, 2), (300, 300))), ""),
        (layout_of(TROMINO, "drawn", vectors=((9, 0), (0, 9)), faces=({"turned": 9},)), "faces[0].turned"),
        (layout_of(TROMINO, "drawn", faces=({"turn": 90},)), ""),
        (layout_of(TROMINO, "drawn", vectors=((9, 0), (0, 9)), faces=({"turn": float("nan")},)), "faces[0]"),
        (layout_of(TROMINO, "drawn", vectors=((9, 0), (0, 9)), faces=({},) * 25), ""),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_a_wrong_setting_is_named_by_its_place(layout: Layout, place: str) -> None:
    with pytest.raises(JobFileError) as caught:
        settings_of(layout)
    assert caught.value.place == place


def test_every_pattern_tells_people_about_itself() -> None:
    shapes = {str(kind.__struct_config__.tag) for kind in get_args(Tile)}
    for name in names():
        assert pattern(name).NAME and pattern(name).SUMMARY.endswith(".")
        assert shapes >= pattern(name).SHAPES
        assert (pattern(name).__doc__ or "").count("\n") > 2
        for usual in usual_settings(name).values():
            settings_of(Layout(id="A", surface="", tile="", pattern=name, settings=dict(usual)))


def test_every_pattern_and_every_shape_stands_in_the_cast() -> None:
    cast = [
        *LAYINGS.values(),
        *MOSAICS.values(),
        *OFFSET_SHEETS.values(),
        *(laying[:2] for laying in SEVERAL.values()),
    ]
    assert {layout.pattern for _, layout in cast} == set(names())
    assert {type(tile) for tile, _ in cast} == set(get_args(Tile))


@EVERY_PATTERN
def test_the_cells_of_the_cast_pass_the_test_of_drawn_cells(cell: Cell) -> None:
    rings = [grown_ring(face.outline, cell.joint / 2) for face in cell.faces]
    assert tiles_by_lattice(rings, cell.vectors)
    assert not tiles_by_lattice(rings, cell.vectors * 1.01)
    assert not tiles_by_lattice(rings, cell.vectors * 0.99)
