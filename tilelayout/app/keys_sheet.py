"""The list of all keys, one key away: made from the table of actions and from what the board itself knows."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from tilelayout.app.actions import ACTIONS, key_sequences
from tilelayout.app.look import GRAB, STEP, Look
from tilelayout.app.sheet import Choice, Sheet

ON_BOARD = (
    ("Arrow keys", "Move what is chosen one step; choose the next thing if nothing is"),
    ("Shift + arrow keys", "Move what is chosen ten steps"),
    ("Page up, page down", "Choose the thing before or after"),
    ("0 to 9", "Type a length or an angle while drawing"),
    ("Tab", "Next box while drawing"),
    ("Enter", "Accept what is typed or pointed at"),
    ("Esc", "One step back; then leave the tool"),
    ("Backspace", "Take the last corner or letter back"),
    ("Insert", "Add a corner in the middle of the chosen edge"),
    ("Delete", "Remove what is chosen"),
    ("Space and drag, or middle button", "Push the paper"),
    ("Ctrl while pointing", "Point freely, without snapping"),
    ("+ and −, or the wheel", "Larger, smaller, about the pointer"),
)


def key_rows() -> list[tuple[str, str]]:
    """Return (keys, what they do) of every action that has keys (at most two each), then the board's own."""
    rows = []
    for action in ACTIONS:
        keys = [each.toString(QKeySequence.SequenceFormat.NativeText) for each in key_sequences(action)]
        if keys:
            where = " (on the board)" if action.on_board else ""
            rows.append((", ".join(keys[:2]), action.text.rstrip("…") + where))
    return [*rows, *ON_BOARD]


def keys_sheet(window: QWidget, look: Look) -> Sheet:
    """Return the sheet with the list."""
    sheet = Sheet(window, look, "Keys", choices=(Choice("Close", is_next=True),))
    rows = key_rows()
    table = QTableWidget(len(rows), 2, sheet)
    table.setAccessibleName("Keys and what they do")
    table.setHorizontalHeaderLabels(["Keys", "What they do"])
    table.verticalHeader().hide()
    table.verticalHeader().setMinimumSectionSize(GRAB)
    table.setShowGrid(False)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setTabKeyNavigation(False)
    for at, row in enumerate(rows):
        for column, words in enumerate(row):
            item = QTableWidgetItem(words)
            item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            table.setItem(at, column, item)
    table.horizontalHeader().setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
    table.horizontalHeader().setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
    table.setMinimumSize(140 * STEP, 80 * STEP)
    sheet.body.addWidget(table)
    return sheet
