"""Two rows of the card of a wall that make a doorway in it: how wide, how far from its end."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tilelayout.app.length_box import LengthBox
from tilelayout.app.outlines import edge_length
from tilelayout.base.units import INCH
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits.doorways import add_doorway
from tilelayout.job.values import Edge, EdgeRole, Job, Surface

if TYPE_CHECKING:
    from tilelayout.app.cards.chosen import EdgeFace

_WIDE, _WIDE_INCH = 800.0, 32 * float(INCH)
"""How wide a doorway is taken to be until its width is typed. Common practice."""


class NewDoorway:
    """Rows of an `EdgeFace`. What is typed stays until another wall is chosen, or this one changes."""

    def __init__(self, face: EdgeFace, add_row: Callable[..., QWidget]) -> None:
        self._face = face
        self._shown: tuple[str, int, float] | None = None
        self._width = self._from = 0.0
        self.wide = LengthBox("Width of the new doorway", least=1.0)
        self.begin = LengthBox("New doorway from the end of the wall")
        self.end_words = QLabel()
        self.add = QPushButton("Add")
        self.add.setAccessibleName("Add a doorway in this wall")
        self.rows = [
            add_row("New doorway", self.wide, QLabel("wide")),
            add_row("", self.begin, self.end_words, self.add),
        ]
        self.wide.entered.connect(self._set_width)
        self.begin.entered.connect(self._set_from)
        self.add.clicked.connect(self._add)

    def show(self, surface: Surface, edge: Edge) -> None:
        """Show the rows for a straight wall: at first a doorway of the usual width in its middle."""
        is_wall = edge.role is EdgeRole.WALL and edge.through is None
        for row in self.rows:
            row.setVisible(is_wall)
        wall = (surface.id, edge.at, edge_length(surface, edge.at))
        if self._shown != wall:
            self._shown = wall
            self._take_usual(wall[2])
        self.end_words.setText(f"from {end_of(surface, edge.at)}")
        self._show_sizes()

    def _take_usual(self, length: float) -> None:
        usual = _WIDE if self._face.bench.job.show_lengths.is_metric else _WIDE_INCH
        self._width = min(usual, length)
        self._from = (length - self._width) / 2

    def _show_sizes(self) -> None:
        style = self._face.bench.job.show_lengths
        self.wide.show_length(self._width, style)
        self.begin.show_length(self._from, style)

    def _set_width(self, width: float) -> None:
        self._width = width
        self._show_sizes()

    def _set_from(self, begin: float) -> None:
        self._from = begin
        self._show_sizes()

    def _add(self) -> None:
        """Make the doorway and choose it, so that what is beyond it can be said."""
        pick, made = self._face.pick, -1
        if pick is None:
            return

        def edit(job: Job, id: str, at: int) -> Job:
            nonlocal made
            new, made = add_doorway(job, id, at, self._begin_in(job.surface(id), at), self._width)
            return new

        self._face.change("Add doorway", edit)
        if made >= 0:
            self._face.bench.choose(Pick(PickKind.EDGE, pick.surface, made))

    def _begin_in(self, surface: Surface, at: int) -> float:
        """Return how far from the first corner it begins: the edge may run from right to left."""
        if is_from_first(surface, at):
            return self._from
        return edge_length(surface, at) - self._from - self._width


def end_of(surface: Surface, at: int) -> str:
    """Return which end of an edge distances are taken from: "left", or "below" where it stands upright."""
    return "below" if _is_upright(surface, at) else "left"


def is_from_first(surface: Surface, at: int) -> bool:
    """Tell whether that end is the edge's first corner."""
    axis = 1 if _is_upright(surface, at) else 0
    first, last = surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]
    return first[axis] <= last[axis]


def _is_upright(surface: Surface, at: int) -> bool:
    first, last = surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]
    return abs(last[1] - first[1]) > abs(last[0] - first[0])
