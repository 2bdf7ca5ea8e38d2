"""The further tiles of a pattern on the tile's card: a row for each role, shown where there are roles."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QPushButton

from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.role_tiles import candidates, filled, fits
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.edits.layouts import set_more_tile
from tilelayout.job.values import Job, Layout
from tilelayout.layout.patterns import more_sizes, roles_of
from tilelayout.layout.roles import Role, Size, can_be_made
from tilelayout.planning.plan import Plan
from tilelayout.planning.tile_words import tile_counts

if TYPE_CHECKING:
    from tilelayout.app.cards.tile import TileCard

_LABELS = ("2nd tile", "3rd tile", "4th tile")
_NONE = ("choose", None)


class RoleRows:
    """Which tile plays each role, which size would fit, and a button that sees to it."""

    def __init__(self, card: TileCard) -> None:
        self._card = card
        self.boxes = [ChoiceBox(label) for label in _LABELS]
        self.notes = [QLabel(card) for _ in _LABELS]
        self.fit = QPushButton("Ta&ke tiles that fit")
        self._rows = [card.add_row(label, box) for label, box in zip(_LABELS, self.boxes, strict=True)]
        for at, (box, note, row) in enumerate(zip(self.boxes, self.notes, self._rows, strict=True)):
            note.setObjectName("faint")
            note.setWordWrap(True)
            card.column.insertWidget(card.column.indexOf(row), note)
            box.chosen.connect(lambda id, at=at: self._choose(at, id))
        card.add(self.fit)
        self.counts = QLabel(card)
        self.counts.setWordWrap(True)
        self.counts.setAccessibleName("Tiles needed of each")
        card.column.addWidget(self.counts)
        self.fit.clicked.connect(self._fit)
        self._roles: tuple[Role, ...] = ()

    def hide(self) -> None:
        """Show nothing: nothing is laid."""
        self._roles = ()
        for widget in (*self._rows, *self.notes, self.fit, self.counts):
            widget.hide()

    def show(self, job: Job, layout: Layout | None, plan: Plan | None) -> None:
        """Show the roles of a layout's pattern, as many as there are rows for, and what its plan needs."""
        self.hide()
        if layout is None:
            return
        self._roles = roles_of(layout)[: len(self._rows)]
        sizes = more_sizes(layout, job.tile(layout.tile))
        for at, role in enumerate(self._roles):
            self._show_role(at, role, job, layout, sizes.get(role.name))
        can_fit = bool(sizes) and all(can_be_made(size) for size in sizes.values())
        self.fit.setVisible(bool(self._roles) and can_fit and not fits(job, layout))
        self.show_counts(plan)

    def show_counts(self, plan: Plan | None) -> None:
        """Show how many of each tile a plan needs, once that is known: sharing is not for this thread."""
        counts = () if plan is None or not plan.is_shared else tile_counts(plan)
        self.counts.setText("\n".join(f"{title}: {words}" for title, words in counts))
        self.counts.setVisible(bool(counts))

    def _show_role(self, at: int, role: Role, job: Job, layout: Layout, size: Size | None) -> None:
        box, chosen = self.boxes[at], layout.more_tiles.get(role.name)
        tiles: list[tuple[str, object]] = [(tile.title, tile.id) for tile in candidates(job, role)]
        box.offer(tiles if chosen is not None else [_NONE, *tiles])
        box.show_value(chosen)
        box.setAccessibleName(f"Tile for the {role.words}")
        self.notes[at].setText(_words(role, size, job.show_lengths))
        self.notes[at].show()
        self._rows[at].show()

    def _choose(self, at: int, id: object) -> None:
        layout, role = self._card.bench.layout, self._roles[at]
        if layout is not None and isinstance(id, str):
            self._card.bench.apply("Choose tile", lambda job: set_more_tile(job, layout.id, role.name, id))

    def _fit(self) -> None:
        layout = self._card.bench.layout
        if layout is not None:
            self._card.bench.apply("Take tiles that fit", lambda job: filled(job, layout.id))


def _words(role: Role, size: Size | None, style: LengthStyle) -> str:
    words = role.words[:1].upper() + role.words[1:]
    if size is None or not can_be_made(size):
        return words
    return f"{words}: {' × '.join(format_length(side, style) for side in size)} fits"
