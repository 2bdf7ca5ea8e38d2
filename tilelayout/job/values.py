"""The job as one immutable value, in the words of the job file.

Every value is a frozen struct and every list a tuple, so a job can be kept, compared by identity and
shared between threads. An edit makes a new job and leaves what it did not touch as the same objects.
Lengths are millimetres; points are (x, y) with x to the right and y up, seen from the face that will be
walked on or looked at.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Protocol, TypeVar

import msgspec

from tilelayout.base.units import LengthStyle
from tilelayout.job.cuts_made import CutMade
from tilelayout.job.ground import Adhesive, Breakage, Layer, Trim
from tilelayout.job.kinds import (
    Background,
    CutoutKind,
    Exposure,
    Practice,
    Wetness,
)
from tilelayout.job.layouts import BORDER_ROLE as BORDER_ROLE  # noqa: PLC0414  (part of what this module offers)
from tilelayout.job.layouts import Border as Border  # noqa: PLC0414
from tilelayout.job.layouts import Layout as Layout  # noqa: PLC0414
from tilelayout.job.layouts import ReferenceLine as ReferenceLine  # noqa: PLC0414
from tilelayout.job.stock import OffcutOnHand
from tilelayout.job.surveys import StraightedgeReading as StraightedgeReading  # noqa: PLC0414
from tilelayout.job.surveys import Survey as Survey  # noqa: PLC0414
from tilelayout.job.surveys import SurveyTool as SurveyTool  # noqa: PLC0414
from tilelayout.job.value import Length as Length  # noqa: PLC0414
from tilelayout.job.value import Point as Point  # noqa: PLC0414
from tilelayout.job.value import Value as Value  # noqa: PLC0414


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

    Heights are above the bare base of this surface: `meets` is that of the finished floor beyond the edge,
    or `beyond` says in layers what it is built of; `door` is that of the door's underside. `bevelled` claims
    that a step there is bevelled.
    """

    at: int
    role: EdgeRole = msgspec.field(default=EdgeRole.WALL, name="is")
    seen: Visibility = Visibility.ORDINARY
    through: Point | None = None
    name: str = ""
    meets: Length | None = None
    beyond: tuple[Layer, ...] = ()
    door: Length | None = None
    bevelled: bool = False


class Circle(Value, frozen=True, kw_only=True):
    """A round cutout."""

    centre: Point
    diameter: Length


class Cutout(Value, frozen=True, kw_only=True):
    """A part of a surface that takes no tile: exactly one of `circle` and `polygon` is given.

    `clearance` is left free around it: mitred round a polygon, a larger circle round a circle.
    Of a flange `meets` is the height of its top above the bare base, of an appliance that of the worktop's
    underside, and `tall` is the appliance's own height on its lowest feet.
    """

    name: str = ""
    circle: Circle | None = None
    polygon: tuple[Point, ...] | None = None
    clearance: Length = 0.0
    kind: CutoutKind | None = msgspec.field(default=None, name="is")
    meets: Length | None = None
    tall: Length | None = None


class Surface(Value, frozen=True, kw_only=True):
    """A floor or wall face: an outline either way round, special edges, and cutouts.

    `layers` stand on the bare base, lowest first; bed and tile may be left out of them.
    """

    id: str
    kind: SurfaceKind = SurfaceKind.FLOOR
    name: str = ""
    outline: tuple[Point, ...]
    edges: tuple[Edge, ...] = ()
    cutouts: tuple[Cutout, ...] = ()
    background: Background | None = None
    wetness: Wetness | None = None
    exposure: Exposure | None = None
    layers: tuple[Layer, ...] = ()
    adhesive: Adhesive | None = None
    trims: tuple[Trim, ...] = ()

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
    """What tiles of every shape have. Sizes are measured (work) sizes, not the label's.

    The weight is that of one tile or that of a square metre. `warpage` is the most that an edge is measured
    to bow, `spread` the largest less the smallest of the sizes measured, `nominal` the longest side on the
    label. `spare` tiles are kept for repairs.

    `lot` is the lot of the whole tiles on hand and of those to be bought; `offcuts` on hand of another lot
    are not used with them unless `mixed_lots` allows it.
    """

    id: str
    name: str = ""
    thickness: Length = 10.0
    edge: TileEdge = TileEdge.CALIBRATED
    directional: bool = False
    per_box: int | None = None
    price_per_box: float | None = None
    whole_on_hand: int = 0
    lot: str = ""
    offcuts: tuple[OffcutOnHand, ...] = ()
    mixed_lots: bool = False
    weight_kg: float | None = None
    weight_kg_per_m2: float | None = None
    absorption_percent: float | None = None
    warpage: Length | None = None
    spread: Length | None = None
    nominal: Length | None = None
    spare: int | None = None

    @property
    def title(self) -> str:
        """What to call the tile in front of a person."""
        return self.name or self.id

    @property
    def offcuts_to_use(self) -> tuple[OffcutOnHand, ...]:
        """The offcuts on hand of the lot that is laid, or of any lot if they may be mixed."""
        return tuple(each for each in self.offcuts if self.mixed_lots or each.lot == self.lot)


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


