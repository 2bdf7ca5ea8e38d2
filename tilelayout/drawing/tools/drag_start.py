"""Moves the start of a layout: by dragging the pattern, by arrow keys, or by typing where it stands."""

from __future__ import annotations

import math
from collections.abc import Generator
from functools import partial

from tilelayout.drawing.context import Answer, Change, Context, Tool
from tilelayout.drawing.events import (
    Entered,
    Escaped,
    Event,
    Field,
    LockToggled,
    Nudged,
    PointerMoved,
    PointerPressed,
    PointerReleased,
)
from tilelayout.drawing.grid import nudge_step, to_step
from tilelayout.drawing.preview import (
    Handle,
    HandleShape,
    LineRole,
    PointerShape,
    Preview,
    RubberLine,
    SnapKind,
    SnapMarker,
)
from tilelayout.drawing.reach import Reach
from tilelayout.drawing.stage import DRAG_PX, Stage, lower_left, offer
from tilelayout.drawing.start_snaps import snapped_start, wishes
from tilelayout.drawing.wish import Wish
from tilelayout.job.edits.layouts import move_start
from tilelayout.job.values import Layout, Point

Part = Generator[Answer, Event, None]
_LABEL = "Move start"


def drag_start(context: Context) -> Tool:
    """Move the start as often as wanted, until Esc with nothing typed."""
    start = _Start(context)
    nudging: object | None = None
    while True:
        event = yield start.preview()
        nudging = (nudging or object()) if isinstance(event, Nudged) else None
        if isinstance(event, Escaped) and not start.entry.is_typed:
            return
        if isinstance(event, LockToggled) or start.takes(event, start.drawn()):
            continue
        if isinstance(event, Escaped):
            start.entry = start.entry.emptied()
        elif isinstance(event, PointerPressed):
            yield from _press(start, event)
        else:
            change = start.change(event, nudging)
            if change is not None:
                start.trouble = yield from offer(change)
                start.entry = start.entry if start.trouble else start.entry.cleared()


def _press(start: _Start, press: PointerPressed) -> Part:
    """Drag the whole pattern from wherever it was pressed; Esc puts it back."""
    layout = start.context.layout
    if layout is None:
        return
    gesture, wanted = object(), start.wishes(layout)
    is_drag, marker = False, None
    while True:
        event = yield start.preview(marker, layout.start if is_drag else None)
        if start.is_changed_elsewhere():
            return
        if isinstance(event, Escaped):
            yield from offer(start.moved(layout, layout.start, gesture))
            return
        if isinstance(event, PointerMoved | PointerReleased):
            start.takes(event, {})
            is_drag = is_drag or math.dist(press.point, event.point) * event.px_per_mm > DRAG_PX
            if is_drag:
                point, marker = start.dragged(layout, press.point, event, wanted)
                start.trouble = yield from offer(start.moved(layout, point, gesture))
        if isinstance(event, PointerReleased):
            return


class _Start(Stage):
    """The layout's start, and where it would go."""

    def __init__(self, context: Context) -> None:
        super().__init__(context, Field.X, Field.Y)
        self._left = context.layout

    @property
    def point(self) -> Point | None:
        """Where the start stands now."""
        layout = self.context.layout
        return layout.start if layout else None

    def is_changed_elsewhere(self) -> bool:
        """Whether the layout is no longer as this tool left it."""
        return self.context.layout is not self._left

    def wishes(self, layout: Layout) -> tuple[Wish, ...]:
        """Return what a dragged start snaps to."""
        self._left = layout
        surface, pattern = self.context.surface, self.context.pattern()
        if surface is None or pattern is None or SnapKind.TILE not in self.context.snap_kinds:
            return ()
        return wishes(surface, layout, pattern)

    def dragged(
        self,
        layout: Layout,
        pressed: Point,
        event: PointerMoved | PointerReleased,
        wanted: tuple[Wish, ...],
    ) -> tuple[Point, SnapMarker | None]:
        """Return where the start goes with the pointer there: to a wish, else to a whole small step."""
        x = layout.start[0] + event.point[0] - pressed[0]
        y = layout.start[1] + event.point[1] - pressed[1]
        reach = Reach.of(event, self.style, self.context.snap_px)
        point, marker = snapped_start((x, y), wanted, reach)
        if marker is None and reach.snaps:
            step = nudge_step(self.style)
            return (to_step(x, step), to_step(y, step)), None
        return point, marker

    def change(self, event: Event, nudging: object | None) -> Change | None:
        """Return the change that a key asks for, if any."""
        layout = self.context.layout
        if layout is None:
            return None
        x, y = layout.start
        match event:
            case Nudged(dx, dy, big):
                step = nudge_step(self.style) * (10 if big else 1)
                return self.moved(layout, (x + dx * step, y + dy * step), nudging)
            case Entered() if self.entry.is_typed and not self.entry.wrong():
                typed, (left, bottom) = self.entry.values(), lower_left(self.context.surface)
                x = left + typed[Field.X] if Field.X in typed else x
                y = bottom + typed[Field.Y] if Field.Y in typed else y
                return self.moved(layout, (x, y))
        return None

    def moved(self, layout: Layout, point: Point, gesture: object | None = None) -> Change:
        """Return the change that puts the start at a point."""
        return Change(_LABEL, partial(move_start, id=layout.id, point=point), gesture)

    def drawn(self) -> dict[Field, float]:
        """Where the start stands, from the surface's left and bottom."""
        point, (left, bottom) = self.point, lower_left(self.context.surface)
        return {Field.X: point[0] - left, Field.Y: point[1] - bottom} if point else {}

    def preview(self, marker: SnapMarker | None = None, before: Point | None = None) -> Preview:
        """Show the start as a handle, and while it is dragged how far it has come."""
        point = self.point
        self._left = self.context.layout
        if point is None:
            return Preview(hint="There is no layout yet whose start could be moved.")
        return Preview(
            hint="Drag the tiles, nudge them with the arrow keys, or type where the start stands.",
            trouble=self.wrong_words(),
            lines=(RubberLine((before, point), LineRole.GHOST),) if before and before != point else (),
            marker=marker,
            boxes=self.entry.boxes(self.drawn()),
            box_point=point,
            handles=(Handle(HandleShape.START, point, is_chosen=True),),
            pointer=PointerShape.MOVE,
        )
