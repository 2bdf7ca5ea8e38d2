"""The sizes of what is chosen on the board, typed instead of dragged: a corner, an edge, a cutout.

Each face is a few rows; only the one that fits what is chosen is shown. What a mouse can do, these can do.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from msgspec import structs
from PySide6.QtWidgets import QPushButton, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import ChoiceBox, TextBox
from tilelayout.app.cards.new_doorway import NewDoorway
from tilelayout.app.cards.places import ROLE_WORDS
from tilelayout.app.heights.opened import faint_label, open_heights, section_at, step_words
from tilelayout.app.length_box import LengthBox
from tilelayout.app.outlines import (
    bounds_of,
    box_at,
    edge_length,
    moved_to,
    point_of_rise,
    resized,
    rise_of,
    round_at,
)
from tilelayout.base.heights import height_style
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits import heights as height_edits
from tilelayout.job.edits import surfaces as edits
from tilelayout.job.kinds import CutoutKind
from tilelayout.job.values import Cutout, Edge, Job, Point, Surface, Visibility

SEEN_WORDS = {
    Visibility.ORDINARY: "As usual",
    Visibility.LOOKED_AT: "Looked at",
    Visibility.HIDDEN: "Hidden",
}

CUTOUT_WORDS: dict[CutoutKind | None, str] = {
    None: "Nothing in particular",
    CutoutKind.FLANGE: "Flange of a toilet",
    CutoutKind.APPLIANCE: "Appliance under a worktop",
}

AddRow = Callable[..., QWidget]


class Face:
    """The rows for one kind of thing. `show` fills them; the rows are shown or hidden together."""

    kind: PickKind

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self.pick: Pick | None = None
        self.rows: list[QWidget] = []

    def show(self, pick: Pick | None) -> None:
        """Show what is chosen if it is of this kind, else hide the rows."""
        surface = self.bench.surface
        fits = surface is not None and pick is not None and pick.kind is self.kind
        self.pick = pick if fits else None
        for row in self.rows:
            row.setVisible(fits)
        if fits and surface is not None and pick is not None:
            self.fill(surface, pick.index)

    def fill(self, surface: Surface, index: int) -> None:
        """Show the values of thing `index` of the surface."""

    def change(self, label: str, edit: Callable[[Job, str, int], Job]) -> None:
        """Make one change of what is chosen."""
        pick = self.pick
        if pick is not None:
            self.bench.apply(label, lambda job: edit(job, pick.surface, pick.index))


class CornerFace(Face):
    """Where a corner stands."""

    kind = PickKind.CORNER

    def __init__(self, bench: Bench, add_row: AddRow) -> None:
        super().__init__(bench)
        self.x, self.y = (
            LengthBox("Corner from left", least=None),
            LengthBox("Corner from bottom", least=None),
        )
        self.remove = QPushButton("Remove corner")
        self.rows = [add_row("From left", self.x), add_row("From bottom", self.y), add_row("", self.remove)]
        self.x.entered.connect(lambda x: self._move(x, None))
        self.y.entered.connect(lambda y: self._move(None, y))
        self.remove.clicked.connect(self._remove)

    def fill(self, surface: Surface, index: int) -> None:
        """Show the corner's place."""
        for box, value in zip((self.x, self.y), surface.outline[index], strict=True):
            box.show_length(value, self.bench.job.show_lengths)

    def _move(self, x: float | None, y: float | None) -> None:
        def edit(job: Job, surface: str, at: int) -> Job:
            old: Point = job.surface(surface).outline[at]
            point = (old[0] if x is None else x, old[1] if y is None else y)
            return edits.move_corner(job, surface, at, point)

        self.change("Move corner", edit)

    def _remove(self) -> None:
        self.change("Remove corner", edits.delete_corner)
        self.bench.choose(None)


