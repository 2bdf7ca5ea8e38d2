"""What can happen to a drawing tool: the pointer, the keys, the typed boxes.

Whoever owns the window turns its own events into these, so that every tool can be driven by a list of
them. Points are surface coordinates in mm, y up. Pointer events carry the zoom, since what is near enough
to snap to is a matter of screen pixels.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tilelayout.drawing.picks import Pick
from tilelayout.job.values import Point


class Field(StrEnum):
    """A box that takes a typed value; the value is what to write beside it."""

    LENGTH = "length"
    ANGLE = "angle"
    DX = "across"
    DY = "up"
    X = "from left"
    Y = "from bottom"
    WIDTH = "width"
    HEIGHT = "height"
    DIAMETER = "diameter"
    RADIUS = "radius"
    RISE = "rise"
    READING = "height read"


@dataclass(frozen=True)
class Pointer:
    """The pointer at `point`, `px_per_mm` screen pixels to the mm.

    `snaps_suspended`: the key that suspends snapping is held. `adds`: the key that adds to what is chosen
    is held. `is_held`: the button is down.
    """

    point: Point
    px_per_mm: float
    snaps_suspended: bool = False
    adds: bool = False
    is_held: bool = False


@dataclass(frozen=True)
class PointerMoved(Pointer):
    """The pointer moved, or a held key changed while it rested there."""


@dataclass(frozen=True)
class PointerPressed(Pointer):
    """The main button went down."""


@dataclass(frozen=True)
class PointerReleased(Pointer):
    """The main button came up."""


@dataclass(frozen=True)
class DoublePressed(Pointer):
    """The main button went down a second time at once (sent instead of a second `PointerPressed`)."""


@dataclass(frozen=True)
class PointerLeft:
    """The pointer left the board: no marker is shown until it comes back."""


@dataclass(frozen=True)
class KeyTyped:
    """A character typed while no box had the focus: it goes to the active box, else to the first."""

    text: str


@dataclass(frozen=True)
class Typed:
    """A box now reads `text` (the whole of it); an empty text frees the value again."""

    field: Field
    text: str


@dataclass(frozen=True)
class FieldChosen:
    """A box got the focus."""

    field: Field


@dataclass(frozen=True)
class FieldStepped:
    """Tab: to the next box, or to the next thing on the board where no box is being typed in."""

    back: bool = False


@dataclass(frozen=True)
class LockToggled:
    """Keep the value of a box from now on, or let it go."""

    field: Field


@dataclass(frozen=True)
class Entered:
    """Enter: accept what is typed or pointed at."""


@dataclass(frozen=True)
class Escaped:
    """Esc: one step back; with nothing to step back from, the tool ends."""


@dataclass(frozen=True)
class Erased:
    """Backspace: the last character typed, else as Esc, but it never ends the tool."""


@dataclass(frozen=True)
class Deleted:
    """Delete what is chosen."""


@dataclass(frozen=True)
class Inserted:
    """Insert a corner in the middle of the chosen edge, without the mouse."""


@dataclass(frozen=True)
class Nudged:
    """An arrow key: `dx`, `dy` are -1, 0 or 1; `big` is ten steps at once."""

    dx: int
    dy: int
    big: bool = False


@dataclass(frozen=True)
class Chosen:
    """Something was chosen outside the board, on a card or in a list; None chooses nothing."""

    pick: Pick | None
    adds: bool = False


@dataclass(frozen=True)
class Refreshed:
    """The job changed from outside, by undo or on a card: look again."""


@dataclass(frozen=True)
class Accepted:
    """The edit offered last was applied. Sent by `ToolRun` only."""


@dataclass(frozen=True)
class Refused:
    """The edit offered last was refused; `words` say why and what to do. Sent by `ToolRun` only."""

    words: str


Event = (
    PointerMoved
    | PointerPressed
    | PointerReleased
    | DoublePressed
    | PointerLeft
    | KeyTyped
    | Typed
    | FieldChosen
    | FieldStepped
    | LockToggled
    | Entered
    | Escaped
    | Erased
    | Deleted
    | Inserted
    | Nudged
    | Chosen
    | Refreshed
    | Accepted
    | Refused
)
