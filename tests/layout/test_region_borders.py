"""Every edge of the region knows which wall or cutout it comes from."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings

from tests.rooms import L_SHAPED, PLAIN, floor_of, rooms, round_cutout, square_cutout
from tilelayout.job.values import Cutout, Edge, EdgeRole, Surface, Visibility
from tilelayout.layout.region import region_of
from tilelayout.layout.values import Points, Region


def sources(region: Region) -> Counter[str]:
    return Counter(border.source for borders in region.borders for border in borders)


def edges_from(region: Region, source: str) -> list[tuple[Points, Points]]:
    return [
        (ring[at], ring[(at + 1) % len(ring)])
        for ring, borders in zip(region.rings, region.borders, strict=True)
        for at, border in enumerate(borders)
        if border.source == source
    ]


def test_the_sides_of_an_l_come_from_its_walls_in_order() -> None:
    region = region_of(L_SHAPED, 6)
    assert sources(region) == {f"edge {k}": 1 for k in range(6)}
    ((start, end),) = edges_from(region, "edge 2")
    assert (start.tolist(), end.tolist()) == ([3594, 1494], [1694, 1494])


def test_an_outline_drawn_clockwise_keeps_the_numbers_of_its_edges() -> None:
    room = floor_of((0, 600), (1000, 600), (1000, 0), (0, 0), edges=(Edge(at=2, role=EdgeRole.DOORWAY),))
    ((start, end),) = edges_from(region_of(room, 6), "edge 2")
    assert start[1] == end[1] == 0


def test_a_border_knows_the_role_and_visibility_of_its_edge() -> None:
    edges = (Edge(at=0, role=EdgeRole.TUB), Edge(at=1, seen=Visibility.HIDDEN))
    borders = region_of(floor_of(*PLAIN.outline, edges=edges), 6).borders[0]
    found = {border.source: (border.role, border.seen) for border in borders}
    assert found["edge 0"] == (EdgeRole.TUB, Visibility.ORDINARY)
    assert found["edge 1"] == (EdgeRole.WALL, Visibility.HIDDEN)
    assert found["edge 2"] == (EdgeRole.WALL, Visibility.ORDINARY)


def test_cutouts_are_borders_by_name_or_by_number() -> None:
    nameless = Cutout(polygon=((1000, 1000), (1100, 1000), (1100, 1100), (1000, 1100)))
    region = region_of(floor_of(*PLAIN.outline, cutouts=(round_cutout(600, 600, 110), nameless)), 6)
    assert sources(region)["cutout 2"] == 4
    assert sources(region)["drain"] > 20


def test_a_round_border_carries_its_centre_and_grown_radius() -> None:
    region = region_of(floor_of(*PLAIN.outline, cutouts=(round_cutout(600, 640, 110, 3),)), 6)
    border = region.borders[1][0]
    assert (border.centre, border.radius) == ((600.0, 640.0), 58.0)


@pytest.mark.parametrize(("through", "moved"), [((500, 700), -10), ((500, 500), 10)])
def test_a_curved_wall_carries_the_radius_of_the_line_the_gap_leaves(
    through: tuple[float, float], moved: float
) -> None:
    radius = (500**2 + 100**2) / 200
    room = floor_of((0, 0), (1000, 0), (1000, 600), (0, 600), edges=(Edge(at=2, through=through),))
    curved = [border for border in region_of(room, 10).borders[0] if border.radius is not None]
    assert {border.source for border in curved} == {"edge 2"}
    assert curved[0].radius == pytest.approx(radius + moved)


def test_the_square_end_of_a_strip_belongs_to_its_wall() -> None:
    room = floor_of(
        (0, 0), (400, 0), (1200, 0), (2000, 0), (2000, 900), (0, 900),
        edges=(Edge(at=1, role=EdgeRole.DOORWAY),),
    )  # fmt: skip
    region = region_of(room, 10)
    assert sources(region)["edge 0"] == sources(region)["edge 2"] == 2
    assert sources(region)["edge 1"] == 1


def test_walls_on_one_line_stay_apart() -> None:
    region = region_of(floor_of((0, 0), (500, 0), (1000, 0), (1000, 800), (0, 800)), 10)
    ((_, end),) = edges_from(region, "edge 0")
    assert end.tolist() == [500, 10]


def test_a_cutout_over_a_wall_takes_its_place_on_the_border() -> None:
    region = region_of(floor_of(*PLAIN.outline, cutouts=(square_cutout(500, -50, 200),)), 6)
    assert sources(region)["post"] == 3
    assert sources(region)["edge 0"] == 2


@settings(max_examples=40, deadline=None)
@given(rooms())
def test_every_border_of_a_wall_lies_the_gap_away_from_it(room: Surface) -> None:
    region, outline = region_of(room, 6.5), np.array(room.outline, dtype=float)
    for at in range(len(outline)):
        start, end = outline[at], outline[(at + 1) % len(outline)]
        square = np.array([start[1] - end[1], end[0] - start[0]]) / np.hypot(*(end - start))
        for ends in edges_from(region, f"edge {at}"):
            assert [abs(float((point - start) @ square)) for point in ends] == pytest.approx([6.5, 6.5])
