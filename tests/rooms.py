"""A cast of rooms, tiles and layouts that tests meet again and again, and random ones for laws.

Each room is named for what is awkward about it. Random corners lie on a 50 mm raster as often as not,
because the tiles' coordinating sizes do too: walls then fall on joints, through corners and through the
centres of tiles, where laying goes wrong if it goes wrong at all.
"""

from __future__ import annotations

from math import cos, pi, sin, sqrt
from typing import Any

from hypothesis import strategies as st
from msgspec.structs import replace

from tilelayout.job.values import (
    Circle,
    Cutout,
    Edge,
    EdgeRole,
    HexagonMosaicTile,
    HexagonTile,
    Layout,
    MosaicTile,
    OctagonTile,
    OffsetSheet,
    ParallelogramTile,
    PicketTile,
    Point,
    PolygonTile,
    RectangleTile,
    RhombusTile,
    RoundMosaicTile,
    Surface,
    Tile,
    TriangleTile,
)

INCH = 25.4


def floor_of(*outline: Point, edges: tuple[Edge, ...] = (), cutouts: tuple[Cutout, ...] = ()) -> Surface:
    """Return a floor with these corners."""
    return Surface(id="floor", outline=outline, edges=edges, cutouts=cutouts)


def rectangle(width: float, depth: float) -> Surface:
    """Return a rectangular floor with a corner at (0, 0)."""
    return floor_of((0, 0), (width, 0), (width, depth), (0, depth))


def square_cutout(x: float, y: float, side: float, clearance: float = 0.0, name: str = "post") -> Cutout:
    """Return a square cutout by its lower left corner."""
    corners = ((x, y), (x + side, y), (x + side, y + side), (x, y + side))
    return Cutout(name=name, polygon=corners, clearance=clearance)


def round_cutout(x: float, y: float, diameter: float, clearance: float = 0.0, name: str = "drain") -> Cutout:
    """Return a round cutout."""
    return Cutout(name=name, circle=Circle(centre=(x, y), diameter=diameter), clearance=clearance)


PLAIN = rectangle(3000, 2400)
L_SHAPED = floor_of((0, 0), (3600, 0), (3600, 1500), (1700, 1500), (1700, 3100), (0, 3100))
WITH_HOLES = floor_of(
    (0, 0),
    (3000, 0),
    (3000, 2400),
    (0, 2400),
    cutouts=(square_cutout(1810, 900, 100, 3), round_cutout(600, 640, 110, 3)),
)
OBLIQUE_WITH_BAY = floor_of(
    (0, 0),
    (4100, 350),
    (3900, 2800),
    (2700, 2800),
    (1300, 2800),
    (100, 2700),
    edges=(Edge(at=0, role=EdgeRole.DOORWAY), Edge(at=3, through=(2000, 3300))),
)
SLOTTED = floor_of(
    (0, 0), (2400, 0), (2400, 1800), (1260, 1800), (1260, 420), (1220, 420), (1220, 1800), (0, 1800)
)
NARROW = rectangle(2900, 211)
TINY = rectangle(130, 90)

CAST = {
    "plain": PLAIN,
    "L-shaped": L_SHAPED,
    "with holes": WITH_HOLES,
    "oblique with a bay": OBLIQUE_WITH_BAY,
    "slotted": SLOTTED,
    "narrower than a tile": NARROW,
    "smaller than a tile": TINY,
}

PLANK = RectangleTile(id="plank", length=597, width=297)
SQUARE = RectangleTile(id="square", length=297, width=297)
ODD = RectangleTile(id="odd", length=413, width=151)
HEXAGON = HexagonTile(id="hexagon", across_flats=228.6)
BRICK = RectangleTile(id="brick", length=297, width=147)
STRIP = RectangleTile(id="strip", length=237, width=77)
LEANING = ParallelogramTile(id="leaning", length=420, width=110, angle=60, left_and_right=True)
DIAMOND = RhombusTile(id="diamond", side=190, angle=60)
KITE = RhombusTile(id="kite", side=210, angle=105)
TRIANGLE = TriangleTile(id="triangle", side=310)
PICKET = PicketTile(id="picket", length=310, width=97, point=48.5)
TROMINO = PolygonTile(id="tromino", outline=((0, 0), (297, 0), (297, 147), (147, 147), (147, 297), (0, 297)))
ARROW = PolygonTile(
    id="arrow", outline=((0, 0), (100, 50), (200, 0), (200, 140), (100, 190), (0, 140))
)  # bends inwards below
MOSAIC = MosaicTile(id="mosaic", chip_length=47.5, chip_width=23, chips_across=6, chips_up=10, chip_joint=2.5)
SQUARE_CHIPS = MosaicTile(
    id="square-chips", chip_length=23, chip_width=23, chips_across=12, chips_up=12, chip_joint=2
)
WEDGE = PolygonTile(id="wedge", outline=((0, 0), (260, 0), (220, 170), (60, 120)))


