"""The step of the surface question that asks whether the tiles will sit: the tiles to worry about, and a
table of every tile of the job on every surveyed surface.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QLabel, QListWidget, QSizePolicy, QWidget

from tilelayout.app.look import STEP
from tilelayout.app.surface.words import html_list
from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle
from tilelayout.planning.sitting import Sitting
from tilelayout.planning.sitting_words import (
    MEANT,
    bed_words,
    dry_words,
    sits_words,
    worries_told,
)
from tilelayout.planning.tiles_on_surfaces import Fits, TileOnSurface

if TYPE_CHECKING:
    from tilelayout.app.cards.surface import SurfaceCard

_SIGNS = {Fits.FITS: "●", Fits.PREPARED: "◐", Fits.DOES_NOT: "✕", Fits.UNKNOWN: "?"}
_MOST_HIGH = 90 * STEP


class WorryList(QListWidget):
    """The tiles to worry about in sentences, as high as they are, up to a height from which it scrolls."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Tiles to worry about, the worst first")
        self.setWordWrap(True)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the words anew."""
        super().resizeEvent(event)
        self.take_height()

    def take_height(self) -> None:
        """Be as high as the rows are at this width."""
        self.doItemsLayout()
        rows = (self.visualItemRect(self.item(at)).height() for at in range(self.count()))
        needed = sum(rows) + STEP
        as_needed, never = Qt.ScrollBarPolicy.ScrollBarAsNeeded, Qt.ScrollBarPolicy.ScrollBarAlwaysOff
        self.setVerticalScrollBarPolicy(as_needed if needed > _MOST_HIGH else never)
        self.setFixedHeight(min(needed, _MOST_HIGH))


class SitFace:
    """Rows of the card; `rows` are shown while this step is in front."""

    def __init__(self, card: SurfaceCard) -> None:
        self.card = card
        self.said, self.worries, self.table = QLabel(card), WorryList(card), QLabel(card)
        self.meant = QLabel(MEANT, card)
        self.meant.setObjectName("faint")
        for label in (self.said, self.table, self.meant):
            label.setWordWrap(True)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.rows: list[QWidget] = [self.said, self.worries, self.table, self.meant]
        for row in self.rows:
            card.add(row)
        self._ids: list[str] = []
        self._found: Sitting | None = None
        self.worries.currentRowChanged.connect(self._choose)

    def show(self, is_in_front: bool) -> None:
        """Show what is known so far, if this step is in front."""
        for row in self.rows:
            row.setVisible(is_in_front)
        if is_in_front:
            self.said.setText(self._said())
            self._show_worries()
            self.table.setText(self._table())

    def _said(self) -> str:
        desk = self.card.desk.sits
        answer, found = desk.answer, desk.answer.sitting
        if self.card.desk.one is None:
            return "Enter readings first."
        if desk.trouble:
            return escape(desk.trouble)
        if found is not None:
            words = (dry_words(found), bed_words(found), *found.lacks)
            return f"<p><b>{escape(sits_words(found))}</b></p>{html_list(words)}"
        if not answer.is_laid:
            return (
                f"Laying tiles on the readings: {answer.done} of {answer.of}…"
                if answer.of
                else "Laying tiles…"
            )
        if self.card.bench.layout is None:
            return "No layout is in front: below is how each tile of the job would do in a plain grid."
        return "Only lines are known, or no tile lies on the readings: read heights over the whole surface."

    def _show_worries(self) -> None:
        desk = self.card.desk.sits
        found = desk.answer.sitting
        if found is not self._found:
            self._found = found
            told = [] if found is None else list(worries_told(found))
            self._ids = [worry.id for worry, _ in told]
            with QSignalBlocker(self.worries):
                self.worries.clear()
                self.worries.addItems([sentence for _, sentence in told])
            self.worries.take_height()
        with QSignalBlocker(self.worries):
            self.worries.setCurrentRow(self._ids.index(desk.chosen) if desk.chosen in self._ids else -1)
        self.worries.setVisible(bool(self._ids))

    def _choose(self, row: int) -> None:
        self.card.desk.sits.choose(self._ids[row] if 0 <= row < len(self._ids) else "")

    def _table(self) -> str:
        answer, style = self.card.desk.sits.answer, self.card.bench.job.show_lengths
        if not answer.is_laid or self.card.desk.sits.trouble:
            return ""
        head = "<p><b>Any tile on any surveyed surface</b></p>"
        rows = "".join(_row(each, style) for each in answer.tried)
        more = "" if answer.is_tried else "<p>Trying the tiles…</p>"
        return f"{head}<table cellspacing='0' cellpadding='3'>{rows}</table>{more}"


def _row(each: TileOnSurface, style: LengthStyle) -> str:
    much = ""
    if each.made is not None:
        pours = f", {each.made.pours} pours" if each.made.pours > 1 else ""
        much = (
            f": {each.made.litres:.1f} litres, deepest {format_height(each.made.fill.deepest, style)}{pours}"
        )
    why = f"<br><small>{escape(each.why)}</small>" if each.why else ""
    fits = f"<b>{_SIGNS[each.fits]} {each.fits}</b>{escape(much)}"
    where = f"{escape(each.tile.title)}<br><small>{escape(each.one.surface.title)}</small>"
    return f"<tr><td width='34%'>{where}</td><td>{fits}{why}</td></tr>"
