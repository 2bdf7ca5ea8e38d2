"""What a tool wants to be painted over the board: plain values, in mm, with roles instead of colours.

A preview is whole: what is not in the newest one is no longer shown. Points are surface coordinates.
Sizes on screen (line widths, handles, markers) are the painter's business.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tilelayout.drawing.events import Field
from tilelayout.drawing.picks import Pick
from tilelayout.job.values import Point


class LineRole(StrEnum):
    """How a line is meant; the painter gives each its own stroke, not only its own colour."""

    FIXED = "fixed"
    """Drawn and kept so far: a firm line."""
    RUBBER = "rubber"
    """Follows the pointer."""
    CLOSING = "closing"
    """From the pointer back to the first corner: dashed."""
    GUIDE = "guide"
    """What the snap rests on, such as the line through a corner it is lined up with: fine, dotted."""
    GHOST = "ghost"
    """Where something stood before it was moved."""
    REFUSED = "refused"
    """Cannot be drawn like this."""


@dataclass(frozen=True)
class RubberLine:
    """A polyline; `is_closed` joins its last point to its first."""

    points: tuple[Point, ...]
    role: LineRole
    is_closed: bool = False


class SnapKind(StrEnum):
    """The kinds of snap, each with its own marker shape; of equally near ones the first here wins."""

    FIRST = "first corner"
    END = "end"
    MIDDLE = "middle"
    CENTRE = "centre"
    INTERSECTION = "intersection"
    TYPED = "typed"
    SQUARE = "square"
    LEVEL = "horizontal or vertical"
    PARALLEL = "parallel"
    ON_LINE = "on line"
    ALIGNED = "aligned"
    TILE = "tile"
    GRID = "grid"


@dataclass(frozen=True)
class SnapMarker:
    """Where the pointer snaps to: exactly the point that a press would use, with why in words.

    `guides` are the lines it rests on, each of two points.
    """

    kind: SnapKind
    point: Point
    words: str
    guides: tuple[tuple[Point, Point], ...] = ()


class MeasureKind(StrEnum):
    """What a shown measure is of."""

    LENGTH = "length"
    ANGLE = "angle"
    RADIUS = "radius"


@dataclass(frozen=True)
class Measure:
    """A measure to write beside the line from `a` to `b`, or for an angle at the corner `a` towards `b`."""

    kind: MeasureKind
    a: Point
    b: Point
    text: str


@dataclass(frozen=True)
class Box:
    """A typed box: `label` stands beside it and `text` in it.

    `is_typed`: the text is what the person typed, not what is drawn. `is_locked`: the value is kept from
    corner to corner. `is_active`: what is typed next goes there. `wrong` says what would be right instead.
    """

    field: Field
    label: str
    text: str
    is_typed: bool = False
    is_locked: bool = False
    is_active: bool = False
    wrong: str = ""


class HandleShape(StrEnum):
    """What a handle looks like."""

    CORNER = "corner"
    MIDDLE = "middle"
    CENTRE = "centre"
    SIZE = "size"
    START = "start"


@dataclass(frozen=True)
class Handle:
    """A place to grab; its grab zone is `picks.GRAB_PX` pixels wide whatever it looks like."""

    shape: HandleShape
    point: Point
    is_chosen: bool = False


class PointerShape(StrEnum):
    """What the pointer should look like."""

    ARROW = "arrow"
    CROSS = "cross"
    MOVE = "move"


@dataclass(frozen=True)
class Preview:
    """All that a tool shows at one moment.

    `hint` says what to do next in one sentence; `trouble`, if any, what was refused or typed wrongly and
    what would be right. `chosen` is what the tool has chosen and `under` what a press would choose.
    `box_point` is where the typed boxes should stand, near the thing they size. `selection_box` are two
    opposite corners of a drag box.
    """

    hint: str = ""
    trouble: str = ""
    lines: tuple[RubberLine, ...] = ()
    corners: tuple[Point, ...] = ()
    marker: SnapMarker | None = None
    measures: tuple[Measure, ...] = ()
    boxes: tuple[Box, ...] = ()
    box_point: Point | None = None
    handles: tuple[Handle, ...] = ()
    chosen: tuple[Pick, ...] = ()
    under: Pick | None = None
    selection_box: tuple[Point, Point] | None = None
    pointer: PointerShape = PointerShape.CROSS
