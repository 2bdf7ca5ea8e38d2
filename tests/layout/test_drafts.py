"""A cell as it is drawn: what is wrong with it is measured, and what is right is what the job file lays."""

from __future__ import annotations

from math import cos, pi, sin, sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.rooms import ARROW, LAYINGS, SEVERAL, SMALL, TROMINO, WEDGE, layout_of
from tilelayout.geometry.turns import turning
from tilelayout.job.values import PolygonTile, Tile
from tilelayout.layout.drafts import Draft, Fit, completed, copies, fit_of
from tilelayout.layout.drawn_cells import draft_of, draft_of_one, drawn_cell, turned_onto
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.values import Cell

SQUARE = ((0.0, 0.0), (297.0, 0.0), (297.0, 297.0), (0.0, 297.0))
HEXAGON = tuple((100 * cos(k * pi / 3), 100 * sin(k * pi / 3)) for k in range(6))
PENTAGON = tuple((100 * cos(k * pi / 2.5), 100 * sin(k * pi / 2.5)) for k in range(5))
JOINT = 3.0


def fit(*outlines: tuple[tuple[float, float], ...], vectors: tuple[tuple[float, float], ...]) -> Fit:
    return fit_of(Draft(outlines, (vectors[0], vectors[1]), JOINT))


def test_a_cell_that_fills_the_plane_has_nothing_wrong() -> None:
    found = fit(SQUARE, vectors=((300, 0), (0, 300)))
    assert found.fills and found.worst is None and found.mended is None


def test_a_gap_is_measured_between_two_tiles_and_the_vector_that_would_do_is_named() -> None:
    found = fit(SQUARE, vectors=((300, 0), (0, 303)))
    assert found.worst is not None and not found.overlaps
    assert found.worst.steps == (0, 1) and found.worst.apart == pytest.approx(6.0)
    assert found.mended == ((300.0, 0.0), (0.0, 300.0))
    free = shapely.union_all([shapely.Polygon(gap) for gap in found.gaps]).area
    assert free == pytest.approx(9 * 300 * 3)


def test_an_overlap_is_as_deep_as_it_is() -> None:
    found = fit(SQUARE, vectors=((300, 0), (0, 296)))
    assert found.worst is not None and found.worst.apart == pytest.approx(-1.0)
    assert len(found.overlaps) == 6  # between the three rows of three cells
    assert sum(shapely.Polygon(ring).area for ring in found.overlaps) == pytest.approx(6 * 300 * 4)
    assert found.mended == ((300.0, 0.0), (0.0, 300.0))


def test_a_joint_that_is_too_narrow_is_said_before_a_gap() -> None:
    found = fit(SQUARE, vectors=((310, 0), (0, 298)))
    assert found.worst is not None
    assert found.worst.steps == (0, 1) and found.worst.apart == pytest.approx(1.0)


def test_two_vectors_that_are_both_off_are_both_mended() -> None:
    assert fit(SQUARE, vectors=((310, 0), (0, 306))).mended == ((300.0, 0.0), (0.0, 300.0))


def test_a_row_that_is_shifted_stays_shifted_when_it_is_mended() -> None:
    mended = fit(SQUARE, vectors=((300, 0), (150, 304))).mended
    assert mended is not None and mended[0] == (300.0, 0.0)
    assert mended[1][1] == pytest.approx(300.0) and 140.0 < mended[1][0] < 150.0


def test_the_mended_vectors_are_the_nearest_of_their_lattice() -> None:
    outline = tuple(map(tuple, tile_outline(TROMINO).tolist()))
    assert fit(outline, vectors=((450, 0), (150, 160))).mended == ((450.0, 0.0), (150.0, 150.0))


def test_what_fills_no_plane_has_no_vectors() -> None:
    found = fit(PENTAGON, vectors=((190, 0), (0, 190)))
    assert not found.fills and found.mended is None


@pytest.mark.parametrize("vectors", [((300.0, 0.0), (600.0, 0.0)), ((2.0, 0.0), (0.0, 2.0))])
def test_vectors_in_one_direction_or_far_too_short_are_not_measured(
    vectors: tuple[tuple[float, float], ...],
) -> None:
    found = fit(SQUARE, vectors=vectors)
    assert found.is_too_tight and not found.fills and found.mended == ((300.0, 0.0), (0.0, 300.0))


def test_a_notch_without_room_for_the_joint_is_not_measured() -> None:
    slit = ((0, 0), (300, 0), (300, 300), (151, 300), (151, 100), (149, 100), (149, 300), (0, 300))
    assert fit(slit, vectors=((303, 0), (0, 303))).is_too_tight


@settings(max_examples=40, deadline=None)
@given(
    st.floats(60, 400),
    st.floats(60, 400),
    st.floats(-25, 25).filter(lambda off: abs(off) > 0.5),
    st.booleans(),
    st.floats(0, 10),
)
def test_any_rectangle_drawn_with_one_wrong_vector_is_mended(
    length: float, width: float, off: float, is_first: bool, joint: float
) -> None:
    ring = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    right = ((length + joint, 0.0), (0.0, width + joint))
    drawn = ((right[0][0] + off, 0.0), right[1]) if is_first else (right[0], (0.0, right[1][1] + off))
    found = fit_of(Draft((ring,), drawn, joint))
    assert not found.fills and found.mended is not None
    np.testing.assert_allclose(found.mended, right, atol=1e-3)
    assert found.worst is not None and found.worst.apart == pytest.approx(joint + off, abs=1e-6)
    assert fit_of(Draft((ring,), found.mended, joint)).fills


