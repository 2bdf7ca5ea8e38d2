"""What a wall or the tiles a little off do: a room worked out by hand, and the moves themselves."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from tests.planning.jobs import plan_of
from tests.rooms import ARROW, HEXAGON, OBLIQUE_WITH_BAY, PLANK, TRIANGLE, rectangle
from tilelayout.job.values import RectangleTile
from tilelayout.layout.faces import tile_outline
from tilelayout.planning.plan import Plan
from tilelayout.planning.range_words import border_range_words, counts_words
from tilelayout.planning.sensitivity import cases, range_steps, ranges, with_size_off, with_wall_moved

SMALL = RectangleTile(id="small", length=98, width=98)
LEFT, RIGHT = 3, 1


def _room(start: float, width: float = 1000.0) -> Plan:
    """Tiles of 98 with joints of 2 in a room without a gap: one tile every 100 mm."""
    return plan_of(rectangle(width, 1000), SMALL, joint=2.0, gap=0.0, start=(start, start))


def test_border_cuts_range_as_worked_out_by_hand() -> None:
    # From 30 on: 28 at the left. There no tile lies between start and wall, so only the wall counts: 3 mm.
    # At the right 1000 - 930 = 70; nine tiles of half a mm add 4.5 mm, and the wall 3 mm.
    found = ranges(_room(30.0))
    left, right = found.borders[LEFT], found.borders[RIGHT]
    assert (left.least, left.greatest) == pytest.approx((25.0, 31.0))
    assert (right.least, right.greatest) == pytest.approx((62.5, 77.5))
    assert not left.may_be_whole
    assert (found.whole.least, found.whole.greatest) == (81, 81)
    assert (found.cut.least, found.cut.greatest) == (40, 40)
    assert found.narrowest.least == pytest.approx(25.0)


def test_a_strip_that_becomes_too_narrow_leaves_whole_tiles_and_changes_the_counts() -> None:
    # From 9 on: 7 at the left. With that wall 3 mm in, 4 is left to the joint: 9 + 2 cut pieces fewer.
    # At the right 91; with tiles of 97.5 it is 95.5, and with that wall 3 mm out 98.5: nine whole tiles more.
    found = ranges(_room(9.0))
    left = found.borders[LEFT]
    assert left.may_be_whole
    assert (left.least, left.greatest) == pytest.approx((7.0, 10.0))
    assert (found.whole.least, found.whole.greatest) == (81, 90)
    assert (found.cut.least, found.cut.greatest) == (40 - 11, 40)
    words = border_range_words(left, _room(9.0).style)
    assert words == "7 mm to 10 mm or whole"


def test_every_wall_is_moved_both_ways_with_every_size() -> None:
    plan = _room(30.0)
    assert len(list(cases(plan))) == (1 + 2 * 4) * 3
    assert len(list(range_steps(_room(31.0)))) == 27
    assert "81 whole, 40 cut" in counts_words(ranges(plan))


def test_known_ranges_come_at_once() -> None:
    plan = _room(32.0)
    first = ranges(plan)
    assert len(list(range_steps(plan))) == 1
    assert ranges(plan) is first


def test_a_moved_wall_slides_its_corners_along_the_walls_beside() -> None:
    room = with_wall_moved(rectangle(1000, 800), RIGHT, 3.0)
    assert list(room.outline) == [(0, 0), (1003, 0), (1003, 800), (0, 800)]
    assert with_wall_moved(room, RIGHT, -3.0).outline == rectangle(1000, 800).outline
    clockwise = replace(rectangle(1000, 800), outline=tuple(reversed(rectangle(1000, 800).outline)))
    moved = with_wall_moved(clockwise, 0, 3.0)  # from (0, 800) to (1000, 800): the top
    assert max(y for _, y in moved.outline) == pytest.approx(803.0)


def test_beside_an_arc_a_corner_moves_square_to_its_wall() -> None:
    before = OBLIQUE_WITH_BAY.outline
    moved = with_wall_moved(OBLIQUE_WITH_BAY, 2, 3.0).outline  # level, and the arc begins at its end
    assert moved[3] == pytest.approx((before[3][0], before[3][1] + 3.0))
    assert moved[4] == before[4]


def test_tiles_grow_by_as_much_from_side_to_side() -> None:
    assert with_size_off(PLANK, 0.5) == replace(PLANK, length=597.5, width=297.5)
    assert np.ptp(tile_outline(with_size_off(HEXAGON, -0.5)), axis=0)[0] == pytest.approx(228.1)
    assert with_size_off(TRIANGLE, 0.5) == replace(TRIANGLE, side=310.5)
    assert np.ptp(tile_outline(with_size_off(ARROW, 0.5)), axis=0)[0] == pytest.approx(200.5)
