"""What every tool has in hand: the job, the pointer, the typed boxes, and words for what went wrong."""

from __future__ import annotations

import math
from collections.abc import Generator, Mapping
from dataclasses import replace

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.drawing.context import Answer, Change, Context, Tool
from tilelayout.drawing.entry import Entry
from tilelayout.drawing.events import (
    Event,
    Field,
    Pointer,
    PointerLeft,
    PointerMoved,
    PointerReleased,
    Refreshed,
    Refused,
)
from tilelayout.drawing.picks import GRAB_PX
from tilelayout.drawing.placing import AtSpots, Locus
from tilelayout.drawing.reach import Reach, Snapped
from tilelayout.drawing.scene import Scene
from tilelayout.drawing.snapping import snap
from tilelayout.job.values import Point, Surface

DRAG_PX = 4.0
"""A press that moves less than so many pixels before it is let go is a click."""

PASSING = (PointerMoved, PointerReleased, PointerLeft, Refreshed)
"""What happens without being meant."""


class Stage:
    """The state shared by the tools; each tool adds what it is in the middle of."""

    def __init__(self, context: Context, *fields: Field) -> None:
        self.context = context
        self.entry = Entry(fields, context.read_job().show_lengths)
        self.pointer: Pointer | None = None
        self.is_pointing = False
        self.trouble = ""
        self._meant: Pointer | None = None

    @property
    def style(self) -> LengthStyle:
        """How the job shows lengths."""
        return self.entry.style

    def takes(self, event: Event, drawn: Mapping[Field, float]) -> bool:
        """Note the pointer and what is typed; return whether that was all the event asked for."""
        self._wipe_trouble(event)
        if isinstance(event, Pointer):
            self.pointer, self.is_pointing = event, True
        elif isinstance(event, PointerLeft):
            self.is_pointing = False
        elif isinstance(event, Refreshed):
            self.entry = replace(self.entry, style=self.context.read_job().show_lengths)
        else:
            return self._is_typed(event, drawn)
        return isinstance(event, PointerMoved | PointerLeft | Refreshed)

    def _wipe_trouble(self, event: Event) -> None:
        """Words of trouble stay until something else is meant, or the pointer has gone on from there."""
        if not isinstance(event, PASSING):
            self.trouble = ""
            self._meant = event if isinstance(event, Pointer) else self.pointer
        elif isinstance(event, PointerMoved):
            gone = math.dist(event.point, self._meant.point) if self._meant else math.inf
            self.trouble = self.trouble if gone * event.px_per_mm <= GRAB_PX / 2 else ""

    def _is_typed(self, event: Event, drawn: Mapping[Field, float]) -> bool:
        after = self.entry.after(event, drawn)
        self.entry = after or self.entry
        return after is not None

    def snapped(self, scene: Scene, locus: Locus | None = None, *, has_grid: bool = True) -> Snapped | None:
        """Return where the pointer snaps to; None if it was never on the board or nothing suits."""
        if self.pointer is None:
            return None
        reach = Reach.of(self.pointer, self.style, self.context.snap_px, has_grid=has_grid)
        return snap(self.pointer.point, scene, reach, locus)

    def reached(self, scene: Scene, locus: Locus) -> Snapped | None:
        """Return where the pointer or the boxes put the next point; the boxes alone can be enough."""
        if self.pointer is None:
            return Snapped(locus.points[0]) if isinstance(locus, AtSpots) and len(locus.points) == 1 else None
        return self.snapped(scene, locus)

    def shown(self, length: float) -> str:
        """Return a length as the job shows it."""
        return format_length(length, self.style)

    def wrong_words(self) -> str:
        """What was refused, or else what is wrong in a box."""
        return self.trouble or next(iter(self.entry.wrong().values()), "")


def offer(change: Change) -> Generator[Answer, Event, str]:
    """Offer a change; return why it was refused, or nothing if it was accepted."""
    answer = yield change
    return answer.words if isinstance(answer, Refused) else ""


def lower_left(surface: Surface | None) -> Point:
    """Return the corner of the surface's bounding box from which a person measures; (0, 0) for none."""
    if surface is None or not surface.outline:
        return (0.0, 0.0)
    return (min(x for x, _ in surface.outline), min(y for _, y in surface.outline))


def no_tool() -> Tool:
    """Return a tool that ends at once, for one that has nothing to work on."""
    yield from ()