def test_vectors_are_found_for_a_hexagon() -> None:
    found = completed(Draft((HEXAGON,), ((1.0, 0.0), (0.0, 1.0)), JOINT))
    assert found is not None and len(found.outlines) == 1 and fit_of(found).fills
    cell = abs(np.linalg.det(found.way))
    assert cell == pytest.approx((100 * sqrt(3) + JOINT) ** 2 * sqrt(3) / 2, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.floats(-80, 80), st.floats(-80, 80)), min_size=4, max_size=4, unique=True))
def test_every_quadrilateral_is_completed_by_its_half_turned_copy(bends: list[tuple[float, float]]) -> None:
    """Known since antiquity: four corners, bent from those of a square, always fill the plane so."""
    outline = tuple((x + dx, y + dy) for (x, y), (dx, dy) in zip(SQUARE, bends, strict=True))
    found = completed(Draft((outline,), ((1.0, 0.0), (0.0, 1.0)), JOINT))
    assert found is not None and fit_of(found).fills
    assert len(drawn_cell(found).outlines) == 1


def test_a_pentagon_is_completed_no_way() -> None:
    assert completed(Draft((PENTAGON,), ((190.0, 0.0), (0.0, 190.0)), JOINT)) is None


def test_three_by_three_cells_are_shown() -> None:
    shown = list(copies(Draft((SQUARE, HEXAGON), ((300.0, 0.0), (0.0, 300.0)), JOINT)))
    assert len(shown) == 18
    assert {number for number, _, _ in shown} == {0, 1}


def drawn_again(tile: Tile, cell: Cell) -> Cell:
    """Draw the faces of a cell, put what was drawn in a job, and lay that."""
    (a, b), (c, d) = cell.vectors.tolist()
    outlines = tuple(tuple(map(tuple, face.outline.tolist())) for face in cell.faces)
    drawn = drawn_cell(Draft(outlines, ((a, b), (c, d)), cell.joint))
    own, *others = (
        PolygonTile(id=f"drawn-{number}", outline=outline) for number, outline in enumerate(drawn.outlines)
    )
    layout = replace(layout_of(own, "drawn", joint=cell.joint), settings=drawn.settings)
    return cell_of(layout, own, dict(zip(drawn.roles, others, strict=True)))


def check_same_faces(one: Cell, other: Cell) -> None:
    by = other.faces[0].outline.min(axis=0) - one.faces[0].outline.min(axis=0)
    for face, again in zip(one.faces, other.faces, strict=True):
        assert shapely.Polygon(face.outline + by).symmetric_difference(
            shapely.Polygon(again.outline)
        ).area == pytest.approx(0.0, abs=0.05)


FEW = [name for name, (tile, layout) in sorted(LAYINGS.items()) if len(cell_of(layout, tile).faces) <= 24]


@pytest.mark.parametrize("name", FEW)
def test_every_pattern_can_be_drawn_and_is_laid_as_drawn(name: str) -> None:
    tile, layout = LAYINGS[name]
    cell = cell_of(layout, tile)
    check_same_faces(cell, drawn_again(tile, cell))


@pytest.mark.parametrize("name", SEVERAL)
def test_every_cell_of_several_tiles_can_be_drawn(name: str) -> None:
    tile, layout, more = SEVERAL[name]
    cell = cell_of(layout, tile, more)
    again = drawn_again(tile, cell)
    check_same_faces(cell, again)
    assert len({face.tile.id for face in again.faces}) == 1 + len(more)


def test_a_half_turned_copy_is_the_same_tile_and_a_mirror_image_another() -> None:
    ring = tile_outline(WEDGE)
    half = turned_onto(ring, 500.0 - ring)
    assert half is not None and (half.turn, half.at) == (180.0, (500.0, 500.0))
    assert turned_onto(ring, (ring * (-1, 1))[::-1]) is None
    assert turned_onto(ring, ring[:3]) is None


@settings(max_examples=40, deadline=None)
@given(st.floats(0, 359.9), st.floats(-900, 900), st.floats(-900, 900), st.integers(0, 5))
def test_a_ring_turned_and_moved_is_known_again(turn: float, x: float, y: float, roll: int) -> None:
    ring = tile_outline(TROMINO)
    other = np.roll(ring @ turning(turn) + (x, y), roll, axis=0)
    found = turned_onto(ring, other)
    assert found is not None
    again = shapely.Polygon(ring @ turning(found.turn) + found.at)
    assert again.symmetric_difference(shapely.Polygon(other)).area < 0.05


def test_a_single_outline_has_no_faces_in_the_job() -> None:
    moved = tuple((x + 40.0, y - 7.0) for x, y in SQUARE)
    assert drawn_cell(Draft((moved,), ((300.0, 0.0), (0.0, 300.0)), JOINT)).settings == {
        "vectors": ((300.0, 0.0), (0.0, 300.0))
    }


def test_drawing_goes_on_from_the_cell_there_is() -> None:
    tile, layout, more = SEVERAL["drawn trominoes with a square"]
    draft = draft_of(tile, layout, more)
    assert len(draft.outlines) == 2 and draft.vectors == ((300.0, 0.0), (0.0, 300.0))
    assert fit_of(draft).fills
    loose = replace(layout, settings={"vectors": ((450.0, 0.0), (150.0, 160.0))})
    assert not fit_of(draft_of(TROMINO, loose, {})).fills


def test_a_tile_that_is_not_drawn_begins_by_itself_with_vectors_that_do() -> None:
    for tile in (SMALL, ARROW, TROMINO):
        draft = draft_of(tile, replace(layout_of(SMALL), joint=0.0), {})
        assert len(draft.outlines) == 1 and fit_of(draft).fills
    assert draft_of_one(PENTAGON, 0.0).vectors[0][1] == 0.0