class OctagonTile(TileBase, frozen=True, kw_only=True, tag="octagon"):
    """An octagon of two kinds of sides by turns, measured across its flats.

    `side` is the length of the sides that lie along x and y, where the next octagon stands; the slanted ones
    between them follow from it. A regular octagon has a side of across_flats * (sqrt(2) - 1).
    """

    across_flats: Length
    side: Length


class MosaicSheet(TileBase, frozen=True, kw_only=True):
    """Equal chips on a backing, `chip_joint` apart: `chips_across` along x in each of `chips_up` rows.

    The sheet is bought, counted and laid as the tile; its chips are what is hard.
    """

    chips_across: int
    chips_up: int
    chip_joint: Length


class MosaicTile(MosaicSheet, frozen=True, kw_only=True, tag="mosaic"):
    """A mosaic sheet of rectangular chips in rows and columns."""

    chip_length: Length
    chip_width: Length

    @property
    def sheet_length(self) -> float:
        """Length of the whole sheet in mm."""
        return self.chips_across * (self.chip_length + self.chip_joint) - self.chip_joint

    @property
    def sheet_width(self) -> float:
        """Width of the whole sheet in mm."""
        return self.chips_up * (self.chip_width + self.chip_joint) - self.chip_joint


class HexagonMosaicTile(MosaicSheet, frozen=True, kw_only=True, tag="hexagon-mosaic"):
    """A mosaic sheet of regular hexagons that stand on a point, every other row half a chip over.

    Its edges are zigzag lines, and those of neighbouring sheets interlock.
    """

    across_flats: Length


class RoundMosaicTile(MosaicSheet, frozen=True, kw_only=True, tag="round-mosaic"):
    """A mosaic sheet of round chips, every other row half a chip over and nested into the one below."""

    diameter: Length


OffsetSheet = HexagonMosaicTile | RoundMosaicTile
"""The mosaic sheets whose rows stand half a chip over by turns, so that their edges interlock."""


class PolygonTile(TileBase, frozen=True, kw_only=True, tag="polygon"):
    """A tile of any straight-sided outline, drawn by its corners, either way round, from anywhere."""

    outline: tuple[Point, ...]


Tile = (
    RectangleTile
    | HexagonTile
    | OctagonTile
    | ParallelogramTile
    | RhombusTile
    | TriangleTile
    | PicketTile
    | MosaicTile
    | HexagonMosaicTile
    | RoundMosaicTile
    | PolygonTile
)


class Saw(Value, frozen=True, kw_only=True):
    """The saw, and how offcuts may be used: `kerf` is the width its blade takes.

    `dressed` allows a sawn edge at a joint, because the person grinds it to look like a factory edge. Of
    the pieces sawn from one tile at most one is narrower than `least_offcut`: the tile is opened for that
    one, and no offcut so narrow is kept for another.
    """

    kerf: Length = 2.0
    dressed: bool = False
    least_offcut: Length = 0.0


class Job(Value, frozen=True, kw_only=True):
    """Everything one file holds."""

    title: str = ""
    show_lengths: LengthStyle = LengthStyle.MM
    practice: Practice = Practice.US
    saw: Saw = Saw()
    breakage: Breakage | None = None
    surfaces: tuple[Surface, ...] = ()
    tiles: tuple[Tile, ...] = ()
    layouts: tuple[Layout, ...] = ()
    surveys: tuple[Survey, ...] = ()
    cuts_made: tuple[CutMade, ...] = ()

    @property
    def shares_tiles(self) -> bool:
        """Whether tiles are shared by more than one layout to be laid: by several surfaces, or by trims."""
        laid = {layout.surface for layout in self.layouts}
        return len(laid) > 1 or any(surface.trims for surface in self.surfaces)

    def surface(self, id: str) -> Surface:
        """Return the surface with this id; KeyError if there is none."""
        return _named(self.surfaces, id)

    def tile(self, id: str) -> Tile:
        """Return the tile with this id; KeyError if there is none."""
        return _named(self.tiles, id)

    def layout(self, id: str) -> Layout:
        """Return the layout with this id; KeyError if there is none."""
        return _named(self.layouts, id)

    def more_tiles(self, layout: Layout) -> dict[str, Tile]:
        """Return the further tiles of a layout by role, its border among them; KeyError if one is missing."""
        border = {} if layout.border is None else {BORDER_ROLE: layout.border.tile}
        return {role: self.tile(id) for role, id in (layout.more_tiles | border).items()}


class _Named(Protocol):
    @property
    def id(self) -> str: ...


_N = TypeVar("_N", bound=_Named)


def _named(values: tuple[_N, ...], id: str) -> _N:
    for value in values:
        if value.id == id:
            return value
    raise KeyError(id)
