"""Beside the drawing: which tile of the cell is in front and where it stands, the joint, the two vectors."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.draw_tile.cell_board import CORNERS, RECTANGLE, CellBoard
from tilelayout.app.draw_tile.scratch import (
    corner_of,
    draft_in,
    moved_to,
    turned,
    with_copy,
    with_joint,
    with_vector,
    without_outline,
)
from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import GRAB, STEP
from tilelayout.job.values import Job, Point

Apply = Callable[[str, Callable[[Job], Job]], object]
"""Makes a change under a name for undo."""


class Questions(QWidget):
    """Shows what is drawn and asks `apply` for changes."""

    def __init__(self, board: CellBoard, apply: Apply, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._board, self._apply = board, apply
        self.tiles = ChoiceBox("Tile of the cell")
        self.across, self.up = (LengthBox(f"Tile stands at, {way}", least=None) for way in ("across", "up"))
        self.joint = LengthBox("Joint")
        self.vectors = tuple(
            (LengthBox(f"Vector {n}, across", least=None), LengthBox(f"Vector {n}, up", least=None))
            for n in (1, 2)
        )
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(2 * STEP)
        self.buttons = self._add_buttons()
        self._add_grid()
        self._connect()

    def show_job(self, job: Job) -> None:
        """Show the cell as it is drawn now."""
        draft, style, front = draft_in(job), job.show_lengths, self._board.front
        self.tiles.offer((f"Tile {at}", each.id) for at, each in enumerate(job.surfaces, start=1))
        self.tiles.show_value(front)
        for box, value in zip((self.across, self.up), corner_of(job.surface(front).outline), strict=True):
            box.show_length(value, style)
        self.joint.show_length(draft.joint, style)
        for pair, vector in zip(self.vectors, draft.vectors, strict=True):
            for box, value in zip(pair, vector, strict=True):
                box.show_length(value, style)
        self.buttons["Remove"].setEnabled(len(job.surfaces) > 1)

    def _add_buttons(self) -> dict[str, QPushButton]:
        self._column.addWidget(self.tiles)
        grid = QGridLayout()
        grid.setSpacing(2 * STEP)
        made = {}
        for at, (words, does) in enumerate(self._pressed().items()):
            made[words] = QPushButton(words, self)
            made[words].setAutoDefault(False)
            made[words].setMinimumHeight(GRAB)
            made[words].clicked.connect(does)
            grid.addWidget(made[words], *divmod(at, 2))
        self._column.addLayout(grid)
        return made

    def _pressed(self) -> dict[str, Callable[[], object]]:
        board = self._board
        return {
            "Draw corner by corner": lambda: self._draw(CORNERS),
            "Draw a rectangle": lambda: self._draw(RECTANGLE),
            "Copy": lambda: self._apply("Copy tile", lambda job: with_copy(job, board.front, 0.0)),
            "Half-turned copy": lambda: self._apply(
                "Copy tile, turned by half", lambda job: with_copy(job, board.front, 180.0)
            ),
            "Turn by 90°": lambda: self._apply("Turn tile", lambda job: turned(job, board.front, 90.0)),
            "Remove": lambda: self._apply("Remove tile", lambda job: without_outline(job, board.front)),
        }

    def _draw(self, tool: str) -> None:
        self._board.use_tool(tool)
        self._board.setFocus()

    def _add_grid(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(2 * STEP)
        grid.setVerticalSpacing(2 * STEP)
        rows = [
            ("Stands at", (self.across, self.up)),
            ("Joint", (self.joint,)),
            ("Vector 1", self.vectors[0]),
            ("Vector 2", self.vectors[1]),
        ]
        for column, words in enumerate(("across", "up"), start=1):
            head = QLabel(words, self)
            head.setObjectName("caption")
            grid.addWidget(head, 0, column)
        for at, (words, boxes) in enumerate(rows, start=1):
            grid.setRowMinimumHeight(at, GRAB + STEP)
            grid.addWidget(QLabel(words, self), at, 0)
            for column, box in enumerate(boxes, start=1):
                grid.addWidget(box, at, column)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(2, 1)
        self._column.addLayout(grid)

    def _connect(self) -> None:
        self.tiles.chosen.connect(lambda id: self._board.bring_to_front(str(id)))
        self.joint.entered.connect(
            lambda joint: self._apply("Set joint", lambda job: with_joint(job, float(joint)))
        )
        for axis, box in enumerate((self.across, self.up)):
            box.entered.connect(lambda value, axis=axis: self._move(axis, float(value)))
        for number, pair in enumerate(self.vectors):
            for axis, box in enumerate(pair):
                box.entered.connect(
                    lambda value, number=number, axis=axis: self._lead(number, axis, float(value))
                )

    def _move(self, axis: int, value: float) -> None:
        front = self._board.front

        def edit(job: Job) -> Job:
            return moved_to(job, front, _with(corner_of(job.surface(front).outline), axis, value))

        self._apply("Move tile", edit)

    def _lead(self, number: int, axis: int, value: float) -> None:
        def edit(job: Job) -> Job:
            return with_vector(job, number, _with(draft_in(job).vectors[number], axis, value))

        self._apply(f"Set vector {number + 1}", edit)


def _with(point: Point, axis: int, value: float) -> Point:
    return (value, point[1]) if axis == 0 else (point[0], value)
