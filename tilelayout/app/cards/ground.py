"""What is under the tile, as far as it is known: background, water, sun, adhesive. Folded away at first."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from msgspec import structs
from PySide6.QtWidgets import QLabel, QWidget

from tilelayout.app.cards.card import FOLDED
from tilelayout.app.cards.fields import ChoiceBox, TextBox, Tick
from tilelayout.app.length_box import LengthBox
from tilelayout.base.heights import height_style
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits import grounds, heights
from tilelayout.job.ground import Adhesive
from tilelayout.job.kinds import Background, Exposure, Wetness
from tilelayout.job.values import Job, Surface

if TYPE_CHECKING:
    from tilelayout.app.cards.measure import MeasureCard

NOT_KNOWN = ("Not known", None)
BACKGROUND_WORDS = {
    Background.GYPSUM_PLASTER: "Gypsum plaster",
    Background.PLASTERBOARD: "Plasterboard, drywall",
    Background.PLYWOOD: "Plywood",
    Background.GYPSUM_FIBRE_BOARD: "Gypsum fibre board",
    Background.CEMENT_BOARD: "Cement board",
    Background.FOAM_BOARD: "Foam-cored board",
    Background.MASONRY: "Masonry",
    Background.CONCRETE: "Concrete",
    Background.SCREED: "Screed",
    Background.OLD_TILE: "Old tile",
    Background.OLD_RESILIENT: "Old resilient flooring",
}
WETNESS_WORDS = {
    Wetness.DRY: "Dry",
    Wetness.WET: "Wet, as a shower",
    Wetness.IMMERSED: "Under water",
}
EXPOSURE_WORDS = {
    Exposure.INSIDE: "Inside",
    Exposure.SUNLIT: "Inside, in the sun",
    Exposure.OUTSIDE: "Outside",
}


class GroundRows:
    """The rows that unfold under "What is under the tile"."""

    def __init__(self, card: MeasureCard) -> None:
        self._card = card
        self.unfold = Tick("What is under the tile")
        card.add(self.unfold)
        self.background = _choice("What the tile is stuck to", BACKGROUND_WORDS)
        self.wetness = _choice("How wet it gets", WETNESS_WORDS)
        self.exposure = _choice("Sun and weather", EXPOSURE_WORDS)
        self.grade = TextBox("Class of the adhesive, such as C2TE S1 or A118.4")
        self.least, self.most = (
            LengthBox("Thinnest bed of adhesive", is_optional=True),
            LengthBox("Thickest bed of adhesive", is_optional=True),
        )
        self.notch = LengthBox("Square notch of the trowel", is_optional=True)
        before, card.group = card.group, FOLDED
        self.rows: list[QWidget] = [
            card.add_row("On", self.background),
            card.add_row("Water, sun", self.wetness, self.exposure),
            card.add_row("Adhesive", self.grade),
            card.add_row("Bed", self.least, QLabel("to", card), self.most),
            card.add_row("Notch", self.notch),
        ]
        card.group = before
        self._connect()

    def show(self, surface: Surface | None, style: LengthStyle) -> None:
        """Show the surface's rows if they are unfolded; without a surface, none."""
        self.unfold.setVisible(surface is not None)
        for row in self.rows:
            row.setVisible(surface is not None and self.unfold.isChecked())
        if surface is None:
            return
        adhesive = surface.adhesive or Adhesive()
        least, most = adhesive.bed or (None, None)
        self.background.show_value(surface.background)
        self.wetness.show_value(surface.wetness)
        self.exposure.show_value(surface.exposure)
        self.grade.show_text(adhesive.grade)
        for box, length in ((self.least, least), (self.most, most), (self.notch, adhesive.notch)):
            box.show_length(length, height_style(style))

    def _connect(self) -> None:
        self.unfold.chosen.connect(self._card.refresh)
        for box, label, edit in (
            (self.background, "Set background", grounds.set_background),
            (self.wetness, "Set wetness", grounds.set_wetness),
            (self.exposure, "Set exposure", grounds.set_exposure),
        ):
            box.chosen.connect(self._setter(label, edit))
        self.grade.entered.connect(lambda grade: self._set_adhesive("Set adhesive", grade=grade.strip()))
        self.least.entered.connect(lambda least: self._set_bed(least, is_least=True))
        self.most.entered.connect(lambda most: self._set_bed(most, is_least=False))
        self.notch.entered.connect(lambda notch: self._set_adhesive("Set notch", notch=notch))

    def _setter(self, label: str, edit: Callable[..., Job]) -> Callable[[object], None]:
        return lambda value: self._apply(label, lambda job, id: edit(job, id, value))

    def _set_bed(self, length: float | None, *, is_least: bool) -> None:
        self._apply("Set bed", lambda job, id: heights.set_bed_end(job, id, length, is_least=is_least))

    def _set_adhesive(self, label: str, **changes: object) -> None:
        def edit(job: Job, id: str) -> Job:
            new: Adhesive = structs.replace(job.surface(id).adhesive or Adhesive(), **changes)
            return grounds.set_adhesive(job, id, None if new == Adhesive() else new)

        self._apply(label, edit)

    def _apply(self, label: str, edit: Callable[[Job, str], Job]) -> None:
        surface = self._card.bench.surface
        if surface is not None:
            self._card.bench.apply(label, lambda job: edit(job, surface.id))


def _choice(name: str, words: Mapping[Any, str]) -> ChoiceBox:
    return ChoiceBox(name, [NOT_KNOWN, *((text, value) for value, text in words.items())])
