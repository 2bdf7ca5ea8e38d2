"""Bends an edge into an arc by dragging its middle or by typing its rise or radius, and straightens it."""

from __future__ import annotations

import math
from collections.abc import Generator
from functools import partial

from tilelayout.drawing.bends import chord_length, radius_for, rise_for, rise_of, rise_to, top_of
from tilelayout.drawing.context import Answer, Change, Context, Tool
from tilelayout.drawing.events import (
    Chosen,
    Deleted,
    Entered,
    Escaped,
    Event,
    Field,
    FieldStepped,
    LockToggled,
    Pointer,
    PointerMoved,
    PointerPressed,
    PointerReleased,
)
from tilelayout.drawing.hitting import edge_at, edge_points
from tilelayout.drawing.moves import ends_of, restored
from tilelayout.drawing.naming import edge_title
from tilelayout.drawing.outline_lines import length_of
from tilelayout.drawing.picks import GRAB_PX, Pick, PickKind
from tilelayout.drawing.preview import (
    Handle,
    HandleShape,
    LineRole,
    Measure,
    MeasureKind,
    PointerShape,
    Preview,
    RubberLine,
    SnapKind,
    SnapMarker,
)
from tilelayout.drawing.reach import Reach, stepped
from tilelayout.drawing.stage import DRAG_PX, Stage, offer
from tilelayout.job.edits.surfaces import bend_edge as bent
from tilelayout.job.limits import FLATTEST_ARC
from tilelayout.job.values import Surface

Part = Generator[Answer, Event, None]


def bend_edge(context: Context) -> Tool:
    """Bend one edge after the other until Esc with none chosen."""
    bending = _Bending(context)
    while True:
        event = yield bending.preview()
        if isinstance(event, Escaped) and not bending.step_back():
            return
        if bending.chooses(event) or bending.takes(event, bending.drawn()):
            continue
        surface = context.surface
        if isinstance(event, PointerPressed):
            yield from _press(bending, event)
        elif surface is not None and bending.edge is not None:
            change = bending.typed_change(surface, bending.edge, event)
            if change is not None:
                bending.trouble = yield from offer(change)
                bending.entry = bending.entry if bending.trouble else bending.entry.cleared()


def _press(bending: _Bending, press: PointerPressed) -> Part:
    """Choose the edge under the pointer and bend it as far as it is dragged."""
    bending.choose_under(press)
    surface, at = bending.context.surface, bending.edge
    if surface is None or at is None:
        return
    gesture, is_drag, marker = object(), False, None
    while True:
        event = yield bending.preview(marker)
        if bending.context.surface is not surface and not is_drag:
            return
        if isinstance(event, Escaped):
            yield from offer(Change(f"Bend {edge_title(surface, at)}", restored(surface), gesture))
            return
        if isinstance(event, PointerMoved | PointerReleased):
            bending.takes(event, {})
            is_drag = is_drag or math.dist(press.point, event.point) * event.px_per_mm > DRAG_PX
            if is_drag:
                rise, marker = bending.pointed_rise(surface, at, event)
                bending.trouble = yield from offer(_change(surface, at, rise, gesture))
        if isinstance(event, PointerReleased):
            if bending.trouble:
                yield from offer(Change(f"Bend {edge_title(surface, at)}", restored(surface), gesture))
            return


def _change(surface: Surface, at: int, rise: float, gesture: object | None = None) -> Change:
    """Return the change that gives edge `at` a rise; one too flat to be an arc makes it straight."""
    is_straight = abs(rise) < FLATTEST_ARC
    through = None if is_straight else top_of(surface, at, rise)
    label = f"{'Straighten' if is_straight else 'Bend'} {edge_title(surface, at)}"
    return Change(label, partial(bent, id=surface.id, at=at, through=through), gesture)


