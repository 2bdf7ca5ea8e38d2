"""How a tile is laid on a surface: the layout, the border around it, the lines that it is to keep to."""

from __future__ import annotations

from typing import Any

import msgspec

from tilelayout.job.kinds import BorderBegin, BorderCorners, Centred, LineKind
from tilelayout.job.value import Length, Point, Value

BORDER_ROLE = "border"
"""The role of the tile that a border is made of, among the further tiles of a layout."""


class Border(Value, frozen=True, kw_only=True):
    """A border of tiles along the edges of a surface, which the layout's pattern fills.

    `rows` of rectangular tiles run along every edge but those that are `left_out`, `inset` mm further in than
    the gap. `joint` is that within the border and towards the field; None for the layout's.
    """

    tile: str
    rows: int = 1
    joint: Length | None = None
    corners: BorderCorners = BorderCorners.MITRED
    begin: BorderBegin = BorderBegin.BALANCED
    inset: Length = 0.0
    left_out: tuple[int, ...] = ()


class ReferenceLine(Value, frozen=True, kw_only=True):
    """What a layout is to keep to apart from its aim: a feature to centre on, a line for a joint to run on.

    `centre` needs a `point`, an `edge` (its middle, along it) or a `cutout`, and `put` there a tile, a joint
    or either; `joint` needs a `line` of two points; `full-tile` an `edge`; `no-joint` a `cutout` and how far
    a joint must stay away, `within`. An edge is named by its number, a cutout by its name. `name` is what a
    person calls the line ("neighbour floor").
    """

    kind: LineKind = msgspec.field(name="is")
    name: str = ""
    point: Point | None = None
    edge: int | None = None
    cutout: str | None = None
    line: tuple[Point, Point] | None = None
    put: Centred = Centred.EITHER
    within: Length = 0.0


class Layout(Value, frozen=True, kw_only=True):
    """One way of laying one tile on one surface.

    `name` is what a person calls it ("half tiles at the door"). Of the layouts of a surface the first is the
    one that is to be laid; the others are kept beside it. `settings` are the keys that belong to the pattern
    (`row_offsets` of rows); the pattern's own file says which there are. In the file they stand beside the
    other keys. A pattern that takes further tiles calls each by its role (the dot beside octagons);
    `more_tiles` says by role which tile it is. `lines` are what it is to keep to.
    """

    id: str
    name: str = ""
    surface: str
    tile: str
    more_tiles: dict[str, str] = {}  # noqa: RUF012  (a struct copies its default)
    pattern: str = "rows"
    joint: Length = 3.0
    angle: float = 0.0
    start: Point = (0.0, 0.0)
    gap: Length = 6.0
    least_piece: Length = 5.0
    border: Border | None = None
    lines: tuple[ReferenceLine, ...] = ()
    settings: dict[str, Any] = {}  # noqa: RUF012

    @property
    def tiles(self) -> tuple[str, ...]:
        """The ids of all tiles that it lays: its own, the further ones of the pattern, that of the border."""
        border = () if self.border is None else (self.border.tile,)
        return (self.tile, *self.more_tiles.values(), *border)

    @property
    def title(self) -> str:
        """What to call the layout in front of a person: "B, half tiles at the door"."""
        return f"{self.id}, {self.name}" if self.name else f"Layout {self.id}"
