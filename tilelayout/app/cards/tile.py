"""The second card: which tile, how large it really is, and in which pattern it is laid."""

from __future__ import annotations

from msgspec import structs
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.fields import ChoiceBox, TextBox
from tilelayout.app.cards.more_of_tile import MoreOfTile
from tilelayout.app.cards.role_rows import RoleRows
from tilelayout.app.cards.sizes_of_tile import SizesOfTile
from tilelayout.app.cards.stock_rows import StockRows
from tilelayout.app.cards.way_chooser import WayChooser
from tilelayout.app.cards.ways import Way, offsets_text, read_offsets, way_of, ways_for
from tilelayout.app.first_layouts import (
    SHAPE_WORDS,
    laid_another_way,
    reshaped,
    resized,
    usual_tile,
    with_tile_laid,
)
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.length_box import EntryBox, LengthBox
from tilelayout.base.units import format_area
from tilelayout.job.edits import layouts as layout_edits
from tilelayout.job.edits import tiles as edits
from tilelayout.job.values import Layout, Tile
from tilelayout.layout.patterns import settings_of
from tilelayout.planning.buying import BuyingList, buying_of_layout

_FEW_PIECES = 80
"""So few cut pieces are shared between tiles without a wait to be felt."""


class OffsetsBox(EntryBox):
    """Offsets of rows or columns as shares of a tile: "0, 1/3, 2/3"."""

    def read(self, text: str) -> tuple[float, ...]:
        """Return the offsets; a TileLayoutError with an example if they cannot be read."""
        return read_offsets(text)