def layout_of(tile: Tile, pattern: str = "rows", **keys: Any) -> Layout:
    """Return a layout of the floor; keys that are no keys of a layout are the pattern's settings."""
    own = {key: value for key, value in keys.items() if key in Layout.__struct_fields__}
    settings = {key: value for key, value in keys.items() if key not in own}
    return Layout(id="A", surface="floor", tile=tile.id, pattern=pattern, settings=settings, **own)


DRAWN = (588.808, 401.55, 84.3, 244.745, 438.673)
"""Five rows of planks as they were once drawn, in mm."""

LAYINGS: dict[str, tuple[Tile, Layout]] = {
    "grid": (SQUARE, layout_of(SQUARE)),
    "half bond": (PLANK, layout_of(PLANK, row_offsets=(0.0, 0.5))),
    "stepped third": (PLANK, layout_of(PLANK, row_offsets=(0.0, 1 / 3, 2 / 3))),
    "alternating third": (ODD, layout_of(ODD, row_offsets=(0.0, 1 / 3))),
    "diagonal": (SQUARE, layout_of(SQUARE, angle=45.0)),
    "herringbone": (PLANK, layout_of(PLANK, "herringbone")),
    "herringbone of odd planks": (ODD, layout_of(ODD, "herringbone", angle=45.0)),
    "hexagon point up": (HEXAGON, layout_of(HEXAGON, "hexagon")),
    "hexagon flat up": (HEXAGON, layout_of(HEXAGON, "hexagon", up="flat", angle=10.0)),
    "vertical stack": (PLANK, layout_of(PLANK, "stack")),
    "vertical bond": (ODD, layout_of(ODD, "stack", column_offsets=(0.0, 0.5, 0.2))),
    "double herringbone": (ODD, layout_of(ODD, "herringbone_double", angle=45.0)),
    "basketweave": (BRICK, layout_of(BRICK, "basketweave")),
    "basketweave of threes": (STRIP, layout_of(STRIP, "basketweave", tiles=3)),
    "leaning rows": (LEANING, layout_of(LEANING, row_offsets=(0.0, 0.3))),
    "chevron": (LEANING, layout_of(LEANING, "chevron")),
    "chevron of rhombi": (KITE, layout_of(KITE, "chevron")),
    "diamonds": (KITE, layout_of(KITE, "rhombus")),
    "tumbling blocks": (DIAMOND, layout_of(DIAMOND, "tumbling_blocks")),
    "triangles": (TRIANGLE, layout_of(TRIANGLE, "triangle")),
    "pickets": (PICKET, layout_of(PICKET, "picket")),
    "random planks": (PLANK, layout_of(PLANK, "random_planks", shifts=DRAWN)),
    "drawn trominoes": (TROMINO, layout_of(TROMINO, "drawn", vectors=((450.0, 0.0), (150.0, 150.0)))),
    "drawn arrows": (ARROW, layout_of(ARROW, "drawn", vectors=((203.0, 0.0), (0.0, 140 + 3 * sqrt(1.25))))),
    "drawn wedges": (WEDGE, layout_of(WEDGE, "drawn")),
}

OCTAGON = OctagonTile(id="octagon", across_flats=297, side=123)
LONG = RectangleTile(id="long", length=447, width=147)
SMALL = RectangleTile(id="small", length=147, width=147)
HALF = RectangleTile(id="half", length=297, width=147)
UPRIGHT_HALF = RectangleTile(id="half", length=147, width=297)
OBLONG = RectangleTile(id="oblong", length=447, width=297)
CHIP = RectangleTile(id="chip", length=81, width=81)
DOT = RectangleTile(
    id="dot", length=174 / sqrt(2) - 3 * (2 - sqrt(2)), width=174 / sqrt(2) - 3 * (2 - sqrt(2))
)

MOSAICS: dict[str, tuple[MosaicTile, Layout]] = {
    "sheets of oblong chips": (MOSAIC, layout_of(MOSAIC, "mosaic", joint=2.5)),
    "sheets of square chips": (SQUARE_CHIPS, layout_of(SQUARE_CHIPS, "mosaic", joint=2.0)),
}
"""Layouts of mosaic sheets, whose pieces are judged by their chips."""

HEXAGON_CHIPS = HexagonMosaicTile(
    id="hexagon-chips", across_flats=25, chips_across=12, chips_up=12, chip_joint=3
)
ROUND_CHIPS = RoundMosaicTile(id="round-chips", diameter=19, chips_across=9, chips_up=7, chip_joint=2)
OFFSET_SHEETS: dict[str, tuple[OffsetSheet, Layout]] = {
    "sheets of hexagons": (HEXAGON_CHIPS, layout_of(HEXAGON_CHIPS, "mosaic", joint=3.0)),
    "sheets of round chips": (ROUND_CHIPS, layout_of(ROUND_CHIPS, "mosaic", joint=2.0)),
}
"""Layouts of mosaic sheets whose edges interlock; the second have an odd number of rows."""

