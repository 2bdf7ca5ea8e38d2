"""Rooms whose walls, posts and joints lie flush, at any turn: nothing is overlooked, nothing breaks."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.rooms import CAST, floor_of, layings, layout_of, rooms
from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import Cutout, Layout, Point, RectangleTile, Surface, Tile
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.region import region_of

TILE = RectangleTile(id="t", length=597, width=297)


def turned(points: list[Point], degrees: float, by: Point) -> tuple[Point, ...]:
    moved = np.array(points, dtype=float) @ turning(degrees) + by
    return tuple((x, y) for x, y in moved.tolist())


def alcove(seed: int, out_by: float = 0.0) -> Surface:
    """A room of 3000 x 2400 at some place and turn, a lavatory of 360 x 500 with its back on a wall."""
    random = np.random.default_rng(seed)
    degrees, (x, y) = random.uniform(0, 90), random.uniform(-5000, 5000, 2).tolist()
    walls = turned([(0, 0), (3000, 0), (3000, 2400), (0, 2400)], degrees, (x, y))
    back = turned([(700, out_by), (1060, out_by), (1060, 500), (700, 500)], degrees, (x, y))
    return floor_of(*walls, cutouts=(Cutout(name="lavatory", polygon=back),))


@pytest.mark.parametrize("seed", range(80))
def test_a_cutout_with_its_back_on_an_oblique_wall_is_taken_away(seed: int) -> None:
    for out_by in (0.0, 1e-7, -1e-7):
        region = region_of(alcove(seed, out_by), 0.0)
        assert region.area == pytest.approx(3000 * 2400 - 360 * 500, abs=0.1)


def summed(laid: Laid) -> float:
    joints = shapely.area(laid.region.shape) - sum(piece.area for piece in laid.pieces())
    return float(joints - laid.left_to_joint_area)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.floats(0, 90), st.sampled_from([0.0, 3e-7, 1e-6, 2e-6, 4e-6, 1e-5, 1e-4]), st.booleans())
def test_walls_a_hair_off_the_joints_leave_only_hairs(degrees: float, hair: float, is_more: bool) -> None:
    # Five by eight tiles without a joint fill the room but for a strip of no width that a saw could cut.
    off = hair if is_more else -hair
    tile, layout = replace(TILE, length=600, width=300), layout_of(TILE, joint=0.0, gap=0.0, angle=degrees)
    walls = turned([(0, 0), (3000 + off, 0), (3000 + off, 2400 + off), (0, 2400 + off)], degrees, (0, 0))
    laid = lay(floor_of(*walls), tile, replace(layout, start=(0.0, 0.0)))
    assert laid.whole_count + sum(piece.narrowest > 290 for piece in laid.cut) == 40
    assert summed(laid) == pytest.approx(0.0, abs=1.0)


def slotted(hair: float, degrees: float) -> Surface:
    """A tile's room from which a slot takes all but a hair of the tile's middle."""
    corners: list[Point] = [
        (0, 0),
        (597, 0),
        (597, 297),
        (400, 297),
        (400, hair),
        (150, hair),
        (150, 297),
        (0, 297),
    ]
    return floor_of(*turned(corners, degrees, (0, 0)))


@pytest.mark.parametrize("degrees", [0.0, 17.3, 45.0])
@pytest.mark.parametrize("hair", [1e-6, 2e-6, 3e-6, 1e-5, 1e-4, 1e-3])
def test_a_piece_that_a_hair_holds_together_is_laid_and_measured(hair: float, degrees: float) -> None:
    layout = layout_of(TILE, angle=degrees, joint=0.0, gap=0.0)
    laid = lay(slotted(hair, degrees), TILE, replace(layout, start=(0.0, 0.0)))
    assert min(piece.narrowest for piece in laid.cut) == pytest.approx(150.0, abs=0.1)
    assert sum(piece.area for piece in laid.cut) == pytest.approx((150 + 197) * 297, abs=1.0)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.one_of(rooms(), st.sampled_from(sorted(CAST)).map(CAST.__getitem__)), layings(), st.integers(0, 3))
def test_every_piece_of_a_laying_set_on_a_corner_can_be_measured(
    room: Surface, laying: tuple[Tile, Layout], corner: int
) -> None:
    # A start on a corner of the room makes walls and joints flush wherever the room allows it.
    tile, layout = laying
    laid = lay(room, tile, replace(layout, start=room.outline[corner], gap=0.0, least_piece=0.0))
    for piece in laid.cut:
        assert 0.0 < narrowest(piece.outline, piece.holes) <= 1000.0
