"""The first card: what shape is the room? Surfaces, the plain room typed in two sizes, and what is chosen."""

from __future__ import annotations

import numpy as np
from msgspec import structs
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.chosen import CornerFace, CutoutFace, EdgeFace
from tilelayout.app.cards.fields import ChoiceBox, TextBox, Tick
from tilelayout.app.cards.ground import GroundRows
from tilelayout.app.cards.places import places_of
from tilelayout.app.heights.opened import open_heights
from tilelayout.app.outlines import box_at, round_at
from tilelayout.app.plain_size import PlainSize
from tilelayout.app.trims.sheet import open_trims
from tilelayout.base.units import LengthStyle, format_area, format_length
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits import jobs as job_edits
from tilelayout.job.edits import surfaces as edits
from tilelayout.job.edits.ids import free_id
from tilelayout.job.kinds import Practice
from tilelayout.job.values import Cutout, Surface, SurfaceKind
from tilelayout.layout.region import region_of

UNIT_WORDS = {
    LengthStyle.MM: "Millimetres",
    LengthStyle.CM: "Centimetres",
    LengthStyle.M: "Metres",
    LengthStyle.INCH: "Inches",
    LengthStyle.FEET: "Feet and inches",
    LengthStyle.DECIMAL_FEET: "Decimal feet",
}

PRACTICE_WORDS = {
    Practice.US: "United States",
    Practice.UK: "United Kingdom",
    Practice.DE: "Germany",
    Practice.AU: "Australia",
}

KIND_WORDS = {SurfaceKind.FLOOR: "Floor", SurfaceKind.WALL: "Wall"}


