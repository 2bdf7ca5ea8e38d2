"""The last step of the surface question: which way to make it flat, with what product, and what follows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.length_box import NumberBox
from tilelayout.app.surface.height_box import HeightBox
from tilelayout.app.surface.meets_rows import MeetsRows
from tilelayout.app.surface.words import html_list
from tilelayout.job.edits.readings import set_preparation
from tilelayout.job.preparation import PreparationWay
from tilelayout.job.values import SurfaceKind
from tilelayout.planning.preparing import UPRIGHT_WAY_WORDS, WAY_WORDS
from tilelayout.planning.surface_words import CAUTIONS, checked_words, mend_words

if TYPE_CHECKING:
    from tilelayout.app.cards.surface import SurfaceCard


class MendFace:
    """Rows of the card; `rows` are shown while this step is in front."""

    def __init__(self, card: SurfaceCard) -> None:
        self.card = card
        self.way = ChoiceBox("What to do", [(words, way) for way, words in WAY_WORDS.items()])
        self.bag = NumberBox("What a bag makes, in litres", unit=" l", example="12.5", is_optional=True)
        self.thinnest = HeightBox("Thinnest layer of the product", is_optional=True)
        self.deepest = HeightBox("Deepest layer of the product", is_optional=True)
        self.ground = HeightBox("Ground off at most", is_optional=True)
        self.fill_cost = NumberBox("What a litre of filler costs", example="1.20", is_optional=True)
        self.grind_cost = NumberBox("What a litre ground off costs", example="6", is_optional=True)
        self.result, self.cautions = QLabel(card), QLabel(CAUTIONS, card)
        for label in (self.result, self.cautions):
            label.setWordWrap(True)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.cautions.setObjectName("faint")
        way_row = card.add_row("Way", self.way)
        self.meets = MeetsRows(card, lambda label, meets: self._change(label, meets=meets))
        self._ground_row = card.add_row("Grind at most", self.ground)
        self._cost_rows = (
            card.add_row("A litre filled", self.fill_cost),
            card.add_row("A litre ground", self.grind_cost),
        )
        card.add(self.result)
        self.rows: list[QWidget] = [
            way_row,
            self.result,
            card.add_row("A bag makes", self.bag),
            card.add_row("Layer from", self.thinnest),
            card.add_row("Layer up to", self.deepest),
            self.cautions,
        ]
        card.add(self.cautions)
        self._connect()

    def _connect(self) -> None:
        self.way.chosen.connect(lambda way: self._change("Change what to do", way=way))
        self.bag.entered.connect(lambda litres: self._change("Change what a bag makes", bag_litres=litres))
        self.thinnest.entered.connect(lambda mm: self._change("Change thinnest layer", thinnest=mm))
        self.deepest.entered.connect(lambda mm: self._change("Change deepest layer", deepest=mm))
        self.ground.entered.connect(lambda mm: self._change("Change grinding", most_ground=mm))
        self.fill_cost.entered.connect(lambda cost: self._change("Change cost of filler", fill_cost=cost))
        self.grind_cost.entered.connect(lambda cost: self._change("Change cost of grinding", grind_cost=cost))

    def show(self) -> None:
        """Show what was asked and what is known of the answer."""
        desk, style = self.card.desk, self.card.bench.job.show_lengths
        asked, one = desk.asked, desk.one
        is_wall = one is not None and one.surface.kind is SurfaceKind.WALL
        words = UPRIGHT_WAY_WORDS if is_wall else WAY_WORDS
        self.way.offer((text, way) for way, text in words.items())
        self.way.show_value(asked.way)
        self.bag.show_number(asked.bag_litres)
        self.thinnest.show_length(asked.thinnest, style)
        self.deepest.show_length(asked.deepest, style)
        self.ground.show_length(asked.most_ground, style)
        self.fill_cost.show_number(asked.fill_cost)
        self.grind_cost.show_number(asked.grind_cost)
        is_plane = asked.way is PreparationWay.PLANE
        for row in (self._ground_row, *self._cost_rows):
            row.setVisible(self._is_in_front and (is_plane or asked.way is PreparationWay.GRIND_AND_FILL))
        surface = self.card.bench.surface
        self.meets.show(surface, asked.meets, style, is_wanted=self._is_in_front and is_plane)
        self.result.setText(self._result())

    @property
    def _is_in_front(self) -> bool:
        return not self.result.isHidden()

    def _result(self) -> str:
        desk = self.card.desk
        answer = desk.answer
        if desk.one is None:
            return "Enter readings first."
        if desk.trouble:
            return ""
        if answer is None or not answer.is_prepared:
            so_far = "" if answer is None or answer.prepared is None else answer.prepared.litres
            return "Working out what is needed…" + (f" {so_far:.1f} litres so far." if so_far else "")
        if answer.prepared is None:
            if desk.one.ground is None:
                return "Only lines are known. Read heights over the whole surface to know what it takes."
            return "Lay a tile on this surface first: the least depends on what it may be out for that tile."
        style = self.card.bench.job.show_lengths
        checked = checked_words(answer.prepared, style) if answer.is_checked else ["Judging it as filled…"]
        return html_list((*mend_words(answer.prepared, style), *checked))

    def _change(self, label: str, **changes: object) -> None:
        desk, surface = self.card.desk, self.card.bench.surface
        if surface is not None and desk.one is not None:
            asked = replace(desk.asked, **changes)
            self.card.bench.apply(label, lambda job: set_preparation(job, surface.id, asked))
