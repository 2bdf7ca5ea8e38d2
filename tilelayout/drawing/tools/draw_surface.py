"""Draws a floor or wall corner by corner, by clicks or by typed sizes, until it is closed."""

from __future__ import annotations

import math
from dataclasses import replace

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.crossing import blocked, blocked_closing
from tilelayout.drawing.events import (
    DoublePressed,
    Entered,
    Erased,
    Escaped,
    Event,
    Field,
    Nudged,
    PointerPressed,
)
from tilelayout.drawing.features import outline_scene
from tilelayout.drawing.new_surface import add_outline
from tilelayout.drawing.outline_lines import outline_lines, outline_measures
from tilelayout.drawing.placing import Locus, Nowhere, angle_of, next_corner, place
from tilelayout.drawing.preview import Preview
from tilelayout.drawing.reach import Snapped
from tilelayout.drawing.scene import Scene
from tilelayout.drawing.stage import Stage, offer
from tilelayout.job.values import Point

_FIRST = (Field.X, Field.Y)
_NEXT = (Field.LENGTH, Field.ANGLE, Field.DX, Field.DY)


def draw_surface(context: Context) -> Tool:
    """Take corners until the outline is closed, then offer the new surface and end."""
    sketch = _Sketch(context)
    while True:
        event = yield sketch.preview()
        if sketch.takes(event, sketch.drawn()):
            continue
        if isinstance(event, Escaped) and not sketch.can_step_back:
            return
        if not sketch.asks_to_close(event):
            sketch.act(event)
        elif sketch.can_close():
            sketch.trouble = yield from offer(sketch.closing())
            if not sketch.trouble:
                return


class _Sketch(Stage):
    """The corners so far, and where the next one would be."""

    def __init__(self, context: Context) -> None:
        super().__init__(context, *_FIRST)
        self.corners: tuple[Point, ...] = ()
        self._scene = Scene()
        self._reached: tuple[object, Snapped | None] | None = None

    @property
    def can_step_back(self) -> bool:
        """Esc has something to take back before it ends the tool."""
        return bool(self.corners) or self.entry.is_typed

    def act(self, event: Event) -> None:
        """Add or take back a corner, or point the way with an arrow key."""
        match event:
            case PointerPressed() | Entered():
                self._add()
            case DoublePressed() if not self._is_at_last():
                self._add()
            case Escaped() | Erased():
                self._step_back()
            case Nudged(dx, dy) if self.corners and (dx or dy):
                self._point_the_way(dx, dy)

    def asks_to_close(self, event: Event) -> bool:
        """Whether an event closes the outline: a press on the first corner, Enter with nothing typed."""
        if len(self.corners) < 3:
            return False
        if isinstance(event, Entered):
            return not self.entry.is_typed
        return isinstance(event, PointerPressed | DoublePressed) and self._is_on_first()

    def can_close(self) -> bool:
        """Whether the closing edge is free; if not, the trouble says why."""
        self.trouble = blocked_closing(self.corners)
        return not self.trouble

    def closing(self) -> Change:
        """Return the change that adds the finished surface."""
        return add_outline(self.context, self.corners)

    def drawn(self) -> dict[Field, float]:
        """The sizes of what is drawn now, for the boxes that nothing is typed in."""
        target = self._target()
        if target is None:
            return {}
        x, y = target.point
        if not self.corners:
            return {Field.X: x, Field.Y: y}
        last = self.corners[-1]
        sizes = {Field.DX: x - last[0], Field.DY: y - last[1], Field.LENGTH: math.dist(last, target.point)}
        return {**sizes, Field.ANGLE: angle_of(last, target.point)} if sizes[Field.LENGTH] else sizes

    def preview(self) -> Preview:
        """Show the corners so far, the rubber line, the closing line and their sizes."""
        target = self._target()
        end = target.point if target and not self._is_at_last() else None
        why_not = self._why_not(target) if end is not None else ""
        is_shown = self.is_pointing or self.entry.is_typed
        return Preview(
            hint=self._hint(end),
            trouble=self.wrong_words() or self._contradiction() or why_not,
            lines=outline_lines(self.corners, end if is_shown else None, is_refused=bool(why_not)),
            corners=self.corners,
            marker=target.marker if target and is_shown else None,
            measures=outline_measures(self.corners, end if is_shown else None, self.style),
            boxes=self.entry.boxes(self.drawn()),
            box_point=end or (self.corners[-1] if self.corners else None),
        )

    def _locus(self) -> Locus:
        fixed = self.entry.values()
        return next_corner(self.corners[-1], fixed) if self.corners else place(fixed)

    def _target(self) -> Snapped | None:
        """Where the next corner would be; None while neither pointer nor boxes say so."""
        asked = (self.pointer, self.entry, self.corners)
        if self._reached is None or self._reached[0] != asked:
            self._reached = (asked, self.reached(self._scene, self._locus()))
        return self._reached[1]

    def _is_on_first(self) -> bool:
        target = self._target()
        return target is not None and math.dist(target.point, self.corners[0]) <= SAME_PLACE

    def _is_at_last(self) -> bool:
        target = self._target()
        if target is None or not self.corners:
            return False
        return math.dist(target.point, self.corners[-1]) <= SAME_PLACE

    def _why_not(self, target: Snapped | None) -> str:
        if target is None or (len(self.corners) >= 3 and self._is_on_first()):
            return blocked_closing(self.corners) if target else ""
        return blocked(self.corners, target.point)

    def _contradiction(self) -> str:
        locus = self._locus()
        return locus.words if isinstance(locus, Nowhere) else ""

    def _add(self) -> None:
        target = (
            self._target() if self.corners or self.pointer or self.entry.is_typed else Snapped((0.0, 0.0))
        )
        if self.entry.wrong() or self._contradiction():
            return
        if target is None:
            self.trouble = "Point the way with the mouse or an arrow key, or type one more box."
            return
        self.trouble = self._why_not(target)
        if not self.trouble:
            self._set_corners((*self.corners, target.point))

    def _step_back(self) -> None:
        if self.entry.is_typed:
            self.entry = self.entry.emptied()
        elif self.corners:
            self._set_corners(self.corners[:-1])

    def _set_corners(self, corners: tuple[Point, ...]) -> None:
        self.corners = corners
        self._scene = outline_scene(corners).only(self.context.snap_kinds)
        self.entry = self.entry.cleared().of(*(_NEXT if corners else _FIRST))

    def _point_the_way(self, dx: int, dy: int) -> None:
        texts = {**self.entry.texts, Field.ANGLE: f"{angle_of((0.0, 0.0), (float(dx), float(dy))):g}"}
        self.entry = replace(self.entry, texts=texts)

    def _hint(self, end: Point | None) -> str:
        if not self.corners:
            start = "" if self.pointer or self.entry.is_typed else "; Enter starts at 0, 0"
            return f"Click the first corner, or type how far it is from left and bottom{start}."
        if len(self.corners) < 3:
            return "Click the next corner, or type its length and angle; Esc takes the last corner back."
        return f"Click corner 1 or press Enter to close. {self._way_back(end or self.corners[-1])}"

    def _way_back(self, end: Point) -> str:
        first = self.corners[0]
        dx, dy = first[0] - end[0], first[1] - end[1]
        back = self.shown(math.dist(end, first))
        return f"Back to corner 1: {back} (across {self.shown(dx)}, up {self.shown(dy)})."
