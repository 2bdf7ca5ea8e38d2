"""The table under comparison: a row for each figure, a column for each layout.

What is better carries a tick and bold type; what parts the others from it stands below in words. The column
of the layout in front lies on lighter ground; moving to a cell of a column brings its layout to the front.
"""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    QSignalBlocker,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from tilelayout.app.look import FIGURE_INDENT, GRAB, STEP, Look, TextSize
from tilelayout.planning.compare import Cell, Comparison, Part, Row

Index = QModelIndex | QPersistentModelIndex
_PAD = float(STEP)
_TICK = FIGURE_INDENT - _PAD
"""Width in px kept for the tick before a figure."""

_NAME_LETTERS = 14


class CompareRows(QAbstractTableModel):
    """The rows: a heading for each part, then its figures."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.comparison: Comparison | None = None
        self.lines: list[Part | Row] = []

    def show_comparison(self, comparison: Comparison | None) -> None:
        """Show another comparison; None shows nothing."""
        self.beginResetModel()
        self.comparison = comparison
        self.lines = []
        for row in comparison.rows if comparison else ():
            if not any(line is row.part for line in self.lines):
                self.lines.append(row.part)
            self.lines.append(row)
        self.endResetModel()

    @property
    def ids(self) -> tuple[str, ...]:
        """The ids of the layouts, in the order of their columns."""
        return tuple(plan.layout.id for plan in self.comparison.plans) if self.comparison else ()

    def cell(self, index: Index) -> Cell | None:
        """Return the figure at a place; None at a name or a heading."""
        line = self.lines[index.row()]
        return line.cells[index.column() - 1] if isinstance(line, Row) and index.column() else None

    def rowCount(self, parent: Index | None = None) -> int:
        """How many lines there are."""
        return 0 if parent is not None and parent.isValid() else len(self.lines)

    def columnCount(self, parent: Index | None = None) -> int:
        """The names and a column for each layout."""
        return 0 if parent is not None and parent.isValid() else 1 + len(self.ids)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Figures can be moved to; names and headings are only read."""
        usual = Qt.ItemFlag.ItemIsEnabled
        return usual | Qt.ItemFlag.ItemIsSelectable if self.cell(index) is not None else usual

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Return the words of a place, and for a screen reader all that is to be said there."""
        line, cell = self.lines[index.row()], self.cell(index)
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.ToolTipRole):
            return self._spoken(line, cell, index.column())
        if role != Qt.ItemDataRole.DisplayRole:
            return None
        if cell is not None:
            return cell.words
        return (line.figure if isinstance(line, Row) else str(line)) if index.column() == 0 else ""

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        """The letters of the layouts."""
        if orientation is not Qt.Orientation.Horizontal or self.comparison is None or section < 1:
            return None
        layout = self.comparison.plans[section - 1].layout
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return layout.title
        return layout.id if role == Qt.ItemDataRole.DisplayRole else None

    def _spoken(self, line: Part | Row, cell: Cell | None, column: int) -> str:
        if not isinstance(line, Row) or cell is None or self.comparison is None:
            equal = ", equal" if isinstance(line, Row) and line.is_equal else ""
            return f"{line.figure if isinstance(line, Row) else line}{equal}"
        title = self.comparison.plans[column - 1].layout.title
        tail = ", better" if cell.is_better else f", {cell.difference}" if cell.difference else ""
        return f"{line.figure}, {title}: {cell.words}{tail}"


class CompareTable(QTableView):
    """The table. `taken(id)` when a person moves to another layout's column."""

    taken = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self.rows = CompareRows(self)
        self.front = ""
        self.setModel(self.rows)
        self.setItemDelegate(_CellPainter(self, look))
        self.setObjectName("compareTable")
        self.setAccessibleName("Figures of the layouts side by side")
        self.setShowGrid(False)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWordWrap(True)
        self.setTabKeyNavigation(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.verticalHeader().setMinimumSectionSize(GRAB)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        self.horizontalHeader().setTextElideMode(Qt.TextElideMode.ElideRight)
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setSectionsClickable(False)
        self.horizontalHeader().setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.horizontalHeader().setMinimumHeight(GRAB)
        self.selectionModel().currentChanged.connect(self._go_to)

    def sizeHint(self) -> QSize:
        """No higher than need be: the card shares out what room is left."""
        return QSize(super().sizeHint().width(), self.minimumHeight())

    def show_comparison(self, comparison: Comparison | None, front: str) -> None:
        """Show a comparison; the place of the keyboard stays where it was."""
        if comparison is not self.rows.comparison:
            at = self.currentIndex()
            row, column = at.row(), at.column()
            self.rows.show_comparison(comparison)
            self._span_headings()
            self._share_width()
            with QSignalBlocker(self.selectionModel()):
                self.setCurrentIndex(self.rows.index(max(row, 1), max(column, 1)))
        self.front = front
        self.viewport().update()

    def dress(self) -> None:
        """Take the look and the size of type in force."""
        bold = self._look.font(TextSize.TEXT)
        bold.setBold(True)
        self.horizontalHeader().setFont(bold)
        self._share_width()
        self.viewport().update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width anew."""
        super().resizeEvent(event)
        self._share_width()

    @property
    def wished_width(self) -> int:
        """The width in px at which no word is cut off and nothing has to be scrolled sideways."""
        count = len(self.rows.ids)
        bar = self.verticalScrollBar().sizeHint().width()
        return round(self._name_width + count * self._least_width + bar) if count else 0

    @property
    def _name_width(self) -> float:
        letter = QFontMetricsF(self._look.font(TextSize.TEXT)).averageCharWidth()
        return letter * _NAME_LETTERS + 2 * _PAD

    @property
    def _least_width(self) -> float:
        return max(_width(cell, self._look, is_beside=False) for cell in self._cells())

    def has_beside(self) -> bool:
        """Whether what parts a figure from the best fits beside it in every cell."""
        room = self.columnWidth(1) if self.rows.ids else 0
        return all(_width(cell, self._look, is_beside=True) <= room for cell in self._cells())

    def _cells(self) -> list[Cell]:
        return [cell for line in self.rows.lines if isinstance(line, Row) for cell in line.cells]

    def _span_headings(self) -> None:
        self.clearSpans()
        for at, line in enumerate(self.rows.lines):
            if isinstance(line, Part):
                self.setSpan(at, 0, 1, self.rows.columnCount())

    def _share_width(self) -> None:
        """Give every figure the room it needs and the names the rest, if it is enough for a word."""
        count = len(self.rows.ids)
        if not count:
            return
        name, room = self._name_width, self.viewport().width()
        each = max(self._least_width, (room - max(name, room * 0.3)) / count)
        self.setColumnWidth(0, round(max(name, room - each * count)))
        for column in range(1, count + 1):
            self.setColumnWidth(column, int(each))
        self.resizeRowsToContents()

    def _go_to(self, now: QModelIndex, _before: QModelIndex) -> None:
        if 1 <= now.column() <= len(self.rows.ids):
            self.taken.emit(self.rows.ids[now.column() - 1])


class _CellPainter(QStyledItemDelegate):
    """Paints headings, names and figures."""

    def __init__(self, table: CompareTable, look: Look) -> None:
        super().__init__(table)
        self._table, self._look = table, look

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """High enough for the name and for a figure with its difference."""
        text, small = (QFontMetricsF(self._look.font(size)) for size in (TextSize.TEXT, TextSize.SMALL))
        line = self._table.rows.lines[index.row()]
        if isinstance(line, Part):
            return QSize(0, int(small.lineSpacing() + 4 * STEP))
        if index.column():
            lines = text.lineSpacing()
            if not self._table.has_beside() and any(cell.difference for cell in line.cells):
                lines += small.lineSpacing()
        else:
            room = QRectF(0, 0, self._table.columnWidth(0) - 2 * _PAD, 1000)
            lines = text.boundingRect(room, int(Qt.TextFlag.TextWordWrap), line.figure).height()
            lines += small.lineSpacing() if line.is_equal and not self._has_room_for_equal(line) else 0.0
        return QSize(0, max(int(lines + 2 * STEP), GRAB))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one place."""
        line, rect = self._table.rows.lines[index.row()], QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if isinstance(line, Part):
            self._paint_heading(painter, rect, str(line))
        elif index.column() == 0:
            self._paint_name(painter, rect, line)
        else:
            is_front = self._table.rows.ids[index.column() - 1] == self._table.front
            if is_front:
                painter.fillRect(rect, self._look.colour("field"))
            self._paint_figure(painter, rect, line.cells[index.column() - 1])
            is_current = index == self._table.currentIndex() and self._table.hasFocus()
            if is_current or option.state & QStyle.StateFlag.State_HasFocus:
                painter.setPen(QPen(self._look.colour("accent"), 2.0))
                painter.drawRect(rect.adjusted(1, 1, -1, -1))
        painter.restore()

    def _paint_heading(self, painter: QPainter, rect: QRectF, words: str) -> None:
        painter.setFont(self._look.font(TextSize.SMALL))
        painter.setPen(self._look.colour("faint_panel_ink"))
        box = rect.adjusted(_PAD, 0.0, 0.0, -STEP)
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, words)
        painter.setPen(QPen(self._look.colour("hairline"), 1.0))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())

    def _paint_name(self, painter: QPainter, rect: QRectF, row: Row) -> None:
        painter.setFont(self._look.font(TextSize.TEXT))
        painter.setPen(self._look.colour("panel_ink"))
        box = rect.adjusted(_PAD, STEP, -_PAD, -STEP)
        wrapped = int(Qt.TextFlag.TextWordWrap) | int(Qt.AlignmentFlag.AlignTop)
        painter.drawText(box, wrapped, row.figure)
        if row.is_equal:
            painter.setFont(self._look.font(TextSize.SMALL))
            painter.setPen(self._look.colour("faint_panel_ink"))
            is_beside = self._has_room_for_equal(row)
            flags = Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignRight
            if not is_beside:
                flags = Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignLeft
            painter.drawText(box, flags, _EQUAL)

    def _paint_figure(self, painter: QPainter, rect: QRectF, cell: Cell) -> None:
        box = rect.adjusted(_PAD + _TICK, STEP, -_PAD, -STEP)
        font = self._look.font(TextSize.TEXT)
        font.setBold(cell.is_better)
        painter.setFont(font)
        painter.setPen(self._look.colour("panel_ink"))
        top = Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft
        painter.drawText(box, top, cell.words)
        metrics = QFontMetricsF(font)
        if cell.is_better:
            self._paint_tick(painter, QPointF(rect.left() + _PAD, box.top() + metrics.ascent() / 2 + 1.0))
        if cell.difference:
            small = self._look.font(TextSize.SMALL)
            drop = metrics.lineSpacing()
            if self._table.has_beside():
                box.setLeft(box.left() + metrics.horizontalAdvance(cell.words) + 2 * STEP)
                drop = metrics.ascent() - QFontMetricsF(small).ascent()
            painter.setFont(small)
            painter.setPen(self._look.colour("faint_panel_ink"))
            painter.drawText(box.adjusted(0.0, drop, 0.0, STEP), top, cell.difference)

    def _paint_tick(self, painter: QPainter, at: QPointF) -> None:
        painter.setPen(QPen(self._look.colour("panel_ink"), 2.2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline([at + QPointF(x, y) for x, y in ((0.0, 0.0), (3.5, 4.0), (10.0, -5.0))])

    def _has_room_for_equal(self, row: Row) -> bool:
        text, small = (QFontMetricsF(self._look.font(size)) for size in (TextSize.TEXT, TextSize.SMALL))
        wide = text.horizontalAdvance(row.figure) + small.horizontalAdvance(_EQUAL) + 2 * STEP
        return wide <= self._table.columnWidth(0) - 2 * _PAD


_EQUAL = "equal"


def _width(cell: Cell, look: Look, *, is_beside: bool) -> float:
    """Return how wide a figure with its tick and its difference is, beside it or below."""
    bold = QFont(look.font(TextSize.TEXT))
    bold.setBold(True)
    value = QFontMetricsF(bold).horizontalAdvance(cell.words)
    apart = QFontMetricsF(look.font(TextSize.SMALL)).horizontalAdvance(cell.difference)
    wide = value + apart + 2 * STEP if is_beside and cell.difference else max(value, apart)
    return wide + _TICK + 2 * _PAD + 1.0
