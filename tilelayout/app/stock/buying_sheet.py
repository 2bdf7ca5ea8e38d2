"""The sheet that says what to buy, line by line, and lets the allowances be set beside it."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from tilelayout.app.access_keys import give_keys, key_of
from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.look import STEP, TextSize
from tilelayout.app.sheet import Choice
from tilelayout.app.stock.allowances import Allowances
from tilelayout.app.stock.working_sheet import WorkingSheet
from tilelayout.planning.buying import BuyingList, buying_of_job, buying_of_layout
from tilelayout.planning.tile_words import tile_size
from tilelayout.planning.to_buy import BuyingLine

_WORDS = "Counted from what is laid; each allowance is a line of its own. Check lot and calibre on every box."


class BuyingSheet(WorkingSheet):
    """Lists what to buy for the layout in front, or for the whole job where tiles are shared across it."""

    def __init__(self, window: QWidget, bench: Bench) -> None:
        super().__init__(window, bench.look, "What to buy", _WORDS, (Choice("Close"),))
        self._bench = bench
        self.scope = ChoiceBox("What to buy for", [("This layout", False), ("The whole job", True)])
        self.scope.setMinimumContentsLength(len("The whole job") + 2)
        self.scope.show_value(bench.job.shares_tiles)
        self.scope.setVisible(bench.job.shares_tiles)
        self.scope.chosen.connect(lambda _is_whole: self._ask())
        self.allowances = Allowances(bench, self)
        self.lines = QWidget(self)
        self.lines.setObjectName("column")
        QVBoxLayout(self.lines).setContentsMargins(0, 0, 0, 0)
        self._place()
        give_keys(self.allowances.labels, [key_of(each.text()) for each in self.buttons])
        bench.job_changed.connect(self._ask)
        self._ask()
        self.scope.setFocus() if self.scope.isVisibleTo(self) else self.allowances.first.setFocus()

    def show_answer(self, answer: object) -> None:
        """Show the list, tile by tile, and below it what sharing saves."""
        if not isinstance(answer, BuyingList):
            return
        fresh = QWidget(self)
        column = QVBoxLayout(fresh)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4 * STEP)
        for words in _first_words(answer):
            column.addWidget(_label(words, fresh))
        for tile, lines in answer.lines():
            title = _label(f"{tile.title}, {tile_size(tile, self._bench.job.show_lengths)}", fresh)
            title.setFont(self._bench.look.font(TextSize.TITLE))
            column.addWidget(title)
            column.addLayout(_grid(lines, fresh))
        column.addStretch(1)
        self._scroll.setWidget(fresh)
        self.lines = fresh

    def _ask(self) -> None:
        bench = self._bench
        job, layout, is_whole = bench.job, bench.layout, self.scope.value is True
        self.allowances.refresh()
        if layout is None:
            self.reject()
            return

        def steps() -> Iterator[object]:
            return buying_of_job(job) if is_whole else buying_of_layout(job, layout.id)

        self.work(steps, "Working out which pieces come from which tile…")

    def _place(self) -> None:
        self._scroll = QScrollArea(self)
        self._scroll.setObjectName("cardScroll")
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        self._scroll.setAccessibleName("What to buy, line by line")
        self._scroll.setMinimumSize(112 * STEP, 84 * STEP)
        self._scroll.setWidget(self.lines)
        across = QHBoxLayout()
        across.setSpacing(8 * STEP)
        across.addWidget(self._scroll, 1)
        across.addWidget(self.allowances)
        self.body.addWidget(self.scope, 0, Qt.AlignmentFlag.AlignLeft)
        self.body.addLayout(across, 1)


def _first_words(answer: BuyingList) -> list[str]:
    """Return what the list is for, what sharing saves and what the boxes cost."""
    cost = [] if answer.cost is None else [f"All boxes together cost {answer.cost:,.2f}."]
    return [f"For {answer.what}.", answer.sharing_words, *cost]


def _grid(lines: tuple[BuyingLine, ...], parent: QWidget) -> QGridLayout:
    """Return lines as rows: what, how many, why; sums in bold."""
    grid = QGridLayout()
    grid.setHorizontalSpacing(4 * STEP)
    grid.setVerticalSpacing(STEP)
    grid.setColumnStretch(2, 1)
    for row, line in enumerate(lines):
        parts = [
            QLabel(line.name.capitalize(), parent),
            QLabel(str(line.count), parent),
            _label(line.why, parent),
        ]
        parts[1].setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        parts[0].setAlignment(Qt.AlignmentFlag.AlignTop)
        parts[1].setAccessibleName(f"{line.name}: {line.count}")
        parts[2].setObjectName("faint")
        for column, part in enumerate(parts):
            font = part.font()
            font.setBold(line.is_sum)
            part.setFont(font)
            grid.addWidget(part, row, column)
    return grid


def _label(words: str, parent: QWidget) -> QLabel:
    label = QLabel(words, parent)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