class MeasureCard(Card):
    """Draw or type the surfaces of the job, and size what is chosen."""

    question = "What shape is it?"
    next_step = "Next: choose the tile"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, ("area", "wide", "deep"), parent)
        self._add_surface_rows()
        self._add_chosen_rows()
        self.ground = GroundRows(self)
        self._add_plain_room()
        self.group = ""
        self.units = ChoiceBox("Lengths in", [(words, style) for style, words in UNIT_WORDS.items()])
        self.practice = ChoiceBox("Rules of", [(words, rules) for rules, words in PRACTICE_WORDS.items()])
        self.job_name = TextBox("Name of the job, which stands on every sheet")
        self.job_name.line.setPlaceholderText("Name on the sheets")
        self.add_row("This job", self.job_name)
        self.add_row("Lengths in", self.units)
        self.add_row("Rules of", self.practice)
        self.job_name.entered.connect(self._set_job_name)
        self.units.chosen.connect(self._set_units)
        self.practice.chosen.connect(self._set_practice)
        bench.chosen_changed.connect(self._refresh_if_shown)
        self.finish()

    def go_on(self) -> None:
        """To the tile."""
        self.bench.show(stage=Stage.TILE)

    def refresh(self) -> None:
        """Show the surface in front and what is chosen on it."""
        job, surface = self.bench.job, self.bench.surface
        self.job_name.show_text(job.title)
        self.units.show_value(job.show_lengths)
        self.practice.show_value(job.practice)
        self._show_figures(surface)
        pick = self.bench.chosen if isinstance(self.bench.chosen, Pick) else None
        is_whole = pick is None or pick.kind in (PickKind.PIECE, PickKind.START)
        for row in self._surface_rows:
            row.setVisible(surface is not None and is_whole)
        self._place_row.setVisible(surface is not None)
        self.unfold.setVisible(surface is not None and is_whole)
        for row in self._room_rows:
            row.setVisible(surface is not None and is_whole and self.unfold.isChecked())
        self.ground.show(surface if is_whole else None, job.show_lengths)
        self.invite.setVisible(surface is None)
        for face in self._faces:
            face.show(pick)
        self.room.show_in(job.show_lengths)
        self.next_button.setEnabled(surface is not None)
        if surface is not None:
            self._show_surface(surface, None if is_whole else pick)

    def _add_surface_rows(self) -> None:
        self.invite = QLabel("The sizes stand here once there is a room.", self)
        self.invite.setObjectName("faint")
        self.invite.setWordWrap(True)
        self.column.addWidget(self.invite)
        self.surfaces = ChoiceBox("Surface")
        self.surfaces.setMinimumContentsLength(2)
        self.places = ChoiceBox("Chosen part of the surface")
        self.name = TextBox("Name of the surface")
        self.kind = ChoiceBox("Kind of surface", [(words, kind) for kind, words in KIND_WORDS.items()])
        self.remove = QPushButton("Remove")
        self._place_row = self.add_row("Look at", self.places)
        self.group = "whole"
        self._surface_rows = [
            self.add_row("Surface", self.surfaces, self.remove),
            self.add_row("Called", self.name),
            self.add_row("It is a", self.kind),
        ]
        self.surfaces.chosen.connect(lambda id: self.bench.show(surface=id))
        self.places.chosen.connect(self.bench.choose)
        self.name.entered.connect(lambda name: self._edit("Name surface", edits.rename_surface, name))
        self.kind.chosen.connect(lambda kind: self._edit("Change kind", edits.set_kind, kind))
        self.remove.clicked.connect(lambda: self._edit("Remove surface", edits.remove_surface))

    def _add_plain_room(self) -> None:
        self.unfold = Tick("Add a plain floor or wall")
        self.add(self.unfold)
        self.room = PlainSize(self)
        self.add_floor, self.add_wall = QPushButton("Add floor"), QPushButton("Add wall")
        self._room_rows = [
            self.add_row("Wide × deep", self.room),
            self.add_row("", self.add_floor, self.add_wall),
        ]
        self.unfold.chosen.connect(self.refresh)
        self.add_floor.clicked.connect(lambda: add_plain(self.bench, SurfaceKind.FLOOR, self.room.outline))
        self.add_wall.clicked.connect(lambda: add_plain(self.bench, SurfaceKind.WALL, self.room.outline))

    def _add_chosen_rows(self) -> None:
        self.group = "corner"
        self.corner = CornerFace(self.bench, self.add_row)
        self.group = "edge"
        self.edge = EdgeFace(self.bench, self.add_row)
        self.group = "cutout"
        self.cutout = CutoutFace(self.bench, self.add_row)
        self.group = "whole"
        self._faces = (self.corner, self.edge, self.cutout)
        self.add_box, self.add_round = QPushButton("Box"), QPushButton("Round")
        for button in (self.add_box, self.add_round):
            button.setAccessibleName(f"Add a {button.text().lower()} cutout")
        self._surface_rows.append(self.add_row("Cutout", self.add_box, self.add_round))
        self.heights, self.trims = QPushButton("Layers, heights…"), QPushButton("Trims…")
        self._surface_rows.append(self.add_beside(self.heights, self.trims))
        self.heights.clicked.connect(lambda: open_heights(self.bench, self.heights))
        self.trims.clicked.connect(lambda: open_trims(self.bench, self.trims))
        self.add_box.clicked.connect(lambda: self._add_cutout(is_round=False))
        self.add_round.clicked.connect(lambda: self._add_cutout(is_round=True))

    def _show_figures(self, surface: Surface | None) -> None:
        values = ("–", "–", "–") if surface is None else figures_of(surface, self.bench.job.show_lengths)
        is_wall = surface is not None and surface.kind is SurfaceKind.WALL
        self.figures[2].rename("high" if is_wall else "deep")
        for figure, value in zip(self.figures, values, strict=True):
            figure.show_value(value)

    def _show_surface(self, surface: Surface, pick: Pick | None) -> None:
        job = self.bench.job
        self.surfaces.offer((each.title, each.id) for each in job.surfaces)
        self.surfaces.show_value(surface.id)
        self.places.offer(places_of(surface, job.show_lengths))
        self.places.show_value(pick)
        self.name.show_text(surface.name)
        self.kind.show_value(surface.kind)

    def _edit(self, label: str, edit: object, *values: object) -> None:
        surface = self.bench.surface
        if surface is not None and callable(edit):
            self.bench.apply(label, lambda job: edit(job, surface.id, *values))

    def _add_cutout(self, *, is_round: bool) -> None:
        surface = self.bench.surface
        if surface is None:
            return
        cutout = middle_cutout(surface, is_round=is_round)
        if self.bench.apply("Add cutout", lambda job: edits.add_cutout(job, surface.id, cutout)):
            self.bench.choose(Pick(PickKind.CUTOUT, surface.id, len(surface.cutouts)))

    def _set_job_name(self, title: str) -> None:
        self.bench.apply("Name job", lambda job: job_edits.set_title(job, title))

    def _set_units(self, style: LengthStyle) -> None:
        self.bench.apply("Change lengths", lambda job: job_edits.set_show_lengths(job, style))

    def _set_practice(self, practice: Practice) -> None:
        self.bench.apply("Change rules", lambda job: job_edits.set_practice(job, practice))


def add_plain(bench: Bench, kind: SurfaceKind, outline: tuple[tuple[float, float], ...]) -> None:
    """Add a surface with this outline and bring it to the front."""
    id = free_id((each.id for each in bench.job.surfaces), str(kind))
    surface = Surface(id=id, kind=kind, name=KIND_WORDS[kind] if id == str(kind) else "", outline=outline)
    bench.apply(f"Add {kind}", lambda job: edits.add_surface(job, surface))


def figures_of(surface: Surface, style: LengthStyle) -> tuple[str, str, str]:
    """Return area, width and depth of a surface in words."""
    ring = np.vstack(region_of(structs.replace(surface, cutouts=()), 0.0).rings)
    wide, deep = (float(side) for side in ring.max(axis=0) - ring.min(axis=0))
    area = region_of(structs.replace(surface, cutouts=()), 0.0).area
    return format_area(area, style), format_length(wide, style), format_length(deep, style)


def middle_cutout(surface: Surface, *, is_round: bool) -> Cutout:
    """Return a cutout of a handy size in the middle of the surface, a tenth of its width at most."""
    across, up = [x for x, _ in surface.outline], [y for _, y in surface.outline]
    x, y = (min(across) + max(across)) / 2, (min(up) + max(up)) / 2
    size = min(110.0 if is_round else 300.0, (max(across) - min(across)) / 4, (max(up) - min(up)) / 4)
    if is_round:
        return round_at(Cutout(), x, y, size)
    return box_at(Cutout(), x - size / 2, y - size / 2, size, size)
