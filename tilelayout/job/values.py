"""The job as one immutable value, in the words of the job file.

Every value is a frozen struct and every list a tuple, so a job can be kept, compared by identity and
shared between threads. An edit makes a new job and leaves what it did not touch as the same objects.
Lengths are millimetres; points are (x, y) with x to the right and y up, seen from the face that will be
walked on or looked at.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

import msgspec

from tilelayout.base.units import LengthStyle

if TYPE_CHECKING:
    Length = float
else:

    class _AnyFloat(type):
        def __instancecheck__(cls, value: object) -> bool:
            return isinstance(value, float)

    class Length(metaclass=_AnyFloat):
        """A length in mm, always a plain float.

        A type of its own only so that the strict reader knows where a length stands and a text such as
        "8 ft" is to be read as one.
        """

        def __new__(cls, value: float) -> float:
            """Return the plain float."""
            return float(value)


Point = tuple[Length, Length]


class Value(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What every part of a job is: immutable, compared by content, strict about unknown keys."""


class EdgeRole(StrEnum):
    """What stands at an edge of a surface."""

    WALL = "wall"
    DOORWAY = "doorway"
    OPEN = "open"
    OUTSIDE_CORNER = "outside-corner"
    TUB = "tub"


class Visibility(StrEnum):
    """How much an edge is looked at; a small piece at a hidden edge is no sliver."""

    HIDDEN = "hidden"
    ORDINARY = "ordinary"
    LOOKED_AT = "looked-at"


class SurfaceKind(StrEnum):
    """A floor is walked on, a wall is looked at."""

    FLOOR = "floor"
    WALL = "wall"


class Edge(Value, frozen=True, kw_only=True):
    """What is special about the edge from corner `at` to corner `at + 1`.

    `through` makes the edge an arc: it runs from its first corner through this point to its second.
    Kept as three points, the arc is exact in the file and needs no angle or radius to agree with them.
    `name` is what a person calls the edge on the cut list ("window wall").
    """

    at: int
    role: EdgeRole = msgspec.field(default=EdgeRole.WALL, name="is")
    seen: Visibility = Visibility.ORDINARY
    through: Point | None = None
    name: str = ""


class Circle(Value, frozen=True, kw_only=True):
    """A round cutout."""

    centre: Point
    diameter: Length


class Cutout(Value, frozen=True, kw_only=True):
    """A part of a surface that takes no tile: exactly one of `circle` and `polygon` is given.

    `clearance` is left free around it: mitred round a polygon, a larger circle round a circle.
    """

    name: str = ""
    circle: Circle | None = None
    polygon: tuple[Point, ...] | None = None
    clearance: Length = 0.0


class Surface(Value, frozen=True, kw_only=True):
    """A floor or wall face: an outline either way round, special edges, and cutouts."""

    id: str
    kind: SurfaceKind = SurfaceKind.FLOOR
    name: str = ""
    outline: tuple[Point, ...]
    edges: tuple[Edge, ...] = ()
    cutouts: tuple[Cutout, ...] = ()

    def edge(self, at: int) -> Edge:
        """Return what edge `at` is; a plain wall if nothing special was said of it."""
        return next((edge for edge in self.edges if edge.at == at), Edge(at=at))

    @property
    def title(self) -> str:
        """What to call the surface in front of a person."""
        return self.name or self.id


class TileEdge(StrEnum):
    """How the tile's size was made true: ground after firing, sorted by size, or neither."""

    RECTIFIED = "rectified"
    CALIBRATED = "calibrated"
    NATURAL = "natural"


class TileBase(Value, frozen=True, kw_only=True, tag_field="shape"):
    """What tiles of every shape have. Sizes are measured (work) sizes, not the label's."""

    id: str
    name: str = ""
    thickness: Length = 10.0
    edge: TileEdge = TileEdge.CALIBRATED
    directional: bool = False
    per_box: int | None = None
    price_per_box: float | None = None
    whole_on_hand: int = 0

    @property
    def title(self) -> str:
        """What to call the tile in front of a person."""
        return self.name or self.id


