"""Draws a round cutout: its centre, then its diameter by the pointer or by typing."""

from __future__ import annotations

import math
from functools import partial

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import Entered, Erased, Escaped, Event, Field, PointerPressed, PointerReleased
from tilelayout.drawing.features import surface_scene
from tilelayout.drawing.grid import to_step
from tilelayout.drawing.placing import place
from tilelayout.drawing.preview import LineRole, Measure, MeasureKind, Preview, RubberLine, SnapMarker
from tilelayout.drawing.reach import Reach, Snapped
from tilelayout.drawing.stage import DRAG_PX, Stage, lower_left, no_tool, offer
from tilelayout.geometry.arcs import circle_points
from tilelayout.job.edits.surfaces import add_cutout
from tilelayout.job.values import Circle, Cutout, Job, Point, Surface

_PLACE = (Field.X, Field.Y)


def add_round_cutout(context: Context) -> Tool:
    """Take a centre and a diameter, then offer the cutout and end."""
    surface = context.surface
    return _draw(_Round(context, surface)) if surface else no_tool()


def _draw(circle: _Round) -> Tool:
    while True:
        event = yield circle.preview()
        if circle.takes(event, circle.drawn()):
            continue
        if isinstance(event, Escaped) and not circle.can_step_back:
            return
        change = circle.act(event)
        if change is None:
            continue
        circle.trouble = yield from offer(change)
        if not circle.trouble:
            return


def _cut(job: Job, surface_id: str, circle: Circle) -> Job:
    return add_cutout(job, surface_id, Cutout(circle=circle))


class _Round(Stage):
    """The centre, once there is one, and the diameter as drawn or typed."""

    def __init__(self, context: Context, surface: Surface) -> None:
        super().__init__(context, *_PLACE)
        self._surface = surface
        self._scene = surface_scene(surface).only(context.snap_kinds)
        self._centre: Point | None = None
        self._pressed: Point | None = None

    @property
    def can_step_back(self) -> bool:
        """Esc has something to take back before it ends the tool."""
        return self._centre is not None or self.entry.is_typed

    def act(self, event: Event) -> Change | None:
        """Set the centre or return the finished cutout."""
        match event:
            case PointerPressed(point):
                self._pressed = point
                return self._accept()
            case PointerReleased(point) if self._was_dragged(point):
                return self._accept()
            case Entered():
                return self._accept()
            case Escaped() | Erased():
                self._step_back()
        return None

    def drawn(self) -> dict[Field, float]:
        """The centre's place, or the diameter."""
        if self._centre is not None:
            diameter, _ = self._diameter()
            return {Field.DIAMETER: diameter} if diameter else {}
        target = self._target()
        left, bottom = lower_left(self._surface)
        return {Field.X: target.point[0] - left, Field.Y: target.point[1] - bottom} if target else {}

    def preview(self) -> Preview:
        """Show the circle as it would be."""
        boxes = self.entry.boxes(self.drawn())
        if self._centre is None:
            target = self._target()
            return Preview(
                hint="Click the centre, or type how far it is from left and bottom.",
                trouble=self.wrong_words(),
                marker=target.marker if target and (self.is_pointing or self.entry.is_typed) else None,
                boxes=boxes,
                box_point=target.point if target else None,
            )
        diameter, marker = self._diameter()
        return Preview(
            hint="Click where the edge shall be, or type the diameter and press Enter.",
            trouble=self.wrong_words(),
            lines=_ring(self._centre, diameter),
            corners=(self._centre,),
            marker=marker,
            measures=self._measures(self._centre, diameter),
            boxes=boxes,
            box_point=self._centre,
        )

    def _target(self) -> Snapped | None:
        return self.reached(self._scene, place(self.entry.values(), lower_left(self._surface)))

    def _diameter(self) -> tuple[float, SnapMarker | None]:
        """The diameter typed, else to the point snapped to, else in round steps; 0 if there is none yet."""
        typed = self.entry.values().get(Field.DIAMETER)
        if typed is not None:
            return typed, None
        target = self.snapped(self._scene, has_grid=False)
        if target is None or self.pointer is None or self._centre is None:
            return 0.0, None
        diameter = 2 * math.dist(self._centre, target.point)
        reach = Reach.of(self.pointer, self.style, self.context.snap_px)
        if target.marker is None and reach.snaps:
            return to_step(diameter, reach.step) or diameter, None
        return diameter, target.marker

    def _measures(self, centre: Point, diameter: float) -> tuple[Measure, ...]:
        if diameter <= SAME_PLACE:
            return ()
        right = (centre[0] + diameter / 2, centre[1])
        return (Measure(MeasureKind.RADIUS, centre, right, f"diameter {self.shown(diameter)}"),)

    def _was_dragged(self, point: Point) -> bool:
        if self._pressed is None or self._centre is None or self.pointer is None:
            return False
        return math.dist(point, self._pressed) * self.pointer.px_per_mm > DRAG_PX

    def _accept(self) -> Change | None:
        if self.entry.wrong():
            return None
        if self._centre is None:
            self._begin()
            return None
        diameter, _ = self._diameter()
        if diameter <= SAME_PLACE:
            self.trouble = "A round cutout needs a diameter: point farther off, or type it."
            return None
        circle = Circle(centre=self._centre, diameter=diameter)
        return Change("Cut out a circle", partial(_cut, surface_id=self._surface.id, circle=circle))

    def _begin(self) -> None:
        target = self._target()
        if target is None:
            self.trouble = "Click the centre, or type both distances."
            return
        self._centre = target.point
        self.entry = self.entry.cleared().of(Field.DIAMETER)

    def _step_back(self) -> None:
        if self.entry.is_typed:
            self.entry = self.entry.emptied()
        elif self._centre is not None:
            self._centre = None
            self.entry = self.entry.of(*_PLACE)


def _ring(centre: Point, diameter: float) -> tuple[RubberLine, ...]:
    if diameter <= SAME_PLACE:
        return ()
    points = tuple((float(x), float(y)) for x, y in circle_points(centre, diameter / 2, chord=0.5))
    return (RubberLine(points, LineRole.RUBBER, is_closed=True),)
