"""Measures between two points: their distance, and how far across and up. It changes nothing."""

from __future__ import annotations

from functools import lru_cache

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.events import Entered, Erased, Escaped, Event, Field, PointerPressed
from tilelayout.drawing.features import level_from, surface_scene
from tilelayout.drawing.outline_lines import length_of
from tilelayout.drawing.placing import place
from tilelayout.drawing.preview import LineRole, Measure, Preview, RubberLine, SnapKind
from tilelayout.drawing.reach import Snapped
from tilelayout.drawing.scene import Scene
from tilelayout.drawing.stage import Stage, lower_left
from tilelayout.job.values import Point


def measure_between(context: Context) -> Tool:
    """Take two points at a time until Esc with none taken."""
    tape = _Tape(context)
    while True:
        event = yield tape.preview()
        if tape.takes(event, tape.drawn()):
            continue
        if isinstance(event, Escaped) and not tape.can_step_back:
            return
        tape.act(event)


class _Tape(Stage):
    """The points taken: none, the first, or both."""

    def __init__(self, context: Context) -> None:
        super().__init__(context, Field.X, Field.Y)
        self._points: tuple[Point, ...] = ()

    @property
    def can_step_back(self) -> bool:
        """Esc has something to take back before it ends the tool."""
        return bool(self._points) or self.entry.is_typed

    def act(self, event: Event) -> None:
        """Take a point or give one back; a third point starts anew."""
        match event:
            case PointerPressed() | Entered():
                self._take()
            case Escaped() | Erased():
                if self.entry.is_typed:
                    self.entry = self.entry.emptied()
                else:
                    self._points = self._points[:-1]

    def drawn(self) -> dict[Field, float]:
        """Where the pointer is, from the surface's left and bottom."""
        target = self._target()
        left, bottom = lower_left(self.context.surface)
        return {Field.X: target.point[0] - left, Field.Y: target.point[1] - bottom} if target else {}

    def preview(self) -> Preview:
        """Show the line measured with its length, and the two legs across and up."""
        target = self._target()
        is_shown = target is not None and (self.is_pointing or self.entry.is_typed)
        ends = self._points
        if len(ends) == 1 and target and is_shown:
            ends = (*ends, target.point)
        return Preview(
            hint=self._hint(),
            trouble=self.wrong_words(),
            lines=_lines(ends),
            corners=self._points,
            marker=target.marker if target and is_shown else None,
            measures=self._measures(ends),
            boxes=self.entry.boxes(self.drawn()),
            box_point=target.point if target else None,
        )

    def _target(self) -> Snapped | None:
        origin = lower_left(self.context.surface)
        return self.reached(self._scene(), place(self.entry.values(), origin))

    def _scene(self) -> Scene:
        surface = self.context.surface
        scene = surface_scene(surface) if surface else Scene()
        first = self._points[0] if len(self._points) == 1 else None
        return _scene_from(scene, first, self.context.snap_kinds)

    def _take(self) -> None:
        if self.entry.wrong():
            return
        target = self._target()
        if target is None:
            self.trouble = "Point at a place, or type how far it is from left and bottom."
            return
        self._points = (*self._points, target.point) if len(self._points) < 2 else (target.point,)
        self.entry = self.entry.cleared()

    def _measures(self, ends: tuple[Point, ...]) -> tuple[Measure, ...]:
        if len(ends) < 2:
            return ()
        (ax, ay), (bx, by) = ends
        measures = [length_of((ax, ay), (bx, by), self.style)]
        if abs(bx - ax) > SAME_PLACE and abs(by - ay) > SAME_PLACE:
            measures += [length_of((ax, ay), (bx, ay), self.style), length_of((bx, ay), (bx, by), self.style)]
        return tuple(measures)

    def _hint(self) -> str:
        if len(self._points) == 2:
            between = self._measures(self._points)[0].text
            return f"The distance is {between}. Click for the next one; Esc takes the last point back."
        return (
            "Click the second point." if self._points else "Click the first of two points to measure between."
        )


@lru_cache(maxsize=2)
def _scene_from(scene: Scene, first: Point | None, kinds: frozenset[SnapKind]) -> Scene:
    return (scene.plus(level_from(first)) if first else scene).only(kinds)


def _lines(ends: tuple[Point, ...]) -> tuple[RubberLine, ...]:
    if len(ends) < 2:
        return ()
    corner = (ends[1][0], ends[0][1])
    return (RubberLine(ends, LineRole.RUBBER), RubberLine((ends[0], corner, ends[1]), LineRole.GUIDE))
