"""The narrowest places of pieces that random layings leave, each tried by a general library's own offsets."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.geometry.opened import TOOTH, lost
from tests.rooms import LAYINGS, OBLIQUE_WITH_BAY, layings, round_cutout, star_rooms, starts, straight_rooms
from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import Circle, Cutout, Layout, Point, Surface, Tile
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.laying import lay
from tilelayout.layout.measuring import least_widths

MEASURED = 3
SHORTEST = 4.0
"""Pieces with a shorter side are left out: the library takes such sides for roughness as they shrink."""

BESIDE = 0.02
"""The library is asked this share below and above the width; beyond that it may give an arm back again."""


def parts_of(room: Surface, laying: tuple[Tile, Layout], start: Point) -> Parts:
    tile, layout = laying
    return lay(room, tile, replace(layout, start=start, least_piece=0.0)).overlap.parts


def notched(parts: Parts) -> list[shapely.Polygon]:
    """Some of the parts that are no convex ones, the most ragged first."""
    shapes = [shapely.Polygon(parts.outlines[k], parts.holes.get(k, ())) for k in range(len(parts))]
    bent = [
        shape for shape in shapes if shape.convex_hull.area - shape.area > 50 and least_side(shape) > SHORTEST
    ]
    return sorted(bent, key=lambda shape: -len(shape.exterior.coords))[:MEASURED]


def least_side(shape: shapely.Polygon) -> float:
    rings = [shapely.get_coordinates(ring) for ring in (shape.exterior, *shape.interiors)]
    return min(float(np.hypot(*np.diff(ring, axis=0).T).min()) for ring in rings)


def rings_of(shape: shapely.Polygon) -> tuple[np.ndarray, list[np.ndarray]]:
    rings = [shapely.get_coordinates(ring)[:-1] for ring in (shape.exterior, *shape.interiors)]
    return rings[0], rings[1:]


@st.composite
def posts(draw: st.DrawFn) -> tuple[Cutout, ...]:
    """One to four posts of four corners, at any turn."""
    found = []
    for number in range(draw(st.integers(1, 4))):
        width, depth = draw(st.floats(20, 400)), draw(st.floats(20, 250))
        box = np.array([(0, 0), (width, 0), (width, depth), (0, depth)], dtype=float)
        turn = draw(st.sampled_from((0.0, 0.0, 30.0, 45.0, 71.3)))
        corners = box @ turning(turn) + (draw(st.floats(900, 1900)), draw(st.floats(900, 1900)))
        found.append(Cutout(name=f"post {number}", polygon=tuple((x, y) for x, y in corners.tolist())))
    return tuple(found)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.one_of(star_rooms(), straight_rooms()), posts(), layings(), starts())
def test_opening_by_a_little_less_gives_a_piece_back_and_by_a_little_more_does_not(
    room: Surface, taken: tuple[Cutout, ...], laying: tuple[Tile, Layout], start: Point
) -> None:
    room = replace(room, cutouts=taken)
    for shape in notched(parts_of(room, laying, start)):
        width = narrowest(*rings_of(shape))
        assert lost(shape, (1 - BESIDE) * width) <= TOOTH
        above = [lost(shape, share * width) for share in np.linspace(1.0 + BESIDE / 4, 1.0 + 2 * BESIDE, 4)]
        assert max(above) > TOOTH or shape.buffer(-width / 2 - 0.05, join_style="mitre").is_empty


def turned(room: Surface, degrees: float) -> Surface:
    """The room turned about (0, 0); the chords of its circles and arcs then begin elsewhere."""

    def at(point: Point) -> Point:
        x, y = (np.array(point) @ turning(degrees)).tolist()
        return (x, y)

    edges = tuple(replace(edge, through=edge.through and at(edge.through)) for edge in room.edges)
    drains = tuple(
        replace(cutout, circle=Circle(centre=at(cutout.circle.centre), diameter=cutout.circle.diameter))
        for cutout in room.cutouts
        if cutout.circle is not None
    )
    return replace(room, outline=tuple(map(at, room.outline)), edges=edges, cutouts=drains)


CURVED = (
    "grid",
    "half bond",
    "diagonal",
    "herringbone",
    "hexagon flat up",
    "basketweave",
    "chevron",
    "pickets",
)


@pytest.mark.parametrize("seed", range(len(CURVED)))
def test_curved_pieces_are_as_narrow_whichever_way_the_room_is_turned(seed: int) -> None:
    # Each turn begins the chords of a curve elsewhere and cuts other ones short: up to a tenth is allowed.
    random = np.random.default_rng(seed)
    middles = [(float(x), float(y)) for x, y in random.uniform(500, 2500, (5, 2))]
    drains = tuple(round_cutout(x, y, float(random.choice([50, 90, 300])), 3.0) for x, y in middles)
    room = replace(OBLIQUE_WITH_BAY, cutouts=drains)
    tile, layout = LAYINGS[CURVED[seed]]
    start = random.uniform(-300, 300, 2)
    found = [
        widths_by_place(turned(room, degrees), tile, layout, start, degrees) for degrees in (0.0, 13.7, 41.3)
    ]
    compared = 0
    for place, width in found[0].items():
        others = [widths[place] for widths in found[1:] if place in widths]
        assert all(abs(other - width) <= 0.1 * max(other, width) + 0.5 for other in others)
        compared += len(others)
    assert compared > 20


def widths_by_place(
    room: Surface, tile: Tile, layout: Layout, start: np.ndarray, degrees: float
) -> dict[tuple[int, int], float]:
    """The widths of the larger pieces by where their middles lie before the turn, to a millimetre."""
    x, y = (start @ turning(degrees)).tolist()
    parts = parts_of(room, (tile, replace(layout, angle=layout.angle + degrees)), (x, y))
    widths, _ = least_widths(parts, np.inf)
    found = {}
    for k in range(len(parts)):
        middle = shapely.Polygon(parts.outlines[k]).centroid
        back = np.array([middle.x, middle.y]) @ turning(-degrees)
        if parts.areas[k] > 5000.0:
            found[round(float(back[0])), round(float(back[1]))] = float(widths[k])
    return found
