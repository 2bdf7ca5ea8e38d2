"""Draws a plain rectangle by two opposite corners or by width and height: a room, a wall, or a cutout."""

from __future__ import annotations

from functools import partial
from itertools import pairwise

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import Field
from tilelayout.drawing.features import level_from, surface_scene
from tilelayout.drawing.first_then_size import PLACE, FirstThenSize, draw
from tilelayout.drawing.new_surface import add_outline
from tilelayout.drawing.outline_lines import length_of
from tilelayout.drawing.placing import AlongLine, Anywhere, AtSpots, Locus, place
from tilelayout.drawing.preview import LineRole, Preview, RubberLine
from tilelayout.drawing.reach import Snapped
from tilelayout.drawing.scene import Scene
from tilelayout.drawing.stage import lower_left, no_tool
from tilelayout.job.edits.surfaces import add_cutout
from tilelayout.job.values import Cutout, Job, Point

Corners = tuple[Point, Point, Point, Point]
_SIZES = (Field.WIDTH, Field.HEIGHT)


def draw_rectangle(context: Context) -> Tool:
    """Take two opposite corners, then offer a new surface and end. Sizes alone put it at 0, 0."""
    rectangle = _Rectangle(context, Scene(), (0.0, 0.0), first_fields=_SIZES)
    return draw(rectangle, partial(add_outline, context))


def add_rect_cutout(context: Context) -> Tool:
    """Take two opposite corners, then offer a cutout of the surface and end."""
    surface = context.surface
    if surface is None:
        return no_tool()
    scene = surface_scene(surface).only(context.snap_kinds)
    rectangle = _Rectangle(context, scene, lower_left(surface), first_fields=PLACE)
    return draw(rectangle, partial(_cutting, surface.id))


def _cutting(surface_id: str, corners: Corners) -> Change:
    return Change("Cut out a rectangle", partial(_cut, surface_id=surface_id, corners=corners))


def _cut(job: Job, surface_id: str, corners: Corners) -> Job:
    return add_cutout(job, surface_id, Cutout(polygon=corners))


class _Rectangle(FirstThenSize[Corners]):
    """A first corner, if there is one yet, and the size of what is drawn from it."""

    def __init__(
        self, context: Context, scene: Scene, origin: Point, *, first_fields: tuple[Field, Field]
    ) -> None:
        super().__init__(context, *first_fields)
        self._still = self._scene = scene
        self._origin = origin

    def drawn(self) -> dict[Field, float]:
        """The sizes of what is drawn now."""
        target = self._target()
        if target is None:
            return {}
        x, y = target.point
        if self.first is None:
            return {Field.X: x - self._origin[0], Field.Y: y - self._origin[1]}
        return {Field.WIDTH: abs(x - self.first[0]), Field.HEIGHT: abs(y - self.first[1])}

    def preview(self) -> Preview:
        """Show the rectangle as it would be."""
        target = self._target()
        is_shown = self.is_pointing or self.entry.is_typed
        corners = self._corners(target.point) if self.first and target and is_shown else None
        sides = pairwise(corners[:3]) if corners else ()
        return Preview(
            hint=self._hint(),
            trouble=self.wrong_words(),
            lines=(RubberLine(corners, LineRole.RUBBER, is_closed=True),) if corners else (),
            corners=(self.first,) if self.first else (),
            marker=target.marker if target and is_shown else None,
            measures=tuple(length_of(a, b, self.style) for a, b in sides),
            boxes=self.entry.boxes(self.drawn()),
            box_point=target.point if target else self.first,
        )

    def _target(self) -> Snapped | None:
        return self.reached(self._scene, self._locus())

    def _locus(self) -> Locus:
        fixed = self.entry.values()
        if self.first is None:
            return place(fixed, self._origin)
        (x, y), (right, up) = self.first, self._signs()
        if Field.WIDTH in fixed and Field.HEIGHT in fixed:
            return AtSpots(((x + right * fixed[Field.WIDTH], y + up * fixed[Field.HEIGHT]),))
        if Field.WIDTH in fixed:
            return AlongLine((x + right * fixed[Field.WIDTH], y), (0.0, 1.0))
        if Field.HEIGHT in fixed:
            return AlongLine((x, y + up * fixed[Field.HEIGHT]), (1.0, 0.0))
        return Anywhere()

    def _signs(self) -> tuple[float, float]:
        """To which side of the first corner the pointer is; right and up without a pointer."""
        if self.pointer is None or self.first is None:
            return (1.0, 1.0)
        x, y = self.pointer.point
        return (-1.0 if x < self.first[0] else 1.0, -1.0 if y < self.first[1] else 1.0)

    def _corners(self, other: Point) -> Corners:
        """The corners counter-clockwise from the lower left, whichever way they were drawn."""
        x, y = self.first or other
        left, right = sorted((x, other[0]))
        bottom, top = sorted((y, other[1]))
        return ((left, bottom), (right, bottom), (right, top), (left, top))

    def accept(self) -> Corners | None:
        """Take the first corner, or return all four."""
        if self.first is None and self._first_fields == _SIZES and self.entry.is_typed:
            self.first = self._origin
            self._scene = self._still
        target = self._target()
        if self.first is None:
            self._begin(target.point if target else self._origin)
            return None
        if target is None:
            self.trouble = "Type both width and height, or point at the opposite corner."
            return None
        return self._finished(target.point)

    def _finished(self, other: Point) -> Corners | None:
        corners = self._corners(other)
        if min(corners[2][0] - corners[0][0], corners[2][1] - corners[0][1]) <= SAME_PLACE:
            self.trouble = "A rectangle needs a width and a height: point farther off, or type both."
            return None
        return corners

    def _begin(self, first: Point) -> None:
        self.first = first
        self._scene = self._still.plus(level_from(first)).only(self.context.snap_kinds)
        self.entry = self.entry.cleared().of(*_SIZES)

    def let_go(self) -> None:
        """Forget the first corner and what it levels."""
        super().let_go()
        self._scene = self._still

    def _hint(self) -> str:
        if self.first is not None:
            return "Click the opposite corner, or type width and height and press Enter."
        if self._first_fields == _SIZES:
            return "Click the first corner, or type width and height and press Enter."
        return "Click the first corner, or type how far it is from left and bottom."
