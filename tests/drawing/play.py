"""Plays lists of events to a tool, as a window would."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tilelayout.base.units import LengthStyle
from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.events import (
    Entered,
    Event,
    KeyTyped,
    PointerMoved,
    PointerPressed,
    PointerReleased,
)
from tilelayout.drawing.preview import Preview
from tilelayout.drawing.running import ToolRun
from tilelayout.job.session import Session
from tilelayout.job.values import Edge, Job, Layout, Point, RectangleTile, Surface

PX_PER_MM = 0.2
"""A zoom at which a room of 12 by 8 ft fills a window: 12 px of snapping are 60 mm."""

ROOM = ((0.0, 0.0), (3600.0, 0.0), (3600.0, 2400.0), (0.0, 2400.0))
L_ROOM = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 1500.0), (1500.0, 1500.0), (1500.0, 3000.0), (0.0, 3000.0))


def room(outline: tuple[Point, ...] = ROOM, edges: tuple[Edge, ...] = ()) -> Job:
    """A job in millimetres with one surface, a tile and a layout of it."""
    return Job(
        surfaces=(Surface(id="floor", outline=outline, edges=edges),),
        tiles=(RectangleTile(id="slab", length=597.0, width=297.0),),
        layouts=(Layout(id="A", surface="floor", tile="slab", start=(100.0, 100.0)),),
    )


class Play:
    """A tool at work on a session of its own; it keeps every preview it was shown."""

    def __init__(
        self,
        tool: Callable[[Context], Tool],
        job: Job | None = None,
        adapt: Callable[[Context], Context] = lambda context: context,
    ) -> None:
        self.session = Session(job or Job(show_lengths=LengthStyle.INCH))
        surfaces, layouts = self.session.job.surfaces, self.session.job.layouts
        context = Context(
            lambda: self.session.job,
            surfaces[0].id if surfaces else None,
            layouts[0].id if layouts else None,
        )
        self.run = ToolRun(tool, adapt(context), self.session)

    @property
    def surface(self) -> Surface:
        """The first surface as it is now."""
        return self.session.job.surfaces[0]

    @property
    def preview(self) -> Preview:
        """What would be painted now."""
        return self.run.preview

    @property
    def marked(self) -> str:
        """The words of the snap shown, or nothing."""
        return self.preview.marker.words if self.preview.marker else ""

    def send(self, *events: Event) -> Preview:
        """Play events one after the other."""
        for event in events:
            self.run.send(event)
        return self.preview

    def move(self, x: float, y: float, **held: bool) -> Preview:
        """Move the pointer."""
        return self.send(with_held(PointerMoved((x, y), PX_PER_MM), held))

    def click(self, x: float, y: float, **held: bool) -> Preview:
        """Move there, press, release."""
        kinds = (PointerMoved, PointerPressed, PointerReleased)
        return self.send(*(with_held(kind((x, y), PX_PER_MM), held) for kind in kinds))

    def press(self, x: float, y: float, **held: bool) -> Preview:
        """Move there and press."""
        return self.send(
            *(with_held(kind((x, y), PX_PER_MM), held) for kind in (PointerMoved, PointerPressed))
        )

    def drag(self, *points: Point, **held: bool) -> Preview:
        """Press at the first point, move by the others, release at the last."""
        self.press(*points[0], **held)
        for x, y in points[1:]:
            self.move(x, y, **held)
        return self.send(with_held(PointerReleased(points[-1], PX_PER_MM), held))

    def type(self, text: str) -> Preview:
        """Type characters with no box in focus."""
        return self.send(*(KeyTyped(character) for character in text))

    def enter(self, text: str = "") -> Preview:
        """Type characters, then Enter."""
        self.type(text)
        return self.send(Entered())


def with_held(
    event: PointerMoved | PointerPressed | PointerReleased, held: dict[str, bool]
) -> PointerMoved | PointerPressed | PointerReleased:
    """The pointer event with keys held."""
    return replace(event, snaps_suspended=held.get("snaps_suspended", False), adds=held.get("adds", False))
