"""Inserts corners: points at an edge, or takes the distance along it as typed."""

from __future__ import annotations

import math
from functools import partial

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import (
    Chosen,
    Entered,
    Escaped,
    Event,
    Field,
    FieldStepped,
    LockToggled,
    Pointer,
    PointerPressed,
)
from tilelayout.drawing.features import middle, surface_scene, unit
from tilelayout.drawing.hitting import edge_at, edge_points, foot_on
from tilelayout.drawing.moves import ends_of
from tilelayout.drawing.naming import edge_title
from tilelayout.drawing.outline_lines import length_of
from tilelayout.drawing.picks import GRAB_PX, Pick, PickKind
from tilelayout.drawing.placing import AlongLine
from tilelayout.drawing.preview import LineRole, Preview, RubberLine, SnapKind, SnapMarker
from tilelayout.drawing.reach import Snapped
from tilelayout.drawing.scene import Scene, SnapLine
from tilelayout.drawing.stage import Stage, offer
from tilelayout.job.edits.surfaces import insert_corner as inserted
from tilelayout.job.values import Surface


def insert_corner(context: Context) -> Tool:
    """Insert one corner after the other until Esc with nothing typed."""
    inserting = _Inserting(context)
    while True:
        event = yield inserting.preview()
        if isinstance(event, Escaped) and not inserting.step_back():
            return
        if inserting.chooses(event) or inserting.takes(event, inserting.drawn()):
            continue
        change = inserting.change(event)
        if change is not None:
            inserting.trouble = yield from offer(change)
            inserting.entry = inserting.entry if inserting.trouble else inserting.entry.cleared()


class _Inserting(Stage):
    """The edge pointed at or chosen with Tab, and the place on it."""

    def __init__(self, context: Context) -> None:
        super().__init__(context, Field.LENGTH)
        self._tabbed: int | None = None

    def step_back(self) -> bool:
        """Empty the box, or let the edge go; False if there was nothing to take back."""
        if self.entry.is_typed:
            self.entry = self.entry.emptied()
        elif self._tabbed is not None:
            self._tabbed = None
        else:
            return False
        return True

    def chooses(self, event: Event) -> bool:
        """Deal with an event that only chooses an edge; locks have no meaning here."""
        surface = self.context.surface
        count = len(surface.outline) if surface else 0
        match event:
            case Chosen(pick):
                is_edge = pick is not None and pick.kind is PickKind.EDGE and pick.index < count
                self._tabbed = pick.index if pick and is_edge else None
            case FieldStepped(back) if count:
                at = self._edge(surface)
                start = at if at is not None else (0 if back else -1)
                self._tabbed = (start + (-1 if back else 1)) % count
            case Pointer() if not self.entry.is_typed:
                self._tabbed = None
                return False
            case LockToggled() | Escaped():
                pass
            case _:
                return False
        return True

    def change(self, event: Event) -> Change | None:
        """Return the change that a press or Enter asks for."""
        surface = self.context.surface
        at = self._edge(surface)
        if surface is None or at is None or self.entry.wrong():
            return None
        if not isinstance(event, PointerPressed | Entered):
            return None
        target = self._target(surface, at)
        if self._is_at_corner(surface, at, target):
            self.trouble = "There is a corner already: choose a place between the two ends of the wall."
            return None
        edit = partial(inserted, id=surface.id, edge_at=at, point=target.point)
        return Change(f"Add a corner to {edge_title(surface, at)}", edit)

    def drawn(self) -> dict[Field, float]:
        """How far along the edge the place is."""
        surface = self.context.surface
        at = self._edge(surface)
        if surface is None or at is None:
            return {}
        return {Field.LENGTH: math.dist(ends_of(surface, at)[0], self._target(surface, at).point)}

    def preview(self) -> Preview:
        """Show the place on the edge, with its distances from both ends."""
        surface = self.context.surface
        at = self._edge(surface)
        if surface is None or at is None:
            hint = "Click a wall where the new corner shall be; Tab goes from wall to wall."
            return Preview(hint=hint, trouble=self.wrong_words())
        target = self._target(surface, at)
        a, b = ends_of(surface, at)
        return Preview(
            hint="Click to put a corner here, or type its distance along the wall and press Enter.",
            trouble=self.wrong_words(),
            lines=(RubberLine(tuple(edge_points(surface, at)), LineRole.RUBBER),),
            marker=target.marker,
            measures=(length_of(a, target.point, self.style), length_of(target.point, b, self.style)),
            boxes=self.entry.boxes(self.drawn()),
            box_point=target.point,
            under=Pick(PickKind.EDGE, surface.id, at),
        )

    def _edge(self, surface: Surface | None) -> int | None:
        if surface is None:
            return None
        if self._tabbed is not None and self._tabbed < len(surface.outline):
            return self._tabbed
        if self.pointer is None:
            return None
        return edge_at(surface, self.pointer.point, GRAB_PX / 2 / self.pointer.px_per_mm)

    def _target(self, surface: Surface, at: int) -> Snapped:
        """The place on the edge: as typed, where the pointer snaps to, or the middle."""
        a, b = ends_of(surface, at)
        typed = self.entry.values().get(Field.LENGTH)
        along = unit(a, b)
        if typed is not None:
            point = (a[0] + along[0] * typed, a[1] + along[1] * typed)
            return Snapped(point, SnapMarker(SnapKind.TYPED, point, "as typed"))
        centre = middle(a, b)
        halfway = Snapped(centre, SnapMarker(SnapKind.MIDDLE, centre, f"middle of {edge_title(surface, at)}"))
        if self._tabbed is not None or self.pointer is None:
            return halfway
        if surface.edge(at).through is not None:
            return Snapped(foot_on(edge_points(surface, at), self.pointer.point))
        return self.snapped(_crossing_scene(surface, at), AlongLine(a, along, is_ray=True)) or halfway

    def _is_at_corner(self, surface: Surface, at: int, target: Snapped) -> bool:
        a, b = ends_of(surface, at)
        from_a, from_b = math.dist(a, target.point), math.dist(b, target.point)
        too_long = surface.edge(at).through is None and from_a > math.dist(a, b) - SAME_PLACE
        return too_long or min(from_a, from_b) <= SAME_PLACE


def _crossing_scene(surface: Surface, at: int) -> Scene:
    """What crosses an edge: the lines of the other corners, and the square through its middle."""
    a, b = ends_of(surface, at)
    along = unit(a, b)
    words = f"middle of {edge_title(surface, at)}"
    square = SnapLine(SnapKind.MIDDLE, middle(a, b), (-along[1], along[0]), words)
    still = surface_scene(surface, moving=frozenset((at, (at + 1) % len(surface.outline))))
    aligned = tuple(line for line in still.lines if line.kind is SnapKind.ALIGNED)
    return Scene(lines=(square, *aligned))
