"""What the trade's rules find about the layout in front, and the sheet that lists it with its sources."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.look import GRAB, STEP, Look
from tilelayout.app.rule_keys import key_of
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.planning.kept import Kept
from tilelayout.practice.finding import Finding, Level
from tilelayout.practice.findings import findings

LEVEL_WORDS = {Level.STOP: "Stop", Level.WARN: "Warning", Level.ADVISE: "Advice"}

_WORDS = "Rules judge and never change a plan. Local codes and the makers' instructions come first."
_COLUMNS = ("How serious", "What is found", "Source")


def findings_in_front(bench: Bench) -> tuple[Finding, ...]:
    """Return what the rules find about the layout in front, the most serious first; nothing without one."""
    layout = bench.layout
    if layout is None:
        return ()
    return _found.get((bench.job, layout), lambda: findings(bench.job, [layout.id]))


class FindingsSheet(Sheet):
    """The list. `go_to(finding)` is called with the one whose place a person wants to see."""

    def __init__(
        self, window: QWidget, look: Look, found: Sequence[Finding], go_to: Callable[[Finding], object]
    ) -> None:
        choices = (Choice("Go to the place", self._go, is_next=True), Choice("Close"))
        super().__init__(window, look, "What the trade's rules find", _WORDS, choices)
        self._found, self._go_to = tuple(found), go_to
        self.table = _table(self, found)
        self.body.addWidget(self.table)
        self.table.cellActivated.connect(lambda *_: self.buttons[0].click())
        self.table.currentCellChanged.connect(lambda row, *_: self._offer(row))
        if found:
            self.table.setCurrentCell(0, 1)
        self.table.setFocus()

    def _offer(self, row: int) -> None:
        """Cautions have no place: there is nothing to change."""
        self.buttons[0].setEnabled(0 <= row < len(self._found) and key_of(self._found[row]) is not None)

    def _go(self) -> None:
        at = self.table.currentRow()
        if 0 <= at < len(self._found):
            self._go_to(self._found[at])


def _table(sheet: QWidget, found: Sequence[Finding]) -> QTableWidget:
    table = QTableWidget(len(found), len(_COLUMNS), sheet)
    table.setAccessibleName("Findings, the most serious first, with their sources")
    table.setHorizontalHeaderLabels(list(_COLUMNS))
    table.verticalHeader().hide()
    table.verticalHeader().setMinimumSectionSize(GRAB)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setTabKeyNavigation(False)
    for row, finding in enumerate(found):
        for column, text in enumerate((LEVEL_WORDS[finding.level], finding.sentence, finding.source.words)):
            table.setItem(row, column, _item(text))
    _fit(table)
    return table


def _item(text: str) -> QTableWidgetItem:
    item = QTableWidgetItem(text)
    item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
    item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
    return item


def _fit(table: QTableWidget) -> None:
    """Let sentences wrap: the level as wide as its word, the sentence twice as wide as the source."""
    header = table.horizontalHeader()
    header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    header.setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
    header.setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
    header.setSectionResizeMode(2, QHeaderView.ResizeMode.Interactive)
    header.resizeSection(2, 60 * STEP)
    table.setWordWrap(True)
    table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    table.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    table.setMinimumSize(200 * STEP, 100 * STEP)


_found: Kept[tuple[Finding, ...]] = Kept(4)
