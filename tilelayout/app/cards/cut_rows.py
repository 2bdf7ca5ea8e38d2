"""The cut list as rows on the screen: headings, and below each the lines with a box to tick.

What is ticked stands in the job; the rows only say which boxes are full, half full or empty.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QAbstractListModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from tilelayout.planning.cut_views import CutGroup, CutLine, CutView, cut_view
from tilelayout.planning.ticks import ListedCut, Made, Ticks

Index = QModelIndex | QPersistentModelIndex
Check = Qt.CheckState

_SPOKEN = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
)
_STATE_WORDS = {Check.Checked: "made", Check.PartiallyChecked: "partly made", Check.Unchecked: "to make"}


@dataclass(frozen=True, eq=False)
class Heading:
    """A row that only says what stands below it."""

    group: CutGroup


class CutRows(QAbstractListModel):
    """The rows of one view of one cut list."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.ticks: Ticks | None = None
        self.view = CutView.SETTING
        self.rows: tuple[Heading | CutLine, ...] = ()
        self._made: Made = frozenset()

    def show_list(self, ticks: Ticks | None, view: CutView, made: Made) -> bool:
        """Show a list in a view with what is made, and tell whether list or view is another than before."""
        if ticks is self.ticks and view is self.view:
            self._tick(made)
            return False
        self.beginResetModel()
        self.ticks, self.view, self._made = ticks, view, made
        groups = cut_view(ticks, view) if ticks is not None else ()
        self.rows = tuple(row for group in groups for row in _rows_of(group))
        self.endResetModel()
        return True

    def _tick(self, made: Made) -> None:
        if made != self._made:
            self._made = made
            self.dataChanged.emit(self.index(0), self.index(len(self.rows) - 1))

    def rowCount(self, parent: Index | None = None) -> int:
        """How many rows there are, headings among them."""
        return 0 if parent is not None and parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The row in words, for the eye and for a screen reader, and the state of its box."""
        row = self.rows[index.row()]
        if role in _SPOKEN:
            return self.spoken(row)
        if role == Qt.ItemDataRole.CheckStateRole and isinstance(row, CutLine):
            return self.state(row)
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """The arrow keys pass headings by."""
        if not isinstance(self.rows[index.row()], CutLine):
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsUserCheckable

    def state(self, line: CutLine) -> Check:
        """Return whether a line's box is full, half full or empty."""
        count = self._count(line.cuts)
        if count == len(line.cuts):
            return Check.Checked
        return Check.PartiallyChecked if count else Check.Unchecked

    def progress(self, group: CutGroup) -> str:
        """Return how far the lines below a heading are: "2 of 5"."""
        return f"{self._count(group.cuts)} of {len(group.cuts)}"

    def spoken(self, row: Heading | CutLine) -> str:
        """Return a row in one sentence."""
        if isinstance(row, Heading):
            words = f"{row.group.heading}, {row.group.words}" if row.group.words else row.group.heading
            return f"{words}: {self.progress(row.group)} made"
        return f"{'. '.join((row.title, *row.words))}: {_STATE_WORDS[self.state(row)]}"

    def line(self, at: int) -> CutLine | None:
        """Return the line in row `at`; None for a heading or no row."""
        row = self.rows[at] if 0 <= at < len(self.rows) else None
        return row if isinstance(row, CutLine) else None

    def row_of(self, piece: str) -> int | None:
        """Return the row of a piece: that of its next cut, of its last one if all are made."""
        rows = [at for at, row in enumerate(self.rows) if isinstance(row, CutLine) and piece in row.pieces]
        return next((at for at in rows if self._is_open(at)), rows[-1] if rows else None)

    def next_open(self, after: int) -> int | None:
        """Return the first row after a row, or else from the top, whose box is not full; None if all are."""
        order = (*range(after + 1, len(self.rows)), *range(min(after + 1, len(self.rows))))
        return next((at for at in order if self._is_open(at)), None)

    def _is_open(self, at: int) -> bool:
        line = self.line(at)
        return line is not None and self.state(line) is not Check.Checked

    def _count(self, cuts: tuple[ListedCut, ...]) -> int:
        return self.ticks.count(cuts, self._made) if self.ticks is not None else 0


def _rows_of(group: CutGroup) -> tuple[Heading | CutLine, ...]:
    return (Heading(group), *group.lines)
