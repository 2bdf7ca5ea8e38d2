"""The rows of the third card for random planks: draw again, the least stagger, and no end too short.

Rows that were drawn for the room so that none ends too short are drawn anew once the start, or whatever else
they were drawn for, has come to rest at something else. Undo and redo bring back the rows that were there.
"""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QLabel, QPushButton

from tilelayout.app.cards.card import Card
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.length_box import LengthBox
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits import layouts as edits
from tilelayout.job.values import Layout
from tilelayout.layout.row_ends import DrawnRows
from tilelayout.planning.draw_planks import (
    PATTERN,
    are_planks,
    bare,
    drawn_again,
    drawn_words,
    for_the_room,
    least_end_of,
)

_REST_MS = 400
"""So long a start has to lie still before the rows are drawn for it."""


class PlankRows:
    """Rows on a card. With a least end the rows are drawn for the room, away from the window's thread."""

    def __init__(self, card: Card) -> None:
        self._bench = card.bench
        self.again = QPushButton("Draw again")
        self.stagger = LengthBox("Least stagger of the end joints", is_optional=True)
        self.least_end = LengthBox("No piece of a row shorter than", is_optional=True)
        self.said = QLabel(card)
        self.said.setWordWrap(True)
        self.said.setObjectName("faint")
        self.said.setAccessibleName("What the draw came to")
        self._work = LatestWork(card)
        self._drawn_for: tuple[object, object] = (None, None)
        self._rest = QTimer(card)
        self._rest.setSingleShot(True)
        self._rest.setInterval(_REST_MS)
        card.group = "planks"
        self._rows = [
            card.add_row("Planks", self.again),
            card.add_row("Stagger", self.stagger),
            card.add_row("End size", self.least_end),
        ]
        card.group = ""
        card.column.addWidget(self.said)
        self._connect()

    def show(self, layout: Layout | None, style: LengthStyle) -> None:
        """Show how the planks of a layout are drawn."""
        is_planks = layout is not None and layout.pattern == PATTERN
        for row in self._rows:
            row.setVisible(is_planks)
        self.said.setVisible(is_planks and bool(self.said.text()))
        if layout is not None and is_planks:
            self.stagger.show_length(_length(layout.settings.get("least_stagger")), style)
            self.least_end.show_length(least_end_of(layout), style)
            if "shifts" not in layout.settings:
                self._say("")
        self._see(layout if is_planks else None)

    def _see(self, layout: Layout | None) -> None:
        """Note what the rows are drawn for; if that alone has changed, and by no undo, draw them anew."""
        before, shifts = self._drawn_for
        if layout is None or least_end_of(layout) is None or not layout.settings.get("shifts"):
            self._drawn_for = (None, None)
            return
        surface = self._bench.surface
        now = (layout.id, replace(layout, name="", settings=bare(layout)), surface)
        self._drawn_for = now, layout.settings["shifts"]
        is_other = isinstance(before, tuple) and before[0] == layout.id and before != now
        if is_other and shifts == layout.settings["shifts"] and not self._bench.session.can_redo:
            self._say("")
            self._work.forget()
            self._rest.start()

    def _draw_at_rest(self) -> None:
        """Draw the rows for where the layout now starts, unless it is still being dragged."""
        layout = self._bench.layout
        if QApplication.mouseButtons() != Qt.MouseButton.NoButton:
            self._rest.start()
        elif layout is not None and layout.settings.get("shifts") and least_end_of(layout) is not None:
            self._draw(replace(layout, settings=bare(layout)))

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._rest.stop()
        self._work.stop()

    def _connect(self) -> None:
        self.again.clicked.connect(self.draw_again)
        self.stagger.entered.connect(self._set_stagger)
        self.least_end.entered.connect(self._set_least_end)
        self._rest.timeout.connect(self._draw_at_rest)
        self._work.answered.connect(self._take)
        self._work.failed.connect(self._fail)

    def draw_again(self) -> None:
        """Draw the rows by the next seed."""
        layout = self._bench.layout
        if layout is not None:
            self._draw(replace(layout, settings=drawn_again(layout)))

    def _draw(self, layout: Layout) -> None:
        """Lay the rows as the layout's settings draw them; for the room if there is a least end."""
        plan, least = self._bench.plan, least_end_of(layout)
        if plan is None or least is None or not are_planks(plan):
            self._settle(layout.settings)
            return
        self._say("Drawing …")
        self._work.forget()
        question = (layout.id, repr(layout.settings), least)
        self._work.ask(question, lambda: for_the_room(plan, layout, least))

    def _take(self, _question: object, answer: object, is_last: bool) -> None:
        if is_last and isinstance(answer, DrawnRows):
            self._settle(answer.layout.settings)
            self._say(drawn_words(answer, self._bench.job.show_lengths))

    def _settle(self, settings: dict[str, Any]) -> None:
        layout = self._bench.layout
        if layout is not None and layout.pattern == PATTERN:
            self._bench.apply(
                "Draw planks", lambda job: edits.replace_layout(job, layout.id, settings=settings)
            )

    def _fail(self, error: object) -> None:
        if not isinstance(error, TileLayoutError):
            assert isinstance(error, Exception)
            raise error
        self._say(str(error))

    def _say(self, words: str) -> None:
        self.said.setText(words)
        self.said.setVisible(bool(words))

    def _set_stagger(self, stagger: float | None) -> None:
        self._set("least_stagger", stagger)

    def _set_least_end(self, least: float | None) -> None:
        self._set("least_end", least)

    def _set(self, key: str, length: float | None) -> None:
        """Draw the rows anew with another length asked for; None asks for nothing."""
        layout = self._bench.layout
        if layout is not None:
            kept = {name: each for name, each in layout.settings.items() if name not in ("shifts", key)}
            self._draw(replace(layout, settings=kept if length is None else {**kept, key: length}))


def _length(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) else None
