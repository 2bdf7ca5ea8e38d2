"""What is chosen on a surface, and how that is shown: handles, sizes, distances, typed boxes."""

from __future__ import annotations

from tilelayout.drawing.context import Context
from tilelayout.drawing.events import Field, Pointer
from tilelayout.drawing.hitting import pick_at
from tilelayout.drawing.moves import (
    corners_of,
    distance_between,
    ends_of,
    is_there,
    place_of,
    title_of_all,
)
from tilelayout.drawing.naming import sentence
from tilelayout.drawing.outline_lines import length_of
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.preview import Handle, HandleShape, Measure, PointerShape, Preview, SnapMarker
from tilelayout.drawing.sizing import sizes_of
from tilelayout.drawing.stage import Stage
from tilelayout.job.values import Point, Surface

_MOVABLE = (PickKind.CORNER, PickKind.EDGE, PickKind.CUTOUT)


class Selection(Stage):
    """The picks that are chosen, and the one under the pointer."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self.chosen: tuple[Pick, ...] = ()

    @property
    def movable(self) -> tuple[Pick, ...]:
        """The chosen things that can be moved: pieces cannot, since the layout puts them where they are."""
        return tuple(pick for pick in self.chosen if pick.kind in _MOVABLE)

    def choose(self, pick: Pick | None, *, adds: bool = False) -> None:
        """Choose one thing alone, or add it to the others, or take it out again; None chooses nothing."""
        if pick is None:
            self._set(self.chosen if adds else ())
        elif not adds:
            self._set((pick,))
        elif pick in self.chosen:
            self._set(tuple(other for other in self.chosen if other != pick))
        else:
            self._set((*self.chosen, pick))

    def choose_within(self, a: Point, b: Point, *, adds: bool) -> None:
        """Choose the corners and cutouts in a box."""
        surface = self.context.surface
        inside = (
            [pick for pick in _all(surface) if _is_within(place_of(surface, pick), a, b)] if surface else []
        )
        self._set(tuple(dict.fromkeys([*(self.chosen if adds else ()), *inside])))

    def choose_beside(self, *, back: bool) -> None:
        """Choose the next thing round the surface: corner, edge, corner …, then the cutouts."""
        surface = self.context.surface
        ring = _round(surface) if surface else []
        if not ring:
            return
        last = self.chosen[-1] if self.chosen else None
        at = ring.index(last) + (-1 if back else 1) if last in ring else (-1 if back else 0)
        self._set((ring[at % len(ring)],))

    def look_again(self) -> None:
        """Forget what the job no longer has."""
        surface = self.context.surface
        there = tuple(pick for pick in self.chosen if surface and is_there(surface, pick))
        if there != self.chosen:
            self._set(there)

    def under(self, pointer: Pointer) -> Pick | None:
        """Return what a press there would choose."""
        surface = self.context.surface
        if surface is None:
            return None
        return pick_at(surface, pointer.point, pointer.px_per_mm, self.context.piece_at)

    def drawn(self) -> dict[Field, float]:
        """The sizes of the only thing chosen."""
        surface = self.context.surface
        if surface is None or len(self.chosen) != 1 or not is_there(surface, self.chosen[0]):
            return {}
        return sizes_of(surface, self.chosen[0])

    def preview(
        self, marker: SnapMarker | None = None, selection_box: tuple[Point, Point] | None = None
    ) -> Preview:
        """Show what is chosen, what is under the pointer, and the sizes that go with it."""
        surface = self.context.surface
        self.look_again()
        under = self.under(self.pointer) if self.pointer and self.is_pointing and not marker else None
        return Preview(
            hint=self._hint(surface),
            trouble=self.wrong_words(),
            marker=marker,
            measures=self._measures(surface) if surface else (),
            boxes=self.entry.boxes(self.drawn()),
            box_point=place_of(surface, self.movable[0]) if surface and self.movable else None,
            handles=self._handles(surface) if surface else (),
            chosen=self.chosen,
            under=under,
            selection_box=selection_box,
            pointer=PointerShape.MOVE if under and under.kind in _MOVABLE else PointerShape.ARROW,
        )

    def _set(self, chosen: tuple[Pick, ...]) -> None:
        self.chosen = chosen
        self.entry = self.entry.emptied().of(*self.drawn())

    def _hint(self, surface: Surface | None) -> str:
        if surface is None or not self.chosen:
            return "Click a corner, a wall or a cutout to choose it; press a wall twice to add a corner."
        title = title_of_all(surface, self.chosen)
        if not self.movable:
            return f"{sentence(title)} is chosen; Esc lets it go."
        if len(self.chosen) == 2:
            return "The distance between the two is shown; arrow keys move both, Esc lets them go."
        boxes = ", or type its size" if self.entry.fields else ""
        return f"Drag {title} or nudge it with the arrow keys{boxes}; Delete takes a corner or a cutout away."

    def _measures(self, surface: Surface) -> tuple[Measure, ...]:
        if len(self.chosen) == 2:
            between = distance_between(surface, *self.chosen)
            return (length_of(*between, self.style),) if between else ()
        count = len(surface.outline)
        corners = corners_of(surface, self.chosen)
        edges = sorted(corners | {(at - 1) % count for at in corners}) if len(self.chosen) == 1 else []
        return tuple(length_of(*ends_of(surface, at), self.style) for at in edges)

    def _handles(self, surface: Surface) -> tuple[Handle, ...]:
        chosen = set(self.chosen)
        return tuple(
            Handle(_SHAPES[pick.kind], place_of(surface, pick), pick in chosen) for pick in _all(surface)
        )


_SHAPES = {PickKind.CORNER: HandleShape.CORNER, PickKind.CUTOUT: HandleShape.CENTRE}


def _all(surface: Surface) -> list[Pick]:
    corners = [Pick(PickKind.CORNER, surface.id, at) for at in range(len(surface.outline))]
    return corners + [Pick(PickKind.CUTOUT, surface.id, at) for at in range(len(surface.cutouts))]


def _round(surface: Surface) -> list[Pick]:
    kinds = (PickKind.CORNER, PickKind.EDGE)
    ring = [Pick(kind, surface.id, at) for at in range(len(surface.outline)) for kind in kinds]
    return ring + [Pick(PickKind.CUTOUT, surface.id, at) for at in range(len(surface.cutouts))]


def _is_within(point: Point, a: Point, b: Point) -> bool:
    return all(min(p, q) <= value <= max(p, q) for value, p, q in zip(point, a, b, strict=True))
