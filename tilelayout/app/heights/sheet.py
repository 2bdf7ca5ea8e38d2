"""The sheet of layers and finished heights: the section drawn, and below it what it is drawn from.

Every entry changes the job at once and can be undone here as in the window.
"""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.heights.layer_rows import LayerRows
from tilelayout.app.heights.place_rows import CutoutRows, EdgeRows, PlaceRows, beside, form_label, place_form
from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import STEP, TextSize
from tilelayout.app.paint.figure_view import FigureView
from tilelayout.app.rule_findings import LEVEL_WORDS
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.base.heights import height_style
from tilelayout.job.edits import heights as edits
from tilelayout.job.edits.grounds import set_layers
from tilelayout.job.kinds import LayerRole
from tilelayout.job.values import Surface
from tilelayout.planning.floor_sections import Section, sections_of
from tilelayout.planning.heights import small_words
from tilelayout.reports.figures.section_figure import section_figure

_WORDS = (
    "Measure every height from the bare base, as it is before anything is laid on it. Local codes come first."
)
_WALL_WORDS = "The layers on the wall, from its bare face out. In a wet place one of them is the membrane."


_ROOM = (170.0, 52.0)
"""Mm of paper that a section is drawn for."""


class HeightsSheet(Sheet):
    """Layers of the surface in front and what it meets; `place` ("edge 2") is shown first."""

    def __init__(self, parent: QWidget, bench: Bench, surface: Surface, place: str = "") -> None:
        is_floor = surface.kind.value == "floor"
        super().__init__(
            parent,
            bench.look,
            f"Layers and heights of {surface.title}",
            _WORDS if is_floor else _WALL_WORDS,
            (Choice("Close"),),
        )
        self._bench, self._over = bench, parent
        self.place = ChoiceBox("Where it is cut through")
        self.section = FigureView("Section through the floor", bench.look, self)
        self.says = _wrapped(self)
        self.wrong = _wrapped(self)
        self.wrong.setObjectName("wrong")
        self.layers = LayerRows("under the tile", LayerRole.BOARD)
        self.least = LengthBox("Thinnest bed of adhesive", is_optional=True)
        self.most = LengthBox("Thickest bed of adhesive", is_optional=True)
        self.tile = QLabel(self)
        self.edge, self.cutout = EdgeRows(bench, self), CutoutRows(bench, self)
        self._place_parts()
        self._connect()
        self._show(place)

    @property
    def sections(self) -> tuple[Section, ...]:
        """The sections there are now."""
        surface = self._bench.surface
        return () if surface is None else sections_of(self._bench.job, surface, self._bench.layout)

    def _place_parts(self) -> None:
        self.stack_rows = QWidget(self)
        form = place_form(self.stack_rows)
        form.addRow(form_label("Tile"), self.tile)
        form.addRow(form_label("Bed, pressed in"), beside(self.least, "to", self.most))
        form.addRow(form_label("Layers"), self.layers)
        self.scroll_through(self.place, self.section, self.says, self.edge, self.cutout, self.stack_rows)
        self.body.addWidget(self.wrong)
        window = self._over.size()
        self.resize(min(200 * STEP, window.width() - 8 * STEP), min(160 * STEP, window.height() - 8 * STEP))

    def _connect(self) -> None:
        bench = self._bench
        self.place.chosen.connect(self._show)
        self.layers.entered.connect(
            lambda layers: self._apply("Set layers", lambda job, id: set_layers(job, id, layers))
        )
        for box, is_least in ((self.least, True), (self.most, False)):
            box.entered.connect(lambda length, is_least=is_least: self._set_bed(length, is_least=is_least))
        bench.job_changed.connect(self._refresh)
        bench.refused.connect(self._say)
        self.undo_with_keys(bench.session)

    def _apply(self, label: str, edit: object) -> None:
        surface = self._bench.surface
        if surface is not None and callable(edit):
            self._bench.apply(label, lambda job: edit(job, surface.id))

    def _set_bed(self, length: float | None, *, is_least: bool) -> None:
        self._apply("Set bed", lambda job, id: edits.set_bed_end(job, id, length, is_least=is_least))

    def _say(self, words: str) -> None:
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))

    def _refresh(self) -> None:
        self._show(str(self.place.value or ""))

    def _show(self, place: object) -> None:
        """Show the section at a place; the stack alone if it is no longer there."""
        self._say("")
        sections, surface = self.sections, self._bench.surface
        if surface is None:
            self.reject()
            return
        self.place.offer([(each.title, each.place) for each in sections])
        self.place.setVisible(len(sections) > 1)
        shown = next((each for each in sections if each.place == place), sections[0])
        self.place.show_value(shown.place)
        words, style = section_words(shown), self._bench.job.show_lengths
        self.says.setText("\n".join(words))
        figure = section_figure(shown, _ROOM, style) if shown.is_known else None
        self.section.show_figure(figure, " ".join(words))
        self._show_rows(surface, shown)

    def _show_rows(self, surface: Surface, shown: Section) -> None:
        kind, _, number = shown.place.partition(" ")
        rows: dict[str, PlaceRows] = {"edge": self.edge, "cutout": self.cutout}
        for name, each in rows.items():
            each.setVisible(name == kind)
        if kind in rows:
            rows[kind].show_place(surface, int(number))
        self._show_stack(surface)

    def _show_stack(self, surface: Surface) -> None:
        style, tile = self._bench.job.show_lengths, self._bench.tile
        least, most = (surface.adhesive.bed if surface.adhesive is not None else None) or (None, None)
        self.layers.show_layers(surface.layers, style)
        self.least.show_length(least, height_style(style))
        self.most.show_length(most, height_style(style))
        if self._bench.layout is None or tile is None:
            self.tile.setText("No tile is laid yet.")
        else:
            self.tile.setText(f"{tile.title}, {small_words(tile.thickness, style)} thick")
        self.tile.setFont(self._bench.look.font(TextSize.TEXT))


def section_words(section: Section) -> tuple[str, ...]:
    """Return what a section tells: what is so, what the rules find, and what holds there."""
    found = (f"{LEVEL_WORDS[each.level]}: {each.sentence}" for each in section.findings)
    return (*(words[:1].upper() + words[1:] for words in section.says), *found, *section.limits)


def _wrapped(parent: QWidget) -> QLabel:
    label = QLabel(parent)
    label.setWordWrap(True)
    return label