class _Bending(Stage):
    """The edge being bent, and its rise as pointed at or typed."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self.edge: int | None = None

    def choose(self, at: int | None) -> None:
        """Choose an edge, or none."""
        self.edge = at
        self.entry = self.entry.emptied().of(*(() if at is None else (Field.RISE, Field.RADIUS)))

    def choose_under(self, pointer: Pointer) -> None:
        """Choose the edge within reach of the pointer, or none."""
        surface = self.context.surface
        self.choose(edge_at(surface, pointer.point, GRAB_PX / 2 / pointer.px_per_mm) if surface else None)

    def step_back(self) -> bool:
        """Empty the boxes, or let the edge go; False if there was nothing to take back."""
        if self.entry.is_typed:
            self.entry = self.entry.emptied()
        elif self.edge is not None:
            self.choose(None)
        else:
            return False
        return True

    def chooses(self, event: Event) -> bool:
        """Deal with an event that only chooses an edge; locks have no meaning here."""
        surface = self.context.surface
        count = len(surface.outline) if surface else 0
        if self.edge is not None and self.edge >= count:
            self.choose(None)
        match event:
            case Chosen(pick):
                self.choose(
                    pick.index if pick and pick.kind is PickKind.EDGE and pick.index < count else None
                )
            case FieldStepped(back) if self.entry.active is None and count:
                start = self.edge if self.edge is not None else (0 if back else -1)
                self.choose((start + (-1 if back else 1)) % count)
            case LockToggled() | Escaped():
                pass
            case _:
                return False
        return True

    def typed_change(self, surface: Surface, at: int, event: Event) -> Change | None:
        """Return the change that Enter or Delete asks for."""
        if isinstance(event, Deleted):
            return _change(surface, at, 0.0)
        if not isinstance(event, Entered) or self.entry.wrong() or not self.entry.is_typed:
            return None
        rise = self._typed_rise(surface, at)
        return None if rise is None else _change(surface, at, rise)

    def pointed_rise(self, surface: Surface, at: int, pointer: Pointer) -> tuple[float, SnapMarker | None]:
        """Return the rise the pointer asks for: straight or half round if near, else a round step."""
        reach = Reach.of(pointer, self.style, self.context.snap_px)
        rise, half = rise_to(surface, at, pointer.point), chord_length(surface, at) / 2
        if not reach.snaps:
            return rise, None
        for special, kind, words in (
            (0.0, SnapKind.ON_LINE, "straight"),
            (half, SnapKind.TYPED, "half round"),
        ):
            if abs(abs(rise) - special) <= reach.tolerance:
                rise = math.copysign(special, rise)
                return rise, SnapMarker(kind, top_of(surface, at, rise), words)
        rise = stepped(rise, (0.0,), reach)
        words = f"rise of {self.shown(abs(rise))}"
        return rise, SnapMarker(SnapKind.GRID, top_of(surface, at, rise), words)

    def drawn(self) -> dict[Field, float]:
        """Rise and radius of the chosen edge."""
        surface = self.context.surface
        if surface is None or self.edge is None or self.edge >= len(surface.outline):
            return {}
        rise = rise_of(surface, self.edge)
        if abs(rise) < FLATTEST_ARC:
            return {Field.RISE: 0.0}
        return {Field.RISE: rise, Field.RADIUS: radius_for(chord_length(surface, self.edge), rise)}

    def preview(self, marker: SnapMarker | None = None) -> Preview:
        """Show the middles of the edges as handles, and the chosen edge with its sizes."""
        surface = self.context.surface
        if surface is None:
            return Preview(hint="There is no surface to bend a wall of.")
        at = self.edge if self.edge is not None and self.edge < len(surface.outline) else None
        chosen = () if at is None else (Pick(PickKind.EDGE, surface.id, at),)
        return Preview(
            hint=_HINTS[at is not None],
            trouble=self.wrong_words(),
            lines=() if at is None else (RubberLine(tuple(edge_points(surface, at)), LineRole.RUBBER),),
            marker=marker,
            measures=() if at is None else self._measures(surface, at),
            boxes=self.entry.boxes(self.drawn()),
            box_point=None if at is None else top_of(surface, at, rise_of(surface, at)),
            handles=tuple(_handle(surface, each, each == at) for each in range(len(surface.outline))),
            chosen=chosen,
            pointer=PointerShape.MOVE,
        )

    def _typed_rise(self, surface: Surface, at: int) -> float | None:
        typed, chord = self.entry.values(), chord_length(surface, at)
        if len(typed) > 1:
            self.trouble = "Rise or radius is enough: empty one of the two boxes."
            return None
        if Field.RISE in typed:
            return typed[Field.RISE]
        if typed[Field.RADIUS] < chord / 2:
            self.trouble = f"The radius must be half the width of the arc or more: {self.shown(chord / 2)}."
            return None
        return math.copysign(rise_for(chord, typed[Field.RADIUS]), rise_of(surface, at) or 1.0)

    def _measures(self, surface: Surface, at: int) -> tuple[Measure, ...]:
        rise, ends = rise_of(surface, at), ends_of(surface, at)
        width = length_of(*ends, self.style)
        if abs(rise) < FLATTEST_ARC:
            return (width,)
        foot, top = top_of(surface, at, 0.0), top_of(surface, at, rise)
        return (width, Measure(MeasureKind.LENGTH, foot, top, self.shown(abs(rise))))


_HINTS = {
    False: "Press a wall and drag it outward or inward to bend it; Tab goes from wall to wall.",
    True: "Drag the wall, or type its rise or radius and press Enter; Delete makes it straight.",
}


def _handle(surface: Surface, at: int, is_chosen: bool) -> Handle:
    return Handle(HandleShape.MIDDLE, top_of(surface, at, rise_of(surface, at)), is_chosen)