class TileCard(Card):
    """Choose, size and lay a tile. On a surface without a layout, choosing a tile lays it."""

    question = "Which tile, laid how?"
    next_step = "Next: set o&ut the start"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, ("tiles", "boxes", "to cover"), parent)
        self._counting = LatestWork(self)
        self._counting.answered.connect(self._take_counts)
        self._counted: tuple[object, BuyingList] | None = None
        self._add_tile_rows()
        self._add_pattern_rows()
        self.finish()

    def go_on(self) -> None:
        """To the start."""
        self.bench.show(stage=Stage.SET_OUT)

    def refresh(self) -> None:
        """Show the tile in front and how it is laid."""
        tile, surface = self.bench.tile, self.bench.surface
        self.invite.setVisible(tile is None)
        for row in self._tile_rows:
            row.setVisible(tile is not None)
        for row in self._layout_rows:
            row.setVisible(tile is not None and surface is not None)
        self._show_figures()
        self.next_button.setEnabled(surface is None or self.bench.layout is not None)
        self.lead(surface is not None, "draw the room", Stage.MEASURE)
        if tile is None:
            self._offsets_row.hide()
            self.sizes.hide()
            self.more.hide()
            self.roles.hide()
            return
        self._show_tile(tile)
        self._show_layout(tile)

    def _add_tile_rows(self) -> None:
        self.invite = QLabel("Add the tile you have or have in mind, then give it its measured size.", self)
        self.invite.setObjectName("faint")
        self.invite.setWordWrap(True)
        self.column.addWidget(self.invite)
        self.tiles, self.remove = ChoiceBox("Tile"), QPushButton("Remove")
        self.name = TextBox("Name of the tile")
        self._tile_rows = [self.add_row("Tile", self.tiles, self.remove)]
        self.adds = [QPushButton(words) for words in SHAPE_WORDS.values()]
        self.add_row("Add a", *self.adds)
        self.sizes = SizesOfTile(self)
        self._tile_rows.append(self.add_row("Called", self.name))
        self._tile_rows.append(self.add_row("", self.sizes.shape))
        self.sizes.add_rows()
        self.more = MoreOfTile(self)
        self._tile_rows += self.more.rows
        self.stock = StockRows(self)
        self._tile_rows += self.stock.rows
        self._connect_tile()

    def _connect_tile(self) -> None:
        self.tiles.chosen.connect(lambda id: self._lay(self.bench.job.tile(id)))
        self.remove.clicked.connect(self._remove)
        for shape, button in zip(SHAPE_WORDS, self.adds, strict=True):
            button.clicked.connect(lambda _on=False, shape=shape: self._add(shape))
        self.name.entered.connect(lambda name: self.change("Name tile", name=name))

    def _add_pattern_rows(self) -> None:
        self.ways = WayChooser(self.bench.look, self)
        self.offsets = OffsetsBox("Offsets of rows or columns in shares of a tile")
        self.joint, self.gap = LengthBox("Joint"), LengthBox("Gap left at the walls")
        self.add_rule()
        self.column.addWidget(self.ways)
        self.roles = RoleRows(self)
        self._offsets_row = self.add_row("Offset b&y", self.offsets)
        self._layout_rows: list[QWidget] = [
            self.ways,
            self.add_row("Joint", self.joint),
            self.add_row("Wall gap", self.gap),
        ]
        self.ways.chosen.connect(self._lay_as)
        self.offsets.entered.connect(self._set_offsets)
        self.joint.entered.connect(lambda joint: self._change_layout("Set joint", joint=joint))
        self.gap.entered.connect(lambda gap: self._change_layout("Set wall gap", gap=gap))

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._counting.stop()
        self.stock.stop()

    def _show_figures(self) -> None:
        """Show the counts; of a plan that is not yet counted the tiles at once, if that is quick to have."""
        plan, job = self.bench.plan, self.bench.job
        values = ["–", "–", "–"]
        if plan is not None:
            values[2] = format_area(plan.region_area, job.show_lengths)
            if plan.is_shared or plan.cut <= _FEW_PIECES:
                values[0] = str(plan.sharing_so_far.tiles_needed)
            question = (plan, job.breakage)
            if self._counted is not None and self._counted[0] == question:
                values[:2] = _counts(self._counted[1])
            else:
                self._counting.ask(question, lambda: buying_of_layout(job, plan.layout.id))
        self.stock.show(job, plan)
        for figure, value in zip(self.figures, values, strict=True):
            figure.show_value(value)

    def _take_counts(self, question: object, answer: object, is_last: bool) -> None:
        if is_last and isinstance(answer, BuyingList):
            self._counted = (question, answer)
            self._show_figures()
            self.roles.show_counts(self.bench.plan)

    def _show_tile(self, tile: Tile) -> None:
        style = self.bench.job.show_lengths
        self.tiles.offer((each.title, each.id) for each in self.bench.job.tiles)
        self.tiles.show_value(tile.id)
        self.name.show_text(tile.name)
        self.sizes.show(tile, style)
        self.more.show(tile, style)
        self.stock.show_tile(tile)

    def _show_layout(self, tile: Tile) -> None:
        layout, style = self.bench.layout, self.bench.job.show_lengths
        self.ways.offer(ways_for(tile), tile)
        for box in (self.joint, self.gap):
            box.setEnabled(layout is not None)
        self.roles.show(self.bench.job, layout, self.bench.plan)
        way = way_of(layout, tile) if layout is not None else None
        self.ways.show_way(way)
        key = "" if layout is None else _offsets_key(layout)
        self._offsets_row.setVisible(bool(key))
        if layout is not None:
            self.joint.show_length(layout.joint, style)
            self.gap.show_length(layout.gap, style)
            self.offsets.show_text(offsets_text(getattr(settings_of(layout), key, (0.0,))))

    def change(self, label: str, **changes: object) -> None:
        """Change the tile in front."""
        tile = self.bench.tile
        if tile is not None:
            changed: Tile = structs.replace(tile, **changes)
            self.bench.apply(label, lambda job: resized(job, changed))

    def _change_layout(self, label: str, **changes: object) -> None:
        layout = self.bench.layout
        if layout is not None:
            self.bench.apply(label, lambda job: layout_edits.replace_layout(job, layout.id, **changes))

    def reshape(self, shape: str) -> None:
        """Give the tile in front another shape, in a usual size, and lay it in a way that suits it."""
        tile = self.bench.tile
        if tile is not None:
            new = usual_tile(shape, self.bench.job)
            self.bench.apply("Change shape", lambda job: reshaped(job, tile, new))

    def _add(self, shape: str) -> None:
        self._lay(usual_tile(shape, self.bench.job))

    def _lay(self, tile: Tile) -> None:
        surface, layout = self.bench.surface, self.bench.layout
        if surface is not None:
            self.bench.apply("Lay tile", lambda job: with_tile_laid(job, surface, layout, tile))
        elif tile not in self.bench.job.tiles:
            self.bench.apply("Add tile", lambda job: edits.add_tile(job, tile))

    def _lay_as(self, way: Way) -> None:
        if self.bench.layout is None and self.bench.tile is not None:
            self._lay(self.bench.tile)
        layout = self.bench.layout
        if layout is not None:
            self.bench.apply("Change pattern", lambda job: laid_another_way(job, layout.id, way))
        self.refresh()

    def _set_offsets(self, offsets: tuple[float, ...]) -> None:
        layout = self.bench.layout
        if layout is not None:
            self._change_layout("Set offsets", settings={_offsets_key(layout): offsets})

    def _remove(self) -> None:
        tile = self.bench.tile
        if tile is not None:
            self.bench.apply("Remove tile", lambda job: edits.remove_tile(job, tile.id))


def _counts(bought: BuyingList) -> list[str]:
    """Return how many tiles are opened and how many boxes are bought, with breakage and spare."""
    boxes = [each.boxes for _, each in bought.tiles]
    known = [each for each in boxes if each is not None]
    return [str(bought.sharing.tiles_needed), str(sum(known)) if len(known) == len(boxes) else "–"]


def _offsets_key(layout: Layout) -> str:
    """Return the setting of the layout's pattern that shifts its rows or columns; "" if it has none."""
    keys = type(settings_of(layout)).__struct_fields__
    return next((key for key in keys if key.endswith("_offsets")), "")