class EdgeFace(Face):
    """How long an edge is, what stands there, who sees it, whether it bows."""

    kind = PickKind.EDGE

    def __init__(self, bench: Bench, add_row: AddRow) -> None:
        super().__init__(bench)
        self.length = LengthBox("Length of the edge", least=1.0)
        self.role = ChoiceBox("What stands here", [(words, role) for role, words in ROLE_WORDS.items()])
        self.seen = ChoiceBox("Seen", [(words, seen) for seen, words in SEEN_WORDS.items()])
        self.name = TextBox("Name of the edge")
        self.bow = LengthBox("Bows out by", least=None)
        self.insert = QPushButton("Add a corner")
        self.insert.setAccessibleName("Add a corner in the middle")
        self.next_floor = LengthBox("Height of the floor beyond", least=None, is_optional=True)
        self.heights = QPushButton("Section…")
        self.heights.setAccessibleName("Section through the floor here")
        self.step = faint_label()
        self.rows = [
            add_row("Length", self.length),
            add_row("Stands here", self.role),
            add_row("Seen", self.seen),
            add_row("Called", self.name),
            add_row("Bows out", self.bow),
            add_row("", self.insert),
        ]
        self._height_rows = [add_row("Floor beyond", self.next_floor, self.heights), add_row("", self.step)]
        self.doorway = NewDoorway(self, add_row)
        self.rows += [*self._height_rows, *self.doorway.rows]
        self.length.entered.connect(self._resize)
        self.role.chosen.connect(lambda role: self._set("Change edge", role=role))
        self.seen.chosen.connect(lambda seen: self._set("Change edge", seen=seen))
        self.name.entered.connect(lambda name: self._set("Name edge", name=name))
        self.bow.entered.connect(self._bend)
        self.insert.clicked.connect(self._insert)
        self.next_floor.entered.connect(self._set_next_floor)
        self.heights.clicked.connect(lambda: open_heights(self.bench, self.heights, self.pick))

    def fill(self, surface: Surface, index: int) -> None:
        """Show the edge."""
        style, edge = self.bench.job.show_lengths, surface.edge(index)
        self.length.show_length(edge_length(surface, index), style)
        self.role.show_value(edge.role)
        self.seen.show_value(edge.seen)
        self.name.show_text(edge.name)
        self.bow.show_length(rise_of(surface, index), style)
        self._fill_heights(surface, edge)
        self.doorway.show(surface, edge)

    def _fill_heights(self, surface: Surface, edge: Edge) -> None:
        """Show what the floor meets here, at the edges where it meets anything."""
        section = section_at(self.bench, surface, f"edge {edge.at}")
        for row in self._height_rows:
            row.setVisible(section is not None)
        self.next_floor.show_length(edge.meets, height_style(self.bench.job.show_lengths))
        self.next_floor.line.setPlaceholderText("in layers" if edge.beyond else "")
        self.step.setText(step_words(section))

    def _set_next_floor(self, height: float | None) -> None:
        def edit(job: Job, surface: str, at: int) -> Job:
            return height_edits.set_next_floor(job, surface, at, height)

        self.change("Set floor beyond", edit)

    def _set(self, label: str, **changes: object) -> None:
        def edit(job: Job, surface: str, at: int) -> Job:
            edge: Edge = structs.replace(job.surface(surface).edge(at), **changes)
            return edits.set_edge(job, surface, edge)

        self.change(label, edit)

    def _resize(self, length: float) -> None:
        def edit(job: Job, surface: str, at: int) -> Job:
            return edits.set_outline(job, surface, *resized(job.surface(surface), at, length))

        self.change("Set length", edit)

    def _bend(self, rise: float) -> None:
        def edit(job: Job, surface: str, at: int) -> Job:
            through = point_of_rise(job.surface(surface), at, rise) if rise else None
            return edits.bend_edge(job, surface, at, through)

        self.change("Bend edge" if rise else "Straighten edge", edit)

    def _insert(self) -> None:
        def edit(job: Job, surface: str, at: int) -> Job:
            straight = point_of_rise(job.surface(surface), at, rise_of(job.surface(surface), at))
            return edits.insert_corner(job, surface, at, straight)

        pick = self.pick
        self.change("Add corner", edit)
        if pick is not None:
            corner = Pick(PickKind.CORNER, pick.surface, pick.index + 1)
            self.bench.choose(corner)


