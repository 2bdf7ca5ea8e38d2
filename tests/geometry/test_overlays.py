"""Overlays of areas that lie flush, checked by sums done by hand: a plain overlay gets some of them wrong."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from tilelayout.geometry.overlays import (
    areas_of,
    beyond,
    common,
    covered,
    lost_areas,
    polygons_of,
    stretches_in,
)
from tilelayout.geometry.turns import turning

WIDTH, DEPTH = 976.4, 1190.5
FLUSH = range(60)


def placed(seed: int, *corners: tuple[float, float]) -> shapely.Polygon:
    """A shape set down in a room at a place and turn of its own."""
    random = np.random.default_rng(seed)
    turn = turning(random.uniform(0, 90))
    return shapely.Polygon(np.array(corners) @ turn + random.uniform(-5000, 5000, 2))


def room(seed: int) -> shapely.Polygon:
    return placed(seed, (0, 0), (WIDTH, 0), (WIDTH, DEPTH), (0, DEPTH))


def on_the_wall(seed: int, depth: float) -> shapely.Polygon:
    """A post with one side on a wall: into the room if it is deep, out of it if negative."""
    ends = sorted((0.0, depth))
    return placed(seed, (153.0, ends[0]), (482.0, ends[0]), (482.0, ends[1]), (153.0, ends[1]))


KNOWN_ROOM = shapely.Polygon(
    [
        (1702.3204877324251, -529.9645638042439),
        (2318.2063384582475, 244.7850006919731),
        (1379.0387971802809, 991.3746428690276),
        (763.1529464544584, 216.62507837281078),
    ]
)
KNOWN_POST = shapely.Polygon(
    [
        (1824.1870411987397, -376.6633325559327),
        (2028.9124604520962, -119.13033480818427),
        (1771.3794627043478, 85.59508444517223),
        (1566.6540434509911, -171.9379133025762),
    ]
)


def test_a_post_on_an_oblique_wall_that_a_plain_overlay_overlooks_is_taken_away() -> None:
    assert common(KNOWN_ROOM, KNOWN_POST).area == pytest.approx(KNOWN_POST.area, abs=1e-3)
    assert beyond(KNOWN_ROOM, KNOWN_POST).area == pytest.approx(KNOWN_ROOM.area - KNOWN_POST.area, abs=1e-3)


@pytest.mark.parametrize("seed", FLUSH)
def test_a_post_flush_with_a_wall_is_in_the_room_or_out_of_it(seed: int) -> None:
    walls, inside, outside = room(seed), on_the_wall(seed, 220.0), on_the_wall(seed, -220.0)
    area, post = WIDTH * DEPTH, 329.0 * 220.0
    assert common(walls, inside).area == pytest.approx(post, abs=1e-2)
    assert beyond(walls, inside).area == pytest.approx(area - post, abs=1e-2)
    assert common(walls, outside).area == pytest.approx(0.0, abs=1e-2)
    assert beyond(walls, outside).area == pytest.approx(area, abs=1e-2)
    assert covered([walls, inside]).area == pytest.approx(area, abs=1e-2)
    assert covered([walls, outside]).area == pytest.approx(area + post, abs=1e-2)
    lost = lost_areas(np.array([walls, walls], dtype=object), np.array([inside, outside], dtype=object))
    assert lost == pytest.approx([area - post, area], abs=1e-2)


def test_a_line_in_which_two_areas_touch_is_no_area() -> None:
    one, other = shapely.box(0, 0, 2, 2), shapely.box(2, 0, 3, 2).union(shapely.box(1, 1, 2, 2))
    shared = common(one, other)
    assert isinstance(shared, shapely.Polygon)
    assert shared.area == pytest.approx(1.0)


def test_an_area_mixed_with_lines_can_be_taken_away() -> None:
    # A plain overlay refuses a shape of areas and lines.
    mixed = shapely.GeometryCollection([shapely.box(1, 0, 2, 2), shapely.LineString([(0, 0), (0, 5)])])
    assert beyond(shapely.box(0, 0, 2, 2), mixed).area == pytest.approx(2.0)
    assert covered([mixed, shapely.box(0, 0, 1, 2)]).area == pytest.approx(4.0)
    assert [part.area for part in polygons_of(mixed)] == pytest.approx([2.0])


def test_a_ring_that_crosses_itself_is_mended() -> None:
    bow = shapely.Polygon([(0, 0), (2, 2), (2, 0), (0, 2)])
    assert areas_of(bow).area == pytest.approx(2.0)
    assert beyond(shapely.box(0, 0, 2, 2), bow).area == pytest.approx(2.0)
    assert lost_areas(np.array([shapely.box(0, 0, 2, 2)]), np.array([bow])) == pytest.approx([2.0])


def test_nothing_covers_nothing() -> None:
    assert covered([]).is_empty
    assert polygons_of(covered([])) == []


def test_a_line_along_the_border_counts_as_within() -> None:
    lines = [shapely.LineString([(-1, y), (5, y)]) for y in (0.0, 1.0, 2.0, 2.5)]
    found = stretches_in(lines, shapely.box(0, 0, 2, 2).union(shapely.box(3, 0, 4, 2)))
    assert sorted(part.length for part in found) == pytest.approx([1.0, 1.0, 1.0, 2.0, 2.0, 2.0])