SEVERAL: dict[str, tuple[Tile, Layout, dict[str, Tile]]] = {
    "octagon and dot": (OCTAGON, layout_of(OCTAGON, "octagon_and_dot"), {"dot": DOT}),
    "octagon and dot, turned": (OCTAGON, layout_of(OCTAGON, "octagon_and_dot", angle=45.0), {"dot": DOT}),
    "pinwheel": (SQUARE, layout_of(SQUARE, "pinwheel"), {"small": SMALL}),
    "pinwheel turning right": (SQUARE, layout_of(SQUARE, "pinwheel", turning="right"), {"small": CHIP}),
    "windmill": (LONG, layout_of(LONG, "windmill"), {"centre": SQUARE}),
    "modular squares and halves": (SQUARE, layout_of(SQUARE, "modular", sizes="two"), {"half": HALF}),
    "modular squares and oblongs": (
        SQUARE,
        layout_of(SQUARE, "modular", sizes="two-oblong"),
        {"oblong": OBLONG},
    ),
    "modular, three sizes": (
        SQUARE,
        layout_of(SQUARE, "modular", sizes="three"),
        {"half": UPRIGHT_HALF, "small": SMALL},
    ),
    "modular, four sizes": (
        SQUARE,
        layout_of(SQUARE, "modular"),
        {"oblong": OBLONG, "half": HALF, "small": SMALL},
    ),
    "planks of two lengths": (
        PLANK,
        layout_of(PLANK, "random_planks", lengths=2, mix=(2, 1), rows=4, least_stagger=100.0),
        {"plank-2": SQUARE},
    ),
    "drawn trominoes with a square": (
        TROMINO,
        layout_of(
            TROMINO,
            "drawn",
            vectors=((300.0, 0.0), (0.0, 300.0)),
            faces=({"at": (0.0, 0.0)}, {"tile": "filling", "at": (150.0, 150.0)}),
        ),
        {"filling": SMALL},
    ),
}
"""Layouts of several tiles, with those in the roles of the pattern."""


def with_ids(layout: Layout, more: dict[str, Tile]) -> Layout:
    """Return the layout with the ids of its further tiles, as it stands in a job."""
    return replace(layout, more_tiles={role: tile.id for role, tile in more.items()})


def _on_raster(points: list[tuple[float, float]], raster: float) -> tuple[Point, ...]:
    return tuple((round(x / raster) * raster, round(y / raster) * raster) for x, y in points)


@st.composite
def star_rooms(draw: st.DrawFn) -> Surface:
    """Rooms with walls at any angle, inside corners, and sometimes a post and a drain near the middle."""
    count = draw(st.integers(5, 9))
    raster = draw(st.sampled_from((1.0, 50.0)))
    corners = []
    for k in range(count):
        angle = (k + draw(st.floats(0, 0.35))) * 2 * pi / count
        reach = draw(st.floats(700, 1900))
        corners.append((1500 + reach * cos(angle), 1500 + reach * sin(angle)))
    cutouts = draw(st.sampled_from(((), (round_cutout(1560, 1630, 90),), (square_cutout(1400, 1450, 100),))))
    return floor_of(*_on_raster(corners, raster), cutouts=cutouts)


@st.composite
def straight_rooms(draw: st.DrawFn) -> Surface:
    """Rooms of right angles: a rectangle with a corner and a bay taken away or added."""
    raster = draw(st.sampled_from((1, 50, 150)))
    near, far = st.integers(600 // raster, 1300 // raster), st.integers(1500 // raster, 2400 // raster)
    x1, y1 = draw(near) * raster, draw(near) * raster
    x2, y2 = draw(far) * raster, draw(far) * raster
    bay = draw(st.integers(1, 300 // raster)) * raster
    left = 2 * raster
    below = ((0, 0), (left, 0), (left, -bay), (x1, -bay), (x1, 0))
    return floor_of(*below, (x2, 0), (x2, y1), (x1, y1), (x1, y2), (0, y2))


def rooms() -> st.SearchStrategy[Surface]:
    """All random rooms."""
    return st.one_of(star_rooms(), straight_rooms())


def starts() -> st.SearchStrategy[Point]:
    """Starts on the raster and off it, inside the room and far away."""
    coarse, fine = st.integers(-20, 40).map(lambda n: n * 75.0), st.floats(-900, 2500)
    return st.one_of(st.tuples(coarse, coarse), st.tuples(fine, fine))


def angles() -> st.SearchStrategy[float]:
    """Angles a tiler would choose, and any others, but none that turns a room by less than rounding."""
    others = st.floats(-180, 360).map(lambda angle: round(angle, 3))
    return st.one_of(st.sampled_from((0.0, 45.0, 90.0, 180.0, 270.0)), others)


def layings() -> st.SearchStrategy[tuple[Tile, Layout]]:
    """Every laying of the cast by turns."""
    return st.sampled_from(sorted(LAYINGS)).map(LAYINGS.__getitem__)