class CutoutFace(Face):
    """What a cutout is called, where it stands, how large it is and what is left free around it."""

    kind = PickKind.CUTOUT

    def __init__(self, bench: Bench, add_row: AddRow) -> None:
        super().__init__(bench)
        self.name = TextBox("Name of the cutout")
        self.x, self.y = (
            LengthBox("Cutout from left", least=None),
            LengthBox("Cutout from bottom", least=None),
        )
        self.width, self.height = LengthBox("Width", least=1.0), LengthBox("Height", least=1.0)
        self.diameter = LengthBox("Diameter", least=1.0)
        self.clearance = LengthBox("Left free around it")
        self.remove = QPushButton("Remove cutout")
        self.what = ChoiceBox("What it is", [(words, kind) for kind, words in CUTOUT_WORDS.items()])
        self.meets = LengthBox("Height of the flange's top or of the worktop", least=None, is_optional=True)
        self.heights = QPushButton("Section…")
        self.heights.setAccessibleName("Section through the cutout")
        self.step = faint_label()
        places = [add_row("Called", self.name), add_row("From left", self.x), add_row("From bottom", self.y)]
        self._box_rows = [add_row("Wide × high", self.width, self.height)]
        self._round_rows = [add_row("Diameter", self.diameter)]
        ends = [add_row("Left free", self.clearance), add_row("It is", self.what)]
        self._height_rows = [add_row("Stands at", self.meets, self.heights), add_row("", self.step)]
        self.rows = [
            *places,
            *self._box_rows,
            *self._round_rows,
            *ends,
            *self._height_rows,
            add_row("", self.remove),
        ]
        self._connect()

    def fill(self, surface: Surface, index: int) -> None:
        """Show the cutout: a circle by its centre, a polygon by its lower left corner."""
        cutout, style = surface.cutouts[index], self.bench.job.show_lengths
        for row in self._box_rows + self._round_rows:
            row.setVisible((row in self._round_rows) == (cutout.circle is not None))
        self.name.show_text(cutout.name)
        self.clearance.show_length(cutout.clearance, style)
        left, bottom, width, height = sizes_of(cutout)
        boxes = (self.x, self.y, self.width, self.height, self.diameter)
        for box, value in zip(boxes, (left, bottom, width, height, width), strict=True):
            box.show_length(value, style)
        self._fill_heights(surface, index)

    def _fill_heights(self, surface: Surface, index: int) -> None:
        cutout, section = surface.cutouts[index], section_at(self.bench, surface, f"cutout {index}")
        self.what.show_value(cutout.kind)
        for row in self._height_rows:
            row.setVisible(section is not None)
        self.meets.show_length(cutout.meets, height_style(self.bench.job.show_lengths))
        self.step.setText(step_words(section))

    def _connect(self) -> None:
        self.name.entered.connect(
            lambda name: self._change("Name cutout", partial(structs.replace, name=name))
        )
        self.clearance.entered.connect(
            lambda free: self._change("Set clearance", partial(structs.replace, clearance=free))
        )
        for at, box in enumerate((self.x, self.y, self.width, self.height)):
            box.entered.connect(partial(self._resize, at))
        self.diameter.entered.connect(partial(self._resize, 2))
        self.remove.clicked.connect(self._remove)
        self.what.chosen.connect(self._set_kind)
        self.meets.entered.connect(
            lambda meets: self._change("Set height", partial(structs.replace, meets=meets))
        )
        self.heights.clicked.connect(lambda: open_heights(self.bench, self.heights, self.pick))

    def _set_kind(self, kind: CutoutKind | None) -> None:
        def edit(job: Job, surface: str, index: int) -> Job:
            return height_edits.set_cutout_kind(job, surface, index, kind)

        self.change("Say what the cutout is", edit)

    def _change(self, label: str, edit: Callable[[Cutout], Cutout]) -> None:
        def whole(job: Job, surface: str, index: int) -> Job:
            return edits.replace_cutout(job, surface, index, edit(job.surface(surface).cutouts[index]))

        self.change(label, whole)

    def _resize(self, at: int, value: float) -> None:
        self._change("Move cutout" if at < 2 else "Size cutout", partial(with_size, at=at, value=value))

    def _remove(self) -> None:
        self.change("Remove cutout", edits.remove_cutout)
        self.bench.choose(None)


def sizes_of(cutout: Cutout) -> tuple[float, float, float, float]:
    """Return left, bottom, width, height; for a circle its centre and twice its diameter."""
    if cutout.circle is not None:
        return (*cutout.circle.centre, cutout.circle.diameter, cutout.circle.diameter)
    return bounds_of(cutout.polygon or ())


def with_size(cutout: Cutout, at: int, value: float) -> Cutout:
    """Return the cutout with one of its `sizes_of` changed; a polygon that is moved keeps its shape."""
    sizes = list(sizes_of(cutout))
    sizes[at] = value
    left, bottom, width, height = sizes
    if cutout.circle is not None:
        return round_at(cutout, left, bottom, width)
    return moved_to(cutout, left, bottom) if at < 2 else box_at(cutout, left, bottom, width, height)