class RectangleTile(TileBase, frozen=True, kw_only=True, tag="rectangle"):
    """A rectangle or square; `length` lies along x at angle 0."""

    length: Length
    width: Length


class HexagonTile(TileBase, frozen=True, kw_only=True, tag="hexagon"):
    """A regular hexagon, measured across its flats."""

    across_flats: Length


class ParallelogramTile(TileBase, frozen=True, kw_only=True, tag="parallelogram"):
    """A parallelogram: `length` along x, `width` square across, the lower left corner `angle` degrees.

    `left_and_right` claims that it is sold in both hands: as many tiles that are its mirror image. The
    one measured here is then the left one.
    """

    length: Length
    width: Length
    angle: float
    left_and_right: bool = False


class RhombusTile(TileBase, frozen=True, kw_only=True, tag="rhombus"):
    """A rhombus: one side along x, the lower left corner `angle` degrees."""

    side: Length
    angle: float


class TriangleTile(TileBase, frozen=True, kw_only=True, tag="triangle"):
    """An equilateral triangle with one side along x."""

    side: Length


class PicketTile(TileBase, frozen=True, kw_only=True, tag="picket"):
    """A picket: a strip along x with a point at either end.

    `length` goes from point to point, `width` straight across, `point` is how far a point stands out.
    """

    length: Length
    width: Length
    point: Length


class PolygonTile(TileBase, frozen=True, kw_only=True, tag="polygon"):
    """A tile of any straight-sided outline, drawn by its corners, either way round, from anywhere."""

    outline: tuple[Point, ...]


Tile = RectangleTile | HexagonTile | ParallelogramTile | RhombusTile | TriangleTile | PicketTile | PolygonTile


class Layout(Value, frozen=True, kw_only=True):
    """One way of laying one tile on one surface.

    `name` is what a person calls it ("half tiles at the door"). Of the layouts of a surface the first is the
    one that is to be laid; the others are kept beside it. `settings` are the keys that belong to the pattern
    (`row_offsets` of rows); the pattern's own file says which there are. In the file they stand beside the
    other keys.
    """

    id: str
    name: str = ""
    surface: str
    tile: str
    pattern: str = "rows"
    joint: Length = 3.0
    angle: float = 0.0
    start: Point = (0.0, 0.0)
    gap: Length = 6.0
    least_piece: Length = 5.0
    settings: dict[str, Any] = {}

    @property
    def title(self) -> str:
        """What to call the layout in front of a person: "B, half tiles at the door"."""
        return f"{self.id}, {self.name}" if self.name else f"Layout {self.id}"


class Saw(Value, frozen=True, kw_only=True):
    """The saw: `kerf` is the width its blade takes."""

    kerf: Length = 2.0


class Survey(Value, frozen=True, kw_only=True):
    """Height readings (x, y, height) on a surface."""

    surface: str
    points: tuple[tuple[Length, Length, Length], ...]


class Job(Value, frozen=True, kw_only=True):
    """Everything one file holds."""

    title: str = ""
    show_lengths: LengthStyle = LengthStyle.MM
    practice: str = "us"
    saw: Saw = Saw()
    surfaces: tuple[Surface, ...] = ()
    tiles: tuple[Tile, ...] = ()
    layouts: tuple[Layout, ...] = ()
    surveys: tuple[Survey, ...] = ()

    def surface(self, id: str) -> Surface:
        """Return the surface with this id; KeyError if there is none."""
        return _named(self.surfaces, id)

    def tile(self, id: str) -> Tile:
        """Return the tile with this id; KeyError if there is none."""
        return _named(self.tiles, id)

    def layout(self, id: str) -> Layout:
        """Return the layout with this id; KeyError if there is none."""
        return _named(self.layouts, id)


class _Named(Protocol):
    @property
    def id(self) -> str: ...


_N = TypeVar("_N", bound=_Named)


def _named(values: tuple[_N, ...], id: str) -> _N:
    for value in values:
        if value.id == id:
            return value
    raise KeyError(id)
