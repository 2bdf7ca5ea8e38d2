"""The jobs the sheets are tried on: small rooms of our own, each with one thing that is hard to print."""

from __future__ import annotations

from tilelayout.base.units import LengthStyle
from tilelayout.job.values import (
    Circle,
    Cutout,
    Edge,
    EdgeRole,
    HexagonTile,
    Job,
    Layout,
    RectangleTile,
    Surface,
    SurfaceKind,
    Visibility,
)

_STONE = RectangleTile(id="stone", name="Grey stone 300 x 600", length=597.0, width=297.0, thickness=9.5)
_BRICK = RectangleTile(id="brick", name="Glazed brick", length=152.0, width=75.0, directional=True)
_SQUARE = RectangleTile(id="square", name="Small square", length=98.0, width=98.0)
_HEX = HexagonTile(id="hex", name="Hexagon", across_flats=200.0)


def _job(title: str, style: LengthStyle, surface: Surface, layout: Layout) -> Job:
    return Job(
        title=title,
        show_lengths=style,
        surfaces=(surface,),
        tiles=(_STONE, _BRICK, _SQUARE, _HEX),
        layouts=(layout,),
    )


def potting_shed(style: LengthStyle = LengthStyle.INCH, title: str = "Potting shed") -> Job:
    """A 12 ft by 8 ft floor with a doorway and a post, laid in half bond."""
    floor = Surface(
        id="floor",
        name="Shed floor",
        outline=((0, 0), (3657.6, 0), (3657.6, 2438.4), (0, 2438.4)),
        edges=(Edge(at=0, role=EdgeRole.DOORWAY), Edge(at=2, seen=Visibility.HIDDEN)),
        cutouts=(
            Cutout(name="drain", circle=Circle(centre=(900.0, 800.0), diameter=110.0), clearance=3.0),
            Cutout(name="post", polygon=((2400, 900), (2520, 900), (2520, 1020), (2400, 1020))),
        ),
    )
    layout = Layout(
        id="A", surface="floor", tile="stone", start=(120.0, 90.0), settings={"row_offsets": [0, 0.5]}
    )
    return _job(title, style, floor, layout)


def skew_porch(style: LengthStyle = LengthStyle.MM) -> Job:
    """A porch with an oblique wall and a bay, on which no piece is its own mirror image."""
    floor = Surface(
        id="porch",
        outline=((0, 0), (2600, 0), (2600, 1500), (1500, 2300), (0, 1900)),
        edges=(
            Edge(at=1, through=(2850, 750)),
            Edge(at=2, name="garden wall"),
            Edge(at=4, role=EdgeRole.OPEN),
        ),
    )
    return _job("Porch", style, floor, Layout(id="A", surface="porch", tile="stone", start=(33.0, 21.0)))


def kitchen_wall(style: LengthStyle = LengthStyle.FEET) -> Job:
    """A wall with an outlet, in a tile that has a direction."""
    wall = Surface(
        id="back",
        kind=SurfaceKind.WALL,
        outline=((0, 0), (1830, 0), (1830, 610), (0, 610)),
        cutouts=(Cutout(name="outlet", polygon=((700, 250), (770, 250), (770, 365), (700, 365))),),
    )
    settings = {"row_offsets": [0, 0.5]}
    layout = Layout(
        id="A", surface="back", tile="brick", joint=2.0, gap=3.0, start=(40, 3), settings=settings
    )
    return _job("Kitchen wall", style, wall, layout)


def washroom(style: LengthStyle = LengthStyle.CM) -> Job:
    """A small floor of hexagons."""
    floor = Surface(id="washroom", outline=((0, 0), (1400, 0), (1400, 1100), (0, 1100)))
    return _job("Washroom", style, floor, Layout(id="A", surface="washroom", tile="hex", pattern="hexagon"))


def dance_hall() -> Job:
    """A floor of some eight thousand small tiles: too many for one readable page."""
    floor = Surface(
        id="hall", outline=((0, 0), (11_000, 0), (11_000, 4000), (7000, 4000), (7000, 9000), (0, 9000))
    )
    return _job(
        "Dance hall", LengthStyle.MM, floor, Layout(id="A", surface="hall", tile="square", start=(40, 55))
    )


def closet(style: LengthStyle = LengthStyle.MM, title: str = "Closet") -> Job:
    """A floor that whole tiles fill: nothing to cut."""
    floor = Surface(id="closet", outline=((0, 0), (1197, 0), (1197, 897), (0, 897)))
    return _job(title, style, floor, Layout(id="A", surface="closet", tile="stone", gap=0.0))
