"""The rows about heights that a plane has to meet: a doorway, a drain with its fall, any point.

A place is chosen from what the surface has, then its height is typed; of those chosen the one marked in the
list is changed in the row below it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import QListWidgetItem, QPushButton, QSizePolicy, QWidget

from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.cards.lines import LineList
from tilelayout.app.length_box import EntryBox, LengthBox
from tilelayout.app.surface.height_box import HeightBox
from tilelayout.base.falls import format_fall, parse_fall
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.tools.point_out import POINT_OUT
from tilelayout.job.preparation import GivenHeight
from tilelayout.job.values import Surface
from tilelayout.planning.given_heights import middle_of, offered_places
from tilelayout.planning.surface_words import given_words

if TYPE_CHECKING:
    from tilelayout.app.cards.surface import SurfaceCard

_ADD, _POINT, _ON_BOARD = "Add a place…", "Another point", "Point at it on the board"

Meets = tuple[GivenHeight, ...]


class FallBox(EntryBox):
    """A box for a fall, in per cent or to the foot; `entered` carries per cent, None where it is emptied."""

    def show_fall(self, percent: float | None, style: LengthStyle) -> None:
        """Show a fall; None shows an empty box."""
        self.show_text("" if percent is None else format_fall(percent, style))

    def read(self, text: str) -> float | None:
        """Return per cent; a TileLayoutError with examples if it is no fall."""
        return parse_fall(text) if text else None


class MeetsRows:
    """Rows of the card; `changed(label, meets)` is called with what a person made of the given heights."""

    def __init__(self, card: SurfaceCard, changed: Callable[[str, Meets], None]) -> None:
        self._card, self._changed = card, changed
        self._meets: Meets = ()
        self._is_pointing = self._is_pointed_out = False
        self._style = LengthStyle.MM
        self.adding = ChoiceBox("Add a place whose height the plane meets")
        self.list = LineList(card)
        self.list.setWordWrap(True)
        self.list.setAccessibleName("Heights to meet")
        self.list.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        for bar in (self.list.setHorizontalScrollBarPolicy, self.list.setVerticalScrollBarPolicy):
            bar(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.height = HeightBox("Height of the place", least=None, is_optional=True)
        self.fall = FallBox("Fall towards the place")
        self.across, self.up = LengthBox("Place across", least=None), LengthBox("Place up", least=None)
        self.remove = QPushButton("Take away")
        self._add_rows()
        self._connect()

    def show(self, surface: Surface | None, meets: Meets, style: LengthStyle, *, is_wanted: bool) -> None:
        """Show what is given for a surface, if the way that was chosen asks for it."""
        self._is_pointed_out = self._is_pointing and len(meets) == len(self._meets) + 1
        self._meets, self._style = meets, style
        offered = [] if surface is None else [(each.name, each) for each in offered_places(surface)]
        point = None if surface is None else GivenHeight(at=middle_of(surface), height=0.0)
        self.adding.offer([(_ADD, None), *offered, (_POINT, point), (_ON_BOARD, POINT_OUT)])
        self.adding.show_value(None)
        self._show_list()
        self._adding_row.setVisible(is_wanted)
        self.list.setVisible(is_wanted and bool(meets))
        self._is_wanted = is_wanted
        self._show_one()
        if self._is_pointed_out:
            self._is_pointing = self._is_pointed_out = False
            self.height.setFocus()

    def _add_rows(self) -> None:
        card = self._card
        self._adding_row = card.add_row("Meet heights", self.adding)
        card.column.addWidget(self.list)
        self._place_row = card.add_row("At (across, up)", self.across, self.up)
        self._height_row = card.add_row("Its height", self.height)
        self._fall_row = card.add_row("Fall to it", self.fall)
        card.add(self.remove)
        self._of_one: tuple[QWidget, ...] = (self._height_row, self._fall_row, self.remove)
        self._is_wanted = False

    def _connect(self) -> None:
        self.adding.chosen.connect(self._add)
        self.list.currentRowChanged.connect(lambda _row: self._show_one())
        self.height.entered.connect(lambda mm: self._replace(height=mm))
        self.fall.entered.connect(lambda percent: self._replace(fall_percent=percent))
        self.across.entered.connect(lambda x: self._move(0, x))
        self.up.entered.connect(lambda y: self._move(1, y))
        self.remove.clicked.connect(self._remove)

    def _show_list(self) -> None:
        at = self.list.currentRow()
        with QSignalBlocker(self.list):
            self.list.clear()
            for given in self._meets:
                self.list.addItem(QListWidgetItem(given_words(given, self._style)))
            at = len(self._meets) - 1 if self._is_pointed_out else max(at, 0)
            self.list.setCurrentRow(min(at, len(self._meets) - 1))
        self.list.take_height()

    def _show_one(self) -> None:
        given = self._chosen()
        for row in self._of_one:
            row.setVisible(self._is_wanted and given is not None)
        self._place_row.setVisible(self._is_wanted and given is not None and not given.name)
        if given is not None:
            self.height.show_length(given.height, self._style)
            self.fall.show_fall(given.fall_percent, self._style)
            for box, value in zip((self.across, self.up), given.at, strict=True):
                box.show_length(value, self._style)

    def _chosen(self) -> GivenHeight | None:
        at = self.list.currentRow()
        return self._meets[at] if 0 <= at < len(self._meets) else None

    def _add(self, place: object) -> None:
        self._is_pointing = place == POINT_OUT
        if self._is_pointing:
            self.adding.show_value(None)
            self._card.tool_wanted.emit(POINT_OUT)
        if isinstance(place, GivenHeight):
            given = place if place.height is not None else replace(place, height=0.0)
            with QSignalBlocker(self.list):
                self.list.addItem("")
                self.list.setCurrentRow(self.list.count() - 1)
            self._changed("Meet a height", (*self._meets, given))
            self.height.setFocus()

    def _replace(self, **changes: Any) -> None:
        given, at = self._chosen(), self.list.currentRow()
        if given is not None:
            new = replace(given, **changes)
            self._changed("Change a height to meet", (*self._meets[:at], new, *self._meets[at + 1 :]))

    def _move(self, axis: int, to: float) -> None:
        given = self._chosen()
        if given is not None:
            x, y = given.at
            self._replace(at=(to, y) if axis == 0 else (x, to))

    def _remove(self) -> None:
        at = self.list.currentRow()
        if self._chosen() is not None:
            self._changed("Take a height to meet away", (*self._meets[:at], *self._meets[at + 1 :]))
