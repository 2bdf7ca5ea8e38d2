"""Adds a reference line to the layout by pointing: at a feature, or at the two ends of a line.

Each kind of line has its own tool, which ends once its line is there.
"""

from __future__ import annotations

from functools import partial

from tilelayout.base.units import INCH
from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import Entered, Erased, Escaped, Event, Pointer, PointerPressed
from tilelayout.drawing.features import cutout_centre, level_from, surface_scene
from tilelayout.drawing.hitting import pick_at
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.preview import LineRole, PointerShape, Preview, RubberLine
from tilelayout.drawing.reach import Snapped
from tilelayout.drawing.stage import Stage, offer
from tilelayout.job.edits.lines import add_line
from tilelayout.job.kinds import LineKind
from tilelayout.job.values import Point, ReferenceLine

_LABEL = "Add a reference line"
_HINTS = {
    LineKind.CENTRE: "Point at what a tile or a joint is to be centred on: a wall, a cutout, or a place.",
    LineKind.FULL_TILE: "Point at the wall along which full tiles are to stand.",
    LineKind.NO_JOINT: "Point at the cutout that no joint may come near.",
}


def centre_on(context: Context) -> Tool:
    """Add a feature to centre on."""
    yield from _pointing(_Feature(context, LineKind.CENTRE))


def full_tile_at(context: Context) -> Tool:
    """Add an edge along which full tiles are to stand."""
    yield from _pointing(_Feature(context, LineKind.FULL_TILE))


def no_joint_near(context: Context) -> Tool:
    """Add a cutout that no joint may come near."""
    yield from _pointing(_Feature(context, LineKind.NO_JOINT))


def joint_on_line(context: Context) -> Tool:
    """Add a line, drawn by its two ends, for a joint to run on."""
    drawn = _Line(context)
    while True:
        event = yield drawn.preview()
        if drawn.takes(event, {}):
            continue
        if isinstance(event, Escaped | Erased):
            if drawn.first is None:
                return
            drawn.first = None
        elif isinstance(event, PointerPressed | Entered):
            made = drawn.taken()
            if made is not None:
                drawn.trouble = yield from offer(drawn.change(made))
                if not drawn.trouble:
                    return


def _pointing(feature: _Feature) -> Tool:
    while True:
        event = yield feature.preview()
        if isinstance(event, Escaped):
            return
        if feature.takes(event, {}):
            continue
        made = feature.pointed_at(event)
        if made is not None:
            feature.trouble = yield from offer(feature.change(made))
            if not feature.trouble:
                return


class _Adding(Stage):
    """What both ways of adding share: the layout that the line is for."""

    def change(self, line: ReferenceLine) -> Change:
        """Return the change that adds a line to the layout."""
        layout = self.context.layout
        return Change(_LABEL, partial(add_line, layout_id=layout.id if layout else "", line=line))


class _Feature(_Adding):
    """A line about one thing of the surface."""

    def __init__(self, context: Context, kind: LineKind) -> None:
        super().__init__(context)
        self._kind = kind

    def pointed_at(self, event: Event) -> ReferenceLine | None:
        """Return the line for what a press points at; None, with words of trouble, if it does not suit."""
        if not isinstance(event, PointerPressed):
            return None
        made = self._line(self._under(), event.point)
        self.trouble = "" if made else _HINTS[self._kind]
        return made

    def preview(self) -> Preview:
        """Light what would be taken."""
        under = self._under() if self.is_pointing else None
        hint, shape = _HINTS[self._kind], PointerShape.CROSS
        return Preview(hint=hint, trouble=self.trouble, under=under, pointer=shape)

    def _under(self) -> Pick | None:
        surface, pointer = self.context.surface, self.pointer
        if surface is None or pointer is None:
            return None
        pick = pick_at(surface, pointer.point, pointer.px_per_mm, lambda _point: None)
        return pick if pick is not None and pick.kind in _TAKEN[self._kind] else None

    def _line(self, pick: Pick | None, point: Point) -> ReferenceLine | None:
        kind, surface = self._kind, self.context.surface
        if surface is None or (pick is None and kind is not LineKind.CENTRE):
            return None
        if pick is None:
            return ReferenceLine(kind=kind, point=point)
        if pick.kind is PickKind.EDGE:
            return ReferenceLine(kind=kind, edge=pick.index)
        if pick.kind is PickKind.CORNER:
            return ReferenceLine(kind=kind, point=surface.outline[pick.index])
        cutout = surface.cutouts[pick.index]
        if kind is LineKind.CENTRE and not cutout.name:
            return ReferenceLine(kind=kind, point=cutout_centre(cutout))
        within = _usual_distance(self) if kind is LineKind.NO_JOINT else 0.0
        return ReferenceLine(kind=kind, cutout=cutout.name, within=within)


_TAKEN = {
    LineKind.CENTRE: (PickKind.CORNER, PickKind.EDGE, PickKind.CUTOUT),
    LineKind.FULL_TILE: (PickKind.EDGE,),
    LineKind.NO_JOINT: (PickKind.CUTOUT,),
}


def _usual_distance(stage: Stage) -> float:
    """A distance in round numbers of the job's lengths that leaves room to cut: 50 mm or 2 in."""
    return 50.0 if stage.style.is_metric else float(2 * INCH)


class _Line(_Adding):
    """A line of two points, the first taken or not yet."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self.first: Point | None = None

    def taken(self) -> ReferenceLine | None:
        """Take the point under the pointer; return the line if it was the second."""
        target = self._target()
        if target is None:
            return None
        if self.first is None:
            self.first = target.point
            return None
        return ReferenceLine(kind=LineKind.JOINT, line=(self.first, target.point))

    def preview(self) -> Preview:
        """Show the line to the pointer."""
        target = self._target() if self.is_pointing else None
        ends = (self.first, target.point) if self.first is not None and target is not None else ()
        which = "first" if self.first is None else "second"
        return Preview(
            hint=f"Click the {which} point of the line that a joint is to run on.",
            trouble=self.trouble,
            lines=(RubberLine(ends, LineRole.RUBBER),) if ends else (),
            corners=(self.first,) if self.first is not None else (),
            marker=target.marker if target is not None else None,
        )

    def _target(self) -> Snapped | None:
        surface = self.context.surface
        if surface is None or not isinstance(self.pointer, Pointer):
            return None
        scene = surface_scene(surface)
        return self.snapped(scene.plus(level_from(self.first)) if self.first is not None else scene)
