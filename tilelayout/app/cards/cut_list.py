"""The cut list one can tick off: a press on a box or the space bar ticks, arrow keys go from cut to cut."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QListView, QSizePolicy, QWidget

from tilelayout.app.cards.cut_painter import BOX_ROOM, CutRowPainter
from tilelayout.app.cards.cut_rows import CutRows
from tilelayout.app.look import STEP, Look
from tilelayout.planning.cut_views import CutLine


class CutListView(QListView):
    """The list. `ticked(lines)` when a person ticks lines, `gone_to(line)` when one becomes the current."""

    ticked = Signal(object)
    gone_to = Signal(object)

    def __init__(self, rows: CutRows, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows = rows
        self.setAccessibleName("Cut list")
        self.setModel(rows)
        self.setItemDelegate(CutRowPainter(rows, look, self))
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(30 * STEP)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.selectionModel().currentChanged.connect(self._tell)

    @property
    def line(self) -> CutLine | None:
        """The current line."""
        return self.rows.line(self.currentIndex().row())

    def go_to(self, at: int, *, silently: bool = False) -> None:
        """Make a row the current one and bring it into sight; `silently` tells nobody."""
        index = self.rows.index(at)
        chosen = QItemSelectionModel.SelectionFlag.ClearAndSelect
        was_quiet = self.selectionModel().blockSignals(silently)
        self.selectionModel().setCurrentIndex(index, chosen)
        self.selectionModel().blockSignals(was_quiet)
        self.scrollTo(index)
        self.viewport().update()

    def go_to_next(self) -> bool:
        """Go to the next line that is to make; False if all are made."""
        at = self.rows.next_open(self.currentIndex().row())
        if at is not None:
            self.go_to(at)
        return at is not None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space ticks what is chosen, Enter goes to the next cut to make."""
        if event.key() == Qt.Key.Key_Space:
            self._tick(self._chosen())
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.go_to_next()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press at the box ticks the line; anywhere else it is chosen."""
        line = self._at_box(event)
        if line is None:
            super().mousePressEvent(event)
            return
        chosen = self._chosen()
        if line not in chosen:
            self.go_to(self.rows.rows.index(line))
            chosen = [line]
        self._tick(chosen)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Letting go of a box is no choice."""
        if self._at_box(event) is None:
            super().mouseReleaseEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """A second press at once is a second press."""
        self.mousePressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the words anew; the current line stays in sight."""
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()
        QTimer.singleShot(0, self, self._keep_in_sight)

    def _keep_in_sight(self) -> None:
        if self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())

    def _at_box(self, event: QMouseEvent) -> CutLine | None:
        index = self.indexAt(event.position().toPoint())
        is_there = event.button() is Qt.MouseButton.LeftButton and event.position().x() < BOX_ROOM
        return self.rows.line(index.row()) if is_there else None

    def _chosen(self) -> list[CutLine]:
        lines = [self.rows.line(index.row()) for index in self.selectedIndexes()]
        return [line for line in lines if line is not None]

    def _tick(self, lines: list[CutLine]) -> None:
        if lines:
            self.ticked.emit(lines)

    def _tell(self) -> None:
        if self.line is not None:
            self.gone_to.emit(self.line)
