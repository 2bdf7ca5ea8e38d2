"""Draws a round cutout: its centre, then its diameter by the pointer or by typing."""

from __future__ import annotations

import math
from functools import partial

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import Field
from tilelayout.drawing.features import surface_scene
from tilelayout.drawing.first_then_size import PLACE, FirstThenSize, draw
from tilelayout.drawing.grid import to_step
from tilelayout.drawing.placing import place
from tilelayout.drawing.preview import LineRole, Measure, MeasureKind, Preview, RubberLine, SnapMarker
from tilelayout.drawing.reach import Reach, Snapped
from tilelayout.drawing.stage import lower_left, no_tool
from tilelayout.geometry.arcs import circle_points
from tilelayout.job.edits.surfaces import add_cutout
from tilelayout.job.values import Circle, Cutout, Job, Point, Surface


def add_round_cutout(context: Context) -> Tool:
    """Take a centre and a diameter, then offer the cutout and end."""
    surface = context.surface
    return draw(_Round(context, surface), partial(_cutting, surface.id)) if surface else no_tool()


def _cutting(surface_id: str, circle: Circle) -> Change:
    return Change("Cut out a circle", partial(_cut, surface_id=surface_id, circle=circle))


def _cut(job: Job, surface_id: str, circle: Circle) -> Job:
    return add_cutout(job, surface_id, Cutout(circle=circle))


class _Round(FirstThenSize[Circle]):
    """The centre, once there is one, and the diameter as drawn or typed."""

    def __init__(self, context: Context, surface: Surface) -> None:
        super().__init__(context, *PLACE)
        self._surface = surface
        self._scene = surface_scene(surface).only(context.snap_kinds)

    def drawn(self) -> dict[Field, float]:
        """The centre's place, or the diameter."""
        if self.first is not None:
            diameter, _ = self._diameter()
            return {Field.DIAMETER: diameter} if diameter else {}
        target = self._target()
        left, bottom = lower_left(self._surface)
        return {Field.X: target.point[0] - left, Field.Y: target.point[1] - bottom} if target else {}

    def preview(self) -> Preview:
        """Show the circle as it would be."""
        boxes = self.entry.boxes(self.drawn())
        if self.first is None:
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
            lines=_ring(self.first, diameter),
            corners=(self.first,),
            marker=marker,
            measures=self._measures(self.first, diameter),
            boxes=boxes,
            box_point=self.first,
        )

    def _target(self) -> Snapped | None:
        return self.reached(self._scene, place(self.entry.values(), lower_left(self._surface)))

    def _diameter(self) -> tuple[float, SnapMarker | None]:
        """The diameter typed, else to the point snapped to, else in round steps; 0 if there is none yet."""
        typed = self.entry.values().get(Field.DIAMETER)
        if typed is not None:
            return typed, None
        target = self.snapped(self._scene, has_grid=False)
        if target is None or self.pointer is None or self.first is None:
            return 0.0, None
        diameter = 2 * math.dist(self.first, target.point)
        reach = Reach.of(self.pointer, self.style, self.context.snap_px)
        if target.marker is None and reach.snaps:
            return to_step(diameter, reach.step) or diameter, None
        return diameter, target.marker

    def _measures(self, centre: Point, diameter: float) -> tuple[Measure, ...]:
        if diameter <= SAME_PLACE:
            return ()
        right = (centre[0] + diameter / 2, centre[1])
        return (Measure(MeasureKind.RADIUS, centre, right, f"diameter {self.shown(diameter)}"),)

    def accept(self) -> Circle | None:
        """Take the centre, or return the circle."""
        if self.first is None:
            self._begin()
            return None
        diameter, _ = self._diameter()
        if diameter <= SAME_PLACE:
            self.trouble = "A round cutout needs a diameter: point farther off, or type it."
            return None
        return Circle(centre=self.first, diameter=diameter)

    def _begin(self) -> None:
        target = self._target()
        if target is None:
            self.trouble = "Click the centre, or type both distances."
            return
        self.first = target.point
        self.entry = self.entry.cleared().of(Field.DIAMETER)


def _ring(centre: Point, diameter: float) -> tuple[RubberLine, ...]:
    if diameter <= SAME_PLACE:
        return ()
    points = tuple((float(x), float(y)) for x, y in circle_points(centre, diameter / 2, chord=0.5))
    return (RubberLine(points, LineRole.RUBBER, is_closed=True),)
